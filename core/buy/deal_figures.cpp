#include "core/buy/deal_figures.h"

#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"

namespace casebound {

namespace {

Estimate estimate(std::string_view key, std::string_view text, double (*one)(std::string_view, std::string_view)) {
    const auto first = text.find('/');
    if (first == std::string::npos) return exactly(one(key, text), "typed in");
    const auto second = text.find('/', first + 1);
    if (second == std::string::npos)
        throw Error(Exit::usage, fmt::format("{}: \"{}\": write LOW/LIKELY/HIGH", key, text));
    return {one(key, text.substr(0, first)), one(key, text.substr(first + 1, second - first - 1)),
            one(key, text.substr(second + 1)), "typed in"};
}

}  // namespace

double amount_from(std::string_view key, std::string_view text) {
    const bool percent = text.ends_with('%');
    if (percent) text.remove_suffix(1);
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value))
        throw Error(Exit::usage,
                    fmt::format("{}: \"{}\": write LIKELY or LOW/LIKELY/HIGH, such as 330/420/620", key, text));
    return percent ? value / 100 : value;
}

double from_zero(std::string_view key, std::string_view text) {
    const double value = amount_from(key, text);
    if (value < 0) throw Error(Exit::usage, fmt::format("{}: \"{}\": write a number from 0 up", dashed(key), text));
    return value;
}

double share_from(std::string_view key, std::string_view text) {
    const double value = amount_from(key, text);
    if (value >= 0 && value <= 1) return value;
    const bool percent = value > 1 && value <= 100 && !text.ends_with('%');
    throw Error(Exit::usage,
                percent ? fmt::format("{0}: \"{1}\": write {1}% or {2}", key, text, plain_number(value / 100, 4))
                        : fmt::format("{}: \"{}\": write a share from 0% to 100%, or 0 to 1", key, text));
}

Estimate typed_amount(std::string_view key, std::string_view text) { return estimate(key, text, amount_from); }
Estimate typed_share(std::string_view key, std::string_view text) { return estimate(key, text, share_from); }

}  // namespace casebound
