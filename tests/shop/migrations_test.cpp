#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include "core/ground/error.h"
#include "core/shop/shop_file.h"
#include "core/store/migrations.h"
#include "tests/environment.h"
#include "tests/refusal.h"
#include "tests/scratch_folder.h"

using namespace casebound;
using Catch::Matchers::Contains;
namespace files = std::filesystem;

namespace {

using Words = std::vector<std::string>;

Words names(const ScratchFolder& folder) {
    Words all;
    for (const auto& entry : files::directory_iterator(folder.path())) all.push_back(entry.path().filename());
    std::sort(all.begin(), all.end());
    return all;
}

constexpr std::int32_t test_id = 7;
constexpr std::string_view first_text = "-- about\n-- version 1\nCREATE TABLE a (x TEXT NOT NULL) STRICT;\n";
constexpr std::string_view two =
    "-- version 1\nCREATE TABLE a (x TEXT NOT NULL) STRICT;\n"
    "-- version 2\nCREATE TABLE b (x TEXT) STRICT; INSERT INTO b SELECT x FROM a; ALTER TABLE a ADD COLUMN y TEXT;\n";

MigratedKind kind(std::string_view schema) { return {"test file", test_id, schema}; }

void make_version_1(const std::string& path) {
    Database database = open_migrated(path, kind(first_text));
    database.execute("INSERT INTO a VALUES ('kept')");
}

}  // namespace

TEST_CASE("a new shop file is marked, strict throughout, and has foreign keys on") {
    const ScratchFolder folder;
    const Database database = open_shop(folder.file("shop.sqlite"));
    CHECK(database.integer("PRAGMA user_version") == 6);
    CHECK(database.integer("PRAGMA application_id") == 0x63627368);
    CHECK(database.integer("PRAGMA foreign_keys") == 1);
    CHECK(database.integer("SELECT count(*) FROM pragma_table_list WHERE schema = 'main' AND type = 'table' AND NOT "
                           "strict AND name NOT LIKE 'sqlite_%'") == 0);
    CHECK(database.integer("SELECT count(*) FROM pragma_table_list WHERE schema = 'main' AND strict") >= 5);
    CHECK(names(folder) == Words{"shop.sqlite"});  // nothing to back up
}

TEST_CASE("an older file is copied before it is migrated, and the copy is the file as it was") {
    const SetVariable date("CASEBOUND_TODAY", "2026-11-25");
    const ScratchFolder folder;
    make_version_1(folder.file("shop.sqlite"));
    const Database now = open_migrated(folder.file("shop.sqlite"), kind(two));
    CHECK(now.integer("PRAGMA user_version") == 2);
    CHECK(now.integer("SELECT count(*) FROM b WHERE x = 'kept'") == 1);
    CHECK(now.integer("PRAGMA foreign_keys") == 1);
    REQUIRE(names(folder) == Words{"shop-v1-20261125T000000.sqlite", "shop.sqlite"});
    const Database before = open_migrated(folder.file("shop-v1-20261125T000000.sqlite"), kind(first_text));
    CHECK(before.integer("PRAGMA user_version") == 1);
    CHECK(before.integer("SELECT count(*) FROM a WHERE x = 'kept'") == 1);
    CHECK(before.integer("SELECT count(*) FROM sqlite_schema WHERE name = 'b'") == 0);
}

TEST_CASE("an up-to-date file is neither copied nor changed") {
    const ScratchFolder folder;
    make_version_1(folder.file("shop.sqlite"));
    const auto before = files::last_write_time(folder.file("shop.sqlite"));
    open_migrated(folder.file("shop.sqlite"), kind(first_text));
    CHECK(names(folder) == Words{"shop.sqlite"});
    CHECK(files::last_write_time(folder.file("shop.sqlite")) == before);
}

TEST_CASE("a second copy never replaces the first") {
    const SetVariable date("CASEBOUND_TODAY", "2026-11-25");
    const ScratchFolder folder;
    make_version_1(folder.file("shop.sqlite"));
    std::ofstream(folder.file("shop-v1-20261125T000000.sqlite")) << "an earlier copy";
    open_migrated(folder.file("shop.sqlite"), kind(two));
    CHECK(names(folder) == Words{"shop-v1-20261125T000000-2.sqlite", "shop-v1-20261125T000000.sqlite", "shop.sqlite"});
    CHECK(files::file_size(folder.file("shop-v1-20261125T000000.sqlite")) == 15);
}

TEST_CASE("a migration that fails leaves the file as it was") {
    const ScratchFolder folder;
    make_version_1(folder.file("shop.sqlite"));
    for (const std::string bad :
         {"-- version 2\nCREATE TABLE b (x TEXT) STRICT; INSERT INTO nowhere VALUES (1);\n",
          "-- version 2\nCREATE TABLE p (id INTEGER PRIMARY KEY) STRICT;"
          "CREATE TABLE b (x INTEGER REFERENCES p (id)) STRICT; INSERT INTO b VALUES (5);\n",
          "-- version 2\nCREATE TABLE b (x TEXT) STRICT;\n-- version 3\nDROP TABLE nowhere;\n"}) {
        INFO(bad);
        const std::string schema = std::string(first_text) + bad;
        CHECK(refusal([&] { open_migrated(folder.file("shop.sqlite"), kind(schema)); }).exit != Exit::yes);
        const Database same = open_migrated(folder.file("shop.sqlite"), kind(first_text));
        CHECK(same.integer("PRAGMA user_version") == 1);
        CHECK(same.integer("SELECT count(*) FROM sqlite_schema WHERE name = 'b'") == 0);
        CHECK(same.integer("SELECT count(*) FROM a") == 1);
    }
}

TEST_CASE("a migration may rebuild a table that others refer to without losing their rows") {
    const ScratchFolder folder;
    const std::string first =
        "-- version 1\nCREATE TABLE p (id INTEGER PRIMARY KEY) STRICT;\n"
        "CREATE TABLE c (p INTEGER NOT NULL REFERENCES p (id) ON DELETE CASCADE) STRICT;\n";
    open_migrated(folder.file("shop.sqlite"), kind(first))
        .execute("INSERT INTO p VALUES (1); INSERT INTO c VALUES (1)");
    const std::string second =
        first +
        "-- version 2\nCREATE TABLE q (id INTEGER PRIMARY KEY, t TEXT) STRICT; INSERT INTO q (id) SELECT id FROM p;\n"
        "DROP TABLE p; ALTER TABLE q RENAME TO p;\n";
    const Database now = open_migrated(folder.file("shop.sqlite"), kind(second));
    CHECK(now.integer("SELECT count(*) FROM c") == 1);
    CHECK(now.integer("SELECT count(*) FROM pragma_table_info('p')") == 2);
}

TEST_CASE("when no copy can be made, nothing is migrated") {
    const ScratchFolder folder;
    make_version_1(folder.file("shop.sqlite"));
    {
        Database torn(folder.file("shop.sqlite"),
                      Database::Mode::read_write);  // a row that points nowhere: the copy's check finds it
        torn.execute(
            "PRAGMA foreign_keys=OFF; CREATE TABLE p (id INTEGER PRIMARY KEY) STRICT; CREATE TABLE c (p INTEGER "
            "REFERENCES p (id)) STRICT; INSERT INTO c VALUES (9)");
    }
    const auto no = refusal([&] { open_migrated(folder.file("shop.sqlite"), kind(two)); });
    CHECK(no.exit == Exit::bad_data);
    CHECK_THAT(no.text, Contains("the copy is not sound: nothing was changed"));
    CHECK(Database(folder.file("shop.sqlite"), Database::Mode::read_only).integer("PRAGMA user_version") == 1);
    CHECK(names(folder) == Words{"shop.sqlite"});
}

TEST_CASE("a file of a newer casebound is left alone") {
    const ScratchFolder folder;
    open_shop(folder.file("shop.sqlite")).execute("PRAGMA user_version=7");
    const auto no = refusal([&] { open_shop(folder.file("shop.sqlite")); });
    CHECK(no.exit == Exit::bad_data);
    CHECK(no.text ==
          folder.file("shop.sqlite") +
              ": written by a newer casebound (version 7 of the shop file; this one knows 6): update casebound");
}

TEST_CASE("a file of another program is left alone") {
    const ScratchFolder folder;
    Database(folder.file("marked.sqlite"), Database::Mode::create).execute("PRAGMA application_id=99");
    Database(folder.file("other.sqlite"), Database::Mode::create).execute("CREATE TABLE t (x)");
    std::ofstream(folder.file("text.sqlite")) << std::string(2000, 'x');
    for (const std::string name : {"marked.sqlite", "other.sqlite"})
        CHECK_THAT(refusal([&] { open_shop(folder.file(name)); }).text,
                   Contains("this is not a casebound shop file: nothing was changed"));
    const auto no = refusal([&] { open_shop(folder.file("text.sqlite")); });
    CHECK(no.exit == Exit::bad_data);
    CHECK_THAT(no.text, Contains("not a sound SQLite file"));
    CHECK(files::file_size(folder.file("text.sqlite")) == 2000);
}

TEST_CASE("a file that something put into write-ahead mode is taken out of it") {
    const ScratchFolder folder;
    open_shop(folder.file("shop.sqlite")).execute("PRAGMA journal_mode=WAL");
    const Database database = open_shop(folder.file("shop.sqlite"));
    Statement mode(database, "PRAGMA journal_mode");
    REQUIRE(mode.step());
    CHECK(mode.text(0) == "delete");
}

TEST_CASE("a shop file where there is no folder says so") {
    const auto no = refusal([] { open_shop("/nonexistent/shop.sqlite"); });
    CHECK(no.exit == Exit::cannot_create);
    CHECK_THAT(no.text, Contains("/nonexistent/shop.sqlite: "));
}

TEST_CASE("a schema whose sections are out of order is a mistake of ours") {
    CHECK(schema_versions(two).size() == 2);
    CHECK(schema_versions("no mark").empty());
    CHECK_THROWS_AS(schema_versions("-- version 2\n"), std::logic_error);
    CHECK_THROWS_AS(schema_versions("-- version 1\n-- version 3\n"), std::logic_error);
}

TEST_CASE("a shop file of 0 bytes is no new yard: it is refused and left as it is") {
    const ScratchFolder folder;
    folder.write("shop.sqlite", "");
    const auto no = refusal([&] { open_shop(folder.file("shop.sqlite")); });
    CHECK(no.exit == Exit::bad_data);
    CHECK_THAT(no.text, Contains("EMPTY (0 bytes)") && Contains("put back a backup"));
    CHECK(names(folder) == Words{"shop.sqlite"});
    CHECK(files::file_size(folder.file("shop.sqlite")) == 0);
}

TEST_CASE("a new shop file is made whole beside its name, and what killed makings and migrations left is taken away") {
    const ScratchFolder folder;
    folder.write("shop.sqlite.new", "half");
    folder.write("shop.sqlite.new-journal", "of it");
    make_version_1(folder.file("shop.sqlite"));
    CHECK(names(folder) == Words{"shop.sqlite"});
    for (const std::string left : {"shop-v1-20261124T000000.sqlite.new", "shop-v1-20261124T000000.sqlite.new-journal"})
        folder.write(left, "");
    const SetVariable date("CASEBOUND_TODAY", "2026-11-25");
    open_migrated(folder.file("shop.sqlite"), kind(two));
    CHECK(names(folder) == Words{"shop-v1-20261125T000000.sqlite", "shop.sqlite"});
    CHECK(files::file_size(folder.file("shop-v1-20261125T000000.sqlite")) > 0);
}
