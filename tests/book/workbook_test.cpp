// Workbooks as they are read: each cell as the file stores it, and what no spreadsheet writes refused within bounds.
#include <catch2/catch.hpp>

#include <sys/resource.h>

#include <csignal>

#include <fmt/format.h>

#include "core/book/workbook_readback.h"
#include "core/book/workbook_writer.h"
#include "core/book/zip_reader.h"
#include "core/ground/error.h"
#include "tests/book/book_fixture.h"

using namespace casebound;
using namespace casebound::tests;
using Cells = std::vector<std::string>;

TEST_CASE("a cell of an .xlsx is a text, a number, a date, a truth or an error, as the file stores it") {
    const auto book = zip_of(xlsx_parts(
        R"(<row r="1"><c r="A1" t="s"><v>0</v></c><c r="C1" t="inlineStr"><is><t>plain</t></is></c></row>)"
        R"(<row r="4"><c r="A4"><v>4.7249999999999996</v></c><c r="B4" s="1"><v>46267</v></c><c r="C4" s="3"><v>46267.5</v></c>)"
        R"(<c r="D4" t="b"><v>1</v></c><c r="E4" t="e"><v>#REF!</v></c><c r="F4" t="str"><f>A1</f><v>PF-33</v></c>)"
        R"(<c r="G4" s="2"><v>815</v></c><c r="H4" s="4"><v>38</v></c><c r="I4"><v>1E5</v></c></row>)",
        R"(<si><r><t>PF</t></r><r><t xml:space="preserve"> 33</t></r><rPh><t>aloud</t></rPh></si>)"));
    CHECK(cells_in(book) == Cells{"A1 text PF 33", "C1 text plain", "A4 number 4.725", "B4 date 2026-09-02",
                                  "C4 date 2026-09-02 12:00", "D4 truth TRUE", "E4 error #REF!", "F4 text PF-33",
                                  "G4 number 815", "H4 number 38", "I4 number 100000"});
}

TEST_CASE("a cell of an .ods is the same; notes are no content, and what stands for many is many") {
    const auto book = ods_of(
        R"(<table:table-row><table:table-cell office:value-type="string"><office:annotation><text:p>a note</text:p></office:annotation><text:p>00<text:span>815</text:span><text:s text:c="2"/>x</text:p></table:table-cell>)"
        R"(<table:table-cell table:number-columns-repeated="2" office:value-type="float" office:value="4.725"><text:p>4,73</text:p></table:table-cell></table:table-row>)"
        R"(<table:table-row table:number-rows-repeated="3"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>)"
        R"(<table:table-row table:number-rows-repeated="2"><table:table-cell office:value-type="date" office:date-value="2026-09-02"><text:p>02.09.26</text:p></table:table-cell>)"
        R"(<table:table-cell office:value-type="string" office:string-value="" calcext:value-type="error" table:formula="of:=[.Z9]"><text:p>Err:509</text:p></table:table-cell>)"
        R"(<table:table-cell office:value-type="boolean" office:boolean-value="true"><text:p>WAHR</text:p></table:table-cell></table:table-row>)");
    CHECK(cells_in(book) == Cells{"A1 text 00815  x", "B1 number 4.725", "C1 number 4.725", "A5 date 2026-09-02",
                                  "B5 error Err:509", "C5 truth TRUE", "A6 date 2026-09-02", "B6 error Err:509",
                                  "C6 truth TRUE"});
}

TEST_CASE("merged cells are said, whether they stand in one row or below each other, and one cell alone is none") {
    auto parts = xlsx_parts(R"(<row r="1"><c r="A1"><v>1</v></c></row><row r="3"><c r="B3"><v>2</v></c></row>)");
    auto& sheet = parts.back().second;
    sheet.insert(sheet.find("</worksheet>"),
                 R"(<mergeCells><mergeCell ref="A1:C1"/><mergeCell ref="B2:B9"/><mergeCell ref="C1:C1"/>)"
                 R"(<mergeCell ref="A4:B5"/><mergeCell ref="x"/></mergeCells>)");
    CHECK(cells_in(zip_of(parts)) == Cells{"A1 number 1", "B3 number 2", "A1:C1 merged", "B2:B9 merged"});
    const auto covered = std::string("<table:covered-table-cell/>");
    const auto cell = [](const std::string& span) {
        return "<table:table-cell " + span + R"( office:value-type="float" office:value="1"/>)";
    };
    CHECK(cells_in(ods_of("<table:table-row>" + cell("") +
                          cell(R"(table:number-columns-spanned="2" table:number-rows-spanned="1")") + covered +
                          cell(R"(table:number-columns-spanned="1" table:number-rows-spanned="2")") +
                          "<table:table-cell table:number-columns-spanned=\"3\"/></table:table-row><table:table-row>" +
                          cell("") + "</table:table-row>")) ==
          Cells{"A1 number 1", "B1 number 1", "D1 number 1", "B1:C1 merged", "D1:D2 merged", "A2 number 1"});
}

TEST_CASE("a formula whose value the file does not store is an error, and an empty text that it gives is none") {
    CHECK(
        cells_in(zip_of(xlsx_parts(
            R"(<row r="1"><c r="A1"><f>1+1</f></c><c r="B1"><f>1+1</f><v></v></c><c r="C1" t="str"><f>T(Z9)</f><v></v></c>)"
            R"(<c r="D1" t="str"><f>T(Z9)</f></c><c r="E1"><v>1</v></c></row>)"))) ==
        Cells{"A1 error a formula without its value", "B1 error a formula without its value",
              "D1 error a formula without its value", "E1 number 1"});
    CHECK(
        cells_in(ods_of(
            R"(<table:table-row><table:table-cell table:formula="of:=1+1"/><table:table-cell table:formula="of:=[.Z9]" office:value-type="string"><text:p/></table:table-cell>)"
            R"(<table:table-cell office:value-type="float" office:value="1"/></table:table-row>)")) ==
        Cells{"A1 error a formula without its value", "C1 number 1"});
}

TEST_CASE("what is written is read back, cell by cell, and twice the same") {
    const ScratchFolder folder;
    const std::vector<BookSheet> sheets{
        {"items",
         {{"item", "as printed"}, {"title", ""}},
         {{"00815", "a, \"b\" <c> & d"}, {"=A1", ""}, {"1E5", "4,725 \xC3\xA4 _x0041_"}}}};
    write_workbook(folder.file("a.xlsx"), sheets);
    CHECK(cells_in(ScratchFolder::read(folder.file("a.xlsx"))) ==
          Cells{"A1 text item", "B1 text title", "A2 text 00815", "B2 text a, \"b\" <c> & d", "A3 text =A1",
                "A4 text 1E5", "B4 text 4,725 \xC3\xA4 _x0041_"});
    write_workbook(folder.file("b.xlsx"), sheets);
    CHECK(ScratchFolder::read(folder.file("a.xlsx")) == ScratchFolder::read(folder.file("b.xlsx")));
    CHECK_THROWS_WITH(write_workbook(folder.file("none/c.xlsx"), sheets), Catch::Contains("none/c.xlsx"));
    CHECK_THROWS_WITH(write_workbook(folder.file("d.xlsx"), {{"items", {}, {{std::string(40000, 'x')}}}}),
                      Catch::Contains("no room"));
    CHECK_FALSE(std::filesystem::exists(folder.file("d.xlsx")));
}

TEST_CASE("a workbook reads back as the sheets that were given, and as no others") {
    const ScratchFolder folder;
    const std::vector<BookSheet> sheets{{"items", {{"item", ""}, {"title", ""}}, {{"PF-33", ""}, {}, {"", "a seal"}}},
                                        {"notes", {}, {{"one"}, {}, {"three", "", "and its third"}, {}}}};
    const auto path = folder.file("a.xlsx");
    write_workbook(path, sheets);
    CHECK(reads_back(path, sheets));
    const auto with = [&](const auto& change) {
        auto changed = sheets;
        change(changed);
        return reads_back(path, changed);
    };
    CHECK_FALSE(with([](auto& all) { all.pop_back(); }));
    CHECK_FALSE(with([](auto& all) { all[1].name = "note"; }));
    CHECK_FALSE(with([](auto& all) { all[0].columns[1].name = "titles"; }));
    CHECK_FALSE(with([](auto& all) { all[0].rows[0][0] = "PF-34"; }));
    CHECK_FALSE(with([](auto& all) { all[0].rows[0][1] = "more"; }));
    CHECK_FALSE(with([](auto& all) { all[0].rows[1] = {"between"}; }));
    CHECK_FALSE(with([](auto& all) { all[0].rows.pop_back(); }));
    CHECK_FALSE(with([](auto& all) { all[0].rows.push_back({"below"}); }));
    CHECK_FALSE(with([](auto& all) { all[1].rows[2].pop_back(); }));
    CHECK_FALSE(with([](auto& all) { all[1].rows[3] = {"below"}; }));
    CHECK(with([](auto& all) { all[1].rows.push_back({}); }));  // an empty row is no cell
    const auto whole = ScratchFolder::read(path);
    for (const std::size_t kept : {whole.size() / 3, whole.size() - 30, std::size_t{0}}) {
        folder.write("a.xlsx", whole.substr(0, kept));
        CHECK_FALSE(reads_back(path, sheets));
    }
    std::filesystem::remove(path);
    CHECK_FALSE(reads_back(path, sheets));
}

TEST_CASE("a workbook that finds no room is not written, whichever of its files it is") {
    const ScratchFolder folder;
    const std::vector<BookSheet> sheets{{"items", {{"item", "as printed"}}, {}}};
    auto large = sheets;
    for (int i = 0; i < 3000; ++i) large[0].rows.push_back({fmt::format("PF-{}", i * 7919)});
    write_workbook(folder.file("whole.xlsx"), large);
    const auto whole = ScratchFolder::read(folder.file("whole.xlsx"));
    write_workbook(folder.file("a.xlsx"), sheets);
    const auto before = ScratchFolder::read(folder.file("a.xlsx"));

    const auto old_signal = std::signal(SIGXFSZ, SIG_IGN);
    rlimit old{};
    ::getrlimit(RLIMIT_FSIZE, &old);
    int refused = 0, written = 0;
    for (rlim_t bytes = 0; bytes < 400'000; bytes += 9'973) {
        const rlimit room{bytes, old.rlim_max};
        ::setrlimit(RLIMIT_FSIZE, &room);
        std::string said;
        int exit = 0;
        try {
            write_workbook(folder.file("a.xlsx"), large);
        } catch (const Error& error) { said = error.what(), exit = static_cast<int>(error.exit()); }
        ::setrlimit(RLIMIT_FSIZE, &old);
        INFO(bytes << " bytes for a file: " << exit << " " << said);
        CHECK((exit == 0 || exit == static_cast<int>(Exit::cannot_write)));
        CHECK((ScratchFolder::read(folder.file("a.xlsx")) == (exit == 0 ? whole : before)));
        (exit == 0 ? written : refused) += 1;
        if (exit == 0) break;
    }
    std::signal(SIGXFSZ, old_signal);
    CHECK(refused > 5);  // of its own file, and of those it is put together from
    CHECK(written == 1);
    for (const auto& entry : std::filesystem::directory_iterator(folder.path()))
        CHECK(entry.path().extension() == ".xlsx");
}

TEST_CASE("what is no workbook, or is damaged, is refused in words") {
    const auto said = [](const std::string& bytes) -> std::string {
        try {
            cells_in(bytes);
        } catch (const Error& error) {
            CHECK(error.exit() == Exit::bad_data);
            return error.what();
        }
        return "read";
    };
    CHECK_THAT(said("item,kind\n"), Catch::Contains("no workbook"));
    CHECK_THAT(said("\xD0\xCF\x11\xE0" + std::string(600, 'x')), Catch::Contains("password"));
    const auto sound = zip_of(xlsx_parts(R"(<row r="1"><c r="A1"><v>1</v></c></row>)"));
    CHECK(said(sound) == "read");
    for (std::size_t cut = 0; cut < sound.size(); cut += 61) CHECK(said(sound.substr(0, cut)) != "read");
    CHECK_THAT(said(zip_of({{"a.txt", "x"}})), Catch::Contains("xl/workbook.xml is not in it"));
    CHECK_THAT(said(zip_of(xlsx_parts("<row r=\"1\"><c></row>"))), Catch::Contains("damaged at line"));
    CHECK_THAT(said(zip_of(xlsx_parts(R"(<row r="1"><c r="A1" t="s"><v>7</v></c></row>)"))),
               Catch::Contains("A1: its text is not in the file"));
    CHECK_THAT(said(zip_of(xlsx_parts(R"(<row r="2"/><row r="1"/>)"))), Catch::Contains("not where it belongs"));
    CHECK_THAT(said(zip_of(xlsx_parts(R"(<row r="1"><c r="ZZZZ1"><v>1</v></c></row>)"))),
               Catch::Contains("more than 1024 columns"));
}

TEST_CASE("a bomb is refused before it goes off") {
    const auto refused = [](const Parts& parts, const std::string& why) {
        CHECK_THROWS_WITH(cells_in(zip_of(parts)), Catch::Contains(why));
    };
    auto entities = xlsx_parts("");
    entities.back().second =
        "<!DOCTYPE x [<!ENTITY a \"aaaaaaaa\"><!ENTITY b \"&a;&a;&a;\">]><worksheet>&b;</worksheet>";
    refused(entities, "document type");
    auto deep = xlsx_parts("");
    deep.back().second.clear();
    for (int i = 0; i < 300; ++i) deep.back().second += "<a>";
    refused(deep, "nested more than 256");
    refused(xlsx_parts("<row r=\"1\"><c r=\"A1\" t=\"" + std::string(std::size_t{12} << 20, 'x') + "\"/></row>"),
            "one piece of it");
    refused(
        {{"content.xml",
          ods_around(
              R"(<table:table-row table:number-rows-repeated="1048577"><table:table-cell office:value-type="string"><text:p>x</text:p></table:table-cell></table:table-row>)")}},
        "beyond row 1048576");
    refused(
        {{"content.xml",
          ods_around(
              R"(<table:table-row table:number-rows-repeated="1000000"><table:table-cell table:number-columns-repeated="1000" office:value-type="string"><text:p>)" +
              std::string(60000, 'x') + "</text:p></table:table-cell></table:table-row>")}},
        "more than 1 GB");
    Parts many;
    for (std::size_t i = 0; i <= ZipReader::most_files; ++i) many.emplace_back("a" + std::to_string(i), "");
    refused(many, "more than 4096 files");
}

TEST_CASE("bytes that changed on the way never do more than be refused") {
    const auto sound = zip_of(xlsx_parts(R"(<row r="1"><c r="A1" t="s"><v>0</v></c></row>)", "<si><t>PF-33</t></si>"));
    std::size_t refused = 0;
    for (std::size_t at = 0; at < sound.size(); ++at)
        for (const int bit : {0x01, 0x80}) {
            auto bytes = sound;
            bytes[at] = static_cast<char>(bytes[at] ^ bit);
            try {
                cells_in(bytes);
            } catch (const Error&) { ++refused; }
        }
    CHECK(refused > sound.size() / 2);
}

TEST_CASE("cells have the names that a spreadsheet gives them, and numbers the shortest that reads back the same") {
    CHECK(cell_name(1, 1) == "A1");
    CHECK(cell_name(41, 26) == "Z41");
    CHECK(cell_name(41, 27) == "AA41");
    CHECK(cell_name(2, 703) == "AAA2");
    CHECK(stored_number("0.10000000000000001") == "0.1");
    CHECK(stored_number("12345678901234567000") == "12345678901234567000");
    CHECK(stored_number("1E-9") == "1e-09");
    CHECK(stored_number("nan").empty());
    CHECK(stored_number("4,7").empty());
    CHECK(names_workbook("a.XLSX"));
    CHECK_FALSE(names_workbook(".ods"));
}
