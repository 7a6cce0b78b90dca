// One writing command is stopped at a call that changes the disk, another is run to its end meanwhile, and the first goes
// on: what comes of it is as if one had been run after the other, or one of them was refused and has changed nothing.
#include <csignal>

#include <fstream>
#include <set>

#include "tests/program/hard_yard.h"

namespace {

using State = std::map<std::string, std::string>;

struct Pair {
    std::string first, second;
};

const std::vector<Pair>& pairs() {
    static const std::string ordered =
        "buy van pan-service --without filter-neck-seal --without pan-gasket --without pan-filter --ordered";
    static const std::string kept = "keep van applications role=pan-filter item=Q312-1141 --pack own --confirm";
    static const std::vector<Pair> all{
        {ordered, ordered},
        {"vehicle tell van leak_at=dry", "vehicle tell van leak_at=pan_rail"},
        {"record van odometer odometer=131800", "record van odometer odometer=131900"},
        {"shelf put item=Q-QF4-1 quantity=2L", "shelf take item=Q-QF4-1 quantity=1L"},
        {kept, kept},
        {kept, "pack check --seal own"},
        {"vehicle new other quernmoor-packet year=2007", "vehicle new other quernmoor-packet year=2006"},
        {ordered, "shop backup away"},
        {"shop export out", "vehicle tell van leak_at=dry"},
    };
    return all;
}

int exit_code(int how) { return WIFEXITED(how) ? WEXITSTATUS(how) : 128 + WTERMSIG(how); }

// The program itself, so that it can be stopped; nothing of the test's own runs between fork and exec.
pid_t begin(const hard::Yard& yard, const std::string& words, int stop_at) {
    const auto line = fmt::format(
        "cd '{0}' && exec env ASAN_OPTIONS=verify_asan_link_order=0 LD_PRELOAD='{1}' FAIL_AT={2} FAIL_WITH=stop "
        "FAIL_COUNT='{0}.calls' '{3}' {4} > "
        "'{0}.first' "
        "2>&1",
        yard.root(), CASEBOUND_FAILING_CALLS, stop_at, hard::program, words);
    const pid_t child = ::fork();
    if (child == 0) {
        ::execl("/bin/sh", "sh", "-c", line.c_str(), nullptr);
        ::_exit(127);
    }
    return child;
}

struct Outcomes {
    State none, first, second, first_second, second_first;
    int calls = 0;
};

Outcomes outcomes_of(hard::Yard& yard, const Pair& pair) {
    Outcomes all;
    const auto after = [&](const std::vector<std::string>& words) {
        yard.begin(true);
        for (const auto& one : words) yard.run(one);
        return yard.state();
    };
    all.none = after({});
    all.first = after({pair.first});
    all.second = after({pair.second});
    all.first_second = after({pair.first, pair.second});
    all.second_first = after({pair.second, pair.first});
    yard.begin(true);
    int how = 0;
    ::waitpid(begin(yard, pair.first, 0), &how, 0);
    REQUIRE(exit_code(how) <= 2);
    std::ifstream(yard.root() + ".calls") >> all.calls;
    REQUIRE(all.calls > 0);
    return all;
}

bool is_one_of(const State& state, const Outcomes& all, bool first_done, bool second_done) {
    if (first_done && second_done) return state == all.first_second || state == all.second_first;
    return state == (first_done ? all.first : second_done ? all.second : all.none);
}

}  // namespace

TEST_CASE("hard: a command stopped on its way while another runs: as if one came after the other, or one is refused") {
    hard::Yard yard;
    int stopped = 0, both = 0, refused = 0;
    for (const auto& pair : pairs()) {
        INFO(pair.first << "\n" << pair.second);
        const auto all = outcomes_of(yard, pair);
        for (const int place : hard::places(all.calls, 3)) {
            yard.begin(true);
            const pid_t first = begin(yard, pair.first, place);
            int how = 0;
            REQUIRE(::waitpid(first, &how, WUNTRACED) == first);
            const bool is_stopped = WIFSTOPPED(how);
            const int second_exit = yard.run(pair.second);
            if (is_stopped) {
                ++stopped;
                ::kill(first, SIGCONT);
                REQUIRE(::waitpid(first, &how, 0) == first);
            }
            const int first_exit = exit_code(how);
            INFO("stopped at call " << place << " of " << all.calls << ": the first ended with " << first_exit << ": "
                                    << ScratchFolder::read(yard.root() + ".first") << "\nthe second with "
                                    << second_exit << ": " << yard.said());
            const bool first_done = first_exit <= 2, second_done = second_exit <= 2;
            CHECK((first_done || (first_exit >= 64 && first_exit <= 75 && first_exit != 70)));
            CHECK((second_done || (second_exit >= 64 && second_exit <= 75 && second_exit != 70)));
            CHECK(is_one_of(yard.state(), all, first_done, second_done));
            both += first_done && second_done;
            refused += !first_done || !second_done;
        }
    }
    WARN(stopped << " stops: both done " << both << " times, one refused " << refused << " times");
    CHECK(stopped > 15);
    CHECK(both > 0);
    CHECK(refused > 0);
}
