// Natural frequency and transmissibility of an engine on its mounts, and solid against hydraulic side by side.
#include <algorithm>
#include <cmath>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "inquiries/works_cited.h"
#include "rows/engine_load.h"
#include "rows/mount_record.h"
#include "science/vibration.h"

namespace casebound::mounts {
namespace {

const char* const model_limits =
    "a single mass on springs: it compares mounts, it does not predict what is felt in the seat";
const char* const memory_span = "dynamic stiffness of rubber 1.2 to 2 times the static one, from memory";

SourceNote gravity_source() {
    return {Evidence::common_practice, "f = sqrt(g / deflection) / 2 pi, g 9.80665 m/s2 exact by definition"};
}
SourceNote firing_source() { return {Evidence::common_practice, "four-stroke, even firing: cylinders x idle / 120"}; }

std::vector<Input> engine_inputs() {
    return {number_input("cylinders", "cylinders of the engine", "", 1, 16),
            told(number_input("idle", "idle speed in gear", "rpm", 50, 12000), "idle_speed")};
}

void add_engine(Answer& answer, const EngineLoad& load, const std::optional<double>& firing) {
    if (load.cylinders)
        answer.lines.push_back(measure_line("cylinders", load.cylinders->value, "", 0, load.cylinders->source));
    if (load.idle_rpm)
        answer.lines.push_back(measure_line("idle speed", load.idle_rpm->value, "rpm", 0, load.idle_rpm->source));
    if (firing) answer.lines.push_back(measure_line("firing frequency", *firing, "Hz", 1, firing_source()));
    answer.assumptions.insert(answer.assumptions.end(), load.assumptions.begin(), load.assumptions.end());
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

std::optional<double> static_frequency(const Given& given, const EngineLoad& load, Answer& answer) {
    std::optional<double> hz;
    if (given.has("deflection")) {
        hz = natural_frequency_from_deflection_hz(given.number("deflection"));
        answer.lines.push_back(
            measure_line("static deflection", given.number("deflection"), "mm", 1, given_source(given, "deflection")));
        answer.lines.push_back(measure_line("natural frequency, from deflection", *hz, "Hz", 1, gravity_source()));
    }
    if (given.has("stiffness") && load.carried_kg) {
        const double by_load = natural_frequency_hz(load.carried_kg->value, given.number("stiffness"));
        answer.lines.push_back(measure_line("mass carried", load.carried_kg->value, "kg", 0, load.carried_kg->source));
        answer.lines.push_back(
            measure_line("stiffness", given.number("stiffness"), "N/mm", 0, given_source(given, "stiffness")));
        answer.lines.push_back(
            measure_line("natural frequency, from load and stiffness", by_load, "Hz", 1, textbook()));
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
    return given.has("dynamic-ratio") ? given_source(given, "dynamic-ratio") : from_memory();
}

void judge_isolation(Answer& answer, const Frequencies& natural, double firing, const Given& given) {
    const double damping = given.number("damping");
    const auto ratio_source = fed_with(textbook(), in_motion(given)),
               passed_source = fed_with(ratio_source, given_source(given, "damping"));
    const double stiff = transmissibility(firing / natural.high_hz, damping),
                 soft = transmissibility(firing / natural.low_hz, damping);
    const bool resonant = firing >= natural.low_hz && firing <= natural.high_hz;
    const double least = std::min(stiff, soft);
    const double most = resonant ? transmissibility_at_resonance(damping) : std::max(stiff, soft);
    answer.lines.push_back(
        measure_line("frequency ratio at idle, least", firing / natural.high_hz, "", 2, ratio_source));
    answer.lines.push_back(measure_line("passed on at idle, least", least, "", 2, passed_source));
    answer.lines.push_back(measure_line("passed on at idle, most", most, "", 2, passed_source));
    if (given.values.find("damping")->second.origin == "assumed")
        answer.assumptions.push_back("damping ratio " + number_text(damping) + ", from memory");
    const bool all = isolates(firing / natural.high_hz), some = isolates(firing / natural.low_hz);
    answer.verdict = all ? Verdict::fits : some ? Verdict::check_first : Verdict::does_not_fit;
    answer.headline = all ? "It isolates at idle: the firing frequency is above 1.41 times the natural one" +
                                std::string(given.has("dynamic-ratio")
                                                ? ", at the dynamic ratio given."
                                                : ", with the rubber 1.2 to 2 times as stiff in motion (from memory).")
                      : some ? "Cannot tell: within what is assumed of the rubber, the firing frequency lies on both "
                               "sides of 1.41 times the natural one."
                             : "It does not isolate at idle: the firing frequency is below 1.41 times the natural one.";
}

Answer answer_natural_frequency(const Given& given, const Services& services) {
    Answer answer;
    const auto load = engine_load(given, services);
    const auto hz = static_frequency(given, load, answer);
    if (!hz) refuse("natural-frequency", "too little", "deflection, or carried and stiffness together");
    const auto natural = with_rubber(*hz, given);
    const auto motion = fed_with(textbook(), in_motion(given));
    if (given.has("dynamic-ratio"))
        answer.lines.push_back(measure_line("natural frequency in motion", natural.high_hz, "Hz", 1, motion));
    else {
        answer.lines.push_back(measure_line("natural frequency in motion, least", natural.low_hz, "Hz", 1, motion));
        answer.lines.push_back(measure_line("natural frequency in motion, most", natural.high_hz, "Hz", 1, motion));
    }
    const auto firing = firing_hz(load);
    add_engine(answer, load, firing);
    answer.assumptions.insert(answer.assumptions.end(), {model_limits});
    if (!given.has("dynamic-ratio")) answer.assumptions.push_back(memory_span);
    const double damping = given.number("damping");
    if (firing) judge_isolation(answer, natural, *firing, given);
    else {
        answer.verdict = Verdict::check_first;
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

Inquiry natural_frequency() {
    std::vector<Input> inputs{
        number_input("deflection", "how far the engine's weight presses the mount together", "mm", 0.01, 500),
        number_input("carried", "mass carried by the mounts together", "kg", 0.1, 10000),
        number_input("stiffness", "static stiffness of those mounts together", "N/mm", 0.01, 100000),
        choice_input("position", "look up the mass carried here for the vehicle", position_choices()),
        number_input("dynamic-ratio", "dynamic over static stiffness, if known", "", 1, 5),
        assumed(number_input("damping", "damping ratio", "", 0.001, 2), "0.05")};
    for (auto& input : engine_inputs()) inputs.push_back(input);
    return {"natural-frequency", "Natural frequency of an engine on its mounts, and what it passes on at idle", inputs,
            answer_natural_frequency};
}

// ---------------------------------------------------------------- solid against hydraulic

struct Models {
    MountModel hydraulic, solid;
    ComparisonSpan span{};
};

// A recorded value of the named interchange group stands in for an assumed one; one given by hand beats both.
double recorded_or(const Given& given, const Services& services, const char* input, const char* group,
                   std::optional<double> MountRecord::*field, Answer& answer) {
    const auto& value = given.values.find(input)->second;
    const auto record = given.has(group) ? mount_of_group(services.facts, given.text(group)) : std::nullopt;
    if (value.origin == "assumed" && record && (*record).*field) {
        answer.lines.push_back(measure_line(input, *((*record).*field), "", 2, row_source(record->origin)));
        return *((*record).*field);
    }
    if (value.origin == "assumed")
        answer.assumptions.push_back(std::string(input) + " " + value.text + ", from memory");
    return value.numbers.at(0);
}

Models models_of(const Given& given, const Services& services, Answer& answer) {
    Models models{};
    models.hydraulic = {
        recorded_or(given, services, "hydraulic-hz", "hydraulic-mount", &MountRecord::natural_hz, answer),
        recorded_or(given, services, "hydraulic-damping", "hydraulic-mount", &MountRecord::damping_ratio, answer)};
    models.solid = {models.hydraulic.natural_hz * std::sqrt(given.number("stiffness-ratio")),
                    recorded_or(given, services, "solid-damping", "solid-mount", &MountRecord::damping_ratio, answer)};
    const auto record = given.has("solid-mount") ? mount_of_group(services.facts, given.text("solid-mount"))
                                                 : std::nullopt;
    if (record && record->natural_hz && given.values.find("stiffness-ratio")->second.origin == "assumed") {
        models.solid.natural_hz = *record->natural_hz;
        answer.lines.push_back(measure_line("solid-hz", *record->natural_hz, "Hz", 1, row_source(record->origin)));
    } else if (given.values.find("stiffness-ratio")->second.origin == "assumed") {
        answer.assumptions.push_back("stiffness-ratio " + given.text("stiffness-ratio") + ", from memory");
    }
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
SourceNote models_source(const Answer& answer) {
    SourceNote source = answer.assumptions.empty() ? textbook() : fed_with(textbook(), from_memory());
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
    Answer answer;
    const auto load = engine_load(given, services);
    const auto firing = firing_hz(load);
    if (!firing) refuse("solid-for-hydraulic", "too little", "cylinders and idle together");
    const auto models = models_of(given, services, answer);
    const auto source = models_source(answer);
    const auto one = compare(*firing, models.hydraulic, models.solid);
    const auto span = compare_over(*firing, models.span);
    add_engine(answer, load, firing);
    add_comparison(answer, one, span, source);
    answer.verdict = Verdict::check_first;
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

Inquiry solid_for_hydraulic() {
    std::vector<Input> inputs = engine_inputs();
    for (auto& input :
         {word_input(Input::Kind::text, "hydraulic-mount",
                     "interchange group of the hydraulic mount, for what is recorded of it"),
          word_input(Input::Kind::text, "solid-mount",
                     "interchange group of the solid mount, for what is recorded of it"),
          choice_input("position", "mount whose row of the vehicle's line is looked up", position_choices()),
          assumed(number_input("hydraulic-hz", "natural frequency on the hydraulic mount", "Hz", 0.5, 100), "10"),
          assumed(number_input("hydraulic-damping", "damping ratio of the hydraulic mount", "", 0.001, 2), "0.2"),
          assumed(number_input("stiffness-ratio", "how many times stiffer the solid mount is", "", 0.2, 20), "1.6"),
          assumed(number_input("solid-damping", "damping ratio of the solid mount", "", 0.001, 2), "0.05")})
        inputs.push_back(input);
    return {"solid-for-hydraulic", "What a solid mount in place of a hydraulic one changes at idle and over bumps",
            inputs, answer_solid_for_hydraulic};
}

}  // namespace

std::vector<Inquiry> vibration_inquiries() { return {natural_frequency(), solid_for_hydraulic()}; }

}  // namespace casebound::mounts
