#include "science/viscosity.h"

#include <charconv>

#include "core/contract/valid_range.h"

namespace casebound::service_fluids {
namespace {

// Digits alone, at most two: "30".
bool is_number(std::string_view text) {
    return !text.empty() && text.size() < 3 && text.find_first_not_of("0123456789") == std::string_view::npos;
}

bool is_winter(std::string_view text) {
    return text.size() > 1 && text.back() == 'W' && is_number(text.substr(0, text.size() - 1));
}

Against compared(int offered, int wanted) {
    return offered == wanted ? Against::same : offered < wanted ? Against::less : Against::more;
}

}  // namespace

ViscosityGrade viscosity_grade(std::string_view label) {
    const auto dash = label.find('-');
    const auto first = label.substr(0, dash);
    const auto second = dash == std::string_view::npos ? std::string_view{} : label.substr(dash + 1);
    if (dash != std::string_view::npos && is_winter(first) && is_number(second))
        return {std::string(first), std::string(second)};
    if (dash == std::string_view::npos && is_winter(first)) return {std::string(first), {}};
    if (dash == std::string_view::npos && is_number(first)) return {{}, std::string(first)};
    refuse("viscosity class", label, "a class of SAE J300 as printed: 5W-30, 10W-40, 30");
}

int number_of_class(std::string_view part) {
    int number = 0;
    std::from_chars(part.data(), part.data() + part.size(), number);
    return number;
}

GradeDifference against(const ViscosityGrade& offered, const ViscosityGrade& wanted) {
    auto cold = Against::same, hot = Against::same;
    if (!wanted.winter.empty())
        cold = offered.winter.empty() ? Against::less
                                      : compared(number_of_class(wanted.winter), number_of_class(offered.winter));
    if (!wanted.hot.empty())
        hot = offered.hot.empty() ? Against::less : compared(number_of_class(offered.hot), number_of_class(wanted.hot));
    return {cold, hot};
}

}  // namespace casebound::service_fluids
