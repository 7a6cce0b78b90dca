// Which plugins are loaded, which are refused and why, and that one bad plugin never keeps a good one out.
#include <catch2/catch.hpp>

#include <elf.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <cstring>
#include <filesystem>
#include <functional>
#include <map>
#include <random>
#include <string>

#include <fmt/format.h>

#include "core/host/plugin_host.h"
#include "core/host/probe_record.h"
#include "tests/scratch_folder.h"

using namespace casebound;
using Catch::Contains;

namespace {

namespace fs = std::filesystem;

const std::string toy = CASEBOUND_BINARY_DIR "/toy/plugins/door_seals.so";

std::string hostile(const std::string& name) { return CASEBOUND_BINARY_DIR "/hostile/" + name + ".so"; }

std::string reason_for(const Plugins& plugins, const std::string& path) {
    for (const auto& refused : plugins.refused)
        if (refused.path == path) return refused.reason;
    return "not refused";
}

std::vector<std::string> names(const Plugins& plugins) {
    std::vector<std::string> all;
    for (const auto& domain : plugins.domains) all.push_back(domain.name);
    return all;
}

// A folder with the given hostile plugins and the toy, and where its probes are recorded.
struct PluginFolder : ScratchFolder {
    explicit PluginFolder(const std::vector<std::string>& hostiles = {}) {
        copy(toy, "door_seals.so");
        for (const auto& name : hostiles) copy(hostile(name), name + ".so");
    }
    Plugins load() const { return load_plugins({path()}, file("record")); }
    std::string reason(const std::string& name) const { return reason_for(load(), file(name)); }
};

// The exit code of `work` in a child, or 128 and more when a signal ended it.
int ending_of(const std::function<int()>& work) {
    const pid_t child = ::fork();
    if (child == 0) ::_exit(work());
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
}

// What each hostile plugin is told; parts that matter, in order.
const std::map<std::string, std::vector<std::string>> told_to{
#ifndef __SANITIZE_ADDRESS__  // where memory has no limit
    {"all_memory", {"threw an exception in vocabulary() (std::bad_alloc)", "take the file out of the folder"}},
#endif
    {"careless_words",
     {"attribute `PanDepth` is not snake_case: rename it", "role `seal_left` is not kebab-case",
      "inquiry `nothing` has no computation: set its `run`"}},
    {"core_word", {"attribute `year` of core_word is already declared otherwise by core: rename it"}},
    {"crash_in_vocabulary", {"crashed (Aborted) in vocabulary()", "tell whoever made it"}},
    {"crash_on_load", {"crashed (Segmentation fault) while it was loaded", "tell whoever made it"}},
    {"exit_on_load", {"ended the program (exit code 0) while it was loaded"}},
    {"foreign_table",
     {"schema of foreign_table: CREATE TABLE plain_secrets: write only CREATE TABLE and CREATE INDEX"}},
    {"hang_in_vocabulary", {"did not come back within 5.0 s in vocabulary()"}},
    {"hidden_manifest", {"does not export casebound_manifest", "build it with CASEBOUND_MANIFEST"}},
    {"name_of_core", {"domain `groups` has the name of something of core: rename the domain"}},
    {"no_instance", {"the manifest in memory is not the one in the file"}},
    {"no_manifest", {"no manifest (section .casebound): not a casebound plugin; take it out of the folder"}},
    {"no_title", {"it has no title: say in words what it is about"}},
    {"other_case", {"its domain name `Other-Case` is not snake_case: rename the domain"}},
    {"part_of_name", {"tables of domain `door` could not be told from those of `door_seals`", "rename one of the two"}},
    {"schema_without_comment", {"table schema_without_comment_a does not say what its column length_mm is"}},
    {"schema_without_origin",
     {"table schema_without_origin_a has no `origin INTEGER PRIMARY KEY` as its first column"}},
    {"schema_without_source", {"table schema_without_source_a has no source: add `source TEXT NOT NULL"}},
    {"schema_without_strict", {"table schema_without_strict_a is not STRICT: write `) STRICT;`"}},
    {"spin_on_load",
     {" while it was loaded: tell whoever made it"}},  // by processor time, or on a busy machine by the clock
    {"throw_in_vocabulary", {"threw an exception in vocabulary() (no words today): tell whoever made it"}},
    {"throw_noise",
     {"threw an exception in vocabulary() (red ?[31m, ?"
      "?, two\nlines, 38 mm², ?"
      "?"
      "?): tell"}},
    {"throw_number", {"threw something that is no std::exception in inquiries()"}},
    {"two_manifests", {"the manifest in memory is not the one in the file"}},
    {"undefined_symbol", {"cannot be loaded (undefined symbol: elsewhere::never_written(int))", "build it again"}},
    {"unknown_words",
     {"attribute `arm_length` has the unit `furlongs`, which core does not know",
      "role `arm` takes items of kind `wiper-arm`, which is not declared"}},
    {"word_of_door_seals", {"item kind `door-seal` of word_of_door_seals is already declared otherwise by door_seals"}},
    {"wrong_stamp",
     {"its stamp is \"0123456789abcdef another compiler\", this program's is \"" + std::string(build_stamp()) + "\"",
      "build it again"}},
};

}  // namespace

TEST_CASE("a good plugin is loaded, says its words, and answers an inquiry") {
    const PluginFolder folder;
    const Plugins plugins = folder.load();
    REQUIRE(names(plugins) == std::vector<std::string>{"door_seals"});
    CHECK(plugins.refused.empty());
    CHECK(plugins.domains[0].path == folder.file("door_seals.so"));
    CHECK(plugins.domains[0].vocabulary.roles.at(0).name == "door-seal-front");
    CHECK(plugins.find("door_seals") == &plugins.domains[0].domain);
    CHECK(plugins.domains[0].title == "door seals");
    CHECK(plugins.find("windows") == nullptr);
    CHECK_THAT(plugins.find("door_seals")->schema().answer.value(), Contains("CREATE TABLE door_seals_bulbs"));

    struct NoFacts : Facts {
        const std::vector<Row>& rows(std::string_view, std::string_view, std::string_view) const override {
            return none;
        }
        std::vector<Row> none;
    } facts;
    struct NoReasoner : Reasoner {
        Ranking rank(const AlternativeTable&, const std::vector<std::pair<std::string, std::string>>&) const override {
            return {};
        }
    } reasoner;
    Given given;
    given.values["bulb"] = {"16 mm", {16}};
    given.values["gap"] = {"12 mm", {12}};
    const auto* seals = plugins.find("door_seals");
    const auto answer = seals->run(seals->inquiries().answer.value().at(0), given, {facts, reasoner});
    REQUIRE(answer);
    CHECK(answer->verdict == Verdict::fits);
    CHECK(std::get<Measure>(answer->lines.at(0).value).value == Approx(25));  // (16 - 12) / 16
}

TEST_CASE("every hostile plugin is refused with its own message, and the good ones beside it still load") {
    PluginFolder folder({"plain"});
    for (const auto& [name, parts] : told_to) folder.copy(hostile(name), name + ".so");
    const Plugins plugins = folder.load();
    CHECK(names(plugins) == std::vector<std::string>{"door_seals", "plain"});
    CHECK(plugins.refused.size() == told_to.size());
    for (const auto& [name, parts] : told_to)
        for (const auto& part : parts) CHECK_THAT(reason_for(plugins, folder.file(name + ".so")), Contains(part));
}

TEST_CASE("every hostile plugin that is built is covered by a message") {
    std::vector<std::string> uncovered;
    for (const auto& entry : fs::directory_iterator(CASEBOUND_SOURCE_DIR "/tests/hostile"))
        if (const auto name = entry.path().stem().string(); entry.path().extension() == ".cpp" && name != "plain" &&
                                                            name != "own_strip" && name != "name_of_command" &&
                                                            name != "all_memory" && !told_to.contains(name))
            uncovered.push_back(name);
    CHECK(uncovered.empty());
}

TEST_CASE("a domain with a name that the program itself answers to is refused, and the rest is loaded") {
    const PluginFolder folder({"plain", "name_of_command"});
    const Plugins plugins = load_plugins({folder.path()}, "", {"fits", "list"});
    CHECK(names(plugins) == std::vector<std::string>{"door_seals", "plain"});
    CHECK(reason_for(plugins, folder.file("name_of_command.so")) ==
          "domain `fits` has the name of a command, so nobody could ask it: rename the domain");
    CHECK(names(folder.load()) ==
          std::vector<std::string>{"door_seals", "fits", "plain"});  // nothing is kept for another
}

TEST_CASE("words of a refused plugin do not stay behind to refuse another") {
    const PluginFolder folder({"word_of_door_seals"});
    folder.copy(hostile("own_strip"), "z_last.so");  // declares `door-strip` otherwise than the one refused before it
    const Plugins plugins = folder.load();
    CHECK(names(plugins) == std::vector<std::string>{"door_seals", "own_strip"});
    CHECK(plugins.refused.size() == 1);
}

TEST_CASE("of two plugins whose words clash the first by path stays") {
    const PluginFolder folder;
    folder.copy(hostile("word_of_door_seals"), "a_first.so");
    CHECK_THAT(
        folder.reason("door_seals.so"),
        Contains("item kind `door-seal` of door_seals is already declared otherwise by word_of_door_seals: rename it"));
}

TEST_CASE("of two plugins with one domain name the first by path stays, and both paths are named") {
    const PluginFolder folder;
    folder.copy(toy, "a_copy.so");
    const Plugins plugins = folder.load();
    REQUIRE(plugins.domains.size() == 1);
    CHECK(plugins.domains[0].path == folder.file("a_copy.so"));
    CHECK(folder.reason("door_seals.so") ==
          fmt::format("domain `door_seals` is loaded from {} already, so {} is left out: keep one of the two",
                      folder.file("a_copy.so"), folder.file("door_seals.so")));
}

TEST_CASE("what is shipped wins every clash: of a name, and of a word, with a folder named after it") {
    const ScratchFolder shipped, own;
    shipped.copy(toy, "z_last.so");
    own.copy(toy, "a_first.so");
    own.copy(hostile("word_of_door_seals"), "b_second.so");
    own.copy(hostile("plain"), "c_third.so");
    const Plugins plugins = load_plugins({shipped.path(), own.path()}, "");
    CHECK(names(plugins) == std::vector<std::string>{"door_seals", "plain"});
    CHECK(plugins.find("door_seals") == &plugins.domains[0].domain);
    CHECK(plugins.domains[0].path == shipped.file("z_last.so"));
    CHECK_THAT(reason_for(plugins, own.file("a_first.so")), Contains("is loaded from " + shipped.file("z_last.so")));
    CHECK_THAT(reason_for(plugins, own.file("b_second.so")), Contains("already declared otherwise by door_seals"));
}

TEST_CASE("a refused plugin does not keep its domain name from the next one") {
    const PluginFolder folder;
    folder.write("a_copy.so", ScratchFolder::read(toy), 0666);
    const Plugins plugins = folder.load();
    REQUIRE(plugins.domains.size() == 1);
    CHECK(plugins.domains[0].path == folder.file("door_seals.so"));
}

TEST_CASE("folders that are missing, named twice, or reached by two names are no fault") {
    const PluginFolder folder;
    const ScratchFolder other;
    fs::create_directory_symlink(folder.path(), other.file("link"));
    const Plugins plugins = load_plugins({folder.path(), other.file("link"), folder.path() + "/", other.file("none")},
                                         "");
    CHECK(names(plugins) == std::vector<std::string>{"door_seals"});
    CHECK(plugins.refused.empty());
}

TEST_CASE("files of other names in the folder are not looked at") {
    const PluginFolder folder;
    folder.write("readme.txt", "hello");
    folder.write("door_seals.so.bak", "old");
    CHECK(folder.load().refused.empty());
}

TEST_CASE("a folder that others can write to is refused as a whole, and so is a folder below one") {
    const PluginFolder folder;
    const unsigned mode = GENERATE(0775u, 0757u, 0777u, 01777u);
    ::chmod(folder.path().c_str(), mode);
    Plugins plugins = folder.load();
    CHECK(plugins.domains.empty());
    CHECK(reason_for(plugins, folder.path()) ==
          fmt::format("{} can be changed by others (mode {:o}): run `chmod go-w {}`", folder.path(), mode,
                      folder.path()));
    fs::create_directory(folder.file("inner"));
    ::chmod(folder.file("inner").c_str(), 0755);
    folder.copy(toy, "inner/door_seals.so");
    plugins = load_plugins({folder.file("inner")}, "");
    if (mode & 01000u)
        CHECK(names(plugins) == std::vector<std::string>{"door_seals"});  // sticky: nobody else can rename `inner`
    else CHECK_THAT(reason_for(plugins, folder.file("inner")), Contains(folder.path() + " can be changed by others"));
}

TEST_CASE("a file that others can write to is refused") {
    const PluginFolder folder;
    const unsigned mode = GENERATE(0664u, 0646u, 0666u);
    ::chmod(folder.file("door_seals.so").c_str(), mode);
    CHECK(folder.reason("door_seals.so") ==
          fmt::format("{0} can be changed by others (mode {1:o}): run `chmod go-w {0}`", folder.file("door_seals.so"),
                      mode));
}

TEST_CASE("a folder, a file or something else that cannot be a plugin is refused by what it is") {
    const PluginFolder folder;
    fs::create_directory(folder.file("odd.so"));
    CHECK_THAT(folder.reason("odd.so"), Contains("is not a file: take it out"));
    const Plugins plugins = load_plugins({folder.file("door_seals.so")}, "");
    CHECK_THAT(reason_for(plugins, folder.file("door_seals.so")),
               Contains("is not a folder: name the folder that holds the plugins"));
}

TEST_CASE("a link that leaves the folder or leads nowhere is refused, one that stays inside is followed") {
    const PluginFolder folder;
    const ScratchFolder elsewhere;
    elsewhere.copy(hostile("plain"), "plain.so");
    fs::create_symlink(elsewhere.file("plain.so"), folder.file("plain.so"));
    fs::create_symlink("nowhere.so", folder.file("broken.so"));
    CHECK(folder.reason("plain.so") ==
          fmt::format("a link that leaves the folder, to {}: copy the file itself into the folder",
                      elsewhere.file("plain.so")));
    CHECK_THAT(folder.reason("broken.so"), Contains("a link that leads nowhere"));

    fs::remove(folder.file("plain.so"));
    fs::remove(folder.file("broken.so"));
    folder.copy(hostile("plain"), "plain.so.1");
    fs::create_symlink("plain.so.1", folder.file("plain.so"));
    fs::create_symlink("door_seals.so", folder.file("again.so"));  // a second name of what is there anyway
    const Plugins plugins = folder.load();
    CHECK(names(plugins) == std::vector<std::string>{"door_seals", "plain"});
    CHECK(plugins.refused.empty());
}

TEST_CASE("garbage in place of a plugin is refused, and the good one beside it loads") {
    const PluginFolder folder;
    folder.write("empty.so", "");
    folder.write("text.so", "GROUP ( libm.so.6 )\n");
    folder.write("zeros.so", std::string(100'000, '\0'));
    const Plugins plugins = folder.load();
    CHECK(names(plugins) == std::vector<std::string>{"door_seals"});
    CHECK(plugins.refused.size() == 3);
}

TEST_CASE("a plugin cut short at every 97th byte is refused each time") {
    const ScratchFolder folder;
    const std::string file = folder.copy(toy, "cut.so");
    for (std::size_t size = fs::file_size(file) / 97 * 97; size > 0; size -= 97) {
        fs::resize_file(file, size);
        const Plugins plugins = load_plugins({folder.path()}, "");
        if (!plugins.domains.empty() || plugins.refused.size() != 1) FAIL(size);
    }
}

TEST_CASE("a plugin with flipped bytes in its headers never brings this program down") {
    const ScratchFolder folder;
    const std::string bytes = ScratchFolder::read(toy);
    Elf64_Ehdr header;
    std::memcpy(&header, bytes.data(), sizeof header);
    std::mt19937 random(97);
    const auto flip = [&](std::string spoilt) {
        const std::size_t programs = sizeof header + header.e_phnum * sizeof(Elf64_Phdr);
        for (auto flips = 1 + random() % 3; flips > 0; --flips)
            spoilt[random() % 4 ? random() % programs : header.e_shoff + random() % (bytes.size() - header.e_shoff)] ^=
                static_cast<char>(1U << random() % 8);
        return spoilt;
    };
    for (int turn = 0; turn < 200; ++turn) {
        const std::string name = folder.write(fmt::format("flip{}.so", turn), flip(bytes));
        INFO(turn);
        CHECK(ending_of([&] {
                  const Plugins plugins = load_plugins({folder.path()}, "");
                  return plugins.domains.size() + plugins.refused.size() == 1 ? 0 : 1;
              }) == 0);
        fs::remove(name);
    }
}

// ------------------------------------------------------------------ the record of probes
// foreign_table is refused by the probe only, so it loads exactly when the probe is spared.

namespace {

void record(const PluginFolder& folder, const FileIdentity& identity, const std::string& sha256) {
    ProbeRecord known(folder.file("record"));
    known.add(folder.file("foreign_table.so"), identity, sha256);
    known.save();
}

bool probed(const PluginFolder& folder) { return folder.load().find("foreign_table") == nullptr; }

}  // namespace

TEST_CASE("a plugin is recorded when it passed its probe, and not when it did not") {
    const PluginFolder folder({"foreign_table"});
    folder.load();
    const ProbeRecord known(folder.file("record"));
    CHECK(known.knows(folder.file("door_seals.so"), identity_of(folder.file("door_seals.so")).value()));
    CHECK_FALSE(known.knows(folder.file("foreign_table.so"), identity_of(folder.file("foreign_table.so")).value()));
    CHECK(probed(folder));
}

TEST_CASE("an unchanged file is neither hashed nor probed again") {
    const PluginFolder folder({"foreign_table"});
    record(folder, identity_of(folder.file("foreign_table.so")).value(), std::string(64, '0'));  // not its hash
    CHECK_FALSE(probed(folder));
}

TEST_CASE("a touched file is hashed; known content is not probed again, and its new time is recorded") {
    const PluginFolder folder({"foreign_table"});
    FileIdentity older = identity_of(folder.file("foreign_table.so")).value();
    older.mtime_ns -= 1;
    record(folder, older, sha256_of_file(folder.file("foreign_table.so")));
    CHECK_FALSE(probed(folder));
    CHECK(ProbeRecord(folder.file("record"))
              .knows(folder.file("foreign_table.so"), identity_of(folder.file("foreign_table.so")).value()));
}

TEST_CASE("a changed file is probed again") {
    const PluginFolder folder({"foreign_table"});
    FileIdentity older = identity_of(folder.file("foreign_table.so")).value();
    const auto spoil = GENERATE(0, 1, 2);
    if (spoil == 0) older.size += 1;
    if (spoil == 1) older.mtime_ns += 1;
    if (spoil == 2) older.inode += 1;
    record(folder, older, std::string(64, '0'));
    CHECK(probed(folder));
}

TEST_CASE("the record is left alone when nothing is new") {
    const PluginFolder folder;
    folder.load();
    const auto before = identity_of(folder.file("record"));
    folder.load();
    REQUIRE(before.has_value());
    CHECK(identity_of(folder.file("record")) == before);
}

TEST_CASE("a record that cannot be written costs a probe and nothing else") {
    const PluginFolder folder;
    const Plugins plugins = load_plugins({folder.path()}, folder.file("missing/record"));
    CHECK(names(plugins) == std::vector<std::string>{"door_seals"});
    CHECK(plugins.refused.empty());
}
