// Lets every call of every writing command that changes the disk fail in turn: no space, a bad disk, half a write, a disk
// that takes nothing. What was to be written is as before or as after, the program says which of its exit codes it is, and
// what it calls done is done.
#include <cerrno>

#include <fstream>
#include <sstream>

#include "tests/program/hard_yard.h"

namespace {

const std::vector<std::pair<std::string, std::string>> ways{
    {"no space", std::to_string(ENOSPC)}, {"a bad disk", std::to_string(EIO)}, {"half a write", "short"}};

std::string failing(const hard::Yard& yard, const std::string& at, const std::string& with) {
    return fmt::format(
        "env ASAN_OPTIONS=verify_asan_link_order=0 LD_PRELOAD='{}' FAIL_AT={} FAIL_WITH={} FAIL_COUNT='{}'",
        CASEBOUND_FAILING_CALLS, at, with, yard.root() + ".calls");
}

bool is_meant(int exit) {
    constexpr int meant[] = {0, 1, 2, 65, 66, 73, 74, 75};
    return std::find(std::begin(meant), std::end(meant), exit) != std::end(meant);
}

int calls_of(const hard::Yard& yard) {
    int calls = 0;
    std::ifstream(yard.root() + ".calls") >> calls;
    return calls;
}

// "casebound: own/items.csv: No space left on device: check permissions and space" with a name that is one.
bool names_what_it_could_not_write(const std::string& said) {
    const std::string_view advice = ": check permissions and space", plain =
                                                                         "/._-abcdefghijklmnopqrstuvwxyz"
                                                                         "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789";
    std::istringstream lines(said);
    for (std::string line; std::getline(lines, line);) {
        if (line.find(advice) == std::string::npos) continue;
        const auto from = line.find(": ") + 2, end = line.find(": ", from);
        if (end == from || line.substr(from, end - from).find_first_not_of(plain) != std::string::npos) return false;
    }
    return true;
}

}  // namespace

TEST_CASE("hard: whatever call fails, a command leaves all as before or as after and says what it is") {
    hard::Yard yard;
    int failures = 0, refused = 0;
    for (const auto& command : hard::writing_commands()) {
        INFO(command.words);
        yard.begin(command.to_catalog);
        const auto before = yard.state();
        REQUIRE(yard.run(command.words, failing(yard, "0", "0")) <= 2);
        const auto after = yard.state();
        const int calls = calls_of(yard);
        REQUIRE(calls > 0);
        for (std::size_t w = 0; w < ways.size(); ++w)
            for (const int place : hard::places(calls, 4)) {
                const auto& [way, with] = ways[w];
                if (!hard::is_long() && static_cast<std::size_t>(place) % ways.size() != w) continue;
                yard.begin(command.to_catalog);
                const int exit = yard.run(command.words, failing(yard, std::to_string(place), with));
                const auto now = yard.state();
                INFO(way << " at call " << place << " of " << calls << ": exit " << exit << "\n" << yard.said());
                ++failures;
                refused += exit > 2;
                REQUIRE(is_meant(exit));
                REQUIRE(names_what_it_could_not_write(yard.said()));
                REQUIRE(hard::between(now, before, after) == "");
                if (exit <= 2) REQUIRE(now == after);
            }
        yard.begin(command.to_catalog);
        const int exit = yard.run(command.words, failing(yard, "all", std::to_string(EROFS)));
        INFO("a disk that takes nothing: exit " << exit << "\n" << yard.said());
        CHECK((exit == 66 || exit == 73 || exit == 74));
        CHECK(yard.state() == before);
    }
    WARN(failures << " failing calls, " << refused << " of them met with a refusal");
    CHECK(failures >= 60);
    CHECK(refused > failures / 5);
}

TEST_CASE("hard, positive control: a copy that goes on after a failed write is caught") {
    hard::Yard yard;
    yard.begin(true);
    const auto before = yard.state();
    const auto copy = [&](const std::string& env) {
        return std::system(
            fmt::format("cd '{}' && {} dd if=own/sources.csv of=own/items.csv", yard.root(), env).c_str());
    };
    REQUIRE(copy("2> /dev/null") == 0);
    const auto after = yard.state();
    REQUIRE(before != after);
    yard.begin(true);
    CHECK(copy("env FAIL_STREAMS=yes " + failing(yard, "2", std::to_string(ENOSPC)).substr(4) + " 2> /dev/null") != 0);
    CHECK_THAT(hard::between(yard.state(), before, after), Catch::Contains("own: neither as before nor as after"));
}
