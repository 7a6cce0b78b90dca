#pragma once
// Judges a list of code texts before it is trusted. One much-copied public list
// is shifted by one row, another lost "1-2" to a spreadsheet's date numbers.
// The texts are only judged here; no code is ever recognised by its text.

#include "science/codes.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace casebound::solenoids {

struct CodeRow {
    Code code;
    std::string text;
};

enum class ListVerdict { agrees, shifted, disagrees, too_short_to_say };

struct ListJudgement {
    ListVerdict verdict;
    std::size_t judged;         // solenoid codes whose text could be judged
    std::size_t own;            // carry the text of their own code
    std::size_t neighbour;      // carry the text of the code before or after
    std::vector<Code> damaged;  // a date number stands where words belong
};

// Judges only the families of five (pressure control, converter clutch, shift
// solenoids): fewer than five such rows are too short to say.
ListJudgement judge_list(const std::vector<CodeRow>& rows);

// "45689 Shift Malfunction": begins with a five-digit number.
bool looks_damaged(std::string_view text);

}  // namespace casebound::solenoids
