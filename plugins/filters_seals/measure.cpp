#include "measure.h"

#include <cstdio>

#include "core/contract/plugin.h"

namespace casebound::filters_seals {

double in_range(std::string_view what, double value, Range valid, std::string_view unit) {
    return casebound::in_range(what, value, valid.low, valid.high, unit);
}

Toleranced in_range(std::string_view what, const Toleranced& value, Range valid, std::string_view unit) {
    const std::string tolerance = std::string(what) + " tolerance";
    const Range sizes{0.0, valid.high - valid.low};
    in_range(what, value.nominal, valid, unit);
    in_range(tolerance, value.minus, sizes, unit);
    in_range(tolerance, value.plus, sizes, unit);
    in_range(what, value.min(), valid, unit);
    in_range(what, value.max(), valid, unit);
    return value;
}

std::string shown(double value) {
    if (value == 0.0) value = 0.0;  // drops the sign of -0
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%.6g", value);
    return text.data();
}

}  // namespace casebound::filters_seals
