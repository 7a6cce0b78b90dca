// What SQLite is refused in the middle of a row is no empty cell.
#include <catch2/catch.hpp>

#include <sqlite3.h>

#include <new>
#include <string>

#include "core/store/sqlite.h"
#include "tests/scratch_folder.h"

using namespace casebound;

namespace {

// No more for SQLite than it has, while this lives.
class Full {
public:
    Full() { sqlite3_hard_heap_limit64(sqlite3_memory_used()); }
    ~Full() { sqlite3_hard_heap_limit64(0); }
    Full(const Full&) = delete;
    Full& operator=(const Full&) = delete;
};

}  // namespace

TEST_CASE("a text that SQLite has no memory for is said, and never read as empty") {
    const ScratchFolder folder;
    Database database(folder.file("one.sqlite"), Database::Mode::create);
    database.execute("CREATE TABLE sum (cents INTEGER); INSERT INTO sum VALUES (123456789)");
    Statement row(database, "SELECT cents FROM sum");
    REQUIRE(row.step());
    {
        const Full full;  // the figures of a number are written out when they are asked for
        CHECK_THROWS_AS(row.text(0), std::bad_alloc);
    }
    Statement again(database, "SELECT cents FROM sum");
    REQUIRE(again.step());
    CHECK(again.text(0) == "123456789");
}

TEST_CASE("a null and an empty text are read as nothing, and no refusal is made of them") {
    const ScratchFolder folder;
    Database database(folder.file("one.sqlite"), Database::Mode::create);
    database.execute("CREATE TABLE note (text TEXT); INSERT INTO note VALUES (NULL), (''), (x'')");
    Statement rows(database, "SELECT text FROM note");
    for (int row = 0; row < 3; ++row) {
        REQUIRE(rows.step());
        CHECK(rows.text(0).empty());
    }
}

TEST_CASE("a statement or a file that SQLite has no memory for is refused as any other request for memory") {
    const ScratchFolder folder;
    Database database(folder.file("one.sqlite"), Database::Mode::create);
    const std::string wide = "SELECT '" + std::string(100000, 'x') + "'";
    {
        const Full full;
        CHECK_THROWS_AS(Statement(database, wide), std::bad_alloc);
        CHECK_THROWS_AS(Database(folder.file("two.sqlite"), Database::Mode::create), std::bad_alloc);
    }
    Statement sound(database, wide);
    CHECK(sound.step());
}
