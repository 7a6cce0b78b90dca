// A pack as a workbook: the same rows as its folder, checked by the same rules, each fault by sheet and cell; and what a
// spreadsheet has made of a cell is refused with what it looks like now.
#include <catch2/catch.hpp>

#include "core/book/zip_reader.h"
#include "core/ground/error.h"
#include "core/pack/pack_edition.h"
#include "core/pack/pack_workbook.h"
#include "tests/book/book_fixture.h"
#include "tests/pack/pack_fixture.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

const PackShape& book_shape() {
    static const PackShape shape(plugins());
    return shape;
}

Vocabularies words() {
    Vocabularies all;
    for (const auto& domain : plugins().domains) all.add(domain.vocabulary, domain.name);
    return all;
}

class Book {
public:
    Book() {
        const PackFolder pack(yard());
        write_pack_workbook(path(), contents_of(pack.path(), book_shape()), words());
    }
    std::string path() const { return folder_.file("yard.xlsx"); }
    std::string file(const std::string& name) const { return folder_.file(name); }

    // Puts `cell` in the place of the one at `place` of a sheet, as its file would have it.
    void put(const std::string& sheet, const std::string& place, const std::string& cell) const {
        change(sheet, [&](std::string& text) { replace_cell(text, place, cell); });
    }
    void merge(const std::string& sheet, const std::string& range) const {
        change(sheet, [&](std::string& text) {
            text.insert(text.find("</sheetData>") + 12,
                        "<mergeCells count=\"1\"><mergeCell ref=\"" + range + "\"/></mergeCells>");
        });
    }

private:
    template <class Change> void change(const std::string& sheet, Change change) const {
        const auto bytes = ScratchFolder::read(path());
        const auto sheets = Workbook(path()).sheets();
        const auto number = std::find(sheets.begin(), sheets.end(), sheet) - sheets.begin() + 1;
        const ZipReader zip(bytes, "yard.xlsx");
        Parts parts;
        for (const auto& name : zip.names()) {
            std::string text;
            zip.read(name, [&](std::string_view piece) {
                text += piece;
                return true;
            });
            if (name == "xl/worksheets/sheet" + std::to_string(number) + ".xml") change(text);
            if (name == "xl/styles.xml") text.replace(text.find("</cellXfs>"), 0, "<xf numFmtId=\"14\"/>");
            parts.emplace_back(name, text);
        }
        folder_.write("yard.xlsx", zip_of(parts));
    }
    static void replace_cell(std::string& text, const std::string& place, const std::string& cell) {
        const auto at = text.find("<c r=\"" + place + "\"");
        if (at == std::string::npos) throw std::runtime_error("no cell " + place);
        const auto open = text.find('>', at);
        const auto end = text[open - 1] == '/' ? open + 1 : text.find("</c>", at) + 4;
        text.replace(at, end - at, cell);
    }
    ScratchFolder folder_;
};

std::vector<std::string> faults_of(const std::string& path) {
    const CatalogFolder catalog;
    return texts(load_pack(path, catalog.path(), plugins()).faults);
}

// The day that the patched styles make of a number: the last style there is.
constexpr const char* as_date = R"(s="3")";

struct BookDamage {
    std::string what, sheet, place, cell, said;
};

// What each client leaves in the file when a person types or opens something else there.
const std::vector<BookDamage> book_damages{
    {"a part number typed into a column that is not text", "items", "A2", R"(<c r="A2"><v>815</v></c>)",
     "yard.xlsx:items:A2: item: `815` is a number here, and a key is text"},
    {"a long part number, rounded as numbers are", "items", "A3", R"(<c r="A3"><v>1.2345678901234567E+16</v></c>)",
     "yard.xlsx:items:A3: item: `12345678901234568` is a number here"},
    {"a part number read as a power of ten", "items", "A2", R"(<c r="A2"><v>1E5</v></c>)",
     "yard.xlsx:items:A2: item: `100000` is a number"},
    {"a part number that became a day", "items", "A2", std::string("<c r=\"A2\" ") + as_date + "><v>46267</v></c>",
     "yard.xlsx:items:A2: item: `2026-09-02` is a date here, not a text"},
    {"a day as another client writes it", "items", "A2", R"(<c r="A2" t="d"><v>2026-09-02</v></c>)",
     "`2026-09-02` is a date here"},
    {"a quantity that became a day: 1.5", "items", "D2", std::string("<c r=\"D2\" ") + as_date + "><v>46143</v></c>",
     "yard.xlsx:items:D2: pack_quantity: `2026-05-01` is a date here"},
    {"a size in a title that became a day", "items", "C2", std::string("<c r=\"C2\" ") + as_date + "><v>46267</v></c>",
     "yard.xlsx:items:C2: title: `2026-09-02` is a date"},
    {"a formula typed by mistake: =see page 4", "items", "C2", R"(<c r="C2" t="e"><f>see page 4</f><v>#NAME?</v></c>)",
     "yard.xlsx:items:C2: title: `#NAME?` is what a spreadsheet leaves of a broken formula"},
    {"a formula that nobody has worked out", "items", "C2", R"(<c r="C2"><f>A2</f></c>)",
     "yard.xlsx:items:C2: title: `a formula without its value` is what a spreadsheet leaves of a broken formula"},
    {"a quantity computed from a cell that went", "items", "D2", R"(<c r="D2" t="e"><f>#REF!*2</f><v>#REF!</v></c>)",
     "yard.xlsx:items:D2: pack_quantity: `#REF!`"},
    {"yes or no made of a text", "items", "C2", R"(<c r="C2" t="b"><v>1</v></c>)",
     "yard.xlsx:items:C2: title: `TRUE` is true or false here"},
    {"a kind that became a number", "items", "B2", R"(<c r="B2"><v>7</v></c>)",
     "yard.xlsx:items:B2: kind: `7` is a number here"},
    {"a key of another sheet that became a number", "group_members", "B2", R"(<c r="B2"><v>1</v></c>)",
     "yard.xlsx:group_members:B2: item: `1` is a number here"},
    {"a decimal comma typed into a text cell", "items", "D2", R"(<c r="D2" t="inlineStr"><is><t>4,725</t></is></c>)",
     "yard.xlsx:items:D2: pack_quantity: `4,725` is not a number"},
    {"a line break in a cell", "items", "C2", "<c r=\"C2\" t=\"inlineStr\"><is><t>a\nb</t></is></c>",
     "yard.xlsx:items:C2: title: a line break inside the cell"},
    {"a character that nobody sees", "items", "C2", R"(<c r="C2" t="inlineStr"><is><t>a_x0007_b</t></is></c>)",
     "yard.xlsx:items:C2: title: a control character"},
    {"something written beside the table", "items", "F2",
     R"(<c r="F2" t="inlineStr"><is><t>s-made</t></is></c><c r="H2"><v>3</v></c>)",
     "yard.xlsx:items:H2: `3` stands beside the table"},
    {"a header that was changed", "items", "B1", R"(<c r="B1" t="inlineStr"><is><t>kinds</t></is></c>)",
     "yard.xlsx:items:B1: `kinds` is not a column of items: did you mean kind?"},
    {"a blank behind a key", "items", "A2", R"(<c r="A2" t="inlineStr"><is><t>BW-1 </t></is></c>)",
     "yard.xlsx:items:A2: item: `BW-1 ` begins or ends with a blank"},
    {"the pack's name as a number", "pack", "B1", R"(<c r="B1" t="inlineStr"><is><t>My Yard</t></is></c>)",
     "yard.xlsx:pack:B1: `My Yard`: write at most 64"},
    {"neither yes nor no", "pack", "B4", R"(<c r="B4" t="b"><v>1</v></c>)",
     "yard.xlsx:pack:B4: `TRUE`: write yes or no"},
};

}  // namespace

TEST_CASE("merged cells of a pack are a fault of the sheet, and nothing is loaded") {
    const Book book;
    book.merge("applications", "E2:E3");  // a condition of two rows: read as empty, the second would fit everywhere
    const auto faults = faults_of(book.path());
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].find("yard.xlsx:applications:E2: condition: E2:E3 is merged, and only its first cell holds what it "
                         "shows: unmerge it, and type it in every row") == 0);
    CHECK_THROWS_WITH(contents_of(book.path(), book_shape()), Catch::Contains("applications:E2:E3 is merged"));
}

TEST_CASE("a pack is the same as a folder, as a workbook, and as a folder again") {
    const PackFolder pack(yard());
    const Book book;
    CHECK(faults_of(book.path()).empty());
    const auto folder_rows = contents_of(pack.path(), book_shape()), book_rows = contents_of(book.path(), book_shape());
    CHECK(changes_between(folder_rows.edition, book_rows.edition).empty());
    CHECK(book_rows.name == "yard");
    CHECK(book_rows.invented);
    REQUIRE(book_rows.edition.tables.size() == yard().size());
    write_pack_tables(book.file("."), book_rows);
    for (const auto& [name, bytes] : yard()) {
        INFO(name);
        CHECK(ScratchFolder::read(book.file(name)) == bytes);
    }
    const CatalogFolder from_folder, from_book;
    load_pack(pack.path(), from_folder.path(), plugins());
    CHECK(load_pack(book.path(), from_book.path(), plugins()).summary.rows.size() == yard().size());
    CHECK(from_book.text("SELECT folder FROM pack") == book.path());
    CHECK(from_book.integer("SELECT count(*) FROM application") ==
          from_folder.integer("SELECT count(*) FROM application"));
    CHECK(load_pack(book.path(), from_book.path(), plugins()).summary.unchanged);
}

TEST_CASE("what a spreadsheet made of a cell is refused by sheet and cell, with what it looks like now") {
    for (const auto& one : book_damages) {
        INFO(one.what);
        const Book book;
        book.put(one.sheet, one.place, one.cell);
        const auto all = joined(faults_of(book.path()));
        CHECK_THAT(all, Catch::Contains(one.said));
    }
}

TEST_CASE("a number in a column that is no key is taken as the file stores it") {
    const Book book;
    book.put("items", "D5", R"(<c r="D5"><v>4.7249999999999996</v></c>)");
    book.put("items", "C2", R"(<c r="C2"><v>10.5</v></c>)");
    CHECK(faults_of(book.path()).empty());
    const auto items = contents_of(book.path(), book_shape()).edition;
    CHECK(items.find("items")->rows.at(3).cells[3] == "4.725");
    CHECK(items.find("items")->rows.front().cells[2] == "10.5");
}

TEST_CASE("a sheet that is no table, and a workbook that does not say which pack it is, are faults") {
    const ScratchFolder folder;
    folder.write("a.xlsx", zip_of(xlsx_parts("<row r=\"1\"><c r=\"A1\"><v>1</v></c></row>")));
    CHECK(joined(faults_of(folder.file("a.xlsx"))).find("a.xlsx:pack: the sheet is missing") == 0);
    auto contents = empty_contents("yard", book_shape(), {"sources", "items"});
    write_pack_workbook(folder.file("b.xlsx"), contents, words());
    CHECK(faults_of(folder.file("b.xlsx")).empty());
    folder.write(
        "c.ods",
        ods_of(
            "<table:table-row/></table:table><table:table table:name=\"pack\"><table:table-row>"
            "<table:table-cell office:value-type=\"string\"><text:p>name</text:p></table:table-cell>"
            "<table:table-cell office:value-type=\"string\"><text:p>yard</text:p></table:table-cell></table:table-row>"
            "</table:table><table:table table:name=\"itms\">"));
    const auto said = joined(faults_of(folder.file("c.ods")));
    CHECK_THAT(said, Catch::Contains("c.ods:pack: nothing stands beside `title`"));
    CHECK_THAT(
        said, Catch::Contains("c.ods:itms: `itms` is not a table of a pack: did you mean items?, or delete the sheet"));
    CHECK_THAT(said, Catch::Contains("c.ods:items: it has no header"));
}
