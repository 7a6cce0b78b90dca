// One visit of the page while it is answered: the request, the words its path matched, what was refused, and the
// page that is being written. Holds no rule of its own.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/buy/order_text.h"
#include "core/html/html.h"
#include "core/page/page_request.h"
#include "core/session/session.h"
#include "core/shop/shop_settings.h"

namespace casebound {

// What a form was refused for; its fields keep what was typed.
struct Refusal {
    std::string form;  // key of the form
    std::vector<std::string> faults;
    mutable bool shown{};  // with its form, each fault once
};

struct Visit {
    Session& session;
    const PageRequest& request;
    std::vector<std::string> words{};  // what `*` of the route's path stands for
    std::optional<Refusal> refused{};

    std::string asked(std::string_view name) const;  // of the query, trimmed; "" when absent
    std::vector<std::string> all_asked(std::string_view name) const;
    std::string typed(std::string_view name) const;  // of the form, trimmed
    std::string url() const;                         // path and query, to come back to
    std::string currency() const { return currency_of(session); }
};

struct Page {
    std::string title;    // the h1 and the beginning of the window's title
    std::string under{};  // a line under the h1
    bool invented{};      // uses invented demo data
    Html main{};
    std::vector<std::pair<std::string, std::string>> trail{};  // where the page stands: address, words
    bool kept{};  // it rests on nothing but what page_kept.h names: not on another file, nor on the time of day
};

// "/vehicle/bookvan/list?job=a&job=b"; names and values are escaped.
std::string address(const std::string& path, const Fields& query = {});
std::string vehicle_address(std::string_view vehicle, std::string_view rest = {});

// The page from the n-th on of a long list: "?from=..." of the visit, and links to go on.
struct Stretch {
    std::size_t from = 0, to = 0, all = 0;
};
Stretch stretch_of(const Visit& visit, std::size_t all, std::size_t most, std::string_view name = "from");
void write_stretch(Html& html, const Visit& visit, const Stretch& stretch, std::size_t most,
                   std::string_view name = "from");

}  // namespace casebound
