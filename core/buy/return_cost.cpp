#include "core/buy/return_cost.h"

#include <fmt/format.h>

#include "core/buy/order_text.h"
#include "core/ground/text_layout.h"

namespace casebound {

namespace {

std::vector<std::string> doubts_of(const Situation& situation) {
    std::vector<std::string> reasons;
    for (const auto& doubt : situation.narrowing().doubts) {
        auto reason = fmt::format("{}: {}", doubt.reason, doubt.until);
        if (!among(reasons, reason)) reasons.push_back(std::move(reason));
    }
    return reasons;
}

void add_line(ReturnCost& cost, const OrderLine& line, const Offer& offer, bool cores_come_back) {
    const auto back = refund_cents(offer, false, cores_come_back);
    cost.lost_cents -= back * line.packs;
    if (back > 0) return;
    auto& items = offer.returnable ? cost.cannot_go_back : cost.not_said;
    if (!among(items, line.item)) items.push_back(line.item);
}

}  // namespace

std::optional<ReturnCost> return_cost(const Order& order, const Buying& buying, const Situation& situation,
                                      bool cores_come_back) {
    ReturnCost cost{doubts_of(situation), 0, 0, {}, {}};
    if (cost.in_doubt.empty() && buying.list.hearsay.empty()) return std::nullopt;
    for (const auto& seller : order.sellers) {
        if (seller.own_shelf) continue;  // back on the shelf, or here already
        cost.total_cents += seller.goods_cents + seller.carriage_cents + (cores_come_back ? 0 : seller.core_cents);
        for (const auto& line : seller.lines)
            add_line(cost, line, buying.market.offers.at(line.offer), cores_come_back);
    }
    if (cost.total_cents == 0) return std::nullopt;
    cost.lost_cents += cost.total_cents;
    return cost;
}

std::string lost_words(const ReturnCost& cost, const std::string& currency) {
    auto words = fmt::format("{} of {} are lost", money_text(cost.lost_cents, currency),
                             money_text(cost.total_cents, currency));
    if (!cost.cannot_go_back.empty()) words += fmt::format("; {} cannot go back", first_of(cost.cannot_go_back));
    if (!cost.not_said.empty())
        words += fmt::format("; of {} the seller has not said whether it may: ask first, counted as lost",
                             first_of(cost.not_said));
    return words;
}

std::string return_cost_text(const ReturnCost& cost, const std::string& currency) {
    std::string out;
    for (const auto& reason : cost.in_doubt)
        out += wrapped(fmt::format("In doubt, and this order is right whichever is true: {}.", reason), 0, 2);
    return out + wrapped(fmt::format("If it has to go back after all, {}.", lost_words(cost, currency)), 0, 2);
}

Json json_of(const ReturnCost& cost) {
    return {{"in_doubt", cost.in_doubt},
            {"lost_cents", cost.lost_cents},
            {"total_cents", cost.total_cents},
            {"cannot_go_back", cost.cannot_go_back},
            {"not_said", cost.not_said}};
}

}  // namespace casebound
