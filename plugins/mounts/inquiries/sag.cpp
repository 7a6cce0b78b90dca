// Engine height left against right, and tightening in stages with the units converted.
#include <algorithm>
#include <cmath>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/engine_load.h"
#include "rows/mount_record.h"
#include "rows/where.h"
#include "science/sag.h"
#include "science/stages.h"

namespace casebound::mounts {
namespace {

// ---------------------------------------------------------------- sag

SagLimits limits_of(const Given& given) { return {given.number("look"), given.number("suspect")}; }

const char* sag_words(SagVerdict verdict) {
    return verdict == SagVerdict::even          ? "within the limits"
           : verdict == SagVerdict::look_closer ? "look closer"
                                                : "suspect";
}

SourceNote limit_source(const Given& given, const char* limit) {
    return given.values.find(limit)->second.origin == "assumed"
               ? SourceNote{Evidence::memory, "the limits, from memory"}
               : given_source(given, limit);
}

void add_sides(Answer& answer, const SagAnswer& sag, const Given& given) {
    const std::string low = sag.low_side == LowSide::left ? "left" : sag.low_side == LowSide::right ? "right" : "";
    answer.lines.push_back(measure_line("left", given.number("left"), "mm", 1, given_source(given, "left")));
    answer.lines.push_back(measure_line("right", given.number("right"), "mm", 1, given_source(given, "right")));
    const auto difference = fed_with({Evidence::measured, "difference of the two"},
                                     weaker(given_source(given, "left"), given_source(given, "right")));
    answer.lines.push_back(measure_line("left minus right", sag.left_minus_right_mm, "mm", 1, difference));
    answer.lines.push_back(
        text_line("left against right",
                  std::string(sag_words(sag.verdict)) + (low.empty() ? "" : "; the " + low + " side hangs lower"),
                  weaker(difference, weaker(limit_source(given, "look"), limit_source(given, "suspect")))));
    if (sag.verdict == SagVerdict::even)
        answer.headline = "Left and right are even within the limits: neither is suspect against the other.";
    else
        answer.headline = "The " + low + " side hangs " + fixed(std::abs(sag.left_minus_right_mm), 1) + " mm lower: " +
                          (sag.verdict == SagVerdict::suspect ? "the " + low + " mount is suspect."
                                                              : "look closer at the " + low + " mount.");
}

SagVerdict worse(SagVerdict a, SagVerdict b) { return std::max(a, b); }

std::optional<SagVerdict> add_figure(Answer& answer, const Given& given, const char* side,
                                     const std::optional<Known>& figure) {
    if (!figure || !given.has(side)) return std::nullopt;
    const auto height = sag_from_figure(given.number(side), figure->value, limits_of(given));
    answer.lines.push_back(measure_line(std::string(side) + " below the maker's figure", height.below_figure_mm, "mm",
                                        1, weaker(figure->source, given_source(given, side))));
    return height.verdict;
}

Answer answer_sag(const Given& given, const Services& services) {
    Answer answer;
    const auto load = engine_load(given, services);
    const bool both = given.has("left") && given.has("right");
    std::optional<SagVerdict> verdict;
    if (both) {
        const auto sag = sag_between_sides(given.number("left"), given.number("right"), limits_of(given));
        add_sides(answer, sag, given);
        verdict = sag.verdict;
    }
    for (const char* side : {"left", "right"})
        if (const auto one = add_figure(answer, given, side, load.figure_mm))
            verdict = worse(verdict.value_or(SagVerdict::even), *one);
    if (!verdict) refuse("sag", "too little", "left and right together, or one of them with figure");
    if (!both) {
        const std::string side = given.has("left") ? "left" : "right", other = given.has("left") ? "right" : "left";
        answer.headline = "Against the maker's figure the " + side + " is " +
                          (*verdict == SagVerdict::even ? "within the limits" : sag_words(*verdict)) + "; the " +
                          other + " is not measured.";
        answer.next.push_back("Measure the height at the " + other + " too.");
    } else if (load.figure_mm && *verdict != SagVerdict::even && answer.headline.find("even") != std::string::npos)
        answer.headline = std::string("Left and right are even, but not against the maker's figure: ") +
                          sag_words(*verdict) + ".";
    answer.verdict = *verdict == SagVerdict::even && both ? Verdict::fits : Verdict::check_first;
    answer.assumptions = load.assumptions;
    if (both && !load.figure_mm)
        answer.assumptions.push_back("both have not sagged alike: only the maker's figure would show that");
    if (given.values.find("look")->second.origin == "assumed")
        answer.assumptions.push_back(
            "more than 5 mm: look closer; more than 10 mm: suspect; from memory, a maker's limit replaces both");
    answer.cautions = {"body repair, load and a leaning vehicle imitate a sagged mount: it is suspect, not condemned"};
    return answer;
}

Inquiry sag() {
    return {"sag",
            "Engine height left against right, or against the maker's figure",
            {told(number_input("left", "height at the left, from the same kind of point", "mm", 0, 2000),
                  "engine_height_left"),
             told(number_input("right", "height at the right", "mm", 0, 2000), "engine_height_right"),
             number_input("figure", "the maker's height", "mm", 0, 2000),
             choice_input("position", "mount whose recorded height is looked up", position_choices()),
             assumed(number_input("look", "difference from which to look closer", "mm", 0.1, 100), "5"),
             assumed(number_input("suspect", "difference from which a mount is suspect", "mm", 0.1, 100), "10")},
            answer_sag};
}

// ---------------------------------------------------------------- tightening

SourceNote exact_units() { return {Evidence::standard, "pound 0.45359237 kg, inch 25.4 mm, exact; g 9.80665 m/s2"}; }

void add_stage(Answer& answer, std::size_t number, const Stage& stage, const SourceNote& source) {
    const std::string label = "stage " + std::to_string(number);
    if (stage.kind == StageKind::angle) {
        answer.lines.push_back(measure_line(label, stage.amount, "deg", 0, source));
        return;
    }
    answer.lines.push_back(measure_line(label, stage.amount, "N m", 1, source));
    answer.lines.push_back(
        measure_line(label + ", in foot units", stage.amount / nm_per_lbf_ft, "lbf ft", 1, exact_units()));
    answer.lines.push_back(
        measure_line(label + ", in inch units", stage.amount / nm_per_lbf_in, "lbf in", 0, exact_units()));
}

std::vector<Stage> stages_of(const std::string& text) {
    const auto stages = read_stages(text);
    if (!stages)
        refuse("stages", text,
               "a list such as \"45 N m\", \"65 lbf in\" or \"27 N m + 60 deg + 30 deg\", each number with its unit, a "
               "torque first");
    return *stages;
}

void add_stages(Answer& answer, const Given& given) {
    const auto stages = stages_of(given.text("stages"));
    for (std::size_t i = 0; i < stages.size(); ++i) add_stage(answer, i + 1, stages[i], given_source(given, "stages"));
    answer.headline = "Tighten in this order: " + stages_text(stages) + ".";
    if (stages.size() > 1)
        answer.cautions.push_back("stages are not added up: go round all fasteners at each stage before the next");
    if (wants_new_bolts(stages))
        answer.cautions.push_back(
            "torque plus angle takes a bolt towards plastic stretch: new bolts unless the maker's text allows the old");
}

// True where a row holds on some of the configurations left only.
bool add_recorded(Answer& answer, const Given& given, const Services& services) {
    bool open = false;
    for (const auto& row : rows_of_line(services, "mounts_fasteners")) {
        if (given.has("position") && row.text("position") != given.text("position")) continue;
        const auto where = where_text(row, services.vehicle);
        open |= !where.empty();
        const std::string tightening{row.text("tightening")};
        answer.lines.push_back(
            text_line(std::string(row.text("position")) + " mount, " + std::string(row.text("count")) + " x " +
                          std::string(row.text("fastener")),
                      (tightening.empty() ? "tightening not stated" : stages_text(stages_of(tightening))) +
                          (row.text("reuse") == "never" ? "; new each time" : "") +
                          (row.text("settle_first") == "yes" ? "; loose until the engine has settled" : "") +
                          (where.empty() ? "" : " (" + where + ")"),
                      row_source(row.origin)));
    }
    return open;
}

std::string recorded_headline(const Answer& answer, bool open) {
    if (open) return "As recorded, but which row holds is not known yet: see the conditions.";
    if (answer.lines.size() > 1) return "As recorded for this line, each fastener by itself.";
    const auto& only = answer.lines.front();
    return "As recorded: " + only.label + ": " + std::get<std::string>(only.value) + ".";
}

Answer answer_tightening(const Given& given, const Services& services) {
    Answer answer;
    if (given.has("stages")) add_stages(answer, given);
    const bool open = add_recorded(answer, given, services);
    if (answer.lines.empty()) {
        answer.verdict = Verdict::not_recorded;
        answer.headline = "No tightening is recorded: find the maker's, do not take a usual one.";
    } else if (answer.headline.empty()) {
        answer.headline = recorded_headline(answer, open);
        if (open) answer.verdict = Verdict::check_first;
    }
    answer.cautions.push_back("inch and foot units differ by 12: a torque read as the other one breaks the bolt");
    answer.cautions.push_back(
        "all mount fasteners loose, engine settled in its free position, then tighten; else the new mount is "
        "preloaded");
    return answer;
}

Inquiry tightening() {
    return {"tightening",
            "Torques and angle stages in order, converted and never added up; or what is recorded for the vehicle",
            {helped(word_input(Input::Kind::text, "stages", "stages in order, each number with its unit"),
                    "\"27 N m + 60 deg + 30 deg\", \"65 lbf in\""),
             choice_input("position", "only this mount of what is recorded", position_choices())},
            answer_tightening};
}

}  // namespace

std::vector<Inquiry> fitting_inquiries() { return {sag(), tightening()}; }

}  // namespace casebound::mounts
