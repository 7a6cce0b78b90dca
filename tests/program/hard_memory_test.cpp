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

// A reader takes room for the rows that a file seems to have by its first thousand. Where they are short and the rest
// is long, that is several times what the rows want, and may be more than there is.
TEST_CASE("hard: a table that begins with short rows loads where its rows have room, though not what they promised") {
    const ScratchFolder folder;
    const SetVariable home("CASEBOUND_HOME", folder.file("home").c_str());
    constexpr std::size_t file_bytes = 40'000'000, room_kilobytes = 280'000;  // the rows want 170,000 in all
    const auto check = [&](std::size_t short_rows) {
        std::string rows = "source,kind,title,edition,note\n";
        const std::string note(4900, 'n');
        for (std::size_t i = 0; rows.size() < file_bytes; ++i)
            rows += fmt::format("s{},law,t,,{}\n", i, i < short_rows ? std::string() : note);
        std::filesystem::create_directories(folder.file("pack"));
        folder.write("pack/sources.csv", rows);
        const auto run = [&](const std::string& limit, const std::string& words) {
            const int how = std::system(fmt::format("{} '{}' {} '{}/pack' > '{}' 2>&1", limit, hard::program, words,
                                                    folder.path(), folder.file("said"))
                                            .c_str());
            return WIFEXITED(how) ? WEXITSTATUS(how) : 128 + WTERMSIG(how);
        };
        REQUIRE(run("", "pack new") == 0);
        return run(fmt::format("ulimit -v {};", room_kilobytes), "pack check");
    };
    const int loaded = check(1000);
    INFO(ScratchFolder::read(folder.file("said")));
    CHECK(loaded == 0);
    // Control: as many bytes of short rows alone do not fit into that room.
    const int refused = check(file_bytes);
    const auto said = ScratchFolder::read(folder.file("said"));
    INFO(said);
    CHECK(refused == 75);
    CHECK(said.find("out of memory: nothing was changed") != std::string::npos);
}
#endif
