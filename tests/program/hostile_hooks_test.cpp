// A domain that misbehaves when it is asked something harms nobody: its own lines say what failed, every other domain
// and every command still answers, and `plugin check` finds it. The domain is `wipers` of tests/hostile/hooks.
#include <catch2/catch.hpp>

#include <sys/wait.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <set>
#include <string>

#include <fmt/format.h>

#include "tests/environment.h"
#include "tests/scratch_folder.h"

namespace files = std::filesystem;
using Catch::Contains;

namespace {

const std::string program = CASEBOUND_BINARY_DIR "/casebound", hooks = CASEBOUND_BINARY_DIR "/hostile/hooks/";

struct Ended {
    int exit{};
    std::string said;  // both streams
};

Ended run(const std::string& words) {
    Ended ended;
    const auto pipe = ::popen(fmt::format("'{}' {} 2>&1", program, words).c_str(), "r");
    REQUIRE(pipe != nullptr);
    char part[4096];
    for (std::size_t count; (count = std::fread(part, 1, sizeof part, pipe)) > 0;) ended.said.append(part, count);
    const int status = ::pclose(pipe);
    ended.exit = WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
    std::string flat;  // however it is wrapped
    for (const char c : ended.said)
        if (c != ' ' || flat.empty() || flat.back() != ' ') flat += c == '\n' ? ' ' : c;
    for (auto at = flat.find("  "); at != std::string::npos; at = flat.find("  ")) flat.erase(at, 1);
    ended.said = flat;
    return ended;
}

using Files = std::map<std::string, std::string>;

const std::string sources = "source,kind,title,edition,note\nw-made,invented,Invented to be spoilt,,\n";

// What the domain ships.
const Files shipped{
    {"sources.csv", sources},
    {"items.csv",
     "item,kind,title,pack_quantity,withdrawn,source\nWB-1,wiper-blade,Wiper blade,1,,w-made\n"
     "WB-2,wiper-blade,Wiper blade,1,,w-made\n"},
    {"groups.csv",
     "group_key,kind,title,source\nblade-500,wiper-blade,blades of 500 mm,w-made\n"
     "blade-510,wiper-blade,blades of 510 mm,w-made\n"},
    {"group_members.csv", "group_key,item,basis,source\nblade-500,WB-1,same,w-made\nblade-510,WB-2,same,w-made\n"},
    {"stand_ins.csv",
     "offered,relation,wanted,condition,requirement,also_requires,difference,withdrawn,source\n"
     "blade-510,supersedes,blade-500,,,,,,w-made\n"},
    {"jobs.csv", "job,title,minutes,source\nwiper-change,Change the wipers,5,w-made\n"},
    {"job_roles.csv",
     "job,role,reach,line,condition,reuse,note,source\nwiper-change,wiper-front,needs,,,never,,w-made\n"},
    {"wipers_blades.csv", "group_key,length_mm,source\nblade-500,500,w-made\nblade-510,510,w-made\n"},
};

// Where its blades go on the van.
const Files fleet{
    {"sources.csv", "source,kind,title,edition,note\nf-made,invented,Invented to be spoilt,,\n"},
    {"applications.csv",
     "line,role,says,group_key,condition,quantity,note,withdrawn,source\n"
     "quernmoor-packet,wiper-front,fits,blade-500,,2,,,f-made\n"},
};

// A yard with a van, and the packs of the shipped domains and of the sound wipers.
class Yard {
public:
    Yard() : home_("CASEBOUND_HOME", folder_.path().c_str()), date_("CASEBOUND_TODAY", "2026-11-25") {
        files::create_directories(folder_.file("plugins"));
        take("sound");
        must("pack load --reference");
        must(fmt::format("pack load '{}/seed-data/demo-fleet'", CASEBOUND_SOURCE_DIR));
        load(shipped, "plugins/wipers", "wipers-pack");
        load(fleet, "fleet", "wipers-fleet");
        must("vehicle new van quernmoor-packet year=2007 engine=2.6 cooler=no pan_depth=41mm measured");
    }
    // In the person's own plugin folder, in the place of the last one.
    void take(const std::string& name) const {
        folder_.write("plugins/wipers.so", ScratchFolder::read(hooks + name + ".so"));
    }
    std::string pack_folder() const { return folder_.file("plugins/wipers"); }

private:
    void load(const Files& pack, const std::string& at, const std::string& name) const {
        files::create_directories(folder_.file(at));
        for (const auto& [file, text] : pack) folder_.write(at + "/" + file, text);
        must(fmt::format("pack new --name {} '{}'", name, folder_.file(at)));
        auto descriptor = ScratchFolder::read(folder_.file(at + "/datapackage.json"));
        const std::string invented = "\"invented\": false";
        descriptor.replace(descriptor.find(invented), invented.size(), "\"invented\": true");
        folder_.write(at + "/datapackage.json", descriptor);
        must(fmt::format("pack load '{}'", folder_.file(at)));
    }
    static void must(const std::string& words) {
        const auto ended = run(words);
        INFO(words << "\n" << ended.said);
        REQUIRE(ended.exit == 0);
    }
    ScratchFolder folder_;
    SetVariable home_, date_;
};

// What is asked while the domain is spoilt, and what of the rest must still be said.
const std::map<std::string, std::string> asked{
    {"vehicle show van", "14 of 268"},
    {"list van pan-service wiper-change", "ok pan filter 1 Q312-1141"},
    {"fits van pan-filter", "pan filter: FITS Q312-1141"},
    {"decide van", "7 of 7 figures are not this vehicle's"},
    {"sheet van job pan-service wiper-change", "pan bolts: 16 x M6x20: 9 N·m"},
    {"vehicle tell van leak_at=pan_rail", ""},
    {"due", ""},
};

// By plugin: the command that meets the hook, and what it says; and what `plugin check` says. What is asked of no vehicle
// is asked when the plugin is new: then the domain is refused.
struct Spoilt {
    std::string command, said, found;
};
const std::string list = "list van pan-service wiper-change", sheet = "sheet van job pan-service wiper-change";
const std::map<std::string, Spoilt> spoilt{
    {"bad_condition", {list, "not answered", "the condition `wiper_arm=hook; <<`"}},
    {"foreign_rows",
     {"vehicle show van", "wipers failed in findings(): rows of `mounts_loads`", "failed in findings()"}},
    {"misspelt_column", {list, "wipers_blades has no column `lenght_mm`", "wipers_blades has no column `lenght_mm`"}},
    {"objection_without_reason", {list, "wiper blade, front", "an objection without a reason: say why"}},
    {"opinion_without_reason", {"swap blade-500 blade-510", "", "a verdict lowered without a reason: say why"}},
    {"throw_in_check", {"pack check PACK", "wipers failed in check(wipers-pack): map::at", "failed in check("}},
    {"throw_in_examine",
     {list, "wipers failed in examine(wiper-front, blade-500): vector::_M_range_check", "failed in examine("}},
    {"throw_in_findings",
     {"vehicle show van", "wipers failed in findings(): vector::_M_range_check", "failed in findings()"}},
    {"throw_in_holds",
     {list, "wipers failed in holds(): it threw something that is no std::exception", "failed in holds()"}},
    {"throw_in_inquiry", {"wipers length", "wipers failed in length: string::at", "failed in length: string::at"}},
    {"throw_in_may_stand_in",
     {"swap blade-500 blade-510", "wipers failed in may_stand_in(", "failed in may_stand_in("}},
    {"throw_in_services_due",
     {"due", "threw an exception in services_due() (no calendar)",
      "threw an exception in services_due() (no calendar)"}},
    {"throw_in_telling",
     {"vehicle tell van wiper_arm=hook", "wipers failed in telling(wiper_arm=hook): too long", "too long"}},
    {"throw_in_tightening", {sheet, "wipers failed in tightening(wiper-front): no wrench", "no wrench"}},
    {"throw_number_in_examine", {list, "it threw something that is no std::exception", "failed in examine("}},
    {"unknown_attribute", {list, "not answered", "`wiper_arms` is no attribute that any loaded domain declares"}},
};

// Those that end the program, or would never end it: how it is said. All of them when asked what was found.
const std::map<std::string, std::string> ending{
    {"abort_in_findings", "wipers crashed (it gave up by abort) in findings()"},
    {"crash_in_findings", "wipers crashed (memory that is not its own"},
    {"deep_in_findings", "or too deep a recursion) in findings()"},
    {"exit_in_findings", "wipers ended the program in findings()"},
    {"hang_in_findings", "wipers does not come back in findings()"},
    {"leave_in_findings", "wipers ended the program in findings()"},
    {"quick_exit_in_findings", "wipers ended the program in findings()"},
};

bool is_an_answer(int exit) { return exit <= 2 || exit == 65; }  // 65: what was told, or a pack, is refused in words

}  // namespace

TEST_CASE("a domain that misbehaves in a hook is named where it was asked, and everything else answers") {
    const Yard yard;
    for (const auto& [name, one] : spoilt) {
        yard.take(name);
        for (const auto& [words, rest] : asked) {
            const auto ended = run(words);
            INFO(name << ": casebound " << words << "\n" << ended.said);
            CHECK(is_an_answer(ended.exit));
            CHECK_THAT(ended.said, Contains(rest));
        }
        auto words = one.command;
        if (const auto at = words.find("PACK"); at != std::string::npos) words.replace(at, 4, yard.pack_folder());
        const auto ended = run(words);
        INFO(name << ": casebound " << words << "\n" << ended.said);
        CHECK(is_an_answer(ended.exit));
        CHECK_THAT(ended.said, Contains(one.said));
    }
}

TEST_CASE("plugin check runs every hook in a child and finds what misbehaves, and has nothing against the sound one") {
    const Yard yard;
    const auto sound = run("plugin check");
    INFO(sound.said);
    CHECK(sound.exit == 0);
    CHECK_THAT(sound.said, !Contains("fault:"));
    for (const auto& [name, one] : spoilt) {
        yard.take(name);
        const auto ended = run("plugin check");
        INFO(name << "\n" << ended.said);
        CHECK(ended.exit == 78);
        CHECK_THAT(ended.said, Contains("wipers") && Contains(one.found));
    }
}

TEST_CASE("a domain that ends the program, crashes or does not come back is named, and nothing is answered") {
    const Yard yard;
    const SetVariable patience("CASEBOUND_HOOK_SECONDS", "1");
    for (const auto& [name, said] : ending) {
        yard.take(name);
        for (const std::string words : {"vehicle show van", "vehicle show van --json"}) {
            const auto ended = run(words);
            INFO(name << ": casebound " << words << "\n" << ended.said);
            CHECK(ended.exit == 70);
            CHECK_THAT(ended.said, Contains(said) && Contains("nothing was answered"));
            CHECK_THAT(ended.said, !Contains("quernmoor"));
        }
        const auto ended = run("plugin check");
        INFO(name << "\n" << ended.said);
        CHECK(ended.exit == 78);
        CHECK_THAT(ended.said, Contains("wipers") && Contains("findings()"));
    }
    yard.take("sound");
    CHECK(run("vehicle show van").exit == 0);
}

TEST_CASE("a domain that is called like a command is refused with one error whatever is run, and the rest answers") {
    const ScratchFolder home, more;
    const SetVariable variable("CASEBOUND_HOME", home.path().c_str());
    more.copy(CASEBOUND_BINARY_DIR "/hostile/name_of_command.so", "fits.so");
    const auto with = " --plugins '" + more.path() + "'";
    const std::string error = more.file("fits.so") +
                              ": domain `fits` has the name of a command, so nobody could ask it: rename the domain";
    for (const auto& [words, exit] : {std::pair{"plugin check", 78}, {"mounts", 0}, {"plugin list", 0}}) {
        const auto ended = run(words + with);
        INFO(words << ": " << ended.said);
        CHECK(ended.exit == exit);
        const auto at = ended.said.find("casebound: " + error);
        REQUIRE(at != std::string::npos);
        CHECK(ended.said.find("casebound: " + error, at + 1) == std::string::npos);
    }
    CHECK_THAT(run("mounts" + with).said, Contains("natural-frequency"));
    CHECK_THAT(run("fits van pan-filter" + with).said, Contains("van: no such vehicle"));  // the command, as ever
}

TEST_CASE("every plugin that misbehaves in a hook is covered, and there are at least fifteen") {
    std::set<std::string> built;
    for (const auto& entry : files::directory_iterator(CASEBOUND_SOURCE_DIR "/tests/hostile/hooks"))
        if (entry.path().extension() == ".cpp" && entry.path().stem() != "sound") built.insert(entry.path().stem());
    std::set<std::string> covered;
    for (const auto& [name, one] : spoilt) covered.insert(name);
    for (const auto& [name, said] : ending) covered.insert(name);
    CHECK(built == covered);
    CHECK(covered.size() >= 15);
}
