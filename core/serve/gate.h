// Who is let in: what a request's head must be before anybody reads its body or answers it. Pure: no socket, no
// clock. Refuses; never mends.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/serve/devices.h"

namespace casebound {

// One address the page is served at.
struct Door {
    std::vector<std::string> hosts;  // the Host values that mean it, exactly: "127.0.0.1:8417"
    std::string cookie_name;
    Devices* devices = nullptr;  // none: everybody who reaches it is let in
    bool may_edit = true;
};

struct RequestHead {
    std::string method, target;
    std::vector<std::string> host;  // every field of the name, as sent
    std::vector<std::string> origin, fetch_site, cookie;
    std::string content_type, agent;
    bool transfer_encoding{}, content_encoding{}, expects{};
    std::optional<std::uint64_t> content_length;
};

struct Refused {
    int status{};
    std::string what, what_to_do;
};

// Nothing: let in. Cookies are not looked at: a first visit brings a token instead. `upload_limit`: of a form that sends a
// file; 0: none is taken.
std::optional<Refused> refused_at(const Door& door, const RequestHead& head, std::uint64_t body_limit,
                                  std::uint64_t upload_limit = 0);

bool has_cookie(const Door& door, const RequestHead& head);

// A device that asks to be let in by its token. It writes nothing else, so that any door takes it.
bool asks_to_enter(const Door& door, const RequestHead& head);

}  // namespace casebound
