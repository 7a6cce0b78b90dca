#include "core/buy/order_report.h"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/say/first_thing.h"
#include "core/say/in_words.h"
#include "core/say/report.h"

namespace casebound {

namespace {

std::string compared(const std::string& what, const std::optional<Order>& other, const Order& best,
                     const std::string& currency) {
    if (!other) return "";
    std::vector<std::string> sellers;
    for (const auto& seller : other->sellers) sellers.push_back(seller.seller);
    return wrapped(fmt::format("{}: {}, {} more, {} ({}).", what, money_text(other->total_cents, currency),
                               money_text(other->total_cents - best.total_cents, currency), here_text(other->days),
                               fmt::join(sellers, ", ")),
                   0, 2);
}

std::string comparisons(const BuyAnswer& answer, const Order& best) {
    auto out = compared("Next best", answer.runner_up, best, answer.currency);
    if (!answer.runner_up) out += wrapped("Next best: none; nothing else on file covers every line.", 0, 2);
    out += compared("Fewer sellers", answer.fewer, best, answer.currency);
    if (best.seller_count > 1 && !answer.fewer) out += wrapped("Fewer sellers: no order of what is on file.", 0, 2);
    out += compared("Sooner", answer.sooner, best, answer.currency);
    if (best.days.value_or(0) > 0 && !answer.sooner)
        out += wrapped("Sooner: no order of what is on file is here earlier.", 0, 2);
    out += compared("With every day said", answer.days_said, best, answer.currency);
    if (!best.days && !answer.days_said) out += wrapped("With every day said: no order of what is on file.", 0, 2);
    return out;
}

std::string proof_text(const BuyAnswer& answer) {
    if (answer.best.proven)
        return wrapped(coloured(Meaning::good, "Proven") + ": no order of what is on file costs less.");
    return wrapped(
        fmt::format("Not proven: an order may cost {} less at most.",
                    money_text(answer.best.order->total_cents - answer.best.at_least_cents, answer.currency)),
        0, 2);
}

std::string accept_words(const std::vector<std::string>& values) {
    constexpr std::size_t few = 4;
    std::vector<std::string> typed;
    for (const auto& value : values) typed.push_back(as_typed(value));
    return typed.size() <= few ? fmt::format("--accept {}", fmt::join(typed, ", or --accept "))
                               : fmt::format("--accept \"DOUBT=VALUE\", one of {}", fmt::join(typed, ", "));
}

// Lines that wait for the same, the reason said once.
std::vector<std::pair<std::vector<std::string>, const Blocked*>> by_reason(const std::vector<Blocked>& blocked) {
    std::vector<std::pair<std::vector<std::string>, const Blocked*>> all;
    for (const auto& line : blocked) {
        const auto known = std::find_if(all.begin(), all.end(), [&](const auto& one) {
            return one.second->why == line.why && one.second->measure == line.measure &&
                   one.second->accept == line.accept;
        });
        if (known == all.end()) all.push_back({{line.title}, &line});
        else known->first.push_back(line.title);
    }
    return all;
}

std::string left_out_by_hand(const Buying& buying) {
    std::vector<std::string> titles;
    for (const auto& line : buying.blocked)
        if (!line.may_leave_out.empty()) titles.push_back(line.title);
    if (titles.empty()) return "";
    return wrapped(
        fmt::format("{} out by hand: --without \"{}\"{}", titles.size() == 1 ? "Leave it" : "Leave any of them",
                    titles.front(), titles.size() == 1 ? "" : ", and so on"),
        0, 2);
}

// What to find out comes first: what cannot be ordered yet often hangs on it.
std::string blocked_text(const Buying& buying, const Situation& situation) {
    std::string out;
    if (!buying.open.empty())
        out += wrapped(fmt::format("{}: {}.", coloured(Meaning::check, "CHECK FIRST"), listed_titles(buying.open)), 0,
                       2);
    if (!buying.deciding.empty() && !settled_by_question(buying))
        out += settling_text(buying, situation.name(),
                             fmt::format("about {} min", plain_number(buying.finding_out_minutes, 0)));
    out += coloured(Meaning::stop, "DO NOT ORDER YET") + ":\n";
    for (const auto& [titles, line] : by_reason(buying.blocked)) {
        out += wrapped(fmt::format("{}: {}", listed_titles(titles), line->why), 2, 4);
        for (const auto& attribute : line->measure) out += wrapped(tell_command(situation, attribute), 4, 6);
        if (!line->accept.empty())
            out += wrapped(
                fmt::format("or order as if it were so, and the order says so: {}", accept_words(line->accept)), 4, 6);
    }
    out += left_out_by_hand(buying);
    if (situation.number_in_doubt())
        out += wrapped(fmt::format("Was the identification number misread? casebound vehicle correct {} --vin NUMBER",
                                   situation.name()),
                       0, 2);
    return out;
}

std::string uncovered_text(const Buying& buying, const BuyAnswer& answer) {
    std::string out = wrapped(fmt::format("{}: {}.", coloured(Meaning::stop, "No order"), answer.best.reason), 0, 2);
    for (const auto& unmet : answer.best.unmet)
        out += wrapped(
            fmt::format("{}: {} missing: {}", unmet.title, amount_text(unmet.missing, unmet.unit), unmet.reason), 2, 2);
    if (!buying.not_offered.empty())
        out += wrapped(fmt::format("Nothing on file serves {}: casebound offer add item=... seller=... price=...",
                                   titles_of(buying, buying.not_offered)),
                       0, 2);
    return out;
}

bool offered(const Buying& buying, const std::string& item) {
    return std::any_of(buying.market.offers.begin(), buying.market.offers.end(),
                       [&](const Offer& offer) { return offer.item == item; });
}

}  // namespace

std::map<std::string, std::set<std::string>> would_serve(const Buying& buying) {
    std::map<std::string, std::set<std::string>> items;
    const auto add = [&](const std::vector<Need>& needs) {
        for (const auto& need : needs) {
            if (std::any_of(need.served_by.begin(), need.served_by.end(),
                            [&](const Serves& way) { return offered(buying, way.item); }))
                continue;
            for (const auto& way : need.served_by) items[need.line].insert(way.item);
        }
    };
    add(buying.needs);
    for (const auto& one : buying.possible) add(one.needs);
    return items;
}

std::map<std::string, std::vector<std::string>> not_taken(const Buying& buying, const BuyAnswer& answer) {
    std::map<std::string, std::vector<std::string>> found;
    if (!answer.within_days) return found;
    for (const auto& offer : buying.market.offers)
        if (!offer.days) found[offer.seller].push_back(offer.item);
    return found;
}

namespace {

std::string not_taken_text(const Buying& buying, const BuyAnswer& answer) {
    std::vector<std::string> texts;
    for (const auto& [seller, items] : not_taken(buying, answer))
        texts.push_back(fmt::format("{} ({})", seller, first_of(items)));
    if (texts.empty()) return "";
    return wrapped(fmt::format("Not taken with --within {}, because days are not said: {}. Ask them.",
                               *answer.within_days, fmt::join(texts, ", ")),
                   0, 2);
}

Json json_not_taken(const Buying& buying, const BuyAnswer& answer) {
    Json json = Json::array();
    for (const auto& [seller, items] : not_taken(buying, answer))
        for (const auto& item : items) json.push_back({{"seller", seller}, {"item", item}});
    return json;
}

Json maybe(const std::optional<Order>& order, double tax_percent) {
    return order ? json_of(*order, tax_percent) : Json(nullptr);
}

}  // namespace

std::vector<std::string> bought_from(const Order& order) {
    std::vector<std::string> sellers;
    for (const auto& seller : order.sellers)
        if (seller.seller != here_name) sellers.push_back(seller.seller);
    return sellers;
}

bool asks_first(const Buying& buying) { return question_comes_first(buying.list) && !buying.list.ready(); }

std::string buy_text(const Buying& buying, const BuyAnswer& answer, const Situation& situation) {
    std::string out = spread(fmt::format("{}, {}", situation.name(), fmt::join(buying.list.titles, ", ")),
                             invented_label(buying.list.invented));
    if (!buying.list.hearsay.empty()) out += wrapped(right_only_if(told_words(situation, buying.list.hearsay)), 0, 2);
    if (!buying.left_out.empty())
        out += wrapped(fmt::format("Left out by hand: {}.", listed_titles(buying.left_out)), 0, 2);
    if (!buying.fitted.empty())
        out += wrapped(fmt::format("Fitted already: {}.", fmt::join(buying.fitted, ", ")), 0, 2);
    if (!buying.left_in.empty())
        out += wrapped(fmt::format("Looked at and left in: {}.", fmt::join(buying.left_in, ", ")), 0, 2);
    if (!buying.blocked.empty())
        return out + (asks_first(buying) ? brief_question_text(*buying.list.next, situation.name()) : "") +
               blocked_text(buying, situation) + wrapped(situation.headline(), 0, 2);
    if (asks_first(buying)) out += brief_question_text(*buying.list.next, situation.name());
    for (std::size_t i = 0; i < answer.choices.size(); ++i)
        out += (i == 0 ? "Nothing that can be got at would tell. What is left:\n" : "") +
               wrapped(fmt::format("{}. {}", i + 1, answer.choices[i]), 2, 5);
    if (answer.unsure) {
        out += unsure_text(buying, *answer.unsure, answer.unsure_costs, situation.name(), answer.tax_percent,
                           answer.currency);
    } else if (!answer.best.order) {
        out += buying.needs.empty() ? wrapped("Nothing needs to be ordered for this.") : uncovered_text(buying, answer);
    } else {
        const auto& best = *answer.best.order;
        out += order_text(buying, best, answer.tax_percent, answer.currency);
        if (answer.return_cost) out += return_cost_text(*answer.return_cost, answer.currency);
        out += best.sellers.empty() || bought_from(best).empty()
                   ? wrapped("Nothing is left to order: all of it is on order or here.", 0, 2)
                   : proof_text(answer) + comparisons(answer, best);
    }
    out += left_on_shelf_text(answer.shelf_left) + not_taken_text(buying, answer);
    for (const auto& question : buying.list.domain_questions)
        out += wrapped(fmt::format("Before ordering, find out: {}", question), 0, 2);
    const bool priced = (answer.unsure && answer.unsure->right_in_every.possible()) || answer.best.order ||
                        !answer.choices.empty();
    return out + (priced ? currency_hint(answer.currency) : "") + wrapped(situation.headline(), 0, 2);
}

Json json_of(const Buying& buying, const BuyAnswer& answer) {
    Json json{{"jobs", buying.list.jobs},          {"invented", buying.list.invented},
              {"currency", answer.currency},       {"open", buying.open},
              {"settled_by", buying.deciding},     {"left_out", buying.left_out},
              {"fitted", buying.fitted},           {"looked_at_left_in", buying.left_in},
              {"hearsay", buying.list.hearsay},    {"not_offered", buying.not_offered},
              {"tax_percent", answer.tax_percent}, {"proven", answer.best.proven},
              {"reason", answer.best.reason}};
    json["accepted"] = answer.accepted;
    json["choices"] = answer.choices;
    json["next"] = asks_first(buying) ? json_of(*buying.list.next) : Json(nullptr);
    json["titles"] = buying.titles;
    json["would_serve"] = would_serve(buying);
    json["blocked"] = Json::array();
    for (const auto& line : buying.blocked)
        json["blocked"].push_back({{"title", line.title},
                                   {"why", line.why},
                                   {"may_leave_out", line.may_leave_out},
                                   {"measure", line.measure},
                                   {"accept", line.accept}});
    json["unmet"] = Json::array();
    for (const auto& unmet : answer.best.unmet)
        json["unmet"].push_back(
            {{"role", unmet.line}, {"unit", unmet.unit}, {"missing", unmet.missing}, {"reason", unmet.reason}});
    json["order"] = maybe(answer.best.order, answer.tax_percent);
    json["return_cost"] = answer.return_cost ? json_of(*answer.return_cost) : Json(nullptr);
    json["next_best"] = maybe(answer.runner_up, answer.tax_percent);
    json["fewer_sellers"] = maybe(answer.fewer, answer.tax_percent);
    json["sooner"] = maybe(answer.sooner, answer.tax_percent);
    json["days_said"] = maybe(answer.days_said, answer.tax_percent);
    json["shelf_not_used"] = json_of(answer.shelf_left);
    json["not_taken"] = json_not_taken(buying, answer);
    json["unsure"] = answer.unsure ? json_of_unsure(buying, *answer.unsure, answer.unsure_costs, answer.tax_percent)
                                   : Json(nullptr);
    return json;
}

}  // namespace casebound
