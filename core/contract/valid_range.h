// How a computation refuses an input: std::domain_error whose text is "what: got X: valid range is Y". Nothing is
// clamped or guessed. An answer such as "not defined" is a value, not a refusal. Part of the contract with plugins.
#pragma once

#include <array>
#include <charconv>
#include <cmath>
#include <stdexcept>
#include <string>
#include <string_view>

namespace casebound {

// Shortest text that reads back as the same number; no exponent from 1e-6 to 1e9.
inline std::string number_text(double value) {
    std::array<char, 32> text{};
    const double size = std::abs(value);
    const bool plain = size == 0 || (size >= 1e-6 && size < 1e9);
    const auto end = plain ? std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed).ptr
                           : std::to_chars(text.data(), text.data() + text.size(), value).ptr;
    return {text.data(), end};
}

[[noreturn]] inline void refuse(std::string_view what, std::string_view got, std::string_view valid) {
    throw std::domain_error(std::string(what).append(": got ").append(got).append(": valid range is ").append(valid));
}

inline std::string with_unit(double value, std::string_view unit) {
    return unit.empty() ? number_text(value) : number_text(value).append(" ").append(unit);
}

// Both return the value or refuse it; not-a-number is always refused.
inline double in_range(std::string_view what, double value, double low, double high, std::string_view unit = {}) {
    if (value >= low && value <= high) return value;
    refuse(what, with_unit(value, unit), number_text(low) + " to " + with_unit(high, unit));
}

inline double above(std::string_view what, double value, double low_excluded, double high, std::string_view unit = {}) {
    if (value > low_excluded && value <= high) return value;
    refuse(what, with_unit(value, unit), "more than " + number_text(low_excluded) + " to " + with_unit(high, unit));
}

}  // namespace casebound
