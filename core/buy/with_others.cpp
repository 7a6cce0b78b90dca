#include "core/buy/with_others.h"

#include "core/buy/rounding.h"

#include <algorithm>
#include <optional>

namespace casebound {

namespace {

constexpr std::size_t most_choices = 64;  // orders compared; beyond it the ways that came later are not tried

Need* need_for(std::vector<Need>& needs, const std::string& line) {
    const auto at = std::find_if(needs.begin(), needs.end(), [&](const Need& one) { return one.line == line; });
    return at == needs.end() ? nullptr : &*at;
}

// What a way puts in each place that it is about.
std::vector<const Need*> places_of(const WithOthers& way) {
    std::vector<const Need*> all{&way.need};
    for (const auto& other : way.others) all.push_back(&other);
    return all;
}

bool same_parts(const Need& a, const Need& b) {
    return std::equal(a.served_by.begin(), a.served_by.end(), b.served_by.begin(), b.served_by.end(),
                      [](const Serves& one, const Serves& other) { return one.item == other.item; });
}

// Two ways for one line, or of which each puts something else into one place.
bool at_odds(const WithOthers& way, const WithOthers& other) {
    if (way.need.line == other.need.line) return true;
    for (const auto* one : places_of(way))
        for (const auto* two : places_of(other))
            if (one->line == two->line && !same_parts(*one, *two)) return true;
    return false;
}

bool at_odds(const std::vector<const WithOthers*>& taken, const WithOthers& way) {
    return std::any_of(taken.begin(), taken.end(), [&](const WithOthers* one) { return at_odds(way, *one); });
}

// Every choice of at most one way a line, the one without any first.
std::vector<std::vector<const WithOthers*>> choices(std::vector<Need> needs, const std::vector<WithOthers>& ways) {
    std::vector<std::vector<const WithOthers*>> all{{}};
    for (const auto& way : ways) {
        if (!need_for(needs, way.need.line)) continue;
        const auto before = all.size();
        for (std::size_t i = 0; i < before && all.size() < most_choices; ++i) {
            if (at_odds(all[i], way)) continue;
            auto more = all[i];
            more.push_back(&way);
            all.push_back(std::move(more));
        }
    }
    return all;
}

}  // namespace

std::vector<Need> with_ways(std::vector<Need> needs, const std::vector<const WithOthers*>& taken) {
    for (const auto* way : taken) {
        if (auto* place = need_for(needs, way->need.line)) {
            place->served_by = way->need.served_by;
            place->quantity = way->need.quantity;
        }
        for (const auto& other : way->others) {
            auto* known = need_for(needs, other.line);
            if (!known) needs.push_back(other);
            else known->served_by = other.served_by, known->quantity = std::max(known->quantity, other.quantity);
        }
    }
    std::erase_if(needs, [](const Need& one) { return one.quantity <= rounding; });  // it is fitted
    return needs;
}

std::vector<const WithOthers*> cheapest_ways(const std::vector<Need>& needs, const std::vector<WithOthers>& ways,
                                             const Market& market, const PurchaseLimits& limits) {
    std::vector<const WithOthers*> best;
    if (ways.empty()) return best;
    std::optional<std::int64_t> least;
    for (const auto& taken : choices(needs, ways)) {
        const auto found = cheapest_order(with_ways(needs, taken), market, limits);
        if (!found.order || (least && found.order->total_cents >= *least)) continue;
        least = found.order->total_cents;
        best = taken;
    }
    return best;
}

}  // namespace casebound
