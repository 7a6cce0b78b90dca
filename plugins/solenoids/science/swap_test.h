#pragma once
// Two functions share a part: exchange the two and see whether the fault moves.
// It says what each outcome means and what would be expected; it never calls a
// part bad without the part having been moved.

#include "science/cause.h"
#include "science/codes.h"

#include <optional>
#include <string>
#include <vector>

namespace casebound::solenoids {

enum class SwapOutcome {
    moved,    // the fault is now on the other function
    stayed,   // the fault is still on its own function
    both,     // both functions fail now
    neither,  // no fault any more
    something_else,
};

struct SwapReading {
    std::vector<Cause> points_to;  // most telling first
    std::vector<Cause> speaks_against;
    std::string meaning;
};

SwapReading read_swap(SwapOutcome outcome);

struct SwapSetup {
    std::optional<bool> same_part = {};     // the two functions use one part
    std::optional<std::string> grade = {};  // calibration band or number, as stamped
    std::optional<std::string> other_grade = {};
    bool graded = false;                    // the part comes in grades
    std::optional<bool> within_block = {};  // moulded into a block: cannot be exchanged
};

enum class SwapAdvice { possible, possible_after_relearning, not_possible, cannot_tell };

struct SwapAnswer {
    SwapAdvice advice;
    std::string reason;
    std::vector<std::string> with_it;  // what the exchange needs
};

SwapAnswer may_swap(const SwapSetup& setup);

// The code to expect if the fault moves with the part: same behaviour, the
// other shift solenoid. Nothing unless code is one of a shift solenoid A to E
// and so is the other letter.
std::optional<Code> code_if_moved(Code code, char other_letter);

// What the codes after the exchange say. Only codes of the two functions count;
// others make it something_else. Nothing when code_if_moved has no answer.
std::optional<SwapOutcome> outcome_from_codes(Code before, char other_letter, const std::vector<Code>& after);

}  // namespace casebound::solenoids
