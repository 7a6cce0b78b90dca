// Lists of any dialect and encoding: what is found out about the file, and its rows as a spreadsheet counts them.
#include <catch2/catch.hpp>

#include "core/book/list_file.h"
#include "core/ground/error.h"
#include "tests/book/book_fixture.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

struct Read {
    std::string form;
    std::vector<std::string> cells;
};

Read read(const std::string& bytes) {
    const ScratchFolder folder;
    folder.write("list.csv", bytes);
    const ListFile list(folder.file("list.csv"), "");
    CellList cells;
    list.read(cells);
    return {list.form(), cells.all};
}

}  // namespace

TEST_CASE("cells stand between commas, semicolons, tabs or bars, whichever cuts the lines alike") {
    const std::vector<std::string> cells{"A1 text a", "B1 text b", "A2 text 1,5", "B2 text x"};
    CHECK(read("a;b\n1,5;x\n").cells == cells);
    CHECK(read("a\tb\r\n1,5\tx\r\n").form == "CSV, a tab between cells, UTF-8");
    CHECK(read("a\tb\r\n1,5\tx\r\n").cells == cells);
    CHECK(read("a|b\r1,5|x\r").cells == cells);
    CHECK(read("a,b\n\"1,5\",x").cells == cells);
    CHECK(read("only\none\n").cells == std::vector<std::string>{"A1 text only", "A2 text one"});
}

TEST_CASE("rows are counted with the blank ones, and a cell over two lines is one row") {
    CHECK(read("t\n\n \na;\"x\ny\"\nb;c\n").cells ==
          std::vector<std::string>{"A1 text t", "A4 text a", "B4 text x\ny", "A5 text b", "B5 text c"});
}

TEST_CASE("UTF-8, UTF-16 and Windows-1252 are told apart, and what is none of them is refused") {
    CHECK(read("\xEF\xBB\xBF\xC3\x96l;1\n").cells.front() == "A1 text \xC3\x96l");
    CHECK(read("\xD6l;1\n").cells.front() == "A1 text \xC3\x96l");
    CHECK(read("\xD6l;1\n").form == "CSV, `;` between cells, Windows-1252");
    const std::string utf16(
        "\xFF\xFE\xD6\0l\0;\0"
        "1\0\n\0",
        12);
    CHECK(read(utf16).cells == std::vector<std::string>{"A1 text \xC3\x96l", "B1 text 1"});
    CHECK_THROWS_WITH(read("\x81;\xD6\n"), Catch::Contains("neither UTF-8 nor Windows-1252"));
    CHECK_THROWS_WITH(read(std::string("a;b\n\0;c\n", 8)), Catch::Contains("NUL"));
}

TEST_CASE("a quote inside a cell is refused where it stands, for it would swallow the rows behind it") {
    // Read loosely, the quotes of rows 2 and 4 would pair up: one cell of three rows, and no row 3.
    CHECK_THROWS_WITH(read("no\ttitle\tprice\nNP-1\t\"Deep\" filter\t12.50\nNP-2\tseal\t3.00\n"
                           "NP-3\t\"Flat\" filter 5\"\t4.50\n"),
                      Catch::Contains("row 2, cell 2: a quote inside the cell"));
    CHECK_THROWS_WITH(read("a;b\n1;pan 5\" deep\n"), Catch::Contains("row 2, cell 2: a quote inside the cell"));
    CHECK_THROWS_WITH(read("a;b\n1;2\n\n3;\"4\n5;6\n"),
                      Catch::Contains("row 4, cell 2: a quote is opened here and never closed"));
    CHECK(read("a;b\n1; \"pan 5\"\" deep\" \r\n").cells.back() == "B2 text pan 5\" deep");
    CHECK(read("a;b\n1;\"2\"").cells.back() == "B2 text 2");
}

TEST_CASE("a quote that is never closed and a row without end are refused, not kept") {
    CHECK_THROWS_WITH(read("a,b\n\"" + std::string(200000, 'x')), Catch::Contains("never closed"));
    CHECK_THROWS_WITH(read("a,b\n" + std::string(200000, ',')), Catch::Contains("more than 1024"));
}
