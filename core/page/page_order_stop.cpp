#include "core/page/page_order_stop.h"

#include <set>

#include <fmt/format.h>

#include "core/buy/order_report.h"
#include "core/page/page_vehicle.h"
#include "core/reason/condition_words.h"

namespace casebound {

namespace {

// The same order without the line is a link.
void write_blocked_line(Html& html, const Visit& visit, const std::string& vehicle, const Blocked& line) {
    const auto item = html.in("li");
    html.text(fmt::format("{}: {}. ", line.title, line.why));
    for (const auto& accept : line.accept) {
        auto as_if = visit.request.query;
        as_if.emplace_back("accept", accept);
        html.link(address(vehicle_address(vehicle, "/order"), as_if),
                  fmt::format("Order as if {}; the order will say so",
                              condition_words(accept, visit.session.catalog().vocabularies())));
        html.text(". ");
    }
    if (line.may_leave_out.empty()) return;
    auto query = visit.request.query;
    query.emplace_back("without", line.may_leave_out);
    html.link(address(vehicle_address(vehicle, "/order"), query), fmt::format("Leave the {} out", line.title));
}

}  // namespace

void write_blocked(Html& html, const Visit& visit, const std::string& vehicle, const Buying& buying) {
    const auto section = html.in("section", {{"class", "refused"}});
    html.element("h2", "Do not order yet");
    {
        const auto list = html.in("ul");
        std::set<std::string> said;
        for (const auto& line : buying.blocked) {
            write_blocked_line(html, visit, vehicle, line);
            said.insert(line.title);
        }
        for (const auto& open : buying.open)
            if (said.insert(open).second) html.element("li", fmt::format("{}: check first", open));
    }
    const auto next = html.in("p");
    html.link(vehicle_address(vehicle), "What to find out next", {{"class", "button"}});
}

void write_not_offered(Html& html, const Buying& buying) {
    constexpr std::size_t most = 6;
    const auto places = would_serve(buying);
    if (places.empty()) return;
    const auto list = html.in("ul");
    for (const auto& [role, items] : places) {
        const auto one = html.in("li");
        html.text(fmt::format("Nothing on file serves the {}{}", title_of(buying, role),
                              items.empty() ? "." : ". Put an offer on file for "));
        std::size_t shown = 0;
        for (const auto& item : items) {
            if (shown == most) break;
            if (shown++ > 0) html.text(", ");
            html.link(address("/offers", {{"item", item}}), item);
        }
        if (items.size() > most) html.text(fmt::format(" and {} more", items.size() - most));
    }
}

}  // namespace casebound
