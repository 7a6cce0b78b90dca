#include "core/buy/order_lines.h"

#include "core/buy/rounding.h"

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

// What one place of one job came to.
struct Tally {
    std::map<std::string, double> left;  // by item: came, and neither used nor gone
    bool fitted{}, used_up{};

    // Said of no item: of whatever came.
    void take(const std::string& item, double quantity) {
        for (auto& [key, there] : left) {
            if (!item.empty() && key != item) continue;
            const double taken = std::min(there, quantity);
            there -= taken, quantity -= taken;
        }
    }
};

void count(Tally& tally, const LineEvent& event) {
    if (event.event == "received") tally.left[event.item] += event.quantity.value_or(1);
    if (event.event == "returned" || event.event == "left_over") tally.take(event.item, event.quantity.value_or(1));
    if (event.event != "fitted") return;
    tally.fitted = true;
    tally.used_up = tally.used_up || !event.quantity;
    tally.take(event.item, event.quantity.value_or(0));
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
    std::map<std::pair<std::string, std::optional<std::int64_t>>, Tally> places;  // role and job
    std::map<std::string, std::set<std::string>> roles_of;  // by item: a kit is not put back whole
    for (const auto& event : events) {
        if (!event.stands) continue;
        count(places[{event.role, event.job}], event);
        if (event.event == "received") roles_of[event.item].insert(event.role);
    }
    std::vector<LeftOver> left;
    for (const auto& [place, tally] : places) {
        const auto& [role, job] = place;
        const bool done = tally.fitted || (job && std::find(closed.begin(), closed.end(), *job) != closed.end());
        if (!done || tally.used_up) continue;
        for (const auto& [item, rest] : tally.left)
            if (rest > rounding && !item.empty() && roles_of[item].size() == 1) left.push_back({role, item, rest, job});
    }
    return left;
}

}  // namespace casebound
