// How soft the mounts must be for a wanted isolation at idle: natural-frequency the other way round.
#include <cmath>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/mount_record.h"
#include "science/vibration.h"

namespace casebound::mounts {
namespace {

SourceNote without_damping() {
    return {Evidence::common_practice, "System Dynamics, 4th ed., ISBN 0-13-142462-9, eq. 9-14, without damping"};
}

SourceNote fed_by_all(SourceNote rule, const Given& given, std::initializer_list<const char*> inputs) {
    for (const char* input : inputs)
        if (given.has(input)) rule = fed_with(std::move(rule), given.source(input));
    return rule;
}

void add_stiffness(Answer& answer, const Given& given, double at_rest_hz) {
    if (!given.has("carried")) {
        answer.next.emplace_back("Give carried, the mass on these mounts together, to see the stiffness.");
        return;
    }
    const double most = stiffness_for_frequency_n_mm(given.number("carried"), at_rest_hz);
    const auto source = fed_by_all(without_damping(), given, {"cylinders", "idle", "dynamic-ratio", "carried"});
    answer.lines.push_back(measure_line("static stiffness of those mounts together, at most", most, "N/mm", 0, source));
}

Answer answer_isolation(const Given& given, const Services&) {
    auto answer = Answer::computing();
    const auto firing = firing_hz(given);
    if (!firing) {
        answer.lower(Verdict::check_first);
        answer.headline = "Cannot tell yet: it needs cylinders and idle speed.";
        answer.next = {"Give cylinders and idle."};
        return answer;
    }
    const double ratio = undamped_ratio_for_isolation(given.number("isolation") / 100);
    const double in_motion_hz = *firing / ratio, at_rest_hz = in_motion_hz / std::sqrt(given.number("dynamic-ratio"));
    const auto source = fed_by_all(without_damping(), given, {"cylinders", "idle"});
    const auto source_at_rest = fed_with(source, given.source("dynamic-ratio"));
    answer.headline = "At idle " + number_text(given.number("isolation")) +
                      " % is kept out with a natural frequency of " + fixed(in_motion_hz, 1) + " Hz at most, or " +
                      fixed(at_rest_hz, 1) + " Hz as stiff as at rest.";
    answer.lines = {
        measure_line("firing frequency", *firing, "Hz", 1, fed_by_all(firing_source(), given, {"cylinders", "idle"})),
        measure_line("frequency ratio at least", ratio, "", 2, without_damping()),
        measure_line("natural frequency in motion, at most", in_motion_hz, "Hz", 1, source),
        measure_line("static deflection, at least", deflection_for_frequency_mm(at_rest_hz), "mm", 1, source_at_rest)};
    add_stiffness(answer, given, at_rest_hz);
    if (given.value("dynamic-ratio").from == From::assumed)
        answer.assumptions.emplace_back(
            "rubber 2 times as stiff in motion as at rest, the stiffest usual, from memory");
    answer.assumptions.emplace_back("no damping: with damping more is passed on at idle, and less at bounce");
    return answer;
}

std::vector<Input> asked() {
    return {required(number_input("isolation", "share of the shake that is to be kept out", "%", 0, 99.9)),
            cylinders_input(),
            told(idle_input("idle speed in gear"), "idle_speed"),
            recorded(number_input("carried", "mass carried by the mounts together", "kg", 0.1, 10000), "mounts_loads",
                     "carried_kg", {{"position", "position"}}),
            choice_input("position", "look up the mass carried here for the vehicle", position_choices()),
            assumed(number_input("dynamic-ratio", "dynamic over static stiffness", "", 1, 5), "2")};
}

}  // namespace

Inquiry isolation_inquiry() {
    return {"isolation", "How soft the mounts must be to keep a share of the shake at idle out of the body", asked(),
            answer_isolation, "isolation=90 cylinders=4 idle=750 dynamic-ratio=1 carried=100kg"};
}

}  // namespace casebound::mounts
