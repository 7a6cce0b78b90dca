#include "order_report.h"

#include <fmt/format.h>

#include "report.h"
#include "text_layout.h"
#include "units.h"

namespace casebound {

namespace {

std::string amount(double value, const std::string& unit) {
    return unit == "each" ? plain_number(value, 2) : fmt::format("{} {}", plain_number(value, 2), unit);
}

std::string offer_notes(const Offer& offer, const OrderLine& line, const std::string& currency) {
    std::vector<std::string> notes;
    if (line.padding > 0) notes.push_back(fmt::format("{} of them only to reach free carriage or the least order", line.padding));
    if (offer.core_cents > 0)
        notes.push_back(fmt::format("core charge {}{}", money_text(offer.core_cents * line.packs, currency), offer.core_return_by.empty() ? "" : ", old part back " + offer.core_return_by));
    if (!offer.returnable) notes.push_back("cannot go back");
    else notes.push_back(fmt::format("may go back{}{}", offer.return_by.empty() ? "" : " " + offer.return_by, offer.return_fee > 0 ? fmt::format(", {} % is kept", plain_number(offer.return_fee * 100, 1)) : ""));
    return fmt::format("{}", fmt::join(notes, "; "));
}

std::string seller_text(const SellerOrder& seller, const Market& market, const std::string& currency) {
    const auto carriage = seller.own_shelf ? std::string("no carriage") : seller.carriage_free ? std::string("carriage free") : "carriage " + money_text(seller.carriage_cents, currency);
    std::string out = wrapped(fmt::format("{}: goods {}, {}, here in {}", seller.seller, money_text(seller.goods_cents, currency), carriage, plural(static_cast<std::size_t>(seller.days), "day")), 0, 2);
    Table table({"item", "packs", "price", "for"});
    for (const auto& line : seller.lines) {
        const auto& offer = market.offers.at(line.offer);
        table.row({line.item, fmt::format("{}", line.packs), money_text(line.cents, currency), fmt::format("{}", fmt::join(line.serves, ", "))});
        if (!seller.own_shelf) table.under(offer_notes(offer, line, currency));
    }
    return out + table.text();
}

std::string order_text(const Order& order, const Market& market, const std::string& currency) {
    std::string out;
    for (const auto& seller : order.sellers) out += seller_text(seller, market, currency);
    out += wrapped(fmt::format("Total {}: goods {}, carriage {}. Everything is here in {}: start then, not before.", money_text(order.total_cents, currency),
                               money_text(order.goods_cents, currency), money_text(order.carriage_cents, currency), plural(static_cast<std::size_t>(order.days), "day")), 0, 2);
    if (order.core_cents > 0) out += wrapped(fmt::format("Core charges of {} on top come back with the old parts, in time.", money_text(order.core_cents, currency)), 0, 2);
    for (const auto& bought : order.bought)
        if (bought.spare() > 1e-9) out += wrapped(fmt::format("Left over for the shelf: {} of {}.", amount(bought.spare(), bought.unit), bought.line), 2, 2);
    return out;
}

std::string compared(const std::string& what, const std::optional<Order>& other, const Order& best, const std::string& currency) {
    if (!other) return "";
    std::vector<std::string> sellers;
    for (const auto& seller : other->sellers) sellers.push_back(seller.seller);
    return wrapped(fmt::format("{}: {}, {} more, in {} ({}).", what, money_text(other->total_cents, currency), money_text(other->total_cents - best.total_cents, currency),
                               plural(static_cast<std::size_t>(other->days), "day"), fmt::join(sellers, ", ")), 0, 2);
}

std::string plan_text(UnsureChoice choice, const UnsurePlan& plan, const std::string& currency) {
    const auto words = unsure_choice_words(choice);
    if (!plan.possible()) return wrapped(fmt::format("{}: not possible: {}", words, plan.reason), 2, 2);
    return wrapped(fmt::format("{}: {} expected, {} at worst", words, money_text(plan.expected_cents, currency), money_text(plan.worst_cents, currency)), 2, 2);
}

std::string outcomes_text(const UnsurePlan& plan, const std::string& currency) {
    std::string out;
    for (const auto& outcome : plan.outcomes) {
        std::string back;
        for (const auto& sent : outcome.sent_back) back += fmt::format("; send back {} x {} to {}", sent.packs, sent.item, sent.seller);
        out += wrapped(fmt::format("where {} ({:.0f} %): {}{}", outcome.name, outcome.share * 100, money_text(outcome.total_cents, currency), back), 4, 2);
    }
    return out;
}

std::string unsure_text(const Buying& buying, const UnsureAdvice& advice, const std::string& currency) {
    std::string out = wrapped(fmt::format("CHECK FIRST: {}.", fmt::join(buying.open, ", ")), 0, 2);
    if (!buying.deciding.empty()) out += wrapped(fmt::format("Settled by {}, about {} min.", fmt::join(buying.deciding, " and "), plain_number(buying.finding_out_minutes, 0)), 0, 2);
    out += wrapped("The own shelf is not counted while lines are open.");
    out += "Three ways to order:\n" + plan_text(UnsureChoice::find_out_first, advice.find_out_first, currency) + outcomes_text(advice.find_out_first, currency) +
           plan_text(UnsureChoice::most_likely, advice.most_likely, currency);
    if (advice.most_likely.possible())
        out += wrapped(fmt::format("for {}; wrong in {:.0f} % of cases, which costs {} on average", advice.likely, advice.chance_wrong * 100, money_text(advice.cost_of_being_wrong_cents, currency)), 4, 2);
    out += plan_text(UnsureChoice::right_in_every, advice.right_in_every, currency) + outcomes_text(advice.right_in_every, currency);
    out += wrapped(fmt::format("Cheapest: {}. {}", unsure_choice_words(advice.cheapest), advice.because), 0, 2);
    const auto& plan = advice.cheapest == UnsureChoice::most_likely ? advice.most_likely : advice.right_in_every;
    if (advice.cheapest != UnsureChoice::find_out_first && plan.order) out += order_text(*plan.order, buying.market, currency);
    return out;
}

std::string blocked_text(const Buying& buying) {
    std::string out = "DO NOT ORDER YET:\n";
    for (const auto& line : buying.blocked) out += wrapped(fmt::format("{}: {}", line.title, line.why), 2, 2);
    for (const auto& open : buying.open) out += wrapped(fmt::format("{}: check first", open), 2, 2);
    return out;
}

std::string uncovered_text(const Buying& buying, const BuyAnswer& answer) {
    std::string out = wrapped(fmt::format("No order: {}.", answer.best.reason), 0, 2);
    for (const auto& unmet : answer.best.unmet) out += wrapped(fmt::format("{}: {} missing: {}", unmet.line, amount(unmet.missing, unmet.unit), unmet.reason), 2, 2);
    if (!buying.not_offered.empty()) out += wrapped(fmt::format("Nothing on file serves {}: casebound offer add item=... seller=... price=...", fmt::join(buying.not_offered, ", ")), 0, 2);
    return out;
}

Json json_of_plan(const UnsurePlan& plan) {
    Json json{{"possible", plan.possible()}, {"reason", plan.reason}, {"expected_cents", plan.expected_cents}, {"worst_cents", plan.worst_cents}, {"proven", plan.proven}};
    json["order"] = plan.order ? json_of(*plan.order) : Json(nullptr);
    json["outcomes"] = Json::array();
    for (const auto& outcome : plan.outcomes) {
        Json one{{"where", outcome.name}, {"share", outcome.share}, {"total_cents", outcome.total_cents}, {"refund_cents", outcome.refund_cents}};
        one["more"] = outcome.more ? json_of(*outcome.more) : Json(nullptr);
        one["sent_back"] = Json::array();
        for (const auto& sent : outcome.sent_back) one["sent_back"].push_back({{"seller", sent.seller}, {"item", sent.item}, {"packs", sent.packs}, {"refund_cents", sent.refund_cents}});
        json["outcomes"].push_back(std::move(one));
    }
    return json;
}

Json json_of_advice(const UnsureAdvice& advice) {
    Json json{{"cheapest", unsure_choice_words(advice.cheapest)}, {"because", advice.because}, {"likely", advice.likely}, {"chance_wrong", advice.chance_wrong},
              {"cost_of_being_wrong_cents", advice.cost_of_being_wrong_cents}};
    json["find_out_first"] = json_of_plan(advice.find_out_first);
    json["most_likely"] = json_of_plan(advice.most_likely);
    json["right_in_every"] = json_of_plan(advice.right_in_every);
    return json;
}

Json maybe(const std::optional<Order>& order) { return order ? json_of(*order) : Json(nullptr); }

}  // namespace

std::string money_text(std::int64_t cents, const std::string& currency) { return fmt::format("{} {}", cents_text(cents), currency); }

std::string buy_text(const Buying& buying, const BuyAnswer& answer, const Situation& situation) {
    std::string out = spread(fmt::format("{}, {}", situation.name(), fmt::join(buying.list.jobs, ", ")), invented_label(buying.list.invented)) + wrapped(situation.headline()) + "\n";
    if (!buying.left_out.empty()) out += wrapped(fmt::format("Left out by hand: {}.", fmt::join(buying.left_out, ", ")), 0, 2);
    if (!buying.blocked.empty()) return out + blocked_text(buying);
    if (answer.unsure) {
        out += unsure_text(buying, *answer.unsure, answer.currency);
    } else if (!answer.best.order) {
        out += buying.needs.empty() ? wrapped("Nothing needs to be ordered for this.") : uncovered_text(buying, answer);
    } else {
        const auto& best = *answer.best.order;
        out += order_text(best, buying.market, answer.currency);
        out += wrapped(answer.best.proven ? "Proven: no order of what is on file costs less."
                                          : fmt::format("Not proven: an order may cost {} less at most.", money_text(best.total_cents - answer.best.at_least_cents, answer.currency)), 0, 2);
        out += compared("Next best", answer.runner_up, best, answer.currency) + compared("Fewer sellers", answer.fewer, best, answer.currency) + compared("Sooner", answer.sooner, best, answer.currency);
    }
    for (const auto& question : buying.list.domain_questions) out += wrapped(fmt::format("Before ordering, find out: {}", question), 0, 2);
    return out;
}

Json json_of(const Order& order) {
    Json json{{"total_cents", order.total_cents}, {"goods_cents", order.goods_cents}, {"carriage_cents", order.carriage_cents}, {"core_cents", order.core_cents},
              {"days", order.days}, {"seller_count", order.seller_count}};
    json["sellers"] = Json::array();
    for (const auto& seller : order.sellers) {
        Json one{{"seller", seller.seller}, {"own_shelf", seller.own_shelf}, {"carriage_free", seller.carriage_free}, {"goods_cents", seller.goods_cents},
                 {"carriage_cents", seller.carriage_cents}, {"core_cents", seller.core_cents}, {"days", seller.days}};
        one["lines"] = Json::array();
        for (const auto& line : seller.lines)
            one["lines"].push_back({{"item", line.item}, {"packs", line.packs}, {"padding", line.padding}, {"cents", line.cents}, {"serves", line.serves}});
        json["sellers"].push_back(std::move(one));
    }
    json["bought"] = Json::array();
    for (const auto& bought : order.bought)
        json["bought"].push_back({{"role", bought.line}, {"unit", bought.unit}, {"needed", bought.needed}, {"bought", bought.bought}, {"spare", bought.spare()}});
    return json;
}

Json json_of(const Buying& buying, const BuyAnswer& answer) {
    Json json{{"jobs", buying.list.jobs}, {"invented", buying.list.invented}, {"currency", answer.currency}, {"open", buying.open}, {"settled_by", buying.deciding},
              {"left_out", buying.left_out}, {"not_offered", buying.not_offered}, {"proven", answer.best.proven}, {"reason", answer.best.reason}};
    json["blocked"] = Json::array();
    for (const auto& line : buying.blocked) json["blocked"].push_back({{"title", line.title}, {"why", line.why}});
    json["unmet"] = Json::array();
    for (const auto& unmet : answer.best.unmet) json["unmet"].push_back({{"role", unmet.line}, {"unit", unmet.unit}, {"missing", unmet.missing}, {"reason", unmet.reason}});
    json["order"] = maybe(answer.best.order);
    json["next_best"] = maybe(answer.runner_up);
    json["fewer_sellers"] = maybe(answer.fewer);
    json["sooner"] = maybe(answer.sooner);
    json["unsure"] = answer.unsure ? json_of_advice(*answer.unsure) : Json(nullptr);
    return json;
}

}  // namespace casebound
