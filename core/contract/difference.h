// What differs between a part that is wanted and one that is offered, and what that weighs. Part of the contract; knows
// no rows and no vehicle.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace casebound {

// What packs write, in the order of the values; the first is "unknown".
template <class Value, std::size_t N>
constexpr Value value_of(std::string_view text, const std::array<std::string_view, N>& words) {
    for (std::size_t i = 1; i < N; ++i)
        if (words[i] == text) return static_cast<Value>(i);
    return Value::unknown;
}
template <std::size_t N> std::vector<std::string> choices_of(const std::array<std::string_view, N>& words) {
    return {words.begin() + 1, words.end()};
}

// In the order of how much it weighs.
enum class Weight : std::uint8_t { not_known, needs_something, no };

struct Difference {
    std::string what;  // "length"
    std::string says;  // "278 mm offered, 310 mm wanted: it holds the bar askew"
    Weight weight;
};

// Every difference and every gap, in the order in which they are looked at. Empty: alike in all of it.
struct Comparison {
    std::vector<Difference> all{};

    void add(std::string what, std::string says, Weight weight) {
        all.push_back({std::move(what), std::move(says), weight});
    }
    void add(std::string what, const std::string& offered, const std::string& wanted, std::string_view because,
             Weight weight) {
        add(std::move(what),
            std::string(offered).append(" offered, ").append(wanted).append(" wanted: ").append(because), weight);
    }
    void not_known(std::string what) { add(std::move(what), "not known of both", Weight::not_known); }

    // How far apart two measures are, where that is more than `apart`; a gap where one is missing.
    std::optional<double> further_apart(const char* what, std::optional<double> wanted, std::optional<double> offered,
                                        double apart) {
        if (!wanted || !offered) {
            not_known(what);
            return {};
        }
        const double off = std::abs(*wanted - *offered);
        return off > apart ? std::optional(off) : std::nullopt;
    }
};

// The heaviest of them; nothing when there is none.
inline std::optional<Weight> heaviest(const std::vector<Difference>& all) {
    std::optional<Weight> most;
    for (const auto& one : all) most = std::max(most.value_or(one.weight), one.weight);
    return most;
}

}  // namespace casebound
