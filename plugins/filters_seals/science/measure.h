// Lengths and other quantities as they come from the bench: a nominal with its
// own tolerance either side, and what becomes of tolerances when they stack.
// Stacking is worst case (every corner), never statistical.
// Never guesses a missing tolerance: an exact value is exact only because the
// caller says so.
#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace casebound::filters_seals {

struct Range {
    double low;
    double high;

    constexpr bool contains(double value) const { return value >= low && value <= high; }
    constexpr bool contains(Range inner) const { return inner.low >= low && inner.high <= high; }
    constexpr bool overlaps(Range other) const { return other.low <= high && other.high >= low; }
};

// `minus` and `plus` are both counted as positive distances from the nominal.
struct Toleranced {
    double nominal;
    double minus = 0.0;
    double plus = 0.0;

    constexpr double min() const { return nominal - minus; }
    constexpr double max() const { return nominal + plus; }
    constexpr Range band() const { return {min(), max()}; }
};

constexpr Toleranced exactly(double value) { return {value, 0.0, 0.0}; }
constexpr Toleranced about(double value, double plus_minus) { return {value, plus_minus, plus_minus}; }

struct Stacked {
    double min;
    double nominal;
    double max;

    constexpr Range band() const { return {min, max}; }
};

// Evaluates `formula(std::array<double, N>)` at the nominal and at all 2^N
// corners. Exact while the formula is monotone in each input over its band.
template <std::size_t N, typename Formula> Stacked stack_up(const std::array<Toleranced, N>& inputs, Formula formula) {
    std::array<double, N> at{};
    for (std::size_t i = 0; i < N; ++i) at[i] = inputs[i].nominal;
    const double nominal = formula(at);
    Stacked out{nominal, nominal, nominal};
    for (std::size_t corner = 0; corner < (std::size_t{1} << N); ++corner) {
        for (std::size_t i = 0; i < N; ++i) at[i] = ((corner >> i) & 1U) != 0 ? inputs[i].max() : inputs[i].min();
        const double value = formula(at);
        if (value < out.min) out.min = value;
        if (value > out.max) out.max = value;
    }
    return out;
}

// Return `value`; throw std::domain_error "WHAT: got X UNIT: valid range is A to B UNIT" when it lies outside `valid`
// or is not a number. With tolerances: nominal, both limits, and both tolerances, which are never negative.
double in_range(std::string_view what, double value, Range valid, std::string_view unit = {});
Toleranced in_range(std::string_view what, const Toleranced& value, Range valid, std::string_view unit = {});

// Shortest plain text with at most six significant digits; 0 never has a sign.
std::string shown(double value);

std::string span_text(Stacked value, std::string_view unit);  // "5 mm (4 to 6)"
std::string span_text(Range value, std::string_view unit);    // "3 to 10 mm"

std::string sentence(std::string_view text);  // "Measure the neck."
std::vector<std::string> sentences(const std::vector<std::string>& texts);

}  // namespace casebound::filters_seals
