// Rows of a large table that are taken beside the reading: all, in order, each cell as it was read; and what goes wrong there
// comes out here.
#include <catch2/catch.hpp>

#include <new>
#include <stdexcept>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "core/pack/taken_beside.h"
#include "tests/pack/pack_fixture.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

struct Taken {
    std::uint32_t line;
    std::vector<std::string> cells;
    std::vector<double> numbers;
    bool operator==(const Taken& other) const {
        return line == other.line && cells == other.cells && numbers == other.numbers;
    }
};

struct Log {
    std::vector<Taken> rows;
    std::vector<std::size_t> expected;
    bool finished = false;
    std::uint32_t fails_at = 0;
    bool room = true;
};

class LoggingTaker final : public RowTaker {
public:
    explicit LoggingTaker(Log& log) : log_(log) {}
    void expect(std::size_t rows) override {
        log_.expected.push_back(rows);
        if (!log_.room) throw std::bad_alloc();
    }
    void take(std::uint32_t line, const std::vector<std::string_view>& cells,
              const std::vector<double>& numbers) override {
        if (line == log_.fails_at) throw std::runtime_error("no room for this row");
        log_.rows.push_back({line, {cells.begin(), cells.end()}, numbers});
    }
    void finish() override { log_.finished = true; }

private:
    Log& log_;
};

// Cells of every size, empty ones too: many batches.
Taken row_of(std::uint32_t line) {
    return {line,
            {fmt::format("van-{}", line), std::string(line % 97, static_cast<char>('a' + line % 26)), "",
             line % 5000 == 0 ? std::string(60000, 'x') : "pan"},
            {0, 0.1 * line, 0, -1}};
}

void take(RowTaker& taker, const Taken& row) {
    const std::vector<std::string_view> cells(row.cells.begin(), row.cells.end());
    taker.take(row.line, cells, row.numbers);
}

constexpr std::uint32_t many = 60000;

void take_many(RowTaker& taker) {
    for (std::uint32_t line = 2; line < many; ++line) take(taker, row_of(line));
}

// More than a megabyte of applications; `last` is the line's name in the last row.
Files large_yard(const std::string& last) {
    auto files = yard();
    auto& rows = files.at("applications.csv");
    for (int i = 0; i < 30000; ++i)
        rows += fmt::format("plover,washer,fits,fluid,year=200{},{},\"the {}th of many rows\",,s-made\n", 3 + i % 3,
                            1 + i % 7, i);
    rows += last + ",washer,fits,fluid,,2,the last,,s-made\n";
    return files;
}

}  // namespace

TEST_CASE("rows taken beside the reading are all there, in order, cell for cell") {
    Log log;
    const auto taker = taken_beside(std::make_unique<LoggingTaker>(log));
    take_many(*taker);
    CHECK_FALSE(log.finished);
    taker->finish();
    CHECK(log.finished);
    REQUIRE(log.rows.size() == many - 2);
    for (std::uint32_t line = 2; line < many; ++line)
        if (!(log.rows[line - 2] == row_of(line))) FAIL("line " << line);
}

TEST_CASE("a table without rows, and one of a single row, are finished too") {
    Log none, one;
    taken_beside(std::make_unique<LoggingTaker>(none))->finish();
    CHECK(none.finished);
    CHECK(none.rows.empty());
    const auto taker = taken_beside(std::make_unique<LoggingTaker>(one));
    take(*taker, row_of(2));
    taker->finish();
    CHECK(one.rows == std::vector<Taken>{row_of(2)});
}

TEST_CASE("what goes wrong while rows are taken comes out, at the latest at the end") {
    Log early, late;
    early.fails_at = 3;
    CHECK_THROWS_WITH(take_many(*taken_beside(std::make_unique<LoggingTaker>(early))), "no room for this row");
    late.fails_at = many - 1;
    const auto taker = taken_beside(std::make_unique<LoggingTaker>(late));
    take_many(*taker);
    CHECK_THROWS_WITH(taker->finish(), "no room for this row");
    CHECK_FALSE(late.finished);
}

TEST_CASE("rows that are never finished are let go of in peace") {
    Log log;
    take_many(*taken_beside(std::make_unique<LoggingTaker>(log)));
    CHECK_FALSE(log.finished);
}

TEST_CASE("no room for as many rows as a file seems to have is no fault: the rows may have it") {
    Log log;
    log.room = false;
    const auto taker = taken_beside(std::make_unique<LoggingTaker>(log));
    take(*taker, row_of(2));
    taker->expect(16'000'000);
    take(*taker, row_of(3));
    taker->finish();
    CHECK(log.expected == std::vector<std::size_t>{16'000'000});
    CHECK(log.rows == std::vector<Taken>{row_of(2), row_of(3)});
}

TEST_CASE("a large table is stored row by row, and a fault in its last row is found and nothing loaded") {
    const CatalogFolder catalog;
    const PackFolder sound(large_yard("plover"));
    const auto report = load_pack(sound.path(), catalog.path(), plugins());
    for (const auto& fault : report.faults) FAIL(fault.text());
    CHECK(catalog.integer("SELECT count(*) FROM application") == 6 + 30001);
    CHECK(catalog.integer("SELECT count(*) FROM applications WHERE note = 'the ' || (((origin & 4294967295) - 8) || "
                          "'th of many rows') AND line = 'plover' AND quantity = 1 + ((origin & 4294967295) - 8) % 7 "
                          "AND condition = 'year=' || (2003 + ((origin & 4294967295) - 8) % 3)") == 30000);
    CHECK(catalog.integer("SELECT count(*) FROM applications WHERE note = 'the last' AND condition IS NULL") == 1);
    const auto before = catalog.dump();
    const PackFolder wrong(large_yard("plovr"));
    const auto refused = load_pack(wrong.path(), catalog.path(), plugins());
    REQUIRE(refused.faults.size() == 1);
    CHECK(refused.faults[0].file == "applications.csv");
    CHECK(refused.faults[0].line == 30008);
    CHECK(refused.faults[0].text().find("did you mean plover?") != std::string::npos);
    CHECK(catalog.dump() == before);
}
