#include "core/ground/vin.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>

namespace casebound {

namespace {

// 49 CFR 565.15(c), Table IV: weight of each position; position 9 is the check digit itself.
constexpr int weights[17] = {8, 7, 6, 5, 4, 3, 2, 10, 0, 9, 8, 7, 6, 5, 4, 3, 2};

// 49 CFR 565.15, Table VII: model-year codes from 1980 and again from 2010; not I, O, Q, U, Z, 0.
constexpr std::string_view year_codes = "ABCDEFGHJKLMNPRSTVWXY123456789";
constexpr int first_year = 1980, span_years = 30;

constexpr std::string_view market_note =
    "only vehicles made for North America must carry a check digit, and elsewhere position 10 need not be the model "
    "year";

bool digit(char c) { return c >= '0' && c <= '9'; }

// 49 CFR 565.15(c), Table III; -1 for a character that is never in a VIN.
int value_of(char c) {
    constexpr std::string_view values = "12345678.12345.7.923456789";  // A to Z; I, O and Q are left out
    if (digit(c)) return c - '0';
    if (c < 'A' || c > 'Z' || values[static_cast<std::size_t>(c - 'A')] == '.') return -1;
    return values[static_cast<std::size_t>(c - 'A')] - '0';
}

bool well_formed(std::string_view vin) {
    return vin.size() == 17 && std::all_of(vin.begin(), vin.end(), [](char c) { return value_of(c) >= 0; });
}

std::string look_alike(char c) {
    if (c == 'I') return "read it again, it may be a 1";
    return c == 'O' || c == 'Q' ? "read it again, it may be a 0" : "read it again";
}

void look_at_shape(VinReading& reading, bool binding) {
    if (reading.vin.size() != 17)
        reading.findings.push_back(
            {binding, fmt::format("{} characters, a VIN has 17: read it again; old vehicles may carry a shorter number",
                                  reading.vin.size())});
    for (std::size_t i = 0; i < reading.vin.size(); ++i) {
        const char c = reading.vin[i];
        if (value_of(c) >= 0) continue;
        const bool printable = c > ' ' && c < 127;
        reading.findings.push_back(
            {true, fmt::format("position {}: {} is never in a VIN: {}", i + 1,
                               printable ? std::string(1, c) : "this character", look_alike(c))});
    }
}

void look_at_check_digit(VinReading& reading, VinMarket market) {
    const char wanted = *vin_check_digit(reading.vin);
    reading.check_holds = reading.vin[8] == wanted;
    if (*reading.check_holds) return;
    const std::string found = fmt::format("position 9 is {}, the other sixteen give {}", reading.vin[8], wanted);
    const std::string_view meaning =
        market == VinMarket::north_america
            ? "misread or altered: read it again on the vehicle, above all 1 and J, 5 and S, 8 and B, 2 and Z"
        : market == VinMarket::elsewhere ? "nothing follows, a check digit is required for North America only"
                                         : "if it was made for North America, it is misread or altered: read it again";
    reading.findings.push_back({market == VinMarket::north_america, fmt::format("{}: {}", found, meaning)});
}

std::vector<int> years_for(std::string_view vin, std::size_t code, const VinContext& context) {
    const int early = first_year + static_cast<int>(code), late = early + span_years;
    std::vector<int> years;
    // 49 CFR 565.15(b) and, before it, 565.25(b): position 7 alphabetic since 2010, numeric before; light vehicles only.
    const bool light = context.at_most_4536_kg.value_or(false);
    if (!light || digit(vin[6])) years.push_back(early);
    if (!light || !digit(vin[6])) years.push_back(late);
    std::erase_if(years, [&](int year) { return year > context.newest_model_year; });
    return years;
}

void look_at_model_year(VinReading& reading, const VinContext& context) {
    const char c = reading.vin[9];
    const auto code = year_codes.find(c);
    if (code == std::string_view::npos) {
        reading.findings.push_back({context.market == VinMarket::north_america,
                                    fmt::format("position 10 is {}, which is no model year's code: read it again", c)});
        return;
    }
    if (context.market != VinMarket::north_america) {
        reading.findings.push_back({false, fmt::format("the model year is not read: {}", market_note)});
        return;
    }
    if (!*reading.check_holds) return;
    reading.model_years = years_for(reading.vin, code, context);
    if (reading.model_years.empty())
        reading.findings.push_back(
            {true, fmt::format("positions 7 and 10 are {} and {}, a model year after {}: read them again",
                               reading.vin[6], c, context.newest_model_year)});
    else if (reading.model_years.size() > 1 && !context.at_most_4536_kg)
        reading.findings.push_back(
            {false,
             "position 7 would tell the two model years apart if the vehicle's permitted gross weight is at most "
             "4536 kg (10,000 lb): read it on the door label"});
}

}  // namespace

bool VinReading::error() const {
    return std::any_of(findings.begin(), findings.end(), [](const VinFinding& finding) { return finding.error; });
}

std::string normal_vin(std::string_view text) {
    std::string vin;
    for (const char c : text)
        if (!std::isspace(static_cast<unsigned char>(c)) && c != '-' && c != '.')
            vin += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return vin;
}

std::optional<char> vin_check_digit(std::string_view normal) {
    if (!well_formed(normal)) return std::nullopt;
    int sum = 0;
    for (std::size_t i = 0; i < normal.size(); ++i) sum += weights[i] * value_of(normal[i]);
    return "0123456789X"[sum % 11];
}

VinReading read_vin(std::string_view text, const VinContext& context) {
    VinReading reading;
    reading.vin = normal_vin(text);
    reading.well_formed = well_formed(reading.vin);
    look_at_shape(reading, context.market == VinMarket::north_america);
    if (!reading.well_formed) return reading;
    look_at_check_digit(reading, context.market);
    look_at_model_year(reading, context);
    return reading;
}

}  // namespace casebound
