// Rows in memory that are stored by one statement: cell for cell what was given, or nothing.
#include <catch2/catch.hpp>

#include <new>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/ground/error.h"
#include "core/store/given_rows.h"

using namespace casebound;

namespace {

struct Part {
    std::int64_t id;
    std::string title;
    double litres;  // 0: not known
};

class Parts final : public GivenRows {
public:
    explicit Parts(std::vector<Part> parts) : parts_(std::move(parts)) {}
    bool next() override {
        if (throws_at == next_) throw std::runtime_error("no more of them");
        return next_++ < parts_.size();
    }
    void cell(int column, GivenCell into) const override {
        const auto& part = parts_[next_ - 1];
        if (column == 0) into.set(part.id);
        else if (column == 1) into.set_view(part.title);
        else if (part.litres > 0) into.set(part.litres);
        else into.set_null();
    }
    std::size_t throws_at = 1000;

private:
    std::vector<Part> parts_;
    std::size_t next_ = 0;
};

Database with_table() {
    Database database(":memory:", Database::Mode::create);
    database.execute("CREATE TABLE part (id INTEGER PRIMARY KEY, title TEXT NOT NULL UNIQUE, litres REAL) STRICT");
    return database;
}

void store(Database& database, Parts parts) { insert_rows(database, "part", "id, title, litres", parts); }

}  // namespace

TEST_CASE("what is given is stored cell for cell, and twice in a row") {
    auto database = with_table();
    store(database, Parts({{3, "pan \xC2\xB0", 0.1}, {7, "", 0}}));
    store(database, Parts({{9, "neck seal", 4}}));
    store(database, Parts({}));
    Statement rows(database, "SELECT id, title, litres FROM part ORDER BY id");
    REQUIRE(rows.step());
    CHECK(rows.integer(0) == 3);
    CHECK(rows.text(1) == "pan \xC2\xB0");
    CHECK(rows.real(2) == 0.1);
    REQUIRE(rows.step());
    CHECK(rows.integer(0) == 7);
    CHECK(!rows.is_null(1));
    CHECK(rows.text(1).empty());
    CHECK(rows.is_null(2));
    REQUIRE(rows.step());
    CHECK(rows.integer(0) == 9);
    CHECK(!rows.step());
}

TEST_CASE("given rows of which one is refused, or that throw, leave nothing behind, and the next are stored") {
    auto database = with_table();
    CHECK_THROWS_AS(store(database, Parts({{1, "pan", 0}, {2, "pan", 0}})), Error);
    CHECK(database.integer("SELECT count(*) FROM part") == 0);
    for (const std::size_t at : {0u, 1u}) {
        Parts parts({{1, "pan", 0}, {2, "filter", 0}});
        parts.throws_at = at;
        CHECK_THROWS_WITH(store(database, parts), "no more of them");
        CHECK(database.integer("SELECT count(*) FROM part") == 0);
    }
    store(database, Parts({{1, "pan", 0}}));
    CHECK(database.integer("SELECT count(*) FROM part") == 1);
}

TEST_CASE("given rows are no table of anybody's once they are stored") {
    auto database = with_table();
    store(database, Parts({{1, "pan", 0}}));
    CHECK_THROWS_AS(database.integer("SELECT count(*) FROM given_rows"), Error);
}
