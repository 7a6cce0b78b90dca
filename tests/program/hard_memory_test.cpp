// Refuses memory to every writing command, one request alone or all from one on: what was to be written is as before or as
// after, the command ends with one of its exit codes and says what it is, and what it calls done is done.
#include <fstream>

#include "tests/program/hard_yard.h"

#ifndef __SANITIZE_ADDRESS__  // which hands out memory itself

namespace {

std::string short_of_memory(const hard::Yard& yard, long at, bool full) {
    return fmt::format("env LD_PRELOAD='{}' MEMORY_AT={} MEMORY_FULL={:d} MEMORY_COUNT='{}'", CASEBOUND_FAILING_MEMORY,
                       at, full, yard.root() + ".requests");
}

int requests_of(const hard::Yard& yard) {
    int requests = 0;
    std::ifstream(yard.root() + ".requests") >> requests;
    return requests;
}

bool is_meant(int exit) {
    constexpr int meant[] = {0, 1, 2, 65, 66, 73, 74, 75, 78};
    return std::find(std::begin(meant), std::end(meant), exit) != std::end(meant);
}

}  // namespace

TEST_CASE(
    "hard: whatever request for memory is refused, a command leaves all as before or as after and says what it is") {
    hard::Yard yard;
    int refusals = 0, met = 0;
    for (const auto& command : hard::writing_commands()) {
        INFO(command.words);
        yard.begin(command.to_catalog);
        const auto before = yard.state();
        REQUIRE(yard.run(command.words, short_of_memory(yard, 0, false)) <= 2);
        const auto after = yard.state();
        const int requests = requests_of(yard);
        REQUIRE(requests > 1000);
        const int step = hard::is_long() ? requests / 400 + 1 : requests / 3 + 1;
        for (int place = 1 + refusals % 7; place <= requests; place += step)
            for (const bool full : {false, true}) {
                if (!hard::is_long() && ((place + refusals) % 2 == 0) == full) continue;
                yard.begin(command.to_catalog);
                const int exit = yard.run(command.words, short_of_memory(yard, place, full));
                const auto now = yard.state();
                INFO((full ? "memory is full" : "one is refused")
                     << " from request " << place << " of " << requests << ": exit " << exit << "\n"
                     << yard.said());
                ++refusals;
                met += exit > 2;
                CHECK(is_meant(exit));
                CHECK(hard::between(now, before, after) == "");
                if (exit <= 2) CHECK(now == after);
                if (exit > 2) CHECK_FALSE(yard.said().empty());
            }
    }
    WARN(refusals << " refusals of memory, " << met << " of them met with an error");
    CHECK(met > 0);
}
#endif
