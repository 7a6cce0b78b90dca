// Exchanging two solenoids that are the same part.
#include <catch2/catch.hpp>

#include <algorithm>

#include "plugins/solenoids/science/swap_test.h"

using namespace casebound::solenoids;

namespace {

Code read_code_of(const char* text) { return read_code(text).value(); }

bool has(const std::vector<Cause>& causes, Cause cause) {
    return std::find(causes.begin(), causes.end(), cause) != causes.end();
}

SwapSetup same_parts() {
    SwapSetup setup;
    setup.same_part = true;
    setup.within_block = false;
    return setup;
}

}  // namespace

TEST_CASE("a fault that moves with the part is in the part, one that stays is not in the coil") {
    const auto moved = read_swap(SwapOutcome::moved);
    CHECK(moved.points_to.front() == Cause::coil);
    CHECK(has(moved.speaks_against, Cause::internal_plate));
    const auto stayed = read_swap(SwapOutcome::stayed);
    CHECK_FALSE(has(stayed.points_to, Cause::coil));
    CHECK(has(stayed.speaks_against, Cause::coil));
}

TEST_CASE("both failing points to what they share, none failing proves nothing") {
    CHECK(read_swap(SwapOutcome::both).points_to.front() == Cause::shared_feed);
    CHECK(read_swap(SwapOutcome::neither).speaks_against.empty());
    CHECK(read_swap(SwapOutcome::something_else).points_to.empty());
}

TEST_CASE("no outcome points to a cause and speaks against it") {
    for (auto outcome : {SwapOutcome::moved, SwapOutcome::stayed, SwapOutcome::both, SwapOutcome::neither,
                         SwapOutcome::something_else}) {
        const auto reading = read_swap(outcome);
        CHECK_FALSE(reading.meaning.empty());
        for (Cause cause : reading.points_to) CHECK_FALSE(has(reading.speaks_against, cause));
    }
}

TEST_CASE("P0751 moved to B is P0756") {
    CHECK(code_if_moved(read_code_of("P0751"), 'B') == read_code_of("P0756"));
    CHECK(code_if_moved(read_code_of("P0753"), 'E') == read_code_of("P0773"));
    CHECK_FALSE(code_if_moved(read_code_of("P0751"), 'A'));
    CHECK_FALSE(code_if_moved(read_code_of("P0751"), 'F'));
    CHECK_FALSE(code_if_moved(read_code_of("P0743"), 'B'));
    CHECK_FALSE(code_if_moved(read_code_of("P075A"), 'B'));
}

TEST_CASE("for every shift solenoid code, moving there and back returns it") {
    for (char from = 'A'; from <= 'E'; ++from)
        for (char to = 'A'; to <= 'E'; ++to)
            for (auto kind : {CodeClass::circuit, CodeClass::stuck_off, CodeClass::stuck_on, CodeClass::electrical,
                              CodeClass::intermittent}) {
                if (from == to) continue;
                const auto before = shift_solenoid_code(from, kind);
                const auto moved = code_if_moved(*before, to);
                REQUIRE(moved);
                CHECK(code_if_moved(*moved, from) == before);
            }
}

TEST_CASE("the codes after the exchange give the outcome") {
    const Code before = read_code_of("P0751");
    CHECK(outcome_from_codes(before, 'B', {read_code_of("P0756")}) == SwapOutcome::moved);
    CHECK(outcome_from_codes(before, 'B', {read_code_of("P0700"), read_code_of("P0751")}) == SwapOutcome::stayed);
    CHECK(outcome_from_codes(before, 'B', {read_code_of("P0751"), read_code_of("P0756")}) == SwapOutcome::both);
    CHECK(outcome_from_codes(before, 'B', {}) == SwapOutcome::neither);
    CHECK(outcome_from_codes(before, 'B', {read_code_of("P0743")}) == SwapOutcome::something_else);
    CHECK_FALSE(outcome_from_codes(read_code_of("P0743"), 'B', {}));
}

TEST_CASE("an exchange needs the same part, taken out singly") {
    CHECK(may_swap(same_parts()).advice == SwapAdvice::possible);
    CHECK_FALSE(may_swap(same_parts()).with_it.empty());
    CHECK(may_swap({}).advice == SwapAdvice::cannot_tell);
    SwapSetup block = same_parts();
    block.within_block = true;
    CHECK(may_swap(block).advice == SwapAdvice::not_possible);
    SwapSetup other = same_parts();
    other.same_part = false;
    CHECK(may_swap(other).advice == SwapAdvice::not_possible);
}

TEST_CASE("graded parts exchange within a grade; across grades after relearning") {
    SwapSetup setup = same_parts();
    setup.graded = true;
    CHECK(may_swap(setup).advice == SwapAdvice::cannot_tell);
    setup.grade = "blue";
    setup.other_grade = "blue";
    CHECK(may_swap(setup).advice == SwapAdvice::possible);
    setup.other_grade = "white";
    CHECK(may_swap(setup).advice == SwapAdvice::possible_after_relearning);
}
