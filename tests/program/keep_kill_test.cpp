// Kills `casebound keep --confirm` at random moments: the own pack is as before or as after, never between.
#include <catch2/catch.hpp>

#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>
#include <random>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "core/ground/file_stamp.h"
#include "tests/environment.h"
#include "tests/own_pack_state.h"
#include "tests/scratch_folder.h"

using namespace casebound;
namespace files = std::filesystem;

namespace {

const std::string program = CASEBOUND_BINARY_DIR "/casebound";

void must(const std::string& words) {
    INFO(words);
    REQUIRE(std::system(fmt::format("'{}' {} > /dev/null", program, words).c_str()) == 0);
}

void new_yard() {
    std::string packs;
    for (const auto* name : {"filters_seals", "mounts", "solenoids", "transmission_fluids", "demo-fleet"})
        packs += fmt::format(" '{}/seed-data/{}'", CASEBOUND_SOURCE_DIR, name);
    must("pack load" + packs);
    must("vehicle new van quernmoor-packet year=2007 engine=2.6 cooler=no pan_depth=41mm measured");
    must("record van fitted role=pan-filter item=Q312-1141 made=new");
}

// True when it was killed before it had ended.
bool keep_and_kill(const std::string& pack, useconds_t after_us) {
    const pid_t child = fork();
    if (child == 0) {
        const int nowhere = open("/dev/null", O_WRONLY);
        dup2(nowhere, STDOUT_FILENO);
        execl(program.c_str(), "casebound", "keep", "van", "applications", "role=pan-filter", "item=Q312-1141",
              "--pack", pack.c_str(), "--confirm", nullptr);
        _exit(127);
    }
    usleep(after_us);
    kill(child, SIGKILL);
    int status = 0;
    waitpid(child, &status, 0);
    return WIFSIGNALED(status);
}

}  // namespace

TEST_CASE("an own pack whose keeping is killed is as before or as after it") {
    const ScratchFolder folder;
    const SetVariable home("CASEBOUND_HOME", folder.path().c_str()), date("CASEBOUND_TODAY", "2026-11-25");
    new_yard();
    const auto pack = folder.file("own");
    std::mt19937 random(202);
    int killed = 0, staged = 0;
    useconds_t whole = 200000;  // grows and shrinks with the machine, so that the moments meet the writes
    std::int64_t before = 0;
    for (int n = 0; n < 200; ++n) {
        const bool cut = keep_and_kill(pack, std::uniform_int_distribution<useconds_t>(whole / 4, whole)(random));
        whole = cut ? whole + whole / 40 : whole - whole / 10;
        killed += cut;
        staged += files::exists(folder.file(".own.new"));
        INFO("kill " << n);
        REQUIRE(pack_damage(pack) == "");
        const auto after = kept_in(pack);
        REQUIRE((after == before || after == before + 1));
        before = after;
    }
    CHECK(killed >= 50);
    CHECK(staged >= 10);  // otherwise the moments missed the writes and nothing was shown
    const auto kept = kept_in(pack);
    must(fmt::format("keep van applications role=pan-filter item=Q312-1141 --pack '{}' --confirm",
                     pack));  // what a kill left behind is no hindrance
    CHECK(kept_in(pack) == kept + 1);
    must(fmt::format("pack check '{}'", pack));
}

TEST_CASE("positive control: a pack whose files are written one by one is caught when torn") {
    const ScratchFolder folder;
    const SetVariable home("CASEBOUND_HOME", folder.path().c_str()), date("CASEBOUND_TODAY", "2026-11-25");
    new_yard();
    const auto pack = folder.file("own");
    must(fmt::format("keep van applications role=pan-filter item=Q312-1141 --pack '{}' --confirm", pack));
    REQUIRE(pack_damage(pack) == "");
    folder.write("own/sources.csv",
                 ScratchFolder::read(pack + "/sources.csv") + "measured-van-20261125-2,measured,x,2026-11-25,,\n");
    CHECK(pack_damage(pack) != "");
}
