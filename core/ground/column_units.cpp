#include "core/ground/column_units.h"

#include <array>
#include <utility>

namespace casebound {

namespace {

// The longer before what they end with.
constexpr std::array<std::pair<std::string_view, std::string_view>, 22> endings{{
    {"_mm2_s", "mm2/s"}, {"_n_mm", "N/mm"}, {"_kg_m3", "kg/m3"}, {"_mpas", "mPa s"}, {"_mm2", "mm2"}, {"_mpa", "MPa"},
    {"_bar", "bar"},     {"_ohm", "ohm"},   {"_rpm", "1/min"},   {"_pct", "%"},      {"_deg", "deg"}, {"_mm", "mm"},
    {"_m2", "m2"},       {"_km", "km"},     {"_kg", "kg"},       {"_hz", "Hz"},      {"_nm", "N m"},  {"_min", "min"},
    {"_c", "degC"},      {"_l", "L"},       {"_a", "A"},         {"_v", "V"},
}};

}  // namespace

ColumnUnit column_unit(std::string_view column) {
    if (column == "minutes") return {column, "min"};
    for (const auto& [ending, unit] : endings)
        if (column.size() > ending.size() && column.ends_with(ending))
            return {column.substr(0, column.size() - ending.size()), unit};
    return {column, {}};
}

}  // namespace casebound
