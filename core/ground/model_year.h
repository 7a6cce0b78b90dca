// Which calendar years a vehicle of a model year may be built in. Knows no market: the wider reading of both.
#pragma once

namespace casebound {

// In North America a model year is built from the January before it to its own December (40 CFR 85.2302, from memory);
// elsewhere a year of registration may be told for it, so the year after is taken too (common practice).
constexpr int first_built_year(int model_year) { return model_year - 1; }
constexpr int last_built_year(int model_year) { return model_year + 1; }

constexpr bool may_be_built_in(int model_year, int built_year) {
    return built_year >= first_built_year(model_year) && built_year <= last_built_year(model_year);
}

}  // namespace casebound
