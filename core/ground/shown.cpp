#include "core/ground/shown.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/contract/answer_lines.h"
#include "core/ground/units.h"

namespace casebound {

namespace {

// What is recorded in `from` is shown in `to`, written `words`.
struct Conversion {
    std::string_view setting, from, to, words;
    int decimals;  // as fine as the tool reads: 0.01 in, 0.1 qt, 1 lb ft
};
constexpr Conversion conversions[] = {{"show_length", "mm", "in", "in", 2},
                                      {"show_volume", "L", "US qt", "US qt", 1},
                                      {"show_torque", "N m", "lbf ft", "lb ft", 0},
                                      {"show_torque", "N·m", "lbf ft", "lb ft", 0},
                                      {"show_torque", "Nm", "lbf ft", "lb ft", 0}};

std::map<std::string, bool, std::less<>>& converted_settings() {
    static std::map<std::string, bool, std::less<>> on;
    return on;
}

bool& keys_on() {
    static bool on = false;
    return on;
}

const Conversion* conversion_of(std::string_view unit) {
    for (const auto& one : conversions) {
        const auto set = converted_settings().find(one.setting);
        if (one.from == unit && set != converted_settings().end() && set->second) return &one;
    }
    return nullptr;
}

std::string with_unit(std::string number, std::string_view unit) {
    const auto words = unit_words(unit);
    return std::move(number) + (words.empty() || words == "°" ? words : " " + words);
}

std::string recorded(double value, std::string_view unit, int decimals) {
    return with_unit(plain_number(value, decimals), unit);
}

std::string_view canonical(std::string_view unit) { return unit == "N·m" || unit == "Nm" ? "N m" : unit; }

}  // namespace

const std::vector<ShownUnit>& shown_units() {
    static const std::vector<ShownUnit> units{{"show_length", "lengths are shown in", {"mm", "inch"}},
                                              {"show_torque", "torques are shown in", {"Nm", "lb-ft"}},
                                              {"show_volume", "volumes are shown in", {"litre", "quart"}}};
    return units;
}

void show_in(std::string_view setting, std::string_view choice) {
    for (const auto& unit : shown_units())
        if (unit.setting == setting) converted_settings()[std::string(setting)] = choice == unit.choices[1];
}

std::string unit_words(std::string_view unit) {
    static const std::map<std::string_view, std::string_view> words{{"degC", "°C"}, {"degF", "°F"}, {"N m", "N·m"},
                                                                    {"Nm", "N·m"},  {"deg", "°"},   {"each", ""}};
    const auto at = words.find(unit);
    return std::string(at == words.end() ? unit : at->second);
}

std::string shown_measure(double value, std::string_view unit, int decimals) {
    const auto as_recorded = with_unit(fixed(value, decimals), unit);
    const auto* as = conversion_of(unit);
    if (!as) return as_recorded;
    return fmt::format("{} {} ({})", plain_number(converted(value, canonical(unit), as->to), as->decimals), as->words,
                       as_recorded);
}

std::string shown_quantity(double value, std::string_view unit, int decimals) {
    const auto* as = conversion_of(unit);
    if (!as) return recorded(value, unit, decimals);
    return fmt::format("{} {} ({})", plain_number(converted(value, canonical(unit), as->to), as->decimals), as->words,
                       recorded(value, unit, decimals));
}

std::string shown_span(double low, double high, std::string_view unit, int decimals) {
    const auto first = plain_number(low, decimals);
    if (first == plain_number(high, decimals)) return shown_quantity(high, unit, decimals);
    const auto as_recorded = fmt::format("{} to {}", first, recorded(high, unit, decimals));
    const auto* as = conversion_of(unit);
    if (!as) return as_recorded;
    const auto there = [&](double value) {
        return plain_number(converted(value, canonical(unit), as->to), as->decimals);
    };
    return fmt::format("{} to {} {} ({})", there(low), there(high), as->words, as_recorded);
}

std::string shown_value(std::string_view text) {
    const auto end = text.find_first_not_of("0123456789.-");
    if (end == 0 || end == std::string_view::npos) return std::string(text);
    const auto unit = text.substr(std::min(text.find_first_not_of(' ', end), text.size()));
    if (unit.empty() || !known_unit(unit)) return std::string(text);
    try {
        return shown_quantity(quantity_in(text.substr(0, end), ""), unit, 6);
    } catch (const UnitFault&) { return std::string(text); }
}

void show_keys(bool on) { keys_on() = on; }

std::string named(std::string_view title, std::string_view key) {
    return keys_on() && title != key ? fmt::format("{} [{}]", title, key) : std::string(title);
}

}  // namespace casebound
