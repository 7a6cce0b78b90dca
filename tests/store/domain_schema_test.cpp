// What a domain's SQL may do, and that core's names cannot be taken by a domain with an unlucky name.
#include <catch2/catch.hpp>

#include <string>

#include "core/ground/error.h"
#include "core/store/domain_schema.h"
#include "tests/scratch_folder.h"
#include "tests/text_scan.h"

using namespace casebound;
using Catch::Contains;

namespace {

std::string refusal(std::string_view domain, std::string_view sql) {
    try {
        check_domain_schema(domain, sql);
    } catch (const Error& error) {
        REQUIRE(error.exit() == Exit::refused);
        return error.what();
    }
    return "accepted";
}

}  // namespace

TEST_CASE("a domain may make its own tables and indexes, with checks, generated columns and references") {
    CHECK(refusal("racks", R"(
        -- Racks.
        CREATE TABLE racks_racks (
          origin INTEGER PRIMARY KEY,
          group_key TEXT NOT NULL UNIQUE REFERENCES groups (group_key),
          pinion_mm REAL CHECK (pinion_mm BETWEEN 1 AND 90),
          label TEXT GENERATED ALWAYS AS (upper(group_key)) VIRTUAL
        ) STRICT;
        CREATE TABLE racks_ends (rack TEXT REFERENCES racks_racks (group_key), side TEXT, PRIMARY KEY (rack, side)) WITHOUT ROWID, STRICT;
        CREATE INDEX racks_by_pinion ON racks_racks (pinion_mm) WHERE pinion_mm IS NOT NULL;
        CREATE UNIQUE INDEX racks_by_label ON racks_racks (lower(group_key), pinion_mm);)") == "accepted");
    CHECK(refusal("racks", "") == "accepted");
}

TEST_CASE("a domain's SQL is refused when it reaches for anything else, and the refusal names it") {
    const auto [sql, named] = GENERATE(table<std::string, std::string>({
        {"CREATE TABLE pumps_pumps (x)", "CREATE TABLE pumps_pumps"},
        {"CREATE TABLE Racks_x (x)", "CREATE TABLE Racks_x"},
        {"CREATE TABLE racks (x)", "CREATE TABLE racks"},
        {"CREATE TABLE racks_a (x); CREATE INDEX by_x ON racks_a (x)", "CREATE INDEX by_x"},
        {"CREATE INDEX racks_i ON items (item)", "no such table: main.items"},
        {"CREATE TABLE racks_a (x); CREATE TRIGGER racks_t AFTER INSERT ON racks_a BEGIN SELECT 1; END",
         "CREATE TRIGGER racks_t"},
        {"CREATE VIEW racks_v AS SELECT 1", "CREATE VIEW racks_v"},
        {"CREATE TEMP TABLE racks_t (x)", "something temporary"},
        {"CREATE TABLE temp.racks_t (x)", "something temporary"},
        {"CREATE TEMP TRIGGER racks_t AFTER INSERT ON items BEGIN SELECT 1; END", "no such table: items"},
        {"CREATE TABLE racks_a AS SELECT * FROM sqlite_master", "neither a table nor an index"},
        {"CREATE VIRTUAL TABLE racks_f USING fts5 (x)", "CREATE VIRTUAL TABLE racks_f"},
        {"CREATE TABLE racks_a (id INTEGER PRIMARY KEY AUTOINCREMENT)", "CREATE TABLE sqlite_sequence"},
        {"ATTACH ':memory:' AS other", "ATTACH :memory:"},
        {"PRAGMA writable_schema = 1", "PRAGMA writable_schema"},
        {"CREATE TABLE racks_a (x); INSERT INTO racks_a VALUES (1)", "INSERT INTO racks_a"},
        {"INSERT INTO items VALUES (1)", "no such table: items"},
        {"CREATE TABLE racks_a (x); UPDATE sqlite_master SET sql = ''", "may not be modified"},
        {"CREATE TABLE racks_a (x); DROP TABLE racks_a", "neither a table nor an index"},
        {"CREATE TABLE racks_a (x); ALTER TABLE racks_a ADD COLUMN y", "neither a table nor an index"},
        {"BEGIN", "transaction control: BEGIN"},
        {"SELECT load_extension('x')", "neither a table nor an index"},
        {"CREATE TABLE racks_a (x REFERENCES pumps_pumps (x))", "racks_a refers to pumps_pumps"},
        {"CREATE TABEL racks_a (x)", "near \"TABEL\": syntax error"},
    }));
    const std::string said = refusal("racks", sql);
    CHECK_THAT(said, Contains("schema of racks: ") && Contains(named));
    CHECK_THAT(said, Contains("write only CREATE TABLE and CREATE INDEX, with names that begin with `racks_`"));
    CHECK_THAT(said, !Contains("racks: :memory:: ") && !Contains("nothing was changed"));
}

TEST_CASE("a NUL character cannot hide the rest of a domain's SQL") {
    CHECK_THAT(refusal("racks", std::string_view("CREATE TABLE racks_a (x);\0DROP TABLE items", 41)), Contains("NUL"));
}

TEST_CASE("after a refused schema the database obeys everybody again") {
    Database database(":memory:", Database::Mode::create);
    CHECK_THROWS_AS(apply_domain_schema(database, "racks", "CREATE VIEW racks_v AS SELECT 1"), Error);
    CHECK_NOTHROW(database.execute("CREATE VIEW v AS SELECT 1"));
}

TEST_CASE("no domain can take a name that core uses, whatever the domain is called") {
    const std::string text = ScratchFolder::read(CASEBOUND_SOURCE_DIR "/schema/core.sql") +
                             ScratchFolder::read(CASEBOUND_SOURCE_DIR "/schema/catalog.sql");
    int tried = 0;
    for (const std::string_view start : {"\nCREATE TABLE ", "\nCREATE VIEW ", "\nCREATE INDEX "})
        for (const auto& name : all_between(text, start, ' ')) {
            if (name.find('_') == std::string::npos) continue;  // no domain's prefix
            CHECK_THAT(refusal(name.substr(0, name.find('_')), "CREATE TABLE " + name + " (x)"),
                       Contains("CREATE TABLE " + name + ":"));
            ++tried;
        }
    CHECK(tried >= 15);
}

TEST_CASE("a domain may refer to every pack table of core") {
    const auto tables = all_between(ScratchFolder::read(CASEBOUND_SOURCE_DIR "/schema/core.sql"), "\nCREATE TABLE ",
                                    ' ');
    REQUIRE(tables.size() >= 10);
    for (const auto& table : tables)
        CHECK(refusal("racks", "CREATE TABLE racks_a (x REFERENCES " + table + " (y))") == "accepted");
}
