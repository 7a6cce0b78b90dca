// Making, sealing and listing packs; catalogs that are not ours; and a load that is killed.
#include <catch2/catch.hpp>

#include <sys/wait.h>
#include <unistd.h>

#include <csignal>
#include <ctime>
#include <filesystem>

#include "core/ground/error.h"
#include "core/pack/catalog_file.h"
#include "tests/pack/pack_fixture.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

namespace fs = std::filesystem;

std::string load_new(const PackFolder& pack, const CatalogFolder& catalog) {
    return joined(texts(load_pack(pack.path(), catalog.path(), plugins()).faults));
}

}  // namespace

TEST_CASE("a new pack has every table of core and the loaded domains, empty, and loads") {
    const ScratchFolder folder;
    const auto written = new_pack(folder.file("mine"), "mine", plugins());
    REQUIRE(written.size() == 19);
    CHECK(written.front() == "sources.csv");
    CHECK(written[17] == "lamps_lamps.csv");
    CHECK(written.back() == "datapackage.json");
    CHECK(ScratchFolder::read(folder.file("mine/jobs.csv")) == "job,title,minutes,source\n");
    const CatalogFolder catalog;
    const auto report = load_pack(folder.file("mine"), catalog.path(), plugins());
    CHECK(joined(texts(report.faults)).empty());
    CHECK(joined(texts(report.warnings)).empty());
    CHECK(report.summary.rows.empty());
}

TEST_CASE("a pack's name is one that a Data Package may have") {
    const ScratchFolder folder;
    CHECK_THROWS_WITH(new_pack(folder.file("a"), "My Pack", plugins()), Catch::Contains("lower-case letters"));
    CHECK_THROWS(new_pack(folder.file("a"), "", plugins()));
}

TEST_CASE("bringing a descriptor up to date keeps what a person wrote and touches no table") {
    const PackFolder pack(yard());
    pack.replace("datapackage.json", "\"version\": \"0.1.0\"", "\"version\": \"3.0\", \"mine\": [1]");
    pack.write("stays_behind.csv", "role,line,condition,place,see,remove,count,source\n");
    const auto before = pack.read("items.csv");
    const auto written = new_pack(pack.path(), "ignored", plugins());
    CHECK(written.size() <= 1);
    const auto text = pack.read("datapackage.json");
    for (const char* kept : {"\"name\": \"yard\"", "\"version\": \"3.0\"", "\"mine\": [", "\"invented\": true"})
        CHECK_THAT(text, Catch::Contains(kept));
    CHECK(pack.read("items.csv") == before);
    CHECK(new_pack(pack.path(), "ignored", plugins()).empty());
}

TEST_CASE("a descriptor says of each column what the SQL says") {
    const PackFolder pack(yard());
    const auto text = pack.read("datapackage.json");
    for (const char* part :
         {"\"$schema\": \"https://datapackage.org/profiles/2.0/datapackage.json\"",
          "\"profile\": \"tabular-data-package\"", "\"description\": \"key: the part number as printed, text\"",
          "\"primaryKey\": \"item\"", "\"missingValues\": [",
          "\"description\": \"Interchange groups: items that are the same in form, fit and function.\"",
          "\"maximum\": 10000"})
        CHECK_THAT(text, Catch::Contains(part));
}

TEST_CASE("a reference that only another pack meets is not declared as a foreign key") {
    const CatalogFolder catalog;
    REQUIRE(load_new(PackFolder(yard()), catalog).empty());
    const PackFolder pack(depot(), "depot");
    const auto text = pack.read("datapackage.json");
    CHECK_THAT(text, !Catch::Contains("\"resource\": \"lines\"") && !Catch::Contains("\"resource\": \"groups\"") &&
                         Catch::Contains("\"resource\": \"sources\""));
    CHECK(load_pack(pack.path(), catalog.path(), plugins()).warnings.empty());
    pack.replace("items.csv", "d-made", "s-made");
    const auto report = load_pack(pack.path(), catalog.path(), plugins());
    CHECK(report.faults.empty());
    REQUIRE(report.warnings.size() == 1);
    CHECK_THAT(report.warnings[0].text(),
               Catch::Contains("source is declared to be met inside the pack, but another pack meets it"));
    seal_pack(pack.path());
    CHECK(load_pack(pack.path(), catalog.path(), plugins()).warnings.empty());
}

TEST_CASE("a sealed pack is known to be changed by a single byte, and can be sealed again") {
    const CatalogFolder catalog;
    const PackFolder pack(yard());
    seal_pack(pack.path());
    CHECK_THAT(pack.read("datapackage.json"), Catch::Contains("\"hash\": \"sha256:") && Catch::Contains("\"bytes\": "));
    REQUIRE(load_new(pack, catalog).empty());
    pack.replace("jobs.csv", "lamp,20", "lamp,25");
    CHECK_THAT(load_new(pack, catalog),
               Catch::Equals("jobs.csv: changed since it was sealed (its sha256 is another): run "
                             "`casebound pack check --seal` if the change is meant\n"));
    CHECK(check_pack(pack.path(), catalog.path(), plugins(), true).faults.empty());
    seal_pack(pack.path());
    CHECK(load_new(pack, catalog).empty());
}

TEST_CASE("loaded packs are listed with their rows") {
    const CatalogFolder catalog;
    CHECK(list_packs(catalog.path()).empty());
    REQUIRE(load_new(PackFolder(yard()), catalog).empty());
    REQUIRE(load_new(PackFolder(depot(), "depot"), catalog).empty());
    const auto packs = list_packs(catalog.path());
    REQUIRE(packs.size() == 2);
    CHECK(packs[0].name == "yard");
    CHECK(packs[0].invented);
    CHECK(packs[1].rows ==
          decltype(packs[1].rows){
              {"items", 1}, {"group_members", 2}, {"applications", 2}, {"sources", 1}, {"stand_ins", 1}});
}

TEST_CASE("a file that is no catalog, or one of another version, is refused with what to do") {
    const ScratchFolder folder;
    const PackFolder pack(yard());
    {
        Database other(folder.file("other.sqlite"), Database::Mode::create);
        other.execute("CREATE TABLE x (a)");
    }
    CHECK_THROWS_WITH(load_pack(pack.path(), folder.file("other.sqlite"), plugins()),
                      Catch::Contains("not a catalog of casebound"));
    const CatalogFolder catalog;
    REQUIRE(load_new(pack, catalog).empty());
    CHECK(catalog.integer("PRAGMA application_id") == catalog_application_id);
    CHECK(catalog.integer("PRAGMA user_version") == catalog_version());
    Database(catalog.path(), Database::Mode::read_write, Database::Pages::checked).execute("PRAGMA user_version = 1");
    CHECK_THROWS_WITH(load_pack(pack.path(), catalog.path(), plugins()), Catch::Contains("rebuild it: `rm"));
    CHECK_THROWS_WITH(drop_pack("yard", folder.file("none.sqlite")), Catch::Contains("there is no catalog yet"));
}

TEST_CASE("a domain that has changed its tables needs a rebuilt catalog, unless they are empty") {
    class Changed final : public LampDomain {
        std::string_view schema() const override {
            static const std::string text =
                std::string(LampDomain::schema()) +
                "CREATE INDEX lamps_by_power ON lamps_lamps (power_w);\n-- and one column more\n";
            static const std::string changed = text.substr(0, text.find("  pins INTEGER")) +
                                               text.substr(text.find("  source TEXT"));
            return changed;
        }
    };
    const Changed domain;
    const CatalogFolder catalog;
    const PackFolder pack(yard());
    REQUIRE(load_new(pack, catalog).empty());
    auto files = depot();
    CHECK_THROWS_WITH(load_pack(PackFolder(files, "depot").path(), catalog.path(), with(domain)),
                      Catch::Contains("domain lamps has changed its tables") && Catch::Contains("rebuild"));
    drop_pack("yard", catalog.path());
    auto changed = yard();
    changed["lamps_lamps.csv"] = "group_key,power_w,low_v,high_v,source\nround,55,11,14.5,s-made\n";
    const PackFolder described(changed);
    new_pack(described.path(), "yard", with(domain));
    CHECK(joined(texts(load_pack(described.path(), catalog.path(), with(domain)).faults)).empty());
}

TEST_CASE("a catalog whose load was killed in the middle of a write can be read afterwards") {
    const CatalogFolder catalog;
    REQUIRE(load_new(PackFolder(yard()), catalog).empty());
    const auto dump = catalog.dump();
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        Database writer(catalog.path(), Database::Mode::read_write);
        writer.execute(
            "PRAGMA foreign_keys = OFF; PRAGMA cache_size = 5; BEGIN; UPDATE sources SET title = "
            "hex(randomblob(9000)); DELETE FROM application; DELETE FROM name");
        ::kill(::getpid(), SIGKILL);
    }
    int state = 0;
    ::waitpid(child, &state, 0);
    REQUIRE(fs::exists(catalog.path() + "-journal"));
    CHECK_THROWS_AS(catalog.dump(), Error);  // the control: a reader alone cannot roll it back
    CHECK(list_packs(catalog.path()).size() == 1);
    CHECK(catalog.dump() == dump);
}

TEST_CASE("a load that is killed leaves the old catalog or the new one") {
    const CatalogFolder catalog;
    const PackFolder pack(yard());
    REQUIRE(load_new(pack, catalog).empty());
    const auto old_dump = catalog.dump();
    auto files = yard();
    for (int i = 0; i < 20'000; ++i) {
        const auto n = std::to_string(i);
        files["items.csv"] += "X-" + n + ",lamp,Lamp " + n + ",1,,s-made\n";
        files["group_members.csv"] += "round,X-" + n + ",same,s-made\n";
    }
    const PackFolder large(files);
    std::string new_dump;
    {
        const CatalogFolder other;
        REQUIRE(load_new(pack, other).empty());
        REQUIRE(load_new(large, other).empty());
        new_dump = other.dump();
    }
    const auto same_but_folder = [&](const std::string& dump) {
        return dump.find("X-19999") != std::string::npos ? dump.size() == new_dump.size() : dump == old_dump;
    };
    int killed = 0;
    for (int round = 0; round < 12; ++round) {
        const pid_t child = ::fork();
        REQUIRE(child >= 0);
        if (child == 0) {
            try {
                load_pack(large.path(), catalog.path(), plugins());
            } catch (...) {}
            ::_exit(0);
        }
        const timespec wait{0, 8'000'000L * round};
        ::nanosleep(&wait, nullptr);
        ::kill(child, SIGKILL);
        int state = 0;
        ::waitpid(child, &state, 0);
        killed += WIFSIGNALED(state);
        CHECK(list_packs(catalog.path()).size() == 1);
        CHECK(same_but_folder(catalog.dump()));
        REQUIRE(load_new(pack, catalog).empty());
    }
    CHECK(killed > 0);
}
