// A real shop file of version 1, brought up to the newest version: the copy beside it, and every row.
#include <catch2/catch.hpp>

#include <filesystem>
#include <string>
#include <vector>

#include "core/error.h"
#include "core/migrations.h"
#include "core/shop.h"
#include "core/shop_records.h"
#include "tests/environment.h"
#include "tests/scratch_folder.h"

namespace casebound {
extern const char* const shop_sql;  // schema/shop.sql
}

using namespace casebound;
namespace files = std::filesystem;

namespace {

std::string frozen() { return ScratchFolder::read(CASEBOUND_SOURCE_DIR "/tests/shop_v1.sql"); }

std::string version_1(const ScratchFolder& folder) {
    const auto path = folder.file("shop.sqlite");
    Database database(path, Database::Mode::create);
    database.execute(frozen());
    database.execute("PRAGMA application_id=1667396456; PRAGMA user_version=1");  // 0x63627368
    return path;
}

std::vector<std::string> tables_of(const Database& database) {
    std::vector<std::string> names;
    Statement rows(database, "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name");
    while (rows.step()) names.push_back(rows.str(0));
    return names;
}

std::vector<std::string> rows_of(const Database& database, const std::string& table) {
    std::vector<std::string> all;
    Statement rows(database, "SELECT * FROM \"" + table + "\" ORDER BY rowid");
    while (rows.step()) {
        std::string row;
        for (int i = 0; i < rows.columns(); ++i) row += (rows.is_null(i) ? "NULL" : "'" + rows.str(i) + "'") + std::string(" ");
        all.push_back(row);
    }
    return all;
}

std::string copy_beside(const ScratchFolder& folder) {
    std::string found;
    for (const auto& entry : files::directory_iterator(folder.path()))
        if (entry.path().filename().string().rfind("shop-v1-", 0) == 0) found = entry.path();
    return found;
}

}  // namespace

TEST_CASE("the section of version 1 is still what version 1 was") {
    const auto text = frozen();
    const auto from = text.find("-- version 1"), to = text.find("INSERT INTO vehicles");
    const auto section = schema_versions(shop_sql).front();
    const auto trimmed = [](std::string some) { return some.substr(0, some.find_last_not_of(" \n") + 1); };
    CHECK(trimmed(text.substr(from, to - from)) == trimmed(section));
}

TEST_CASE("a shop file of version 1 keeps every row, and its copy is sound and as it was") {
    const SetVariable date("CASEBOUND_TODAY", "2026-11-25");
    const ScratchFolder folder;
    const auto path = version_1(folder);
    std::vector<std::vector<std::string>> before;
    std::vector<std::string> tables;
    {
        const Database old(path, Database::Mode::read_only);
        tables = tables_of(old);
        REQUIRE(tables == std::vector<std::string>{"jobs_started", "papers", "settings", "tellings", "vehicles"});
        for (const auto& table : tables) before.push_back(rows_of(old, table));
    }
    const Database now = open_shop(path);
    CHECK(now.integer("PRAGMA user_version") == static_cast<std::int64_t>(schema_versions(shop_sql).size()));
    for (std::size_t i = 0; i < tables.size(); ++i) {
        INFO(tables[i]);
        REQUIRE(!before[i].empty());
        CHECK(rows_of(now, tables[i]) == before[i]);
    }
    REQUIRE(copy_beside(folder) == folder.file("shop-v1-20261125T000000.sqlite"));
    const Database copy(copy_beside(folder), Database::Mode::read_only);
    Statement sound(copy, "PRAGMA integrity_check");
    REQUIRE(sound.step());
    CHECK(sound.text(0) == "ok");
    CHECK(copy.integer("PRAGMA user_version") == 1);
    CHECK(tables_of(copy) == tables);
    for (std::size_t i = 0; i < tables.size(); ++i) CHECK(rows_of(copy, tables[i]) == before[i]);
}

TEST_CASE("what was told in version 1 still counts, and new kinds of entry can be added to it") {
    const ScratchFolder folder;
    Shop shop(version_1(folder));
    const auto told = shop.told("bookvan");
    REQUIRE(told.size() == 1);  // the engine was taken back
    CHECK(told[0].text == "41mm");
    CHECK(shop.vehicle("Tender.2")->vin == "11111111111111111");
    ShopRecords records(shop.database());
    WorkRecord proof;
    proof.what = "proof";
    proof.job = 1;
    proof.leaks = "dry";
    proof.leak_minutes = 1440;
    records.add("bookvan", {{}, {proof}, {}, {}});
    CHECK(records.records("bookvan").front().leak_minutes == 1440);
    records.close("bookvan", {1, {}, {}, "filter blocked", "yes", 3.5, 8450, {}, {}});
    CHECK(records.rate_of("pan-service").worked == 1);
}

TEST_CASE("a damaged shop file of version 1 is neither copied nor migrated") {
    const ScratchFolder folder;
    const auto path = version_1(folder);
    auto bytes = ScratchFolder::read(path);
    for (std::size_t i = 4096; i < bytes.size(); ++i) bytes[i] = static_cast<char>(0x5a);  // all but the first page
    folder.write("shop.sqlite", bytes);
    CHECK_THROWS_AS(open_shop(path), Error);
    CHECK(copy_beside(folder).empty());
    CHECK(ScratchFolder::read(path) == bytes);
}
