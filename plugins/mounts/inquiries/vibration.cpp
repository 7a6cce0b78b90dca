// Natural frequency and transmissibility of an engine on its mounts, and solid against hydraulic side by side.
#include <algorithm>
#include <cmath>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/mount_record.h"
#include "science/vibration.h"

namespace casebound::mounts {
namespace {

const char* const model_limits =
    "a single mass on springs: it compares mounts, it does not predict what is felt in the seat";
const char* const memory_span = "dynamic stiffness of rubber 1.2 to 2 times the static one, from memory";

SourceNote textbook() { return {Evidence::common_practice, "System Dynamics, 4th ed., ISBN 0-13-142462-9, eq. 9-14"}; }
SourceNote gravity_source() {
    return {Evidence::common_practice, "f = sqrt(g / deflection) / 2 pi, g 9.80665 m/s2 exact by definition"};
}

SourceNote firing_fed(const Given& given) {
    return fed_with(fed_with(firing_source(), given.source("cylinders")), given.source("idle"));
}

void add_firing(Answer& answer, const Given& given, const std::optional<double>& firing) {
    if (firing) answer.lines.push_back(measure_line("firing frequency", *firing, "Hz", 1, firing_fed(given)));
}

Curve curve_of(std::string name, MountModel model, double low_hz, double high_hz) {
    Curve curve{std::move(name), {}};
    for (const auto& point : transmissibility_curve(model, low_hz, high_hz, 121))
        curve.points.emplace_back(point.frequency_hz, point.transmissibility);
    return curve;
}

Series transmissibility_series(std::vector<Curve> curves, const std::optional<double>& firing) {
    Series series{"what a mount passes on, by frequency; above 1 it makes the shake larger",
                  "frequency",
                  "Hz",
                  "passed on",
                  "",
                  true,
                  std::move(curves),
                  {}};
    if (firing) series.marks.emplace_back(*firing, "firing frequency at idle");
    return series;
}

// ---------------------------------------------------------------- natural frequency

struct Frequencies {
    double static_hz, low_hz, high_hz;  // low and high: with the dynamic stiffness of rubber
};

Frequencies with_rubber(double static_hz, const Given& given) {
    if (const auto ratio = given.maybe_number("dynamic-ratio")) {
        const double hz = dynamic_natural_frequency_hz(static_hz, *ratio);
        return {static_hz, hz, hz};
    }
    return {static_hz, dynamic_natural_frequency_hz(static_hz, 1.2), dynamic_natural_frequency_hz(static_hz, 2.0)};
}

std::optional<double> static_frequency(const Given& given, Answer& answer) {
    std::optional<double> hz;
    if (given.has("deflection")) {
        hz = natural_frequency_from_deflection_hz(given.number("deflection"));
        answer.lines.push_back(
            measure_line("static deflection", given.number("deflection"), "mm", 1, given.source("deflection")));
        answer.lines.push_back(measure_line("natural frequency, from deflection", *hz, "Hz", 1,
                                            fed_with(gravity_source(), given.source("deflection"))));
    }
    if (given.has("stiffness") && given.has("carried")) {
        const double by_load = natural_frequency_hz(given.number("carried"), given.number("stiffness"));
        answer.lines.push_back(
            measure_line("stiffness", given.number("stiffness"), "N/mm", 0, given.source("stiffness")));
        answer.lines.push_back(
            measure_line("natural frequency, from load and stiffness", by_load, "Hz", 1,
                         fed_with(fed_with(textbook(), given.source("carried")), given.source("stiffness"))));
        if (hz && std::abs(by_load - *hz) > 0.1 * *hz)
            answer.cautions.push_back(
                "load with stiffness and deflection give frequencies more than 10 % apart: measure the deflection "
                "again");
        if (!hz) hz = by_load;
    }
    return hz;
}

// Rests on the stiffness of rubber in motion and on the damping: assumed ones are from memory.
SourceNote in_motion(const Given& given) {
    return given.has("dynamic-ratio") ? given.source("dynamic-ratio") : from_memory();
}

void judge_isolation(Answer& answer, const Frequencies& natural, double firing, const Given& given) {
    const double damping = given.number("damping");
    const auto ratio_source = fed_with(fed_with(textbook(), in_motion(given)), firing_fed(given)),
               passed_source = fed_with(ratio_source, given.source("damping"));
    const double stiff = transmissibility(firing / natural.high_hz, damping),
                 soft = transmissibility(firing / natural.low_hz, damping);
    const bool resonant = firing >= natural.low_hz && firing <= natural.high_hz;
    const double least = std::min(stiff, soft);
    const double most = resonant ? transmissibility_at_resonance(damping) : std::max(stiff, soft);
    answer.lines.push_back(
        measure_line("frequency ratio at idle, least", firing / natural.high_hz, "", 2, ratio_source));
    answer.lines.push_back(measure_line("passed on at idle, least", least, "", 2, passed_source));
    answer.lines.push_back(measure_line("passed on at idle, most", most, "", 2, passed_source));
    if (given.value("damping").from == From::assumed)
        answer.assumptions.push_back("damping ratio " + number_text(damping) + ", from memory");
    const bool all = isolates(firing / natural.high_hz), some = isolates(firing / natural.low_hz);
    if (!all) answer.lower(some ? Verdict::check_first : Verdict::does_not_fit);
    answer.headline = all ? "It isolates at idle: the firing frequency is above 1.41 times the natural one" +
                                std::string(given.has("dynamic-ratio")
                                                ? ", at the dynamic ratio given."
                                                : ", with the rubber 1.2 to 2 times as stiff in motion (from memory).")
                      : some ? "Cannot tell: within what is assumed of the rubber, the firing frequency lies on both "
                               "sides of 1.41 times the natural one."
                             : "It does not isolate at idle: the firing frequency is below 1.41 times the natural one.";
}

void add_in_motion(Answer& answer, const Frequencies& natural, const Given& given) {
    const auto motion = fed_with(textbook(), in_motion(given));
    answer.assumptions.emplace_back(model_limits);
    if (given.has("dynamic-ratio")) {
        answer.lines.push_back(measure_line("natural frequency in motion", natural.high_hz, "Hz", 1, motion));
        return;
    }
    answer.lines.push_back(measure_line("natural frequency in motion, least", natural.low_hz, "Hz", 1, motion));
    answer.lines.push_back(measure_line("natural frequency in motion, most", natural.high_hz, "Hz", 1, motion));
    answer.assumptions.emplace_back(memory_span);
}

Answer answer_natural_frequency(const Given& given, const Services&) {
    auto answer = Answer::judging(Verdict::fits);
    const auto hz = static_frequency(given, answer);
    if (!hz) refuse("natural-frequency", "too little", "deflection, or carried and stiffness together");
    const auto natural = with_rubber(*hz, given);
    const auto firing = firing_hz(given);
    add_in_motion(answer, natural, given);
    add_firing(answer, given, firing);
    const double damping = given.number("damping");
    if (firing) judge_isolation(answer, natural, *firing, given);
    else {
        answer.lower(Verdict::check_first);
        answer.headline = "Natural frequency " + fixed(*hz, 1) +
                          " Hz at least; whether it isolates at idle needs cylinders and idle speed.";
        answer.next = {"Give cylinders and idle."};
    }
    const double top = 1.5 * std::max(natural.high_hz, firing.value_or(0)) + 10;
    answer.series = {transmissibility_series(
        {curve_of("as stiff as at rest", {natural.static_hz, std::max(damping, 0.001)}, 0, std::min(top, 500.0)),
         curve_of("in motion, stiffest assumed", {natural.high_hz, std::max(damping, 0.001)}, 0, std::min(top, 500.0))},
        firing)};
    return answer;
}

}  // namespace

Inquiry natural_frequency_inquiry() {
    std::vector<Input> inputs{
        number_input("deflection", "how far the engine's weight presses the mount together", "mm", 0.01, 500),
        recorded(number_input("carried", "mass carried by the mounts together", "kg", 0.1, 10000), "mounts_loads",
                 "carried_kg", {{"position", "position"}}),
        number_input("stiffness", "static stiffness of those mounts together", "N/mm", 0.01, 100000),
        choice_input("position", "look up the mass carried here for the vehicle", position_choices()),
        number_input("dynamic-ratio", "dynamic over static stiffness, if known", "", 1, 5),
        assumed(number_input("damping", "damping ratio", "", 0.001, 2), "0.05")};
    for (const auto& input : {cylinders_input(), told(idle_input("idle speed in gear"), "idle_speed")})
        inputs.push_back(input);
    return {"natural-frequency", "Natural frequency of an engine on its mounts, and what it passes on at idle", inputs,
            answer_natural_frequency, "carried=220kg stiffness=869N/mm"};
}

// ---------------------------------------------------------------- solid against hydraulic

namespace {

struct Models {
    MountModel hydraulic, solid;
    ComparisonSpan span{};
};

// The value of an input; where that is assumed only, what is recorded of the mount named in `mount` stands in for it.
struct Chosen {
    double value;
    bool recorded, assumed;
};
Chosen chosen(const Given& given, const char* input, std::optional<double> recorded) {
    const bool assumed = given.value(input).from == From::assumed;
    if (assumed && recorded) return {*recorded, true, false};
    return {given.number(input), false, assumed};
}

std::optional<MountRecord> named_mount(const Given& given, const Services& services, const char* mount) {
    return given.has(mount) ? mount_of_group(services.facts, given.text(mount)) : std::nullopt;
}

double value_of(const Given& given, const char* input, const std::optional<MountRecord>& record,
                std::optional<double> MountRecord::*field, Answer& answer) {
    const auto taken = chosen(given, input, record ? (*record).*field : std::nullopt);
    if (taken.recorded) answer.lines.push_back(measure_line(input, taken.value, "", 2, row_source(record->origin)));
    if (taken.assumed) answer.assumptions.push_back(std::string(input) + " " + given.text(input) + ", from memory");
    return taken.value;
}

// The solid mount's own frequency where it is on record and no ratio was given; else by the ratio.
double solid_hz(const Given& given, double hydraulic_hz, const std::optional<MountRecord>& record, Answer& answer) {
    const bool assumed = given.value("stiffness-ratio").from == From::assumed;
    if (assumed && record && record->natural_hz) {
        answer.lines.push_back(measure_line("solid-hz", *record->natural_hz, "Hz", 1, row_source(record->origin)));
        return *record->natural_hz;
    }
    if (assumed) answer.assumptions.push_back("stiffness-ratio " + given.text("stiffness-ratio") + ", from memory");
    return hydraulic_hz * std::sqrt(given.number("stiffness-ratio"));
}

Models models_of(const Given& given, const Services& services, Answer& answer) {
    const auto hydraulic = named_mount(given, services, "hydraulic-mount");
    const auto solid = named_mount(given, services, "solid-mount");
    Models models{};
    models.hydraulic = {value_of(given, "hydraulic-hz", hydraulic, &MountRecord::natural_hz, answer),
                        value_of(given, "hydraulic-damping", hydraulic, &MountRecord::damping_ratio, answer)};
    models.solid.damping_ratio = value_of(given, "solid-damping", solid, &MountRecord::damping_ratio, answer);
    models.solid.natural_hz = solid_hz(given, models.hydraulic.natural_hz, solid, answer);
    return models;
}

std::string times(double value) { return "x" + fixed(value, value < 10 ? 1 : 0); }
std::string span_text(Span span, int decimals) {
    return fixed(span.low, decimals) + " to " + fixed(span.high, decimals);
}

Grid side_by_side(const Models& models, const Comparison& one, const SpannedComparison& span) {
    Grid grid{"solid against hydraulic, as set and over the span of what is assumed",
              {"", "hydraulic", "solid", "hydraulic, span", "solid, span"},
              {},
              {}};
    grid.rows = {{"natural frequency, Hz", fixed(models.hydraulic.natural_hz, 1), fixed(models.solid.natural_hz, 1),
                  span_text(models.span.hydraulic_natural_hz, 1),
                  span_text(models.span.solid_stiffness_ratio, 0) + " x as stiff"},
                 {"damping ratio", fixed(models.hydraulic.damping_ratio, 2), fixed(models.solid.damping_ratio, 2),
                  span_text(models.span.hydraulic_damping, 2), span_text(models.span.solid_damping, 2)},
                 {"passed on at idle", fixed(one.hydraulic_at_firing, 2), fixed(one.solid_at_firing, 2),
                  span_text(span.hydraulic_at_firing, 2), span_text(span.solid_at_firing, 2)},
                 {"at the natural frequency", times(one.hydraulic_at_resonance), times(one.solid_at_resonance),
                  span_text(span.hydraulic_at_resonance, 1), span_text(span.solid_at_resonance, 1)}};
    grid.marked_rows = {2};
    return grid;
}

// The models rest on what was recorded of the mounts, else on what is assumed.
SourceNote models_source(const Answer& answer, const Given& given) {
    SourceNote source = answer.assumptions.empty() ? textbook() : fed_with(textbook(), from_memory());
    source = fed_with(source, firing_fed(given));
    for (const auto& line : answer.lines) source = fed_with(source, line.source);
    return source;
}

void add_comparison(Answer& answer, const Comparison& one, const SpannedComparison& span, const SourceNote& source) {
    const double more = 100 * (one.solid_over_hydraulic - 1);
    answer.headline = "A solid mount bolts up, but differs: at idle it passes on " + fixed(std::abs(more), 0) + " % " +
                      (more >= 0 ? "more" : "less") + ", and bounce is multiplied by " +
                      fixed(one.solid_at_resonance, 1) + " instead of " + fixed(one.hydraulic_at_resonance, 1) +
                      ", by the model as set.";
    answer.lines.push_back(measure_line("hydraulic passes on at idle", one.hydraulic_at_firing, "", 2, source));
    answer.lines.push_back(measure_line("solid passes on at idle", one.solid_at_firing, "", 2, source));
    answer.lines.push_back(measure_line("solid more than hydraulic at idle", more, "%", 0, source));
    answer.lines.push_back(
        measure_line("hydraulic at its natural frequency", one.hydraulic_at_resonance, "times", 1, source));
    answer.lines.push_back(measure_line("solid at its natural frequency", one.solid_at_resonance, "times", 1, source));
    answer.lines.push_back(text_line("solid over hydraulic at idle, over what is assumed",
                                     span_text(span.solid_over_hydraulic, 2) + " times", from_memory()));
    answer.lines.push_back(text_line(
        "assumptions in which hydraulic passes on less at idle",
        std::to_string(span.hydraulic_passes_less) + " of " + std::to_string(span.combinations), from_memory()));
}

Answer answer_solid_for_hydraulic(const Given& given, const Services& services) {
    auto answer = Answer::judging(Verdict::check_first);
    const auto firing = firing_hz(given);
    if (!firing && given.undecided.empty()) refuse("solid-for-hydraulic", "too little", "cylinders and idle together");
    if (!firing) {
        answer.headline = "Cannot tell yet: which record of cylinders and idle speed holds is not known.";
        return answer;
    }
    const auto models = models_of(given, services, answer);
    const auto source = models_source(answer, given);
    const auto one = compare(*firing, models.hydraulic, models.solid);
    const auto span = compare_over(*firing, models.span);
    add_firing(answer, given, firing);
    add_comparison(answer, one, span, source);
    answer.grids = {side_by_side(models, one, span)};
    const double top = std::min(500.0, 1.5 * *firing + 10);
    answer.series = {transmissibility_series(
        {curve_of("hydraulic", models.hydraulic, 0, top), curve_of("solid", models.solid, 0, top)}, firing)};
    answer.assumptions.push_back(model_limits);
    answer.cautions = {
        "idle alone does not decide: without damping a solid mount may even pass on less there; the loss is at "
        "potholes, shut-down and bounce"};
    answer.next = {
        "Look for a hose or plug at the mount: with one it is a switched mount, and this comparison is not the "
        "question."};
    return answer;
}

}  // namespace

Inquiry solid_for_hydraulic_inquiry() {
    std::vector<Input> inputs{cylinders_input(), told(idle_input("idle speed in gear"), "idle_speed")};
    for (const auto& input :
         {key_of(text_input("hydraulic-mount", "interchange group of the hydraulic mount, for what is recorded of it"),
                 "mounts_mounts"),
          key_of(text_input("solid-mount", "interchange group of the solid mount, for what is recorded of it"),
                 "mounts_mounts"),
          assumed(number_input("hydraulic-hz", "natural frequency on the hydraulic mount", "Hz", 0.5, 100), "10"),
          assumed(number_input("hydraulic-damping", "damping ratio of the hydraulic mount", "", 0.001, 2), "0.2"),
          assumed(number_input("stiffness-ratio", "how many times stiffer the solid mount is", "", 0.2, 20), "1.6"),
          assumed(number_input("solid-damping", "damping ratio of the solid mount", "", 0.001, 2), "0.05")})
        inputs.push_back(input);
    return {"solid-for-hydraulic", "What a solid mount in place of a hydraulic one changes at idle and over bumps",
            inputs, answer_solid_for_hydraulic, "cylinders=4 idle=700rpm"};
}

SourceNote firing_source() { return {Evidence::common_practice, "four-stroke, even firing: cylinders x idle / 120"}; }

Input cylinders_input() {
    return found_by(
        recorded(whole(number_input("cylinders", "cylinders of the engine", "", 1, 16)), "mounts_loads", "cylinders"),
        "count the coils or the plugs");
}

Input idle_input(std::string title) {
    return found_by(recorded(number_input("idle", std::move(title), "rpm", 50, 12000), "mounts_loads", "idle_rpm"),
                    "read the maker's idle on the label in the engine bay");
}

std::optional<double> firing_hz(const Given& given) {
    if (!given.has("cylinders") || !given.has("idle")) return std::nullopt;
    return firing_frequency_hz(static_cast<int>(given.number("cylinders")), given.number("idle"));
}

}  // namespace casebound::mounts
