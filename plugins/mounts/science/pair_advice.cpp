#include "science/pair_advice.h"

#include "core/contract/valid_range.h"

#include <algorithm>

namespace casebound::mounts {
namespace {

double amount(const char* what, double money) { return in_range(what, money, 0.0, 1e6); }

bool pays_now(const OtherMount& other) {
    return other.chance && other.cost && in_range("chance", *other.chance, 0.0, 1.0) > break_even_chance(*other.cost);
}

PairAdvice advise(Position broken, const OtherMount& other) {
    if (other.pair_rule == PairRule::required) return {other.position, PairAction::replace, "the maker requires both"};
    if (other.pair_rule == PairRule::recommended)
        return {other.position, PairAction::consider, "the maker recommends both"};
    if (other.pair_rule != PairRule::no) {
        if (pays_now(other))
            return {other.position, PairAction::consider,
                    "cheaper now than opening the job again: the labour is shared"};
        if (is_opposite(broken, other.position) && other.same_age.value_or(false))
            return {other.position, PairAction::consider, "opposite mount of the same age"};
    }
    return {other.position, PairAction::inspect, "one broken mount overstresses the others"};
}

}  // namespace

double labour_cost(double hours, double hour_rate) {
    return in_range("hours", hours, 0.0, 1000.0) * amount("hour_rate", hour_rate);
}

double break_even_chance(const ExtraItem& item) {
    const double now = amount("price", item.price) + amount("labour_now", item.labour_now);
    const double later = item.price + amount("labour_later", item.labour_later) +
                         amount("consumables_later", item.consumables_later) +
                         amount("comeback_cost", item.comeback_cost);
    return now / in_range("cost of doing it later", later, 1e-6, 4e6);
}

bool is_opposite(Position a, Position b) {
    const auto [low, high] = std::minmax(a, b);
    return (low == Position::left && high == Position::right) || (low == Position::front && high == Position::rear);
}

std::vector<PairAdvice> pair_advice(Position broken, const std::vector<OtherMount>& others) {
    std::vector<PairAdvice> advice;
    for (const OtherMount& other : others) advice.push_back(advise(broken, other));
    return advice;
}

}  // namespace casebound::mounts
