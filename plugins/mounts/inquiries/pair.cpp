// One mount is broken: which others to change, consider or inspect, with the shared labour counted.
#include "science/pair_advice.h"

#include <map>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "inquiries/pair_rules.h"
#include "rows/mount_record.h"

namespace casebound::mounts {
namespace {

Position opposite_of(Position position) {
    for (const auto other : {Position::left, Position::right, Position::front, Position::rear})
        if (is_opposite(position, other)) return other;
    return Position::unknown;
}

bool has_cost(const Given& given) { return given.has("price") && given.has("hours-later"); }

ExtraItem cost_of(const Given& given) {
    const double rate = given.maybe_number("hour-rate").value_or(0);
    return {given.number("price"), labour_cost(given.maybe_number("hours-now").value_or(0), rate),
            labour_cost(given.number("hours-later"), rate), given.maybe_number("consumables-later").value_or(0),
            given.maybe_number("comeback").value_or(0)};
}

std::vector<OtherMount> others_of(const Given& given, const Services& services, Position broken, Answer& answer,
                                  std::map<Position, SourceNote>& sources) {
    std::vector<OtherMount> others;
    const Position partner = opposite_of(broken);
    for (const auto& key : position_choices()) {
        OtherMount other{position_from(key)};
        if (other.position == broken || !may_have(services, other.position)) continue;
        const bool front_or_rear = other.position == Position::front || other.position == Position::rear;
        const auto recorded = recorded_rule(services, broken, other.position, answer);
        other.pair_rule = recorded.rule;
        if (recorded.rule != PairRule::not_recorded) sources[other.position] = recorded.source;
        if (other.position == partner) {
            if (given.has("same-age")) other.same_age = given.yes("same-age");
            if (given.has("chance")) other.chance = given.number("chance") / 100;
            if (has_cost(given)) other.cost = cost_of(given);
        } else if (front_or_rear && other.pair_rule == PairRule::not_recorded) {
            continue;  // most engines have left and right only
        }
        others.push_back(other);
    }
    return others;
}

void add_money(Answer& answer, const Given& given) {
    if (!has_cost(given)) {
        answer.next.push_back(
            "Give price and hours-later, with hour-rate, to see from which chance on the second mount pays now.");
        return;
    }
    const auto item = cost_of(given);
    const double now = item.price + item.labour_now;
    const double later = item.price + item.labour_later + item.consumables_later + item.comeback_cost;
    answer.lines.push_back(measure_line("the other mount now, labour shared", now, "", 2, given.source("price")));
    answer.lines.push_back(
        measure_line("the other mount later, opened again", later, "", 2, given.source("hours-later")));
    answer.lines.push_back(measure_line("pays now from a chance of", 100 * break_even_chance(item), "%", 0,
                                        {Evidence::common_practice, "cost now / cost later"}));
    if (given.has("chance"))
        answer.lines.push_back(
            measure_line("chance that it is needed soon", given.number("chance"), "%", 0, given.source("chance")));
    answer.assumptions.push_back("one currency for every amount; what is not given counts as nothing");
}

Answer answer_pair(const Given& given, const Services& services) {
    auto answer = Answer::judging(Verdict::fits);
    const auto broken = position_from(given.text("broken"));
    std::map<Position, SourceNote> sources;
    const auto advice = pair_advice(broken, others_of(given, services, broken, answer, sources));
    std::vector<std::string> together;
    for (const auto& one : advice) {
        answer.lines.push_back(text_line(std::string(word(one.position)) + " mount",
                                         std::string(word(one.action)) + ": " + one.reason, sources[one.position]));
        if (one.action == PairAction::replace) together.emplace_back(word(one.position));
    }
    add_money(answer, given);
    const std::string which = "Replace the " + std::string(word(broken));
    answer.headline = together.empty() ? which + " mount; look at the others while the engine is up."
                                       : which + " and the " + listed(together, " and the ") + " mount together.";
    if (together.empty()) answer.lower(Verdict::check_first);
    answer.cautions = {"never under an engine that only a jack holds"};
    return answer;
}

}  // namespace

Inquiry pair_inquiry() {
    return {"pair",
            "Which other mounts to change, consider or inspect when one is broken, with the shared labour counted",
            {required(choice_input("broken", "the mount that is broken", position_choices())),
             yes_no_input("same-age", "is the opposite mount as old as the broken one?"),
             number_input("chance", "chance that the opposite one is needed within the holding or warranty time", "%",
                          0, 100),
             money_input("price", "price of the opposite mount"),
             hours_input("hours-now", "extra hours while the job is open"),
             hours_input("hours-later", "hours if the job is opened again for it"), hour_rate_input(),
             money_input("consumables-later", "consumables if the job is opened again"),
             money_input("comeback", "cost of the vehicle coming back")},
            answer_pair,
            "broken=left same-age=yes"};
}

}  // namespace casebound::mounts
