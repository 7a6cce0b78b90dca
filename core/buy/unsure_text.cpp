#include "core/buy/unsure_text.h"

#include <algorithm>
#include <cmath>
#include <map>

#include <fmt/format.h>

#include "core/ground/colour.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"

namespace casebound {

namespace {

std::string whole_percent(double share) { return plain_number(std::round(100 * share), 0); }

const Need* need_of(const Possibility& possibility, const std::string& role) {
    const auto found = std::find_if(possibility.needs.begin(), possibility.needs.end(),
                                    [&](const Need& need) { return need.line == role; });
    return found == possibility.needs.end() ? nullptr : &*found;
}

// Without kits: what is in them may differ where the line itself does not.
std::vector<std::string> own_items(const Need& need) {
    std::vector<std::string> items;
    for (const auto& one : need.served_by)
        if (one.content.empty()) items.push_back(one.item);
    return items;
}

bool same_line(const Possibility& a, const Possibility& b, const std::string& role) {
    const auto *in_a = need_of(a, role), *in_b = need_of(b, role);
    if (!in_a || !in_b) return in_a == in_b;
    return in_a->quantity == in_b->quantity && own_items(*in_a) == own_items(*in_b);
}

struct Lines {
    std::vector<std::string> differ, same;
};  // roles

Lines compare_lines(const Buying& buying) {
    std::vector<std::string> roles;
    for (const auto& one : buying.possible)
        for (const auto& need : one.needs)
            if (std::find(roles.begin(), roles.end(), need.line) == roles.end()) roles.push_back(need.line);
    Lines lines;
    for (const auto& role : roles) {
        const bool all_same = std::all_of(buying.possible.begin(), buying.possible.end(), [&](const Possibility& one) {
            return same_line(one, buying.possible.front(), role);
        });
        (all_same ? lines.same : lines.differ).push_back(role);
    }
    return lines;
}

std::vector<std::string> items_for(const std::optional<Order>& order, const std::string& role) {
    std::vector<std::string> items;
    if (!order) return items;
    for (const auto& seller : order->sellers)
        for (const auto& line : seller.lines)
            if (std::find(line.serves.begin(), line.serves.end(), role) != line.serves.end() &&
                std::find(items.begin(), items.end(), line.item) == items.end())
                items.push_back(line.item);
    return items;
}

bool off_the_shelf(const Order& order, const std::string& item) {
    return std::any_of(order.sellers.begin(), order.sellers.end(), [&](const SellerOrder& seller) {
        return seller.own_shelf && std::any_of(seller.lines.begin(), seller.lines.end(),
                                               [&](const OrderLine& line) { return line.item == item; });
    });
}

std::string line_text(const Buying& buying, const Outcome& outcome, const std::string& role) {
    const auto* need = need_of(buying.possible.at(outcome.first), role);
    if (!need) return title_of(buying, role) + ": none";
    auto items = items_for(outcome.more, role);
    for (auto& item : items)
        if (off_the_shelf(*outcome.more, item)) item += " (own shelf)";
    const bool counted = need->unit == "each" && need->quantity == 1;
    return fmt::format("{}: {}{}{}", title_of(buying, role), counted ? "" : amount_text(need->quantity, need->unit),
                       counted || items.empty() ? "" : ", ", fmt::join(items, " and "));
}

// What comes out alike stands on one line. Beyond the most likely ones the rest is only counted.
class Gathered {
public:
    void add(const Outcome& outcome, const std::string& text) {
        const auto known = std::find_if(groups_.begin(), groups_.end(),
                                        [&](const Group& one) { return one.text == text; });
        auto& group = known == groups_.end() ? groups_.emplace_back(Group{text, {}, 0, outcome.total_cents}) : *known;
        group.names.push_back(outcome.name);
        group.share += outcome.share;
    }

    // In the order they came: "where A, or B (52 %): text". The last of all may be "otherwise".
    std::vector<std::string> lines(const std::string& currency, bool otherwise = false) {
        constexpr std::size_t most = 6;
        std::vector<std::string> texts;
        if (groups_.size() > most)
            std::stable_sort(groups_.begin(), groups_.end(),
                             [](const Group& a, const Group& b) { return a.share > b.share; });
        const auto shown = groups_.size() > most ? most - 1 : groups_.size();
        for (std::size_t i = 0; i < shown; ++i)
            texts.push_back(fmt::format(
                "{} ({} %): {}",
                otherwise && i > 0 && i + 1 == groups_.size() ? std::string("otherwise") : "where " + where(groups_[i]),
                whole_percent(groups_[i].share), groups_[i].text));
        if (shown < groups_.size()) texts.push_back(rest(shown, currency));
        return texts;
    }

private:
    struct Group {
        std::string text;
        std::vector<std::string> names;
        double share{};
        std::int64_t cents{};
    };

    static std::string where(const Group& group) {
        constexpr std::size_t most = 2;
        if (group.names.size() <= most) return fmt::format("{}", fmt::join(group.names, ", or "));
        return fmt::format("{}, or {} others", group.names.front(), group.names.size() - 1);
    }

    std::string rest(std::size_t from, const std::string& currency) const {
        double share = 0;
        auto least = groups_[from].cents, most = least;
        for (auto i = from; i < groups_.size(); ++i) {
            share += groups_[i].share;
            least = std::min(least, groups_[i].cents);
            most = std::max(most, groups_[i].cents);
        }
        return fmt::format("{} others ({} %), {} to {}: --json shows them", groups_.size() - from, whole_percent(share),
                           money_text(least, currency), money_text(most, currency));
    }

    std::vector<Group> groups_;
};

std::string differences_text(const Buying& buying, const UnsureAdvice& advice, const std::string& currency) {
    const auto lines = compare_lines(buying);
    std::string out = wrapped("What differs, and what to order for it once it is known:", 0, 2);
    Gathered gathered;
    for (const auto& outcome : advice.find_out_first.outcomes) {
        std::vector<std::string> texts;
        for (const auto& role : lines.differ) texts.push_back(line_text(buying, outcome, role));
        gathered.add(outcome, fmt::format("{}", fmt::join(texts, "; ")));
    }
    for (const auto& line : gathered.lines(currency)) out += wrapped(line, 2, 4);
    if (!lines.same.empty()) out += wrapped(fmt::format("The same in all: {}.", titles_of(buying, lines.same)), 2, 4);
    return out;
}

}  // namespace

std::string not_needed_text(const NotNeeded& one) {
    const bool at_hand = one.seller == own_shelf_name || one.seller == here_name;
    return fmt::format("{} x {}", packs_text(one.packs, at_hand ? 1 : one.pack_quantity), one.item);
}

namespace {

std::string back_text(const Outcome& outcome) {
    std::vector<std::string> parts;
    for (std::size_t i = 0; i < outcome.sent_back.size(); ++i) {  // a seller is named once, after what he gets back
        const auto& sent = outcome.sent_back[i];
        const bool last = i + 1 == outcome.sent_back.size() || outcome.sent_back[i + 1].seller != sent.seller;
        parts.push_back(
            fmt::format("{}{}{}", not_needed_text(sent), last ? " back to " : "", last ? sent.seller : std::string()));
    }
    for (const auto& kept : outcome.left_over) parts.push_back(not_needed_text(kept) + " left over");
    if (outcome.more) parts.push_back(fmt::format("{} ordered on top", cents_text(outcome.more->total_cents)));
    return fmt::format("{}", fmt::join(parts, ", "));
}

void plan_row(Table& table, UnsureChoice choice, const UnsurePlan& plan, const std::string& currency) {
    const std::string words{unsure_choice_words(choice)};
    table.row(plan.possible() ? std::vector{words, money_text(plan.expected_cents, currency),
                                            money_text(plan.worst_cents, currency)}
                              : std::vector{words, std::string("not possible"), std::string()});
    if (!plan.possible()) table.under(plan.reason);
    else if (!plan.proven) table.under("not proven to be the cheapest of its kind");
}

void outcome_rows(Table& table, const UnsurePlan& plan, const std::string& currency) {
    Gathered gathered;
    for (const auto& outcome : plan.outcomes) {
        const auto back = plan.order ? back_text(outcome) : "";
        gathered.add(outcome,
                     fmt::format("{}{}{}", money_text(outcome.total_cents, currency), back.empty() ? "" : "; ", back));
    }
    for (const auto& line : gathered.lines(currency, true)) table.under(line);
}

std::string ways_text(const UnsureAdvice& advice, const UnsureCosts& costs, const std::string& currency) {
    Table table({"three ways to order", "expected", "at worst"});
    plan_row(table, UnsureChoice::find_out_first, advice.find_out_first, currency);
    if (advice.find_out_first.possible() && costs.finding_out_cents > 0)
        table.under(fmt::format("{} for the order and {} for finding out",
                                money_text(advice.find_out_first.expected_cents - costs.finding_out_cents, currency),
                                money_text(costs.finding_out_cents, currency)));
    outcome_rows(table, advice.find_out_first, currency);
    plan_row(table, UnsureChoice::most_likely, advice.most_likely, currency);
    if (advice.most_likely.possible())
        table.under(
            fmt::format("for {}; in {} % of cases a second order", advice.likely, whole_percent(advice.chance_wrong)));
    outcome_rows(table, advice.most_likely, currency);
    plan_row(table, UnsureChoice::right_in_every, advice.right_in_every, currency);
    outcome_rows(table, advice.right_in_every, currency);
    return table.text();
}

// What knowing at once saves against another way, before its own cost.
std::optional<std::int64_t> saving(const UnsureAdvice& advice, const UnsureCosts& costs, const UnsurePlan& other) {
    if (!advice.find_out_first.possible() || !other.possible()) return std::nullopt;
    return other.expected_cents - (advice.find_out_first.expected_cents - costs.finding_out_cents);
}

std::string price_of_finding_out(const Buying& buying, const UnsureCosts& costs, const std::string& currency) {
    const auto minutes = plain_number(buying.finding_out_minutes, 0);
    if (costs.finding_out_cents > 0)
        return fmt::format("about {} min, {} of own time", minutes, money_text(costs.finding_out_cents, currency));
    return fmt::format("about {} min (price an hour: shop set hour-value=AMOUNT)", minutes);
}

std::string finding_out_text(const Buying& buying, const UnsureAdvice& advice, const UnsureCosts& costs,
                             const std::string& vehicle, const std::string& currency) {
    if (buying.deciding.empty()) return "";
    std::string out = settling_text(buying, vehicle, price_of_finding_out(buying, costs, currency));
    std::vector<std::string> savings;
    for (const auto& [plan, words] : {std::pair(&advice.most_likely, "an order for the most likely"),
                                      std::pair(&advice.right_in_every, "one that is right in every one")})
        if (const auto saved = saving(advice, costs, *plan))
            savings.push_back(fmt::format("{} against {}", money_text(*saved, currency), words));
    if (!savings.empty()) out += wrapped(fmt::format("Knowing saves {}.", fmt::join(savings, ", ")), 2, 4);
    return out;
}

// In some of what is possible, and not in all: it may turn out not to be needed.
bool may_go_back(const Buying& buying, const std::string& item) {
    const auto needed = std::count_if(buying.possible.begin(), buying.possible.end(), [&](const Possibility& one) {
        return std::any_of(one.needs.begin(), one.needs.end(), [&](const Need& need) {
            return std::any_of(need.served_by.begin(), need.served_by.end(),
                               [&](const Serves& way) { return way.item == item; });
        });
    });
    return needed > 0 && needed < std::ssize(buying.possible);
}

}  // namespace

std::map<std::string, std::vector<std::string>> return_not_said(const Buying& buying) {
    std::map<std::string, std::vector<std::string>> found;
    for (const auto& offer : buying.market.offers)
        if (!offer.returnable && offer.seller != own_shelf_name && offer.seller != here_name &&
            may_go_back(buying, offer.item))
            found[offer.seller].push_back(offer.item);
    return found;
}

namespace {

std::string return_not_said_text(const Buying& buying) {
    std::vector<std::string> texts;
    for (const auto& [seller, items] : return_not_said(buying))
        texts.push_back(fmt::format("{} ({})", seller, first_of(items)));
    if (texts.empty()) return "";
    return wrapped(
        fmt::format("Return not said by {}: ask first; counted here as what cannot go back.", fmt::join(texts, ", ")),
        0, 2);
}

Json json_of_plan(const UnsurePlan& plan, double tax_percent) {
    Json json{{"possible", plan.possible()},
              {"reason", plan.reason},
              {"expected_cents", plan.expected_cents},
              {"worst_cents", plan.worst_cents},
              {"proven", plan.proven}};
    json["order"] = plan.order ? json_of(*plan.order, tax_percent) : Json(nullptr);
    json["outcomes"] = Json::array();
    for (const auto& outcome : plan.outcomes) {
        Json one{{"where", outcome.name},
                 {"share", outcome.share},
                 {"total_cents", outcome.total_cents},
                 {"refund_cents", outcome.refund_cents}};
        one["more"] = outcome.more ? json_of(*outcome.more, tax_percent) : Json(nullptr);
        one["sent_back"] = Json::array();
        for (const auto& sent : outcome.sent_back)
            one["sent_back"].push_back({{"seller", sent.seller},
                                        {"item", sent.item},
                                        {"packs", sent.packs},
                                        {"pack", sent.pack_quantity},
                                        {"refund_cents", sent.refund_cents}});
        one["left_over"] = Json::array();
        for (const auto& kept : outcome.left_over)
            one["left_over"].push_back(
                {{"seller", kept.seller}, {"item", kept.item}, {"packs", kept.packs}, {"pack", kept.pack_quantity}});
        json["outcomes"].push_back(std::move(one));
    }
    return json;
}

Json json_of_differences(const Buying& buying, const UnsureAdvice& advice) {
    Json json = Json::array();
    for (const auto& role : compare_lines(buying).differ)
        for (const auto& outcome : advice.find_out_first.outcomes) {
            const auto* need = need_of(buying.possible.at(outcome.first), role);
            json.push_back({{"role", role},
                            {"where", outcome.name},
                            {"needed", need ? need->quantity : 0},
                            {"unit", need ? need->unit : ""},
                            {"items", items_for(outcome.more, role)}});
        }
    return json;
}

Json maybe(std::optional<std::int64_t> cents) { return cents ? Json(*cents) : Json(nullptr); }

}  // namespace

std::string unsure_text(const Buying& buying, const UnsureAdvice& advice, const UnsureCosts& costs,
                        const std::string& vehicle, double tax_percent, const std::string& currency) {
    std::string out = wrapped(
                          fmt::format("{}: {}.", coloured(Meaning::check, "CHECK FIRST"), listed_titles(buying.open)),
                          0, 2) +
                      finding_out_text(buying, advice, costs, vehicle, currency);
    const bool any = advice.find_out_first.possible() || advice.right_in_every.possible();
    out += wrapped(any ? fmt::format("Cheapest: {}.", unsure_choice_words(advice.cheapest))
                       : fmt::format("No order: {}.", advice.because),
                   0, 2);
    if (!any) return out;
    out += "\n";
    out += differences_text(buying, advice, currency) + "\n" + ways_text(advice, costs, currency);
    out += return_not_said_text(buying);
    if (costs.second_order_cents == 0 && advice.most_likely.possible())
        out += wrapped("What a second order costs you in waiting is not counted: --second-order AMOUNT.", 0, 2);
    if (tax_percent > 0)
        out += wrapped(
            fmt::format("Without sales tax of {} %, which is the same on every way.", plain_number(tax_percent, 3)), 0,
            2);
    const auto& plan = advice.cheapest == UnsureChoice::most_likely ? advice.most_likely : advice.right_in_every;
    if (advice.cheapest != UnsureChoice::find_out_first && plan.order)
        out += "\n" + order_text(buying, *plan.order, tax_percent, currency);
    return out;
}

Json json_of_unsure(const Buying& buying, const UnsureAdvice& advice, const UnsureCosts& costs, double tax_percent) {
    Json json{{"cheapest", unsure_choice_words(advice.cheapest)},
              {"because", advice.because},
              {"likely", advice.likely},
              {"chance_wrong", advice.chance_wrong},
              {"cost_of_being_wrong_cents", advice.cost_of_being_wrong_cents},
              {"finding_out_minutes", buying.finding_out_minutes},
              {"finding_out_cents", costs.finding_out_cents},
              {"second_order_cents", costs.second_order_cents}};
    json["saved_against_most_likely_cents"] = maybe(saving(advice, costs, advice.most_likely));
    json["saved_against_right_in_every_cents"] = maybe(saving(advice, costs, advice.right_in_every));
    json["return_not_said"] = Json::array();
    for (const auto& [seller, items] : return_not_said(buying))
        for (const auto& item : items) json["return_not_said"].push_back({{"seller", seller}, {"item", item}});
    json["differences"] = json_of_differences(buying, advice);
    json["find_out_first"] = json_of_plan(advice.find_out_first, tax_percent);
    json["most_likely"] = json_of_plan(advice.most_likely, tax_percent);
    json["right_in_every"] = json_of_plan(advice.right_in_every, tax_percent);
    return json;
}

}  // namespace casebound
