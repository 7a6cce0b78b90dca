#include "science/grades.h"

#include <algorithm>
#include <array>

#include "core/contract/valid_range.h"

namespace casebound::transmission_fluids {

namespace {

constexpr auto open_ended = std::nullopt;

// SAE J306, 2005 edition. Its low-temperature limits are not recorded here.
constexpr std::array<ViscosityClass, 11> j306_2005{{
    {"70W", true, 4.1},
    {"75W", true, 4.1},
    {"80W", true, 7.0},
    {"85W", true, 11.0},
    {"80", false, 7.0, 11.0},
    {"85", false, 11.0, 13.5},
    {"90", false, 13.5, 18.5},
    {"110", false, 18.5, 24.0},
    {"140", false, 24.0, 32.5},
    {"190", false, 32.5, 41.0},
    {"250", false, 41.0, open_ended},
}};

// SAE J306, February 2019 edition.
constexpr std::array<ViscosityClass, 14> j306_2019{{
    {"70W", true, 3.8, open_ended, -55.0},
    {"75W", true, 3.8, open_ended, -40.0},
    {"80W", true, 8.5, open_ended, -26.0},
    {"85W", true, 11.0, open_ended, -12.0},
    {"65", false, 3.8, 5.0},
    {"70", false, 5.0, 6.5},
    {"75", false, 6.5, 8.5},
    {"80", false, 8.5, 11.0},
    {"85", false, 11.0, 13.5},
    {"90", false, 13.5, 18.5},
    {"110", false, 18.5, 24.0},
    {"140", false, 24.0, 32.5},
    {"190", false, 32.5, 41.0},
    {"250", false, 41.0, open_ended},
}};

constexpr ViscosityClass engine_winter(std::string_view name, double cranking_mpas, double cranking_c, double pumping_c,
                                       double kv100) {
    return {name, true, kv100, open_ended, open_ended, cranking_mpas, cranking_c, 60000.0, pumping_c, open_ended};
}

constexpr ViscosityClass engine_hot(std::string_view name, double kv100, double below, double hths) {
    return {name, false, kv100, below, open_ended, open_ended, open_ended, open_ended, open_ended, hths};
}

// SAE J300, January 2015. 40 stands with its lower high-shear limit.
constexpr std::array<ViscosityClass, 14> j300_2015{{
    engine_winter("0W", 6200, -35, -40, 3.8),
    engine_winter("5W", 6600, -30, -35, 3.8),
    engine_winter("10W", 7000, -25, -30, 4.1),
    engine_winter("15W", 7000, -20, -25, 5.6),
    engine_winter("20W", 9500, -15, -20, 5.6),
    engine_winter("25W", 13000, -10, -15, 9.3),
    engine_hot("8", 4.0, 6.1, 1.7),
    engine_hot("12", 5.0, 7.1, 2.0),
    engine_hot("16", 6.1, 8.2, 2.3),
    engine_hot("20", 6.9, 9.3, 2.6),
    engine_hot("30", 9.3, 12.5, 2.9),
    engine_hot("40", 12.5, 16.3, 3.5),
    engine_hot("50", 16.3, 21.9, 3.7),
    engine_hot("60", 21.9, 26.1, 3.7),
}};

// ISO 3448.
constexpr std::array<IsoClass, 18> iso_3448{{
    {2, 2.2, 1.98, 2.42},
    {3, 3.2, 2.88, 3.52},
    {5, 4.6, 4.14, 5.06},
    {7, 6.8, 6.12, 7.48},
    {10, 10, 9.0, 11.0},
    {15, 15, 13.5, 16.5},
    {22, 22, 19.8, 24.2},
    {32, 32, 28.8, 35.2},
    {46, 46, 41.4, 50.6},
    {68, 68, 61.2, 74.8},
    {100, 100, 90.0, 110.0},
    {150, 150, 135.0, 165.0},
    {220, 220, 198.0, 242.0},
    {320, 320, 288.0, 352.0},
    {460, 460, 414.0, 506.0},
    {680, 680, 612.0, 748.0},
    {1000, 1000, 900.0, 1100.0},
    {1500, 1500, 1350.0, 1650.0},
}};

// JASO M315:2013, classes as the 2015 revision keeps them.
constexpr std::array<std::string_view, 3> jaso_classes{"1-A13", "1-A-LV13", "2-A13"};

template <typename Range, typename NameOf> std::string listed(const Range& rows, NameOf name_of) {
    std::string text;
    for (const auto& row : rows) text.append(text.empty() ? "" : ", ").append(name_of(row));
    return text;
}

const ViscosityClass* find_class(OilScale scale, std::string_view name) {
    for (const ViscosityClass& row : viscosity_classes(scale))
        if (row.name == name) return &row;
    return nullptr;
}

const ViscosityClass& winter_class_of(OilScale scale, std::string_view name) {
    const ViscosityClass* row = find_class(scale, name);
    if (row != nullptr && row->winter) return *row;
    refuse(std::string(scale_name(scale)) + " winter class", name,
           scale == OilScale::j300_2015 ? "0W to 25W" : "70W to 85W");
}

double check_kv100(double kv100_mm2_s) { return above("viscosity at 100 °C", kv100_mm2_s, 0, 1000, "mm2/s"); }

std::string label_of(const OilGrade& grade) {
    std::string label = grade.winter != nullptr ? std::string(grade.winter->name) : "";
    if (grade.hot == nullptr) return label;
    if (!label.empty()) label += "-";
    return label.append(grade.hot->name);
}

bool same_limits(const ViscosityClass* a, const ViscosityClass* b) {
    if (a == nullptr || b == nullptr) return a == b;
    return a->kv100_min_mm2_s == b->kv100_min_mm2_s && a->kv100_below_mm2_s == b->kv100_below_mm2_s;
}

GradeAnswer across_scales(const OilGrade& offered, const OilGrade& wanted) {
    if (offered.scale == OilScale::j300_2015 || wanted.scale == OilScale::j300_2015)
        return {GradeVerdict::not_comparable, "SAE J300 (engine) and SAE J306 (gear) numbers are separate scales"};
    const bool same = label_of(offered) == label_of(wanted) && offered.winter == nullptr &&
                      same_limits(offered.hot, wanted.hot);
    if (same) return {GradeVerdict::same, "same class with the same limits in both editions"};
    return {GradeVerdict::not_comparable, label_of(offered) + " of " + std::string(scale_name(offered.scale)) +
                                              " and " + label_of(wanted) + " of " +
                                              std::string(scale_name(wanted.scale)) +
                                              ": limits changed between the editions or are not recorded for both"};
}

// Rows of a scale run from the coldest winter class to the warmest.
bool colder_or_same(const ViscosityClass* offered, const ViscosityClass* wanted) {
    return offered != nullptr && offered <= wanted;
}

// The thinnest at 100 °C that a grade allows: both of its classes must be kept.
double kv100_min(const OilGrade& grade) {
    const double winter = grade.winter != nullptr ? grade.winter->kv100_min_mm2_s : 0;
    return std::max(winter, grade.hot != nullptr ? grade.hot->kv100_min_mm2_s : 0);
}

// What keeps `offered` from covering `wanted`; empty: nothing.
std::string shortfall(const OilGrade& offered, const OilGrade& wanted) {
    if (wanted.winter != nullptr && !colder_or_same(offered.winter, wanted.winter))
        return "cold limit of " + std::string(wanted.winter->name) + " is not kept";
    if (wanted.hot != nullptr && offered.hot != wanted.hot)
        return "class at 100 °C is not " + std::string(wanted.hot->name);
    if (kv100_min(offered) < kv100_min(wanted))
        return "may be too thin at 100 °C: from " + number_text(kv100_min(offered)) + " against " +
               number_text(kv100_min(wanted)) + " mm2/s";
    if (hths_min_mpas(offered).value_or(0) < hths_min_mpas(wanted).value_or(0))
        return "high-shear limit at 150 °C is lower: " + number_text(*hths_min_mpas(offered)) + " against " +
               number_text(*hths_min_mpas(wanted)) + " mPa s";
    return "";
}

// 85W asks for 11.0 mm2/s and 80 for less: no oil can be an 85W-80.
void check_possible(const OilGrade& grade, std::string_view label) {
    const double least = kv100_min(grade);
    if (grade.hot == nullptr || !grade.hot->kv100_below_mm2_s) return;
    if (least >= *grade.hot->kv100_below_mm2_s)
        refuse(std::string(scale_name(grade.scale)) + " grade", label,
               "a pair whose limits at 100 °C meet; " + std::string(grade.winter->name) + " asks for " +
                   number_text(least) + " mm2/s, " + std::string(grade.hot->name) + " for less");
}

}  // namespace

std::string_view scale_name(OilScale scale) {
    constexpr std::array<std::string_view, 3> names{"SAE J306, 2005", "SAE J306, February 2019",
                                                    "SAE J300, January 2015"};
    return names[static_cast<std::size_t>(scale)];
}

std::span<const ViscosityClass> viscosity_classes(OilScale scale) {
    switch (scale) {
        case OilScale::j306_2005: return j306_2005;
        case OilScale::j306_2019: return j306_2019;
        case OilScale::j300_2015: return j300_2015;
    }
    return {};
}

OilGrade oil_grade(OilScale scale, std::string_view label) {
    const std::size_t dash = label.find('-');
    OilGrade grade{scale, nullptr, nullptr};
    const ViscosityClass* first = find_class(scale, label.substr(0, dash));
    const bool pair = dash != std::string_view::npos;
    const ViscosityClass* second = pair ? find_class(scale, label.substr(dash + 1)) : nullptr;
    const bool known = first != nullptr && (!pair || (first->winter && second != nullptr && !second->winter));
    if (!known)
        refuse(std::string(scale_name(scale)) + " grade", label,
               "one class or a winter class, a dash and another, of " +
                   listed(viscosity_classes(scale), [](const auto& row) { return row.name; }));
    (first->winter ? grade.winter : grade.hot) = first;
    if (pair) grade.hot = second;
    check_possible(grade, label);
    return grade;
}

std::optional<double> hths_min_mpas(const OilGrade& grade) {
    if (grade.hot == nullptr || !grade.hot->hths_min_mpas) return std::nullopt;
    if (grade.hot->name != "40") return grade.hot->hths_min_mpas;
    const std::string_view winter = grade.winter != nullptr ? grade.winter->name : "";
    const bool light = winter == "0W" || winter == "5W" || winter == "10W";
    return light ? 3.5 : 3.7;
}

std::vector<std::string_view> hot_classes_at(OilScale scale, double kv100_mm2_s, std::optional<double> hths_mpas) {
    check_kv100(kv100_mm2_s);
    if (hths_mpas) above("high-shear viscosity at 150 °C", *hths_mpas, 0, 100, "mPa s");
    std::vector<std::string_view> names;
    for (const ViscosityClass& row : viscosity_classes(scale)) {
        if (row.winter || kv100_mm2_s < row.kv100_min_mm2_s) continue;
        if (row.kv100_below_mm2_s && kv100_mm2_s >= *row.kv100_below_mm2_s) continue;
        if (hths_mpas && row.hths_min_mpas && *hths_mpas < *row.hths_min_mpas) continue;
        names.push_back(row.name);
    }
    return names;
}

std::optional<bool> keeps_gear_winter_class(OilScale scale, std::string_view winter_class, double temp_at_150000_c,
                                            double kv100_mm2_s) {
    if (scale == OilScale::j300_2015) refuse("scale of a gear oil's winter class", scale_name(scale), "SAE J306");
    const ViscosityClass& row = winter_class_of(scale, winter_class);
    in_range("temperature of 150 000 mPa s", temp_at_150000_c, -80, 50, "°C");
    check_kv100(kv100_mm2_s);
    if (!row.temp_at_150000_c) return std::nullopt;
    return temp_at_150000_c <= *row.temp_at_150000_c && kv100_mm2_s >= row.kv100_min_mm2_s;
}

bool keeps_engine_winter_class(std::string_view winter_class, double cranking_mpas, double pumping_mpas,
                               double kv100_mm2_s) {
    const ViscosityClass& row = winter_class_of(OilScale::j300_2015, winter_class);
    above("cranking viscosity", cranking_mpas, 0, 1e6, "mPa s");
    above("pumping viscosity", pumping_mpas, 0, 1e7, "mPa s");
    check_kv100(kv100_mm2_s);
    return cranking_mpas <= *row.cranking_max_mpas && pumping_mpas <= *row.pumping_max_mpas &&
           kv100_mm2_s >= row.kv100_min_mm2_s;
}

GradeAnswer grade_covers(const OilGrade& offered, const OilGrade& wanted) {
    if (offered.scale != wanted.scale) return across_scales(offered, wanted);
    const std::string names = label_of(offered) + " for " + label_of(wanted) + ": ";
    if (offered.winter == wanted.winter && offered.hot == wanted.hot) return {GradeVerdict::same, names + "same grade"};
    const std::string short_of = shortfall(offered, wanted);
    if (short_of.empty())
        return {GradeVerdict::covers, names + "keeps every limit of " + std::string(scale_name(wanted.scale))};
    return {GradeVerdict::does_not_cover, names + short_of};
}

std::span<const IsoClass> iso_classes() { return iso_3448; }

std::optional<int> iso_vg_at(double kv40_mm2_s) {
    above("viscosity at 40 °C", kv40_mm2_s, 0, 1e6, "mm2/s");
    for (const IsoClass& row : iso_3448)
        if (kv40_mm2_s >= row.min_mm2_s && kv40_mm2_s <= row.max_mm2_s) return row.vg;
    return std::nullopt;
}

std::span<const std::string_view> jaso_m315_classes() { return jaso_classes; }

GradeAnswer jaso_m315_compare(std::string_view offered, std::string_view wanted) {
    for (const std::string_view name : {offered, wanted})
        if (std::find(jaso_classes.begin(), jaso_classes.end(), name) == jaso_classes.end())
            refuse("JASO M315 class", name, listed(jaso_classes, [](std::string_view row) { return row; }));
    if (offered == wanted) return {GradeVerdict::same, "same JASO M315 class"};
    return {GradeVerdict::not_comparable,
            "JASO M315: " + std::string(jaso_m315_limits) + "; only the names can be compared"};
}

}  // namespace casebound::transmission_fluids
