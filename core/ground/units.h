// Quantities with units, as people write them: "38 mm", "1.5 in", "2 US qt", "65 in lbf", "167 F".
// Factors are exact where the unit is defined exactly (NIST Handbook 44 App. C; inch, pound, g by definition).
// An unlabelled quart, pint, gallon or ounce is refused: US and imperial differ.
#pragma once

#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace casebound {

// what() names the text, the unit wanted and what may be written.
class UnitFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// The number in `unit` ("mm", "L", "N m", "degC", "mm2/s", "ohm", "min", "km", "kg", "V", "A", "Hz", "%", "" ...).
// A bare number is taken to be in `unit`. Throws UnitFault.
double quantity_in(std::string_view text, std::string_view unit);

// `value` of unit `from` in unit `to`; temperatures as points, not differences. Throws UnitFault.
double converted(double value, std::string_view from, std::string_view to);

bool known_unit(std::string_view unit);
std::vector<std::string> units_like(std::string_view unit);  // what may be written where `unit` is wanted

// "38 mm", "5.3 L": shortest form with at most `decimals`, no trailing zeros.
std::string plain_number(double value, int decimals = 6);

}  // namespace casebound
