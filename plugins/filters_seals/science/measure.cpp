#include "science/measure.h"

#include <cmath>
#include <cstdio>

#include "core/contract/valid_range.h"

namespace casebound::filters_seals {
namespace {

double thousandths(double value) { return std::round(1000 * value) / 1000; }

std::string in_unit(double value, std::string_view unit) {
    return unit.empty() ? shown(value) : shown(value) + " " + std::string(unit);
}

}  // namespace

double in_range(std::string_view what, double value, Range valid, std::string_view unit) {
    return casebound::in_range(what, value, valid.low, valid.high, unit);
}

Toleranced in_range(std::string_view what, const Toleranced& value, Range valid, std::string_view unit) {
    const std::string tolerance = std::string(what) + " tolerance";
    const Range sizes{0.0, valid.high - valid.low};
    in_range(what, value.nominal, valid, unit);
    in_range(tolerance, value.minus, sizes, unit);
    in_range(tolerance, value.plus, sizes, unit);
    in_range(what, value.min(), valid, unit);
    in_range(what, value.max(), valid, unit);
    return value;
}

std::string shown(double value) {
    if (value == 0.0) value = 0.0;  // drops the sign of -0
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%.6g", value);
    return text.data();
}

std::string span_text(Stacked value, std::string_view unit) {
    const std::string nominal = in_unit(thousandths(value.nominal), unit);
    return value.min == value.max
               ? nominal
               : nominal + " (" + shown(thousandths(value.min)) + " to " + shown(thousandths(value.max)) + ")";
}

std::string span_text(Range value, std::string_view unit) {
    const std::string high = in_unit(thousandths(value.high), unit);
    return value.low == value.high ? high : shown(thousandths(value.low)) + " to " + high;
}

std::string sentence(std::string_view text) {
    std::string out(text);
    if (!out.empty() && out.front() >= 'a' && out.front() <= 'z')
        out.front() = static_cast<char>(out.front() - 'a' + 'A');
    if (!out.empty() && out.back() != '.' && out.back() != '?') out += '.';
    return out;
}

std::vector<std::string> sentences(const std::vector<std::string>& texts) {
    std::vector<std::string> out;
    for (const auto& text : texts) out.push_back(sentence(text));
    return out;
}

}  // namespace casebound::filters_seals
