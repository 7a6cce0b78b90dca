#pragma once
// Viscosity classes of engine oils, "5W-30": whether one keeps what another asks for, cold and hot. Knows no limit of
// its own: the classes are given. A class is never a specification: both must match.

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace casebound::service_fluids {

// "5W-30", "30", "5W": the two parts as SAE J300 names them. Refuses what is neither.
struct ViscosityGrade {
    std::string winter, hot;  // "5W" and "30"; empty: none
};
ViscosityGrade viscosity_grade(std::string_view label);

// Of "5W" 5, of "30" 30. Requires: a part of a grade.
int number_of_class(std::string_view part);

enum class Against : std::uint8_t { same, less, more };  // less: thinner hot, or not made for as much cold
struct GradeDifference {
    Against cold, hot;
};
// A lower winter number starts in more cold; a wanted part that is not stated asks for nothing.
GradeDifference against(const ViscosityGrade& offered, const ViscosityGrade& wanted);

}  // namespace casebound::service_fluids
