#include "rows/engine_load.h"

#include <algorithm>
#include <cmath>

#include "core/contract/answer_lines.h"
#include "rows/where.h"
#include "science/vibration.h"

namespace casebound::mounts {
namespace {

std::optional<Known> by_hand(const Given& given, const char* input) {
    if (!given.has(input)) return std::nullopt;
    return Known{given.number(input), given_source(given, input)};
}

// One value when every row that states it states the same.
std::optional<Known> looked_up(const std::vector<Row>& rows, const char* column, EngineLoad& load) {
    std::optional<Known> known;
    for (const auto& row : rows) {
        const auto value = row.number(column);
        if (!value) continue;
        if (known && known->value != *value) {
            load.assumptions.push_back(std::string(column) + ": rows that may apply differ, none is used");
            return std::nullopt;
        }
        known = Known{*value, row_source(row.origin)};
    }
    return known;
}

std::vector<Row> rows_for(const Given& given, const Services& services, EngineLoad& load) {
    auto rows = rows_of_line(services, "mounts_loads");
    if (given.has("position"))
        std::erase_if(rows, [&](const Row& row) { return row.text("position") != given.text("position"); });
    for (const auto& row : rows)
        if (const auto where = where_text(row, services.vehicle); !where.empty())
            load.assumptions.push_back("values of " + row_source(row.origin).title + " hold " + where);
    return rows;
}

void fill(std::optional<Known>& known, const std::vector<Row>& rows, const char* column, EngineLoad& load) {
    if (!known) known = looked_up(rows, column, load);
}

}  // namespace

EngineLoad engine_load(const Given& given, const Services& services) {
    EngineLoad load;
    load.carried_kg = by_hand(given, "carried");
    load.cylinders = by_hand(given, "cylinders");
    load.idle_rpm = by_hand(given, "idle");
    load.figure_mm = by_hand(given, "figure");
    const auto rows = rows_for(given, services, load);
    if (given.has("position")) {
        fill(load.carried_kg, rows, "carried_kg", load);
        fill(load.figure_mm, rows, "figure_mm", load);
    }
    fill(load.cylinders, rows, "cylinders", load);
    fill(load.idle_rpm, rows, "idle_rpm", load);
    return load;
}

std::optional<double> firing_hz(const EngineLoad& load) {
    if (!load.cylinders || !load.idle_rpm) return std::nullopt;
    const double cylinders = in_range("cylinders", load.cylinders->value, 1, 16);
    if (cylinders != std::floor(cylinders)) refuse("cylinders", number_text(cylinders), "whole numbers, 1 to 16");
    return firing_frequency_hz(static_cast<int>(cylinders), load.idle_rpm->value);
}

}  // namespace casebound::mounts
