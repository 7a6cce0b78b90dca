#include "core/serve/gate.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/serve/form_fields.h"

namespace casebound {

namespace {

std::string lower(std::string text) {
    std::transform(text.begin(), text.end(), text.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c; });
    return text;
}

std::optional<Refused> refused_body(const RequestHead& head, std::uint64_t form_limit, std::uint64_t upload_limit) {
    const bool post = head.method == "POST";
    if (head.expects) return Refused{417, "this server promises nothing beforehand", "send the request without Expect"};
    if (head.transfer_encoding)
        return Refused{411, "a body must say its length", "send it with Content-Length, in one piece"};
    if (!post && head.content_length.value_or(0) > 0)
        return Refused{400, "a request that only asks has no body", "send it without one"};
    if (!post) return std::nullopt;
    if (!head.content_length) return Refused{411, "a body must say its length", "send it with Content-Length"};
    const auto type = lower(head.content_type.substr(0, head.content_type.find(';')));
    const bool upload = upload_limit > 0 && type == "multipart/form-data";
    if (const auto limit = upload ? upload_limit : form_limit; *head.content_length > limit)
        return Refused{413, fmt::format("a form of more than {} bytes is not taken", limit),
                       upload ? "use the command line for so large a file" : "say it shorter"};
    if (upload && !head.content_encoding) return std::nullopt;
    if (head.content_encoding || type != "application/x-www-form-urlencoded")
        return Refused{415, "only forms are taken", "send application/x-www-form-urlencoded"};
    return std::nullopt;
}

// Browsers send Sec-Fetch-Site only to addresses they hold trustworthy (loopback is, a LAN address is not); Origin
// goes with every form that is posted. One of the two must be there, and whatever is there must say: this page.
std::optional<Refused> refused_writer(const Door& door, const RequestHead& head) {
    if (!door.may_edit && !asks_to_enter(door, head))
        return Refused{403, "this address only shows", "write on the machine itself, or start it with --allow-edit"};
    const Refused elsewhere{403, "the form comes from another site", "open the page itself, and send it from there"};
    const auto ours = [&](const std::string& origin) {
        return std::any_of(door.hosts.begin(), door.hosts.end(),
                           [&](const auto& host) { return origin == "http://" + host && head.host.front() == host; });
    };
    if (head.fetch_site.size() > 1 || head.origin.size() > 1) return elsewhere;
    if (head.fetch_site.empty() && head.origin.empty()) return elsewhere;
    if (!head.fetch_site.empty() && head.fetch_site.front() != "same-origin") return elsewhere;
    if (!head.origin.empty() && !ours(head.origin.front())) return elsewhere;
    return std::nullopt;
}

}  // namespace

std::optional<Refused> refused_at(const Door& door, const RequestHead& head, std::uint64_t body_limit,
                                  std::uint64_t upload_limit) {
    if (head.host.size() != 1) return Refused{400, "exactly one Host is needed", "open the address as it was printed"};
    if (std::find(door.hosts.begin(), door.hosts.end(), head.host.front()) == door.hosts.end())
        return Refused{421, "this is not the host that was asked for",
                       fmt::format("open http://{}/", door.hosts.front())};
    if (head.method != "GET" && head.method != "HEAD" && head.method != "POST")
        return Refused{405, "only GET, HEAD and POST are answered", "use one of them"};
    if (!target_of(head.target))
        return Refused{400, "the address cannot be read", fmt::format("start from http://{}/", door.hosts.front())};
    if (auto body = refused_body(head, body_limit, upload_limit)) return body;
    if (head.method == "POST") return refused_writer(door, head);
    return std::nullopt;
}

bool has_cookie(const Door& door, const RequestHead& head) {
    if (!door.devices) return true;
    return std::any_of(head.cookie.begin(), head.cookie.end(),
                       [&](const auto& field) { return door.devices->knows(cookie_of(field, door.cookie_name)); });
}

bool asks_to_enter(const Door& door, const RequestHead& head) {
    return door.devices && head.method == "POST" && head.target == entry_path;
}

}  // namespace casebound
