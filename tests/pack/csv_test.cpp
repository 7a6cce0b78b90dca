// Reading CSV files: cells, places, damaged bytes, and bounds.
#include <catch2/catch.hpp>

#include <sys/resource.h>

#include <string>
#include <vector>

#include "core/ground/utf8.h"
#include "core/pack/csv_rows.h"
#include "tests/scratch_folder.h"

namespace {

struct ReadRow {
    unsigned long line;
    std::vector<std::string> cells;
    bool whole;
};

class Recorder : public casebound::CsvEvents {
public:
    void row(unsigned long line, const std::vector<std::string_view>& cells, bool whole) override {
        rows.push_back({line, {cells.begin(), cells.end()}, whole});
    }
    void fault(unsigned long line, unsigned cell, const std::string& what) override {
        faults.push_back(std::to_string(line) + ":" + std::to_string(cell) + ": " + what);
    }
    std::vector<ReadRow> rows;
    std::vector<std::string> faults;
};

Recorder read(const std::string& bytes) {
    const ScratchFolder folder;
    Recorder recorder;
    CHECK(casebound::read_csv(folder.write("x.csv", bytes), recorder) == bytes.size());
    return recorder;
}

using Cells = std::vector<std::string>;

}  // namespace

TEST_CASE("a CSV row is its cells, with the line it stands on") {
    const auto found = read("a,b\n1,two words\n,\n");
    REQUIRE(found.rows.size() == 3);
    CHECK(found.faults.empty());
    CHECK(found.rows[1].cells == Cells{"1", "two words"});
    CHECK(found.rows[1].line == 2);
    CHECK(found.rows[2].cells == Cells{"", ""});
}

TEST_CASE("line ends may be LF or CRLF, and the last one may be missing") {
    for (const std::string text : {"a,b\nc,d\n", "a,b\r\nc,d\r\n", "a,b\nc,d", "a,b\r\nc,d", "\"a\",b\r\n\"c\",d\r\n",
                                   "\"a\",\"b\"\n\"c\",\"d\""}) {
        INFO(casebound::shown(text));
        const auto found = read(text);
        CHECK(found.faults.empty());
        REQUIRE(found.rows.size() == 2);
        CHECK(found.rows[0].cells == Cells{"a", "b"});
        CHECK(found.rows[1].cells == Cells{"c", "d"});
        CHECK(found.rows[1].line == 2);
    }
}

TEST_CASE("quotes protect commas and quotes, and nothing is trimmed (RFC 4180, 2.5 to 2.7)") {
    const auto found = read("\"a,b\",\"say \"\"no\"\"\", c ,\"\"\n");
    REQUIRE(found.rows.size() == 1);
    CHECK(found.rows[0].cells == Cells{"a,b", "say \"no\"", " c ", ""});
}

TEST_CASE("a row reads the same whether its cells are quoted or not") {
    const std::vector<Cells> rows{
        {"BW-1", "", "x y", "0.5"}, {"", "", "", ""}, {"\xC3\xBC", "#", "=1", "'"}, {" lead", "trail ", "\t", "-"}};
    std::string plain, quoted;
    for (const auto& row : rows)
        for (std::size_t i = 0; i < row.size(); ++i) {
            plain += row[i] + (i + 1 < row.size() ? "," : "\n");
            quoted += "\"" + row[i] + "\"" + (i + 1 < row.size() ? "," : "\n");
        }
    const auto a = read(plain), b = read(quoted);
    REQUIRE(a.rows.size() == rows.size());
    REQUIRE(b.rows.size() == rows.size());
    for (std::size_t i = 0; i < rows.size(); ++i) {
        CHECK(a.rows[i].cells == rows[i]);
        CHECK(b.rows[i].cells == rows[i]);
        CHECK(a.rows[i].line == b.rows[i].line);
    }
}

TEST_CASE("what is written as a cell is read as it was") {
    for (const std::string text : {"plain", "a,b", "say \"no\"", "", " "}) {
        const auto found = read(casebound::csv_cell(text) + ",end\n");
        REQUIRE(found.rows.size() == 1);
        CHECK(found.rows[0].cells == Cells{text, "end"});
    }
}

TEST_CASE("a quote that is never closed is reported where it is opened") {
    const auto found = read("a,b\n1,\"open\n2,x\n");
    REQUIRE(found.faults.size() == 1);
    CHECK(found.faults[0].substr(0, 38) == "2:2: a quote is opened here and never ");
}

TEST_CASE("a line break inside a cell is a fault, and the lines after it keep their numbers") {
    const auto found = read("a,b\n1,\"two\nlines\"\n3,c\n");
    REQUIRE(found.faults.size() == 1);
    CHECK(found.faults[0] == "2:2: a line break inside the cell: write it on one line");
    REQUIRE(found.rows.size() == 3);
    CHECK_FALSE(found.rows[1].whole);
    CHECK(found.rows[2].line == 4);
    CHECK(found.rows[2].whole);
}

TEST_CASE("a quote in the middle of a cell is a fault, and the next row is read") {
    for (const std::string row : {"1,ab\"c", "1,\"ab\"c", "1,\"ab\" ,x"}) {
        const auto found = read("a,b\n" + row + "\n2,ok\n");
        INFO(row);
        REQUIRE(found.faults.size() == 1);
        CHECK(found.faults[0].substr(0, 31) == "2:2: a quote inside the cell: w");
        REQUIRE(found.rows.size() == 3);
        CHECK_FALSE(found.rows[1].whole);
        CHECK(found.rows[2].cells == Cells{"2", "ok"});
        CHECK(found.rows[2].line == 3);
    }
}

TEST_CASE("bytes that no text may hold are reported with their cell") {
    CHECK(read("a,b\n1,\xFF\n").faults == Cells{"2:2: byte FF is not UTF-8: save the file as UTF-8"});
    CHECK(read("a,b\n\"x,y\",\xC3\n").faults == Cells{"2:2: byte C3 is not UTF-8: save the file as UTF-8"});
    CHECK(read(std::string("a,b\n1,x\0y\n", 10)).faults ==
          Cells{"2:2: a NUL byte: this is not a text file, or it is damaged"});
    CHECK(read("a,b\n1\x07,x\n").faults == Cells{"2:1: a control character \\x07: delete it"});
    CHECK(read("a,b\rc,d\n").faults ==
          Cells{"1:2: a carriage return without a line feed: save the file with line ends LF or CRLF"});
    CHECK(read("\xEF\xBB\xBF"
               "a,b\n")
              .faults.at(0)
              .substr(0, 35) == "1:1: begins with a byte-order mark:");
    CHECK(read(std::string("\xFF\xFE"
                           "a\0,\0",
                           6))
              .faults == Cells{"1:0: saved as UTF-16: save it as CSV in UTF-8"});
}

TEST_CASE("UTF-8 is checked as RFC 3629 section 4 defines it") {
    using casebound::bad_utf8;
    CHECK(bad_utf8("caf\xC3\xA9 \xE2\x82\xAC \xF0\x9F\x94\xA7") == std::string::npos);
    CHECK(bad_utf8("a\xC0\xAF") == 1);         // overlong
    CHECK(bad_utf8("\xE0\x80\xAF") == 0);      // overlong
    CHECK(bad_utf8("\xED\xA0\x80") == 0);      // surrogate
    CHECK(bad_utf8("\xF4\x90\x80\x80") == 0);  // above U+10FFFF
    CHECK(bad_utf8("ab\xE2\x82") == 2);        // cut off
    CHECK(bad_utf8("\x80") == 0);
}

TEST_CASE("an empty line is a fault of its own") {
    const auto found = read("a,b\n\n1,2\n");
    CHECK(found.faults == Cells{"2:0: an empty line: delete it"});
    CHECK(found.rows.back().line == 3);
}

TEST_CASE("a cell may have 64 KB and no more") {
    const std::string most(64 * 1024, 'x');
    CHECK(read("a,b\n1," + most + "\n").faults.empty());
    CHECK(read("a,b\n1," + most + "x\n").faults == Cells{"2:2: a cell of more than 64 KB: shorten it"});
    CHECK(read("a,b\n1,\"" + most + "x\"\n2,b\n").faults.at(0).substr(0, 33) == "2:2: a cell of more than 64 KB: s");
}

TEST_CASE("a cell of 50 MB is refused in bounded memory, and the next line is read") {
    const ScratchFolder folder;
    std::string path;
    {
        std::string bytes = "a,b\n1," + std::string(50'000'000, 'x') + "\n2,ok\n";
        path = folder.write("x.csv", bytes);
    }
    rusage before{}, after{};
    ::getrusage(RUSAGE_SELF, &before);
    Recorder found;
    casebound::read_csv(path, found);
    ::getrusage(RUSAGE_SELF, &after);
    CHECK(after.ru_maxrss - before.ru_maxrss < 20'000);  // KB
    CHECK(found.faults == Cells{"2:2: a cell of more than 64 KB: shorten it"});
    REQUIRE(found.rows.size() == 2);
    CHECK(found.rows[1].line == 3);
}

TEST_CASE("an open quote does not swallow a large file") {
    std::string bytes = "a,b\n1,\"open\n";
    for (int i = 0; i < 20'000; ++i) bytes += "12345,some text\n";
    const ScratchFolder folder;
    Recorder found;
    casebound::read_csv(folder.write("x.csv", bytes), found);
    REQUIRE(found.faults.size() == 1);
    CHECK(found.faults[0].substr(0, 47) == "2:2: a cell of more than 64 KB, or a quote that");
}

TEST_CASE("a file that is no file is refused with its path") {
    const ScratchFolder folder;
    Recorder found;
    CHECK_THROWS_WITH(casebound::read_csv(folder.file("none.csv"), found),
                      Catch::Contains("none.csv") && Catch::Contains("check that the file is there"));
    CHECK_THROWS_WITH(casebound::read_csv(folder.path(), found), Catch::Contains("not a regular file"));
    CHECK_THROWS(casebound::read_csv("/dev/zero", found));
}
