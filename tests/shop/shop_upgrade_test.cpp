// Shop files of older versions, brought up to the newest: the copy beside them, and every row.
#include <catch2/catch.hpp>

#include <filesystem>
#include <string>
#include <vector>

#include "core/ground/error.h"
#include "core/shop/shop_file.h"
#include "core/shop/shop_offers.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_told.h"
#include "core/shop/shop_vehicles.h"
#include "core/store/migrations.h"
#include "tests/environment.h"
#include "tests/scratch_folder.h"

namespace casebound {
extern const char* const shop_sql;  // schema/shop.sql
}

using namespace casebound;
namespace files = std::filesystem;

namespace {

std::string frozen() { return ScratchFolder::read(CASEBOUND_SOURCE_DIR "/tests/shop/shop_v1.sql"); }

std::string version_1(const ScratchFolder& folder) {
    const auto path = folder.file("shop.sqlite");
    Database database(path, Database::Mode::create);
    database.execute(frozen());
    database.execute("PRAGMA application_id=1667396456; PRAGMA user_version=1");  // 0x63627368
    return path;
}

// Of version 3, by the sections that were released, with offers of every kind: seller, item, withdrawn, days, returnable.
std::string version_3(const ScratchFolder& folder) {
    const auto path = folder.file("shop.sqlite");
    Database database(path, Database::Mode::create);
    const auto sections = schema_versions(shop_sql);
    for (std::size_t i = 0; i < 3; ++i) database.execute(sections[i]);
    database.execute(
        "INSERT INTO sellers (name, carriage_cents, minimum_cents, entered) VALUES ('Pier', 450, 0, '2026-11-01')");
    const std::string insert =
        "INSERT INTO offers (seller, item, withdrawn, pack_quantity, price_cents, available, days, returnable, "
        "return_fee, return_days, core_cents, core_days, note, entered, return_carriage_cents) VALUES ";
    database.execute(insert +
                     "('Pier', 'said', 0, 1, 3100, 4, 2, 1, 0.15, 14, 500, 30, 'asked', '2026-11-02', 300),"
                     "('Pier', 'zeros', 0, 5, 3600, NULL, 0, 0, 0, NULL, 0, NULL, NULL, '2026-11-03', 0),"
                     "('Pier', 'gone', 1, 1, 900, NULL, 5, 0, 0, NULL, 0, NULL, NULL, '2026-11-04', 0)");
    database.execute("PRAGMA application_id=1667396456; PRAGMA user_version=3");
    return path;
}

std::vector<std::string> tables_of(const Database& database) {
    std::vector<std::string> names;
    Statement rows(database,
                   "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY name");
    while (rows.step()) names.push_back(rows.str(0));
    return names;
}

std::vector<std::string> rows_of(const Database& database, const std::string& table) {
    std::vector<std::string> all;
    const auto columns = database.integer("SELECT count(*) FROM pragma_table_info('" + table + "')");
    Statement rows(database, "SELECT * FROM \"" + table + "\" ORDER BY rowid");
    while (rows.step()) {
        std::string row;
        for (int i = 0; i < columns; ++i)
            row += (rows.is_null(i) ? "NULL" : "'" + rows.str(i) + "'") + std::string(" ");
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
    Database shop = open_shop(version_1(folder));
    const auto told = ShopTold(shop).standing("bookvan");
    REQUIRE(told.size() == 1);  // the engine was taken back
    CHECK(told[0].text == "41mm");
    CHECK(ShopVehicles(shop).find("Tender.2")->vin == "11111111111111111");
    ShopRecords records(shop);
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

// Version 3 had one 0 for what was said and what was not; nothing in a row tells them apart, so a 0 is not said. What
// cannot have come from silence, days above 0 and "may go back", stays as it was.
TEST_CASE("in offers of version 3 a 0 becomes not said, and all else stays as it was") {
    const ScratchFolder folder;
    Database shop = open_shop(version_3(folder));
    ShopOffers offers(shop);
    const auto said = offers.offer("Pier", "said");
    REQUIRE(said);
    CHECK(said->days == 2);
    CHECK(said->returnable == true);
    CHECK(said->return_days == 14);
    CHECK(said->return_fee == 0.15);
    CHECK(said->return_carriage_cents == 300);
    CHECK(said->available == 4);
    CHECK(said->core_cents == 500);
    CHECK(said->core_days == 30);
    CHECK(said->note == "asked");
    CHECK(said->entered == "2026-11-02");
    const auto zeros = offers.offer("Pier", "zeros");
    REQUIRE(zeros);
    CHECK_FALSE(zeros->days);
    CHECK_FALSE(zeros->returnable);
    CHECK(zeros->pack_quantity == 5);
    CHECK(zeros->price_cents == 3600);
    CHECK_FALSE(offers.offer("Pier", "gone"));  // withdrawn
    CHECK(shop.integer("SELECT count(*) FROM offers") == 3);
}

TEST_CASE("offers of a migrated shop file are still only added to, and a new one may be at once or not go back") {
    const ScratchFolder folder;
    Database shop = open_shop(version_3(folder));
    CHECK_THROWS_AS(shop.execute("UPDATE offers SET price_cents = 1"), Error);
    OfferOnFile offer;
    offer.seller = "Pier", offer.item = "zeros", offer.price_cents = 3500, offer.days = 0, offer.returnable = false;
    ShopOffers(shop).put({}, {offer});
    const auto now = ShopOffers(shop).offer("Pier", "zeros");
    CHECK(now->days == 0);
    CHECK(now->returnable == false);
    CHECK(shop.integer("SELECT max(id) FROM offers") == 4);
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
