#include "science/swap_test.h"

#include <algorithm>
#include <utility>

namespace casebound::solenoids {
namespace {

SwapAnswer unclear(std::string reason) { return {SwapAdvice::cannot_tell, std::move(reason), {}}; }

std::vector<std::string> needed_for_a_swap() {
    return {"new O-rings for both", "count out and in: springs and balls may drop",
            "clear the codes, then drive until the fault would have come"};
}

SwapAnswer by_grade(const SwapSetup& setup) {
    if (!setup.graded) return {SwapAdvice::possible, "the same part", needed_for_a_swap()};
    if (!setup.grade || !setup.other_grade) return unclear("read the grade on both parts");
    if (*setup.grade == *setup.other_grade)
        return {SwapAdvice::possible, "the same part and grade", needed_for_a_swap()};
    return {SwapAdvice::possible_after_relearning, "the same part in another grade", needed_for_a_swap()};
}

bool has(const std::vector<Code>& codes, Code code) {
    return std::find(codes.begin(), codes.end(), code) != codes.end();
}

}  // namespace

SwapReading read_swap(SwapOutcome outcome) {
    switch (outcome) {
        case SwapOutcome::moved:
            return {{Cause::coil, Cause::valve_or_debris},
                    {Cause::shared_feed, Cause::internal_plate, Cause::controller, Cause::clutch_or_seal},
                    "the fault moved with the part: it is in the part itself, its coil or its valve"};
        case SwapOutcome::stayed:
            return {{Cause::internal_plate, Cause::shared_feed, Cause::valve_or_debris, Cause::controller,
                     Cause::clutch_or_seal},
                    {Cause::coil},
                    "the fault stayed: its circuit, or its valve in the body"};
        case SwapOutcome::both:
            return {{Cause::shared_feed, Cause::internal_plate},
                    {},
                    "both fail: something they share, or a connection disturbed by the exchange"};
        case SwapOutcome::neither:
            return {{Cause::shared_feed, Cause::valve_or_debris},
                    {},
                    "gone for now: a contact or debris was disturbed; nothing is proved, drive on"};
        case SwapOutcome::something_else: break;
    }
    return {{}, {}, "another fault: cannot tell, read the codes again"};
}

SwapAnswer may_swap(const SwapSetup& setup) {
    if (setup.within_block.value_or(false)) return {SwapAdvice::not_possible, "moulded into one block", {}};
    if (!setup.same_part) return unclear("not recorded whether the two are the same part");
    if (!*setup.same_part) return {SwapAdvice::not_possible, "not the same part", {}};
    if (!setup.within_block) return unclear("not recorded whether they come out singly");
    return by_grade(setup);
}

std::optional<Code> code_if_moved(Code code, char other_letter) {
    const auto known = meaning(code);
    if (!known || known->function != Function::shift_solenoid) return std::nullopt;
    if (known->which < "A" || known->which > "E") return std::nullopt;
    const auto moved = shift_solenoid_code(other_letter, known->kind);
    return moved == code ? std::nullopt : moved;
}

std::optional<SwapOutcome> outcome_from_codes(Code before, char other_letter, const std::vector<Code>& after) {
    const auto moved = code_if_moved(before, other_letter);
    if (!moved) return std::nullopt;
    const bool on_own = has(after, before);
    const bool on_other = has(after, *moved);
    const auto expected = static_cast<std::size_t>(on_own) + static_cast<std::size_t>(on_other);
    constexpr Code request{'P', 0x0700};  // accompanies every other code
    const auto others = std::count_if(after.begin(), after.end(),
                                      [&](Code code) { return code != before && code != *moved && code != request; });
    if (others > 0) return SwapOutcome::something_else;
    if (expected == 2) return SwapOutcome::both;
    if (expected == 0) return SwapOutcome::neither;
    return on_own ? SwapOutcome::stayed : SwapOutcome::moved;
}

}  // namespace casebound::solenoids
