#include "core/buy/buy_asked.h"

#include <algorithm>
#include <cmath>
#include <limits>

#include <fmt/format.h>

#include "core/buy/no_way_to_tell.h"
#include "core/ground/units.h"
#include "core/session/typed_names.h"
#include "core/shop/shop_settings.h"
#include "core/work/key_value_args.h"

namespace casebound {

namespace {

std::optional<int> small(const std::optional<std::int64_t>& value) {
    return value ? std::optional(static_cast<int>(std::min<std::int64_t>(*value, 100'000))) : std::nullopt;
}

std::optional<int> limit(const Args& args, std::string_view option) {
    if (!args.has(option)) return std::nullopt;
    return small(
        KeyValueArgs({fmt::format("{}={}", option, args.option(option))}, 0, {std::string(option)}).whole(option));
}

UnsureCosts unsure_costs(Session& session, const Args& args, double minutes) {
    const auto hour = ShopSettings(session.shop()).get("hour_value");
    const double hour_value = hour ? quantity_in(*hour, "") : 0;
    UnsureCosts costs;
    costs.finding_out_cents = std::llround(hour_value * minutes / 60 * 100);
    costs.second_order_cents = args.has("second-order") ? cents_from("second-order", args.option("second-order")) : 0;
    return costs;
}

void compare(BuyAnswer& answer, const Buying& buying, const PurchaseLimits& limits) {
    const auto& best = *answer.best.order;
    answer.runner_up = next_best_order(buying.needs, buying.market, best, limits);
    if (best.seller_count > 1) {
        auto fewer = limits;
        fewer.most_sellers = best.seller_count - 1;
        answer.fewer = cheapest_order(buying.needs, buying.market, fewer).order;
    }
    if (best.days.value_or(1) == 0) return;
    auto sooner = limits;
    sooner.within_days = best.days ? *best.days - 1 : std::numeric_limits<int>::max();
    (best.days ? answer.sooner : answer.days_said) = cheapest_order(buying.needs, buying.market, sooner).order;
}

// Every order that may be placed.
std::vector<const Order*> orders_of(const BuyAnswer& answer) {
    std::vector<const Order*> orders;
    if (answer.best.order) orders.push_back(&*answer.best.order);
    if (!answer.unsure) return orders;
    for (const auto* plan :
         {&answer.unsure->find_out_first, &answer.unsure->most_likely, &answer.unsure->right_in_every}) {
        if (plan->order) orders.push_back(&*plan->order);
        for (const auto& outcome : plan->outcomes)
            if (outcome.more) orders.push_back(&*outcome.more);
    }
    return orders;
}

std::optional<double> reserve_typed(const Args& args) {
    if (!args.has("reserve")) return std::nullopt;
    const auto typed = args.option("reserve");
    const auto litres = KeyValueArgs({"reserve=" + typed}, 0, {"reserve"}).number("reserve", "L");
    if (*litres < 0) throw Error(Exit::usage, fmt::format("reserve: \"{}\": write litres from 0 up", typed));
    return litres;
}

BuyWish wish_typed(const Catalog& catalog, const Args& args) {
    const auto places = [&](std::string_view option) {
        auto all = args.all(option);
        for (auto& one : all) one = place_typed(catalog, one);
        return all;
    };
    BuyWish wish{jobs_typed(catalog, {args.words.begin() + 1, args.words.end()}),
                 places("with"),
                 places("without"),
                 {},
                 {limit(args, "sellers"), limit(args, "within"), !args.has("no-core")}};
    wish.reserve_l = reserve_typed(args);
    return wish;
}

}  // namespace

bool BuyAsked::settled() const {
    return answer.ready() || (buying.needs.empty() && buying.open.empty() && buying.blocked.empty());
}

BuyAsked buy_asked(Session& session, const Args& args) {
    const auto accepted = args.all("accept");
    BuyAsked asked;
    asked.situation = session.situation(args.words.at(0), accepted);
    asked.wish = wish_typed(session.catalog(), args);
    asked.buying = plan_buying(session, *asked.situation, asked.wish);
    const auto& limits = asked.wish.limits;
    const auto& buying = asked.buying;
    auto& answer = asked.answer;
    answer.accepted = accepted;
    answer.currency = currency_of(session);
    answer.within_days = limits.within_days;
    answer.tax_percent = quantity_in(ShopSettings(session.shop()).get("sales_tax").value_or("0"), "");
    answer.unsure_costs = unsure_costs(session, args, buying.finding_out_minutes);
    if (buying.blocked.empty() && buying.open.empty() && !buying.needs.empty()) {
        answer.best = cheapest_order(buying.needs, buying.market, limits);
        if (answer.best.order && !bought_from(*answer.best.order).empty()) compare(answer, buying, limits);
    } else if (buying.blocked.empty() && !buying.possible.empty()) {
        answer.unsure = order_while_unsure(buying.possible, buying.market, answer.unsure_costs, limits);
    }
    if (answer.ready())
        answer.return_cost = return_cost(*answer.best.order, buying, *asked.situation, limits.cores_come_back);
    answer.choices = choices_left(buying, answer.unsure, *asked.situation, answer.currency);
    answer.shelf_left = left_on_shelf(session, buying, orders_of(answer), asked.situation->name());
    return asked;
}

}  // namespace casebound
