#include "core/ground/units.h"

#include <algorithm>
#include <array>
#include <cctype>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/contract/text.h"
#include "core/ground/written_number.h"

namespace casebound {

namespace {

// Exact by definition: inch 25.4 mm, pound 0.45359237 kg, standard gravity 9.80665 m/s2, US gallon 231 in3,
// imperial gallon 4.54609 L (NIST Handbook 44 App. C; Weights and Measures Act 1985 (UK), Sch. 1, from memory).
constexpr long double inch_mm = 25.4L;
constexpr long double pound_kg = 0.45359237L;
constexpr long double gravity_m_s2 = 9.80665L;
constexpr long double lbf_n = pound_kg * gravity_m_s2;
constexpr long double us_gal_l = 231 * inch_mm * inch_mm * inch_mm / 1e6L;
constexpr long double imp_gal_l = 4.54609L;
constexpr long double psi_kpa = lbf_n / (inch_mm * inch_mm) * 1000;
constexpr long double fahrenheit_step = 5.0L / 9;

// A quantity's base is its first row. Value in the base = (value - zero) * factor.
// `usual` rows are offered in messages; the others are only understood.
struct Unit {
    std::string_view label, quantity;
    long double factor = 1, zero = 0;
    bool usual = true;
};

constexpr bool other = false;

constexpr Unit units[] = {
    {"mm", "a length"},
    {"cm", "a length", 10},
    {"m", "a length", 1000},
    {"km", "a length", 1e6L},
    {"in", "a length", inch_mm},
    {"ft", "a length", 12 * inch_mm},
    {"mi", "a length", 63360 * inch_mm},
    {"thou", "a length", inch_mm / 1000},
    {"um", "a length", 0.001L, 0, other},
    {"MM", "a length", 1, 0, other},
    {"inch", "a length", inch_mm, 0, other},
    {"inches", "a length", inch_mm, 0, other},
    {"\"", "a length", inch_mm, 0, other},
    {"foot", "a length", 12 * inch_mm, 0, other},
    {"feet", "a length", 12 * inch_mm, 0, other},
    {"mile", "a length", 63360 * inch_mm, 0, other},
    {"miles", "a length", 63360 * inch_mm, 0, other},

    {"mm2", "an area"},
    {"cm2", "an area", 100},
    {"m2", "an area", 1e6L},
    {"in2", "an area", inch_mm* inch_mm},

    {"L", "a volume"},
    {"ml", "a volume", 0.001L},
    {"cm3", "a volume", 0.001L},
    {"US gal", "a volume", us_gal_l},
    {"US qt", "a volume", us_gal_l / 4},
    {"US pt", "a volume", us_gal_l / 8},
    {"US fl oz", "a volume", us_gal_l / 128},
    {"imp gal", "a volume", imp_gal_l},
    {"imp qt", "a volume", imp_gal_l / 4},
    {"imp pt", "a volume", imp_gal_l / 8},
    {"imp fl oz", "a volume", imp_gal_l / 160},
    {"in3", "a volume", us_gal_l / 231, 0, other},
    {"litre", "a volume", 1, 0, other},
    {"liter", "a volume", 1, 0, other},
    {"litres", "a volume", 1, 0, other},
    {"liters", "a volume", 1, 0, other},
    {"ltr", "a volume", 1, 0, other},
    {"ML", "a volume", 0.001L, 0, other},
    {"cc", "a volume", 0.001L, 0, other},
    {"cl", "a volume", 0.01L, 0, other},
    {"dl", "a volume", 0.1L, 0, other},
    {"m3", "a volume", 1000, 0, other},

    {"kg", "a mass"},
    {"g", "a mass", 0.001L},
    {"lb", "a mass", pound_kg},
    {"avdp oz", "a mass", pound_kg / 16},
    {"mg", "a mass", 1e-6L, 0, other},
    {"t", "a mass", 1000, 0, other},
    {"lbs", "a mass", pound_kg, 0, other},
    {"pound", "a mass", pound_kg, 0, other},
    {"pounds", "a mass", pound_kg, 0, other},

    {"N", "a force"},
    {"kN", "a force", 1000},
    {"lbf", "a force", lbf_n},
    {"kgf", "a force", gravity_m_s2},

    // Wrenches are marked in lb and ft lb where the pound is a force (common practice, no source).
    {"N m", "a torque"},
    {"lbf ft", "a torque", lbf_n * 12 * inch_mm / 1000},
    {"in lbf", "a torque", lbf_n* inch_mm / 1000},
    {"kgf m", "a torque", gravity_m_s2},
    {"Nm", "a torque", 1, 0, other},
    {"N mm", "a torque", 0.001L, 0, other},
    {"N cm", "a torque", 0.01L, 0, other},
    {"ft lbf", "a torque", lbf_n * 12 * inch_mm / 1000, 0, other},
    {"ft lb", "a torque", lbf_n * 12 * inch_mm / 1000, 0, other},
    {"lb ft", "a torque", lbf_n * 12 * inch_mm / 1000, 0, other},
    {"ft lbs", "a torque", lbf_n * 12 * inch_mm / 1000, 0, other},
    {"lbf in", "a torque", lbf_n* inch_mm / 1000, 0, other},
    {"in lb", "a torque", lbf_n* inch_mm / 1000, 0, other},
    {"lb in", "a torque", lbf_n* inch_mm / 1000, 0, other},
    {"in lbs", "a torque", lbf_n* inch_mm / 1000, 0, other},
    {"kg m", "a torque", gravity_m_s2, 0, other},

    {"N/mm", "a stiffness"},
    {"kN/m", "a stiffness", 1},
    {"N/m", "a stiffness", 0.001L},
    {"lbf/in", "a stiffness", lbf_n / inch_mm},
    {"lb/in", "a stiffness", lbf_n / inch_mm, 0, other},

    {"kPa", "a pressure"},
    {"bar", "a pressure", 100},
    {"psi", "a pressure", psi_kpa},
    {"MPa", "a pressure", 1000},
    {"Pa", "a pressure", 0.001L},
    {"mbar", "a pressure", 0.1L, 0, other},
    {"hPa", "a pressure", 0.1L, 0, other},

    {"degC", "a temperature"},
    {"degF", "a temperature", fahrenheit_step, 32},
    {"K", "a temperature", 1, 273.15L},
    {"C", "a temperature", 1, 0, other},
    {"deg C", "a temperature", 1, 0, other},
    {"celsius", "a temperature", 1, 0, other},
    {"F", "a temperature", fahrenheit_step, 32, other},
    {"deg F", "a temperature", fahrenheit_step, 32, other},
    {"fahrenheit", "a temperature", fahrenheit_step, 32, other},
    {"kelvin", "a temperature", 1, 273.15L, other},

    {"1/K", "a share per degree"},
    {"1/degC", "a share per degree"},
    {"1/degF", "a share per degree", 1 / fahrenheit_step},

    {"mm2/s", "a kinematic viscosity"},
    {"cSt", "a kinematic viscosity"},
    {"mPa s", "a dynamic viscosity"},
    {"cP", "a dynamic viscosity"},
    {"Pa s", "a dynamic viscosity", 1000},

    {"kg/m3", "a density"},
    {"kg/L", "a density", 1000},
    {"g/ml", "a density", 1000},
    {"g/cm3", "a density", 1000},

    {"ohm", "a resistance"},
    {"kohm", "a resistance", 1000},
    {"Mohm", "a resistance", 1e6L},
    {"mohm", "a resistance", 0.001L},
    {"ohms", "a resistance", 1, 0, other},
    {"V", "a voltage"},
    {"mV", "a voltage", 0.001L},
    {"kV", "a voltage", 1000, 0, other},
    {"volt", "a voltage", 1, 0, other},
    {"volts", "a voltage", 1, 0, other},
    {"A", "a current"},
    {"mA", "a current", 0.001L},
    {"amp", "a current", 1, 0, other},
    {"amps", "a current", 1, 0, other},
    {"W", "a power"},
    {"kW", "a power", 1000},

    // Turning speed and frequency stay apart: an engine fires several times a turn.
    {"Hz", "a frequency"},
    {"kHz", "a frequency", 1000},
    {"rpm", "a turning speed"},
    {"1/min", "a turning speed"},
    {"r/min", "a turning speed", 1, 0, other},

    {"min", "a time"},
    {"s", "a time", 1 / 60.0L},
    {"h", "a time", 60},
    {"ms", "a time", 1 / 60000.0L},
    {"d", "a time", 1440},
    {"MIN", "a time", 1, 0, other},
    {"minute", "a time", 1, 0, other},
    {"minutes", "a time", 1, 0, other},
    {"hour", "a time", 60, 0, other},
    {"hours", "a time", 60, 0, other},
    {"hr", "a time", 60, 0, other},
    {"hrs", "a time", 60, 0, other},
    {"sec", "a time", 1 / 60.0L, 0, other},
    {"seconds", "a time", 1 / 60.0L, 0, other},
    {"day", "a time", 1440, 0, other},
    {"days", "a time", 1440, 0, other},
    // A month has no fixed number of days.
    {"months", "a number of months"},
    {"years", "a number of months", 12},
    {"month", "a number of months", 1, 0, other},
    {"year", "a number of months", 12, 0, other},

    {"km/h", "a speed"},
    {"m/s", "a speed", 3.6L},
    {"mph", "a speed", 1.609344L},
    {"deg", "an angle"},
    {"degree", "an angle", 1, 0, other},
    {"degrees", "an angle", 1, 0, other},
    {"", "a plain number"},
    {"%", "a plain number", 0.01L},
};

struct Ambiguous {
    std::string_view what, write;
};

constexpr std::string_view write_gallon = "\"US gal\" (3.785411784 L) or \"imp gal\" (4.54609 L)";
constexpr std::string_view write_quart = "\"US qt\" (0.946352946 L) or \"imp qt\" (1.1365225 L)";
constexpr std::string_view write_pint = "\"US pt\" (0.473176473 L) or \"imp pt\" (0.56826125 L)";
constexpr std::string_view write_ounce =
    "\"US fl oz\" (29.5735295625 ml), \"imp fl oz\" (28.4130625 ml) or \"avdp oz\" (28.349523125 g)";

constexpr std::pair<std::string_view, Ambiguous> ambiguous_words[] = {
    {"gal", {"gallon", write_gallon}},
    {"gals", {"gallon", write_gallon}},
    {"gallon", {"gallon", write_gallon}},
    {"gallons", {"gallon", write_gallon}},
    {"qt", {"quart", write_quart}},
    {"qts", {"quart", write_quart}},
    {"quart", {"quart", write_quart}},
    {"quarts", {"quart", write_quart}},
    {"pt", {"pint", write_pint}},
    {"pts", {"pint", write_pint}},
    {"pint", {"pint", write_pint}},
    {"pints", {"pint", write_pint}},
    {"oz", {"ounce", write_ounce}},
    {"ounce", {"ounce", write_ounce}},
    {"ounces", {"ounce", write_ounce}},
    {"fl oz", {"ounce", write_ounce}},
    {"floz", {"ounce", write_ounce}},
    {"fluid ounce", {"ounce", write_ounce}},
    {"fluid ounces", {"ounce", write_ounce}},
};

std::string lower(std::string_view text) {
    std::string result{text};
    for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return result;
}

// "in·lbf", "in-lbf", "in.lbf" and "in  lbf" are one label; signs become letters.
std::string normal_label(std::string_view label) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 13> spelled = {{{"\u2126", "ohm"},
                                                                                        {"\u03a9", "ohm"},
                                                                                        {"\u00b0", "deg"},
                                                                                        {"\u00ba", "deg"},
                                                                                        {"\u00b5", "u"},
                                                                                        {"\u03bc", "u"},
                                                                                        {"\u00b2", "2"},
                                                                                        {"\u00b3", "3"},
                                                                                        {"\u00b7", " "},
                                                                                        {"\u22c5", " "},
                                                                                        {"\u2033", "\""},
                                                                                        {"\u00a0", " "},
                                                                                        {"^", ""}}};
    std::string text{label};
    for (const auto& [sign, letters] : spelled) replace_all(text, sign, letters);
    std::replace_if(
        text.begin(), text.end(), [](char c) { return c == '.' || c == '-' || c == '*' || c == '\t'; }, ' ');
    replace_all(text, "  ", " ");
    replace_all(text, " / ", "/");
    return std::string(trimmed(text));
}

// "U S quarts", "Imperial pint", "UK gal" -> "US qt", "imp pt", "imp gal"; anything else unchanged.
std::string volume_label(const std::string& label) {
    constexpr std::array<std::pair<std::string_view, std::string_view>, 6> owners = {
        {{"us ", "US "}, {"u s ", "US "}, {"imp ", "imp "}, {"imperial ", "imp "}, {"uk ", "imp "}, {"u k ", "imp "}}};
    const std::string low = lower(label);
    for (const auto& [written, owner] : owners) {
        if (low.rfind(written, 0) != 0) continue;
        for (const auto& [word, ambiguous] : ambiguous_words) {
            if (low.substr(written.size()) != word) continue;
            const std::string_view what = ambiguous.what;
            return std::string(owner) + (what == "gallon"  ? "gal"
                                         : what == "quart" ? "qt"
                                         : what == "pint"  ? "pt"
                                                           : "fl oz");
        }
    }
    return label;
}

bool milli_or_mega(char c) { return c == 'm' || c == 'M'; }

// Exact spelling first; then in any case, except that m and M are never exchanged (milli and mega).
const Unit* find_unit(std::string_view label) {
    const std::string wanted = volume_label(normal_label(label));
    for (const auto& unit : units)
        if (unit.label == wanted) return &unit;
    if (wanted.empty()) return nullptr;
    for (const auto& unit : units) {
        if (unit.label.empty() || lower(unit.label) != lower(wanted)) continue;
        if (!milli_or_mega(wanted[0]) || wanted[0] == unit.label[0]) return &unit;
    }
    return nullptr;
}

std::string choices_for(std::string_view unit) {
    const auto labels = units_like(unit);
    return labels.empty() ? fmt::format("a plain number, or one followed by {}", unit)
                          : fmt::format("{}", fmt::join(labels, ", "));
}

const Unit& required_unit(std::string_view label, std::string_view wanted) {
    const std::string low = lower(normal_label(label));
    for (const auto& [word, ambiguous] : ambiguous_words)
        if (low == word)
            throw UnitFault(fmt::format("\"{}\": a US and an imperial {} differ: write {}", label, ambiguous.what,
                                        ambiguous.write));
    if (const Unit* unit = find_unit(label)) return *unit;
    throw UnitFault(fmt::format("\"{}\" is not a known unit: write {}", label, choices_for(wanted)));
}

double between(double value, const Unit& from, const Unit& to) {
    if (from.factor == to.factor && from.zero == to.zero) return value;
    const long double base = (static_cast<long double>(value) - from.zero) * from.factor;
    return static_cast<double>(base / to.factor + to.zero);
}

const Unit& same_quantity(const Unit& from, const Unit& to) {
    if (from.quantity == to.quantity) return from;
    throw UnitFault(fmt::format("{} is {}, and {} is wanted: write {}",
                                from.label.empty() ? "a number without a unit" : from.label, from.quantity, to.quantity,
                                choices_for(to.label)));
}

struct Written {
    double number;
    std::string label;
};

Written written(std::string_view text, std::string_view unit) {
    const std::string plain(trimmed(text));
    if (plain.find(',') != std::string::npos)
        throw UnitFault(fmt::format("\"{}\": a comma is a decimal point to some and a thousands mark to others: {}",
                                    text, comma_advice(plain)));
    const auto number = number_in_front(plain);
    if (!number)
        throw UnitFault(fmt::format("\"{}\" does not begin with a number: write it as {}", text, choices_for(unit)));
    return {number->value, std::string(trimmed(number->rest))};
}

}  // namespace

double quantity_in(std::string_view text, std::string_view unit) {
    const Written value = written(text, unit);
    if (value.label.empty() || normal_label(value.label) == normal_label(unit)) return value.number + 0.0;  // no -0
    try {
        return converted(value.number, value.label, unit) + 0.0;
    } catch (const UnitFault& fault) {
        throw UnitFault(
            fmt::format("\"{}\" where {} is wanted: {}", text, unit.empty() ? "a plain number" : unit, fault.what()));
    }
}

double converted(double value, std::string_view from, std::string_view to) {
    const Unit& source = required_unit(from, to);
    const Unit& target = required_unit(to, to);
    return between(value, same_quantity(source, target), target);
}

bool known_unit(std::string_view unit) { return find_unit(unit) != nullptr; }

std::vector<std::string> units_like(std::string_view unit) {
    std::vector<std::string> labels;
    const Unit* wanted = find_unit(unit);
    for (const auto& one : units)
        if (wanted && one.usual && one.quantity == wanted->quantity && !one.label.empty())
            labels.emplace_back(one.label);
    return labels;
}

std::string plain_number(double value, int decimals) {
    std::string text = fmt::format("{:.{}f}", value, decimals);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return text == "-0" ? "0" : text;
}

}  // namespace casebound
