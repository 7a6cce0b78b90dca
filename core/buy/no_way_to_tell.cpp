#include "core/buy/no_way_to_tell.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/buy/order_text.h"
#include "core/buy/possible_needs.h"
#include "core/ground/units.h"
#include "core/verdict/open_worlds.h"

namespace casebound {

namespace {

// What nobody can get at and would still have several answers.
std::vector<const Possibilities::Column*> hidden(const Situation& situation) {
    std::vector<const Possibilities::Column*> columns;
    const auto& set = situation.model().set;
    for (const auto& name : situation.narrowing().out_of_reach)
        if (const auto* column = set.column(name); column && set.undecided(*column, may_be_true(situation.narrowing())))
            columns.push_back(column);
    return columns;
}

// Does a line that is to be ordered wait for a question? What is only looked at asks, too, and decides nothing here.
bool still_asked(const PartsList& list) {
    return std::any_of(list.lines.begin(), list.lines.end(),
                       [](const ListLine& line) { return line.must_order() && is_open(line); });
}

std::string buy_both(const UnsureAdvice& advice, const std::string& currency) {
    const auto& plan = advice.right_in_every;
    if (!plan.possible() || !plan.order) return "";
    std::vector<std::string> items, back;
    for (const auto& seller : plan.order->sellers)
        for (const auto& line : seller.lines) items.push_back(line.item);
    for (const auto& outcome : plan.outcomes)
        for (const auto& sent : outcome.sent_back) {
            auto words = fmt::format("{} to {} where {}", sent.item, sent.seller, outcome.name);
            if (!among(back, words)) back.push_back(std::move(words));
        }
    const auto more = plan.expected_cents - advice.find_out_first.expected_cents;
    return fmt::format("Buy what is right in every case and send the rest back: {}; {} expected, {} at worst{}{}",
                       first_of(items), money_text(plan.expected_cents, currency),
                       money_text(plan.worst_cents, currency),
                       advice.find_out_first.possible() && more > 0
                           ? fmt::format(", {} more than if it were known", money_text(more, currency))
                           : "",
                       back.empty() ? "; nothing of it may go back" : fmt::format("; back goes {}", first_of(back)));
}

std::string take_apart(const Possibilities::Column& column, const std::optional<double>& hour_value,
                       const std::string& currency) {
    constexpr double opening_minutes = 30;  // as for what must come off (question.h)
    const double minutes = effort_minutes(column.attribute) + (column.attribute.dismantling ? 0 : opening_minutes);
    return fmt::format(
        "Take it apart as far as the {}: about {} min{}. {}", column.attribute.title, plain_number(minutes, 0),
        hour_value
            ? fmt::format(", {} of own time", money_text(std::llround(*hour_value * minutes / 60 * 100), currency))
            : "",
        column.attribute.how);
}

// Read out as it stands: the vehicle, the part, and what decides.
std::string at_the_counter(const Buying& buying, const Situation& situation,
                           const std::vector<const Possibilities::Column*>& columns) {
    std::vector<std::string> known, asked;
    for (const auto& fact : situation.narrowing().facts)
        if (fact.applies && !among(situation.narrowing().out_of_reach, fact.attribute))
            known.push_back(
                fmt::format("{} {}", situation.model().set.column(fact.attribute)->attribute.title, fact.text));
    for (const auto* column : columns) {
        std::vector<std::string> values;
        for (const auto& [value, share] :
             situation.model().set.values_left(*column, may_be_true(situation.narrowing())))
            values.push_back(value->text);
        asked.push_back(fmt::format("which {} is it for, {}", column->attribute.title, fmt::join(values, " or ")));
    }
    return fmt::format(
        "Ask at the counter, word for word: \"I need the {} for a {}{}{}. Which part numbers do you have, "
        "and for each: {}? May the wrong one come back, until when, and what do you keep?\"",
        fmt::join(buying.open, " and the "), situation.model().title, known.empty() ? "" : ", ", fmt::join(known, ", "),
        fmt::join(asked, ", and "));
}

}  // namespace

std::vector<std::string> choices_left(const Buying& buying, const std::optional<UnsureAdvice>& advice,
                                      const Situation& situation, const std::string& currency) {
    const auto columns = hidden(situation);
    if (columns.empty() || buying.open.empty() || (buying.list.next && still_asked(buying.list))) return {};
    std::vector<std::string> choices;
    if (advice)
        if (auto both = buy_both(*advice, currency); !both.empty()) choices.push_back(std::move(both));
    for (const auto* column : columns) choices.push_back(take_apart(*column, buying.hour_value, currency));
    choices.push_back(at_the_counter(buying, situation, columns));
    return choices;
}

}  // namespace casebound
