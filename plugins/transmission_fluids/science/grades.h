#pragma once
// Viscosity classes of oils: SAE J306 (gear oils, editions 2005 and 2019), SAE
// J300 (engine oils, January 2015), ISO 3448 (industrial), and the class names
// of JASO M315 (automatic transmission fluids). Says which class a measured oil
// falls in and whether one class keeps every limit of another. The scales are
// not comparable with each other, and a class is never a specification: both
// must match.
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace casebound::transmission_fluids {

enum class OilScale { j306_2005, j306_2019, j300_2015 };
std::string_view scale_name(OilScale scale);

// One row of a scale. Winter classes ("75W") have a low-temperature limit, the
// others an upper limit on viscosity at 100 °C (excluded) unless open-ended.
struct ViscosityClass {
    std::string_view name;
    bool winter;
    double kv100_min_mm2_s;
    std::optional<double> kv100_below_mm2_s{};
    // J306: highest temperature at which 150 000 mPa s is met.
    std::optional<double> temp_at_150000_c{};
    // J300: cranking and pumping limits at their temperatures.
    std::optional<double> cranking_max_mpas{}, cranking_c{};
    std::optional<double> pumping_max_mpas{}, pumping_c{};
    // J300: least high-shear viscosity at 150 °C. For 40 it depends on the
    // winter class: see hths_min_mpas.
    std::optional<double> hths_min_mpas{};
};

std::span<const ViscosityClass> viscosity_classes(OilScale scale);

// "75W-90", "80W", "90". Refused with the classes of the scale when it is none,
// and when no oil can keep both limits at 100 °C ("85W-80").
struct OilGrade {
    OilScale scale;
    const ViscosityClass* winter;  // null: none stated
    const ViscosityClass* hot;     // null: none stated
};
OilGrade oil_grade(OilScale scale, std::string_view label);

// SAE J300: 40 with 0W, 5W or 10W needs 3.5 mPa s, otherwise 3.7. nullopt: no limit.
std::optional<double> hths_min_mpas(const OilGrade& grade);

// Hot classes that an oil of this viscosity at 100 °C falls in; empty: none. On
// J300 the classes 8 to 20 overlap, and the high-shear viscosity, when known,
// decides; 40 is then taken at its lower limit of 3.5.
std::vector<std::string_view> hot_classes_at(OilScale scale, double kv100_mm2_s, std::optional<double> hths_mpas = {});

// J306: does an oil that reaches 150 000 mPa s at temp_c keep a winter class?
// nullopt for the 2005 edition, whose temperatures are not recorded here.
std::optional<bool> keeps_gear_winter_class(OilScale scale, std::string_view winter_class, double temp_at_150000_c,
                                            double kv100_mm2_s);

// J300: cranking and pumping viscosity measured at the class's own temperatures.
bool keeps_engine_winter_class(std::string_view winter_class, double cranking_mpas, double pumping_mpas,
                               double kv100_mm2_s);

enum class GradeVerdict { same, covers, does_not_cover, not_comparable };
struct GradeAnswer {
    GradeVerdict verdict;
    std::string why;
};

// Does an oil that keeps `offered` keep every limit of `wanted`? By limits only.
GradeAnswer grade_covers(const OilGrade& offered, const OilGrade& wanted);

// ISO 3448 class of a viscosity at 40 °C (middle +/- 10 %); nullopt between classes.
struct IsoClass {
    int vg;
    double mid_mm2_s, min_mm2_s, max_mm2_s;
};
std::span<const IsoClass> iso_classes();
std::optional<int> iso_vg_at(double kv40_mm2_s);

// JASO M315: names only. The standard's limits are not available here, so two
// different classes are never ranked.
inline constexpr std::string_view jaso_m315_limits = "limits not available";
std::span<const std::string_view> jaso_m315_classes();
GradeAnswer jaso_m315_compare(std::string_view offered, std::string_view wanted);

}  // namespace casebound::transmission_fluids
