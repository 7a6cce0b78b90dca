// How a person wants to read values, set once a run: lengths, volumes and torques in the units of their own tools, with
// what is recorded beside what was converted; keys beside titles. For text and pages only: what is stored, exchanged or
// typed stays in the units of the project.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace casebound {

// What may be set, the first as recorded: {"mm", "inch"}, {"litre", "quart"}, {"Nm", "lb-ft"}.
struct ShownUnit {
    std::string_view setting, title;
    std::vector<std::string_view> choices;
};
const std::vector<ShownUnit>& shown_units();

void show_in(std::string_view setting, std::string_view choice);  // anything but the second choice is the first

// The one way a unit is written: "degC" is "°C", "N m" is "N·m", "each" is nothing.
std::string unit_words(std::string_view unit);

// "41 mm", or where inches are set "1.61 in (41 mm)".
std::string shown_quantity(double value, std::string_view unit, int decimals = 2);
// The same with all its decimals: "36.60 N·m".
std::string shown_measure(double value, std::string_view unit, int decimals);
// "4.3 to 5.2 L", or "4.5 to 5.5 US qt (4.3 to 5.2 L)"; one number where both are equal.
std::string shown_span(double low, double high, std::string_view unit, int decimals = 2);
// A text that is a number with a unit as above; any other text as it is.
std::string shown_value(std::string_view text);

void show_keys(bool on);                                          // off until then
std::string named(std::string_view title, std::string_view key);  // "pan filter", or "pan filter [pan-filter]"

}  // namespace casebound
