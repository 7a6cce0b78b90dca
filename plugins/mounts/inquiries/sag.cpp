// Engine height left against right, or against the maker's figure.
#include "science/sag.h"

#include <algorithm>
#include <cmath>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/mount_record.h"

namespace casebound::mounts {
namespace {

SagLimits limits_of(const Given& given) { return {given.number("look"), given.number("suspect")}; }

const char* sag_words(SagVerdict verdict) {
    return verdict == SagVerdict::even          ? "within the limits"
           : verdict == SagVerdict::look_closer ? "look closer"
                                                : "suspect";
}

SourceNote limit_source(const Given& given, const char* limit) {
    return given.value(limit).from == From::assumed ? SourceNote{Evidence::memory, "the limits, from memory"}
                                                    : given.source(limit);
}

void add_sides(Answer& answer, const SagAnswer& sag, const Given& given) {
    const std::string low = sag.low_side == LowSide::left ? "left" : sag.low_side == LowSide::right ? "right" : "";
    answer.lines.push_back(measure_line("left", given.number("left"), "mm", 1, given.source("left")));
    answer.lines.push_back(measure_line("right", given.number("right"), "mm", 1, given.source("right")));
    const auto difference = fed_with({Evidence::measured, "difference of the two"},
                                     weaker(given.source("left"), given.source("right")));
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

std::optional<SagVerdict> add_figure(Answer& answer, const Given& given, const char* side) {
    if (!given.has(side) || !given.has("figure")) return std::nullopt;
    const auto height = sag_from_figure(given.number(side), given.number("figure"), limits_of(given));
    answer.lines.push_back(measure_line(std::string(side) + " below the maker's figure", height.below_figure_mm, "mm",
                                        1, weaker(given.source("figure"), given.source(side))));
    return height.verdict;
}

// One side against the figure says nothing of the other.
void one_side_only(Answer& answer, const Given& given, SagVerdict verdict) {
    const std::string side = given.has("left") ? "left" : "right", other = given.has("left") ? "right" : "left";
    answer.headline = "Against the maker's figure the " + side + " is " + sag_words(verdict) + "; the " + other +
                      " is not measured.";
    answer.next.push_back("Measure the height at the " + other + " too.");
    answer.lower(Verdict::check_first);
}

void add_limits(Answer& answer, const Given& given) {
    if (given.value("look").from == From::assumed)
        answer.assumptions.push_back(
            "more than 5 mm: look closer; more than 10 mm: suspect; from memory, a maker's limit replaces both");
    answer.cautions = {"body repair, load and a leaning vehicle imitate a sagged mount: it is suspect, not condemned"};
}

Answer answer_sag(const Given& given, const Services&) {
    auto answer = Answer::judging(Verdict::fits);
    const bool both = given.has("left") && given.has("right");
    std::optional<SagVerdict> between, against;
    if (both) {
        const auto sag = sag_between_sides(given.number("left"), given.number("right"), limits_of(given));
        add_sides(answer, sag, given);
        between = sag.verdict;
    }
    for (const char* side : {"left", "right"})
        if (const auto one = add_figure(answer, given, side)) against = worse(against.value_or(SagVerdict::even), *one);
    if (!between && !against) refuse("sag", "too little", "left and right together, or one of them with figure");
    const auto verdict = worse(between.value_or(SagVerdict::even), against.value_or(SagVerdict::even));
    if (!both) one_side_only(answer, given, verdict);
    else if (between == SagVerdict::even && verdict != SagVerdict::even)
        answer.headline = std::string("Left and right are even, but not against the maker's figure: ") +
                          sag_words(verdict) + ".";
    if (verdict != SagVerdict::even) answer.lower(Verdict::check_first);
    if (both && !against)
        answer.assumptions.push_back("both have not sagged alike: only the maker's figure would show that");
    add_limits(answer, given);
    return answer;
}

}  // namespace

Inquiry sag_inquiry() {
    return {"sag",
            "Engine height left against right, or against the maker's figure",
            {told(number_input("left", "height at the left, from the same kind of point", "mm", 0, 2000),
                  "engine_height_left"),
             told(number_input("right", "height at the right", "mm", 0, 2000), "engine_height_right"),
             recorded(number_input("figure", "the maker's height", "mm", 0, 2000), "mounts_loads", "figure_mm",
                      {{"position", "position"}}),
             choice_input("position", "mount whose recorded height is looked up", position_choices()),
             assumed(number_input("look", "difference from which to look closer", "mm", 0.1, 100), "5"),
             assumed(number_input("suspect", "difference from which a mount is suspect", "mm", 0.1, 100), "10")},
            answer_sag,
            "left=105mm right=118mm"};
}

}  // namespace casebound::mounts
