// The numbers an inquiry works with: given by hand or told of the vehicle (core fills those in), else on record for
// its line. Writes into the answer where each one came from, and what to find out when it cannot be known. Never
// picks one of two records.
#pragma once

#include <optional>
#include <string_view>

#include "core/contract/plugin.h"

namespace casebound::transmission_fluids {

struct Wanted {
    std::string_view input;          // of the inquiry: "total"
    std::string_view table, column;  // where the catalog would have it
    std::string_view label, unit;    // as shown
    int decimals = 1;
    std::string_view how;  // how to find it out, imperative
};

// Nothing: the answer then says what is missing, or which records differ, and its verdict is lowered. A record whose
// condition is not known to hold is used, with the condition as an assumption, and lowers the verdict.
std::optional<double> known_number(const Wanted& wanted, const Given& given, const Services& services, Answer& answer);

// The same for what an answer can do without: nothing is said when it is not known.
std::optional<double> known_number_if_any(const Wanted& wanted, const Given& given, const Services& services,
                                          Answer& answer);

// What an answer hinges on where the record is not certain: the largest value that may hold, and the condition of the
// record that `known_number` took, empty when it is certain.
std::optional<double> most_recorded(const Wanted& wanted, const Services& services);
std::string open_condition(const Wanted& wanted, const Given& given, const Services& services);

// A text cell on which all the rows that may hold agree; else nothing.
std::optional<std::string> recorded_text(const Services& services, std::string_view table, std::string_view column);

}  // namespace casebound::transmission_fluids
