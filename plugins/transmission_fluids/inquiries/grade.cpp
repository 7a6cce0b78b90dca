// oil-grade: classes of published standards, with their edition, and whether one class keeps every limit of another. A
// class is never a specification: both must match.
#include <algorithm>
#include <utility>

#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "science/grades.h"

namespace casebound::transmission_fluids {

namespace {

std::vector<std::pair<std::string, OilScale>> oil_scales() {
    return {{"j306-2005", OilScale::j306_2005}, {"j306-2019", OilScale::j306_2019}, {"j300-2015", OilScale::j300_2015}};
}

OilScale oil_scale(const std::string& name) {
    for (const auto& [known, scale] : oil_scales())
        if (known == name) return scale;
    refuse("scale", name, "j306-2005, j306-2019, j300-2015");
}

SourceNote scale_source(const std::string& name) {
    if (name == "jaso-m315") return standard("JASO M315, class names only");
    if (name == "iso-3448") return standard("ISO 3448");
    return standard(std::string(scale_name(oil_scale(name))));
}

std::string limit_text(const std::optional<double>& value, const char* unit) {
    return value ? quantity_text(*value, unit) : "-";
}

std::string at_text(const std::optional<double>& value, const std::optional<double>& temp_c) {
    return value && temp_c ? quantity_text(*value, "") + " at " + quantity_text(*temp_c, "°C") : "-";
}

Grid class_grid(OilScale scale) {
    const bool engine = scale == OilScale::j300_2015;
    Grid grid{std::string(scale_name(scale)) +
                  (engine ? ": viscosity at 100 °C; cranking and pumping in mPa s; high shear at 150 °C, from"
                          : ": viscosity at 100 °C"),
              {"class", "from", "below"},
              {},
              {}};
    if (engine) grid.columns.insert(grid.columns.end(), {"cranking to", "pumping to", "shear"});
    else grid.columns.push_back("150 000 mPa s at");
    for (const auto& row : viscosity_classes(scale)) {
        std::vector<std::string> cells{std::string(row.name), quantity_text(row.kv100_min_mm2_s, "mm2/s"),
                                       limit_text(row.kv100_below_mm2_s, "mm2/s")};
        if (engine)
            cells.insert(cells.end(),
                         {at_text(row.cranking_max_mpas, row.cranking_c), at_text(row.pumping_max_mpas, row.pumping_c),
                          limit_text(row.hths_min_mpas, "mPa s")});
        else cells.push_back(limit_text(row.temp_at_150000_c, "°C"));
        grid.rows.push_back(std::move(cells));
    }
    return grid;
}

void say_comparison(const GradeAnswer& result, const SourceNote& source, Answer& answer) {
    if (result.verdict == GradeVerdict::does_not_cover) answer.lower(Verdict::does_not_fit);
    if (result.verdict == GradeVerdict::not_comparable) answer.lower(Verdict::not_recorded);
    answer.headline = result.why + ".";
    answer.lines.push_back(text_line("offered for wanted", result.why, source));
}

template <typename Names> std::string names_of(const Names& names) {
    return listed(std::vector<std::string>(names.begin(), names.end()));
}

void say_class_of(double kv100, std::optional<double> hths, OilScale scale, const SourceNote& source, Answer& answer) {
    const auto names = hot_classes_at(scale, kv100, hths);
    const std::string text = names.empty() ? "none" : names_of(names);
    answer.lines.push_back(text_line("class of " + quantity_text(kv100, "mm2/s") + " at 100 °C", text, source));
    if (answer.headline.empty())
        answer.headline = quantity_text(kv100, "mm2/s") + " at 100 °C falls in class " + text + " of " +
                          std::string(scale_name(scale)) + ".";
    if (names.size() > 1) {
        answer.lower(Verdict::check_first);
        answer.next.push_back("Classes overlap here: give hths, the high-shear viscosity at 150 °C, to decide.");
    }
}

void answer_oil_scale(const Given& given, Answer& answer) {
    const std::string& name = given.text("scale");
    const OilScale scale = oil_scale(name);
    const OilScale offered_scale = given.has("offered_scale") ? oil_scale(given.text("offered_scale")) : scale;
    if (given.has("wanted") && given.has("offered"))
        say_comparison(
            grade_covers(oil_grade(offered_scale, given.text("offered")), oil_grade(scale, given.text("wanted"))),
            scale_source(name), answer);
    if (given.has("kv100"))
        say_class_of(given.number("kv100"), given.maybe_number("hths"), scale, scale_source(name), answer);
    answer.grids.push_back(class_grid(scale));
}

void answer_jaso(const Given& given, Answer& answer) {
    if (given.has("wanted") && given.has("offered"))
        say_comparison(jaso_m315_compare(given.text("offered"), given.text("wanted")), scale_source("jaso-m315"),
                       answer);
    answer.lines.push_back(text_line("classes", names_of(jaso_m315_classes()), scale_source("jaso-m315")));
    answer.lines.push_back(text_line("limits", std::string(jaso_m315_limits), scale_source("jaso-m315")));
    answer.cautions.push_back(
        "The limits of JASO M315 are not to be had here: two different classes are never ranked.");
}

void answer_iso(const Given& given, Answer& answer) {
    if (!given.has("kv40")) return;
    const auto grade = iso_vg_at(given.number("kv40"));
    answer.headline = quantity_text(given.number("kv40"), "mm2/s") + " at 40 °C is " +
                      (grade ? "ISO VG " + std::to_string(*grade) : "between two classes") + ".";
    answer.lines.push_back(
        text_line("ISO 3448", grade ? "VG " + std::to_string(*grade) : "no class", scale_source("iso-3448")));
}

Answer answer_oil_grade(const Given& given, const Services&) {
    const bool compares = given.has("wanted") && given.has("offered");
    auto answer = compares ? Answer::judging(Verdict::fits) : Answer::computing();
    const std::string& scale = given.text("scale");
    if (scale == "jaso-m315") answer_jaso(given, answer);
    else if (scale == "iso-3448") answer_iso(given, answer);
    else answer_oil_scale(given, answer);
    if (answer.headline.empty()) {
        answer.headline = "Cannot tell yet: there is nothing to compare.";
        missing(answer, scale == "iso-3448" ? "kv40" : "wanted and offered",
                scale == "iso-3448" ? "the viscosity at 40 °C."
                                    : "two classes as printed, or kv100, the viscosity at 100 °C.");
    }
    answer.cautions.push_back(
        "A viscosity class is never a specification: both must match. SAE J300 and J306 numbers are separate scales, "
        "and limits differ between editions.");
    return answer;
}

Inquiry oil_grade_inquiry() {
    const std::vector<std::string> editions{"j306-2005", "j306-2019", "j300-2015"};
    auto scales = editions;
    scales.insert(scales.end(), {"iso-3448", "jaso-m315"});
    return {"oil-grade",
            "Viscosity classes of SAE J306, SAE J300 and ISO 3448, and class names of JASO M315",
            {required(choice_input("scale", "standard and edition", std::move(scales))),
             text_input("wanted", "class called for, as printed: 75W-90"),
             text_input("offered", "class of the one at hand"),
             choice_input("offered_scale", "edition of the one at hand, if another", editions),
             number_input("kv100", "viscosity at 100 °C", "mm2/s", 0.1, 1000),
             number_input("hths", "high-shear viscosity at 150 °C", "mPa s", 0.1, 100),
             number_input("kv40", "viscosity at 40 °C, for ISO 3448", "mm2/s", 0.1, 1e6)},
            answer_oil_grade,
            "scale=j306-2019 wanted=75W-90 offered=80W-90"};
}

}  // namespace

std::vector<Inquiry> grade_inquiries() { return {oil_grade_inquiry()}; }

}  // namespace casebound::transmission_fluids
