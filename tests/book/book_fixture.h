// Workbooks put together part by part, sound and not: what a spreadsheet writes, and what somebody else may send.
#pragma once

#include <minizip/zip.h>

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "core/book/workbook.h"
#include "tests/scratch_folder.h"

namespace casebound::tests {

using Parts = std::vector<std::pair<std::string, std::string>>;

inline std::string zip_of(const Parts& parts) {
    const ScratchFolder folder;
    const auto path = folder.file("made.zip");
    zipFile zip = zipOpen(path.c_str(), APPEND_STATUS_CREATE);
    for (const auto& [name, text] : parts) {
        const bool open = zipOpenNewFileInZip(zip, name.c_str(), nullptr, nullptr, 0, nullptr, 0, nullptr, Z_DEFLATED,
                                              9) == ZIP_OK;
        if (!open || zipWriteInFileInZip(zip, text.data(), static_cast<unsigned>(text.size())) != ZIP_OK)
            throw std::runtime_error("the archive of the test cannot be written");
        zipCloseFileInZip(zip);
    }
    zipClose(zip, nullptr);
    return ScratchFolder::read(path);
}

// A sheet called `items` around these rows; style 1 is a date, 2 is text, 3 a date of one's own, 4 a percentage.
inline Parts xlsx_parts(const std::string& rows, const std::string& shared = "") {
    return {
        {"_rels/.rels",
         R"(<Relationships><Relationship Id="r1" Type="http://x/officeDocument" Target="xl/workbook.xml"/></Relationships>)"},
        {"xl/workbook.xml",
         R"(<workbook xmlns:r="r"><sheets><sheet name="items" sheetId="1" r:id="rId1"/></sheets></workbook>)"},
        {"xl/_rels/workbook.xml.rels",
         R"(<Relationships><Relationship Id="rId1" Type="http://x/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="rId2" Type="http://x/styles" Target="styles.xml"/><Relationship Id="rId3" Type="http://x/sharedStrings" Target="/xl/sharedStrings.xml"/></Relationships>)"},
        {"xl/styles.xml",
         R"(<styleSheet><numFmts><numFmt numFmtId="164" formatCode="DD.MM.YY"/><numFmt numFmtId="165" formatCode="0.0&quot;mm&quot;"/></numFmts><cellStyleXfs><xf numFmtId="14"/></cellStyleXfs><cellXfs><xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="49"/><xf numFmtId="164"/><xf numFmtId="165"/></cellXfs></styleSheet>)"},
        {"xl/sharedStrings.xml", "<sst>" + shared + "</sst>"},
        {"xl/worksheets/sheet1.xml", "<worksheet><sheetData>" + rows + "</sheetData></worksheet>"}};
}

inline std::string ods_around(const std::string& rows) {
    return R"(<office:document-content xmlns:office="o" xmlns:table="t" xmlns:text="x" xmlns:calcext="c"><office:body><office:spreadsheet><table:table table:name="items">)" +
           rows + "</table:table></office:spreadsheet></office:body></office:document-content>";
}
inline std::string ods_of(const std::string& rows) { return zip_of({{"content.xml", ods_around(rows)}}); }

// Every cell as `line:column kind text`.
class CellList final : public BookRows {
public:
    bool row(unsigned long line, const std::vector<BookCell>& cells) override {
        static const std::vector<std::string> kinds{"empty", "text", "number", "date", "truth", "error"};
        for (std::size_t i = 0; i < cells.size(); ++i)
            if (cells[i].is != CellIs::empty)
                all.push_back(cell_name(line, static_cast<unsigned>(i + 1)) + " " +
                              kinds.at(static_cast<std::size_t>(cells[i].is)) + " " + std::string(cells[i].text));
        return true;
    }
    void merged(const MergedCells& cells) override { all.push_back(cells.name() + " merged"); }
    std::vector<std::string> all;
};

inline std::vector<std::string> cells_in(const std::string& bytes) {
    const Workbook book(bytes, "made.xlsx");
    CellList cells;
    book.read(0, cells);
    return cells.all;
}

}  // namespace casebound::tests
