// Standard output that is full or closed, standard error that is closed: nothing aborts, no file is mistaken for a stream,
// and who cannot be shown the answer is told that it was done, so that it is not typed again.
#include "tests/program/hard_yard.h"

namespace {

bool tells_that_it_is_done(const std::string& said) {
    return said.find("IS DONE") != std::string::npos && said.find("do not type it again") != std::string::npos;
}

}  // namespace

TEST_CASE("hard: who cannot be shown the answer is told that what was asked is done") {
    hard::Yard yard;
    int turn = 0;
    for (const auto& command : hard::writing_commands())
        for (const std::string out : {"> /dev/full 2> said", ">&- 2> said"}) {
            if (!hard::is_long() && ++turn % 4 >= 2) continue;  // one of the two each, in turn
            yard.begin(command.to_catalog);
            const auto before = yard.state();
            const int exit = yard.run(command.words, "", out);
            INFO(command.words << " " << out << "\n" << yard.said());
            CHECK(exit == 74);
            CHECK(tells_that_it_is_done(yard.said()));
            CHECK(yard.state() != before);
        }
    yard.begin(false);
    CHECK(yard.run("vehicle list", "", "> /dev/full 2> said") == 74);
    CHECK_FALSE(tells_that_it_is_done(yard.said()));  // the control: nothing was written, and nothing is claimed
    CHECK(yard.run("list van pan-service", "", "2> said | true") == 0);
    CHECK(yard.said().empty());  // who has read enough is told nothing
}

TEST_CASE("hard: with standard error closed a command does what it does, and nothing is written into its files") {
    hard::Yard yard;
    for (const auto& command : hard::writing_commands()) {
        INFO(command.words);
        yard.begin(command.to_catalog);
        const int usual = yard.run(command.words);
        const auto after = yard.state();
        for (const std::string streams : {"> said <&- 2>&-", "> said 2>&-", "> said 2> /dev/full"}) {
            yard.begin(command.to_catalog);
            CHECK(yard.run(command.words, "", streams) == usual);
            CHECK(yard.state() == after);
            if (!hard::is_long()) break;
        }
    }
    yard.begin(false);
    CHECK(yard.run("fits van pan-fitler", "", "> said 2>&-") == 64);
    CHECK(yard.run("pack check nowhere", "", ">&- 2>&- <&-") == 66);
}
