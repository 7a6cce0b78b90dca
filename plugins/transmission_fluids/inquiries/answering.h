// What every inquiry of this domain says in the same way: an input that it cannot do without, and numbers that are used.
// Never supplies a value.
#pragma once

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>

#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "core/contract/plugin.h"

namespace casebound::transmission_fluids {

inline constexpr const char* fills = "transmission_fluids_fills";
inline constexpr const char* levels = "transmission_fluids_levels";
inline constexpr const char* intervals = "transmission_fluids_intervals";

inline void missing(Answer& answer, std::string_view input, std::string_view how) {
    answer.lower(Verdict::not_recorded);
    answer.next.push_back(std::string("Give ").append(input).append(": ").append(how));
}

// Nothing: the answer says what is missing and how to find it out. Where records differ core says which.
inline std::optional<double> needed(const Input& input, const Given& given, Answer& answer) {
    const auto value = given.maybe_number(input.name);
    if (!value && given.undecided.count(input.name) == 0) missing(answer, input.name, input.how);
    return value;
}

// The largest of the records that may hold, where they differ and none is taken.
inline std::optional<double> most_undecided(std::string_view input, const Given& given) {
    std::optional<double> most;
    if (const auto found = given.undecided.find(input); found != given.undecided.end())
        for (const auto& one : found->second)
            for (const double number : one.numbers) most = std::max(most.value_or(number), number);
    return most;
}

inline Input total_input(std::string name) {
    return recorded(
        found_by(number_input(std::move(name), "all the fluid in unit, converter and cooler", "L", 0.1, 200),
                 "all the fluid in unit, converter and cooler, from the handbook; not what one drain takes out."),
        fills, "total_l");
}

}  // namespace casebound::transmission_fluids
