#include "core/buy/order_lines.h"

#include <algorithm>
#include <set>

namespace casebound {

namespace {

// What stays in an opened can is nobody's.
double wanted_of(const Order& order, const std::string& role, double gives) {
    for (const auto& bought : order.bought)
        if (bought.line == role) return std::min(gives, bought.needed);
    return gives;
}

// What one role came to, over all its events.
struct Tally {
    std::string item;
    std::optional<std::int64_t> job;
    double came{}, gone{};
    bool fitted{}, used_up{};
};

void count(Tally& tally, const LineEvent& event) {
    if (event.event == "received") {
        tally.item = event.item;
        tally.job = event.job;
        tally.came += event.quantity.value_or(1);
    } else if (event.event == "fitted") {
        tally.fitted = true;
        tally.used_up = tally.used_up || !event.quantity;
        tally.gone += event.quantity.value_or(0);
    } else if (event.event == "returned" || event.event == "left_over") {
        tally.gone += event.quantity.value_or(1);
    }
}

}  // namespace

std::vector<LineEvent> ordered_lines(const Order& order, const Buying& buying, std::optional<std::int64_t> job) {
    std::vector<LineEvent> events;
    for (const auto& seller : order.sellers) {
        if (seller.seller == here_name) continue;
        for (const auto& line : seller.lines) {
            const auto& offer = buying.market.offers.at(line.offer);
            for (std::size_t k = 0; k < line.serves.size(); ++k) {
                LineEvent event;
                event.job = job;
                event.role = line.serves[k];
                event.event = "ordered";
                event.item = line.item;
                event.quantity = seller.own_shelf ? wanted_of(order, line.serves[k], line.gives[k]) : line.gives[k];
                event.seller = seller.seller;
                if (offer.core_cents > 0 && k == 0) event.core_cents = offer.core_cents * line.packs;
                events.push_back(std::move(event));
            }
        }
    }
    return events;
}

std::vector<LeftOver> left_for_the_shelf(const std::vector<LineEvent>& events,
                                         const std::vector<std::int64_t>& closed) {
    std::map<std::string, Tally> roles;
    std::map<std::string, std::set<std::string>> roles_of;  // by item: a kit is not put back whole
    for (const auto& event : events) {
        if (!event.stands) continue;
        count(roles[event.role], event);
        if (event.event == "received") roles_of[event.item].insert(event.role);
    }
    std::vector<LeftOver> left;
    for (const auto& [role, tally] : roles) {
        const bool done = tally.fitted ||
                          (tally.job && std::find(closed.begin(), closed.end(), *tally.job) != closed.end());
        const double rest = tally.came - tally.gone;
        if (!done || tally.used_up || rest <= 1e-9 || tally.item.empty() || roles_of[tally.item].size() > 1) continue;
        left.push_back({role, tally.item, rest, tally.job});
    }
    return left;
}

}  // namespace casebound
