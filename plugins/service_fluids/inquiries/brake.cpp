// Brake fluid: whether one grade keeps every limit of another. Bases are never crossed, and brakes take the exact grade.
#include "science/brake_fluid.h"

#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"

namespace casebound::service_fluids {
namespace {

std::string limit_text(const std::optional<double>& value, const char* unit) {
    return value ? quantity_text(*value, unit) : "-";
}

SourceNote fmvss(const char* clause) { return law(std::string("49 CFR 571.116, ") + clause); }

// Rows of the grid below on which the offered one falls short; a base that differs decides alone.
std::vector<std::size_t> failing_rows(const BrakeFluidGrade& wanted, const BrakeFluidGrade& offered) {
    if (wanted.base != offered.base) return {0};
    std::vector<std::size_t> rows;
    if (offered.dry_boiling_min_c < wanted.dry_boiling_min_c) rows.push_back(1);
    if (offered.wet_boiling_min_c < wanted.wet_boiling_min_c) rows.push_back(2);
    if (offered.kv_minus_40_max_mm2_s > wanted.kv_minus_40_max_mm2_s) rows.push_back(3);
    if (offered.kv_100_min_mm2_s < wanted.kv_100_min_mm2_s) rows.push_back(4);
    return rows;
}

void say_from_memory(const std::string& wanted, const std::string& offered, Answer& answer) {
    for (const std::string name : {"DOT 5", "DOT 5.1"})
        if (wanted == name || offered == name)
            answer.assumptions.push_back("From memory: the limit at 100 °C of " + name +
                                         (name == "DOT 5.1" ? ", and its colour." : "."));
}

Grid brake_grid(const BrakeFluidGrade& wanted, const BrakeFluidGrade& offered) {
    const auto row = [&](const char* what, auto text) {
        return std::vector<std::string>{what, text(wanted), text(offered)};
    };
    const auto number = [](std::optional<double> BrakeFluidGrade::*part, const char* unit) {
        return [part, unit](const BrakeFluidGrade& grade) { return limit_text(grade.*part, unit); };
    };
    return {"Limits of 49 CFR 571.116",
            {"limit", "wanted, " + std::string(wanted.name), "offered, " + std::string(offered.name)},
            {row("base", [](const auto& g) { return std::string(base_name(g.base)); }),
             row("dry boiling point, from", number(&BrakeFluidGrade::dry_boiling_min_c, "°C")),
             row("wet boiling point, from", number(&BrakeFluidGrade::wet_boiling_min_c, "°C")),
             row("at -40 °C, to", number(&BrakeFluidGrade::kv_minus_40_max_mm2_s, "mm2/s")),
             row("at 100 °C, from", number(&BrakeFluidGrade::kv_100_min_mm2_s, "mm2/s")),
             row("colour", [](const auto& g) { return std::string(g.colour); })},
            failing_rows(wanted, offered)};
}

Verdict brake_verdict(BrakeFluidVerdict verdict) {
    switch (verdict) {
        case BrakeFluidVerdict::same_grade: return Verdict::fits;
        case BrakeFluidVerdict::keeps_every_limit: return Verdict::check_first;
        case BrakeFluidVerdict::falls_short: return Verdict::does_not_fit;
        case BrakeFluidVerdict::base_differs: return Verdict::does_not_fit;
    }
    return Verdict::does_not_fit;
}

std::string brake_headline(const BrakeFluidAnswer& result, const std::string& wanted, const std::string& offered) {
    switch (result.verdict) {
        case BrakeFluidVerdict::same_grade: return "Both are " + wanted + ".";
        case BrakeFluidVerdict::keeps_every_limit:
            return offered + " keeps every limit of " + wanted +
                   "; still the exact grade, unless the vehicle's maker names this one too.";
        case BrakeFluidVerdict::falls_short: return offered + " does not keep the limits of " + wanted + ".";
        case BrakeFluidVerdict::base_differs:
            return "The base differs, and a base is never crossed, whatever the numbers say.";
    }
    return "";
}

Answer answer_brake_fluid(const Given& given, const Services&) {
    const auto &wanted = given.text("wanted"), &offered = given.text("offered");
    const auto result = brake_fluid_may_replace(offered, wanted);
    auto answer = Answer::judging(brake_verdict(result.verdict));
    answer.headline = brake_headline(result, wanted, offered);
    for (const auto& reason : result.reasons)
        answer.lines.push_back(
            text_line(result.verdict == BrakeFluidVerdict::base_differs ? "base" : "limit not kept", reason,
                      fmvss(result.verdict == BrakeFluidVerdict::base_differs ? "S4, S5.1.14" : "S5.1.1 to S5.1.3")));
    answer.grids.push_back(brake_grid(brake_fluid_grade(wanted), brake_fluid_grade(offered)));
    say_from_memory(wanted, offered, answer);
    answer.cautions.push_back(
        "Brakes: exact grade only, as the vehicle's maker names it. Keeping the limits is necessary, never "
        "sufficient.");
    return answer;
}

}  // namespace

Inquiry brake_fluid_inquiry() {
    const std::vector<std::string> grades{"DOT 3", "DOT 4", "DOT 5", "DOT 5.1", "HSMO"};
    return {"brake-fluid",
            "Whether one brake-fluid grade keeps every limit of another (49 CFR 571.116)",
            {required(choice_input("wanted", "grade called for", grades)),
             required(choice_input("offered", "grade at hand; HSMO is hydraulic system mineral oil", grades))},
            answer_brake_fluid,
            "wanted=\"DOT 5.1\" offered=\"DOT 4\""};
}

}  // namespace casebound::service_fluids
