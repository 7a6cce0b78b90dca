// Tightening in stages with the units converted, and what is recorded for the vehicle.
#include "rows/tightening.h"

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/mount_record.h"
#include "science/stages.h"

namespace casebound::mounts {
namespace {

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
    for (std::size_t i = 0; i < stages.size(); ++i) add_stage(answer, i + 1, stages[i], given.source("stages"));
    answer.headline = "Tighten in this order: " + stages_text(stages) + ".";
    if (stages.size() > 1)
        answer.cautions.push_back("stages are not added up: go round all fasteners at each stage before the next");
    if (wants_new_bolts(stages))
        answer.cautions.push_back(
            "torque plus angle takes a bolt towards plastic stretch: new bolts unless the maker's text allows the old");
}

// A row that holds on some of the configurations left only is no answer yet.
void add_recorded(Answer& answer, const Given& given, const Services& services) {
    const auto position = given.has("position") ? position_from(given.text("position")) : Position::unknown;
    const auto rows = fasteners_at(services, position);
    bool open = false;
    std::string only;
    for (const auto& row : rows) {
        const auto fastener = fastener_of(row);
        const std::string label = std::string(row->text("position")) + " mount, " + fastener.what;
        answer.lines.push_back(text_line(label, fastener.tightening, fastener.source));
        only = label + ": " + fastener.tightening;
        open |= row.holds == Holds::open;
    }
    if (rows.empty() || !answer.headline.empty()) return;
    if (open) answer.lower(Verdict::check_first);
    answer.headline = open              ? "As recorded, but which row holds is not known yet: see the conditions."
                      : rows.size() > 1 ? "As recorded for this line, each fastener by itself."
                                        : "As recorded: " + only + ".";
}

Answer answer_tightening(const Given& given, const Services& services) {
    auto answer = Answer::computing();
    if (given.has("stages")) add_stages(answer, given);
    add_recorded(answer, given, services);
    if (answer.lines.empty()) {
        answer.lower(Verdict::not_recorded);
        answer.headline = "No tightening is recorded: find the maker's, do not take a usual one.";
    }
    answer.cautions.push_back("inch and foot units differ by 12: a torque read as the other one breaks the bolt");
    answer.cautions.push_back(
        "all mount fasteners loose, engine settled in its free position, then tighten; else the new mount is "
        "preloaded");
    return answer;
}

}  // namespace

Inquiry tightening_inquiry() {
    return {"tightening",
            "Torques and angle stages in order, converted and never added up; or what is recorded for the vehicle",
            {helped(text_input("stages", "stages in order, each number with its unit"),
                    "\"27 N m + 60 deg + 30 deg\", \"65 lbf in\""),
             choice_input("position", "only this mount of what is recorded", position_choices())},
            answer_tightening,
            "stages=\"65 lbf in\""};
}

}  // namespace casebound::mounts
