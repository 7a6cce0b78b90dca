// What a vehicle identification number can say without anybody's secrets: 49 CFR 565.
//
// Reads characters, the check digit (565.15(c), Tables III to V) and the model-year code (Table VII) with the
// position-7 rule. It narrows the possible model years and never does more; makers' positions are not decoded.
// The check digit cannot see a mistake between letters of the same value (A, J and 1; B, K, S and 2; ...).
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace casebound {

// The rule binds vehicles made for North America. Elsewhere position 9 may be anything.
enum class VinMarket : std::uint8_t { north_america, elsewhere, not_told };

struct VinContext {
    VinMarket market = VinMarket::not_told;
    // Passenger car, multipurpose vehicle or truck of at most 4536 kg (10,000 lb): only there does position 7
    // tell the two 30-year spans apart.
    std::optional<bool> at_most_4536_kg{};
    int newest_model_year = 2039;  // later ones have not been built yet
};

struct VinFinding {
    bool error{};      // misread or altered; otherwise a note
    std::string text;  // what, and what to do
};

struct VinReading {
    std::string vin;                   // normal form
    bool well_formed{};                // 17 characters, none of them I, O, Q
    std::optional<bool> check_holds;   // nothing when not well formed
    std::vector<int> model_years;      // possible ones, ascending; empty: the VIN does not narrow them
    std::vector<VinFinding> findings;  // in order of position
    bool error() const;
};

// Upper case, without spaces, hyphens and full stops. Never changes a letter into a digit.
std::string normal_vin(std::string_view text);

// '0' to '9' or 'X'; nothing when the text is not 17 permitted characters. Position 9 itself has no weight.
std::optional<char> vin_check_digit(std::string_view normal);

VinReading read_vin(std::string_view text, const VinContext& context = {});

}  // namespace casebound
