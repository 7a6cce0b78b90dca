// A seller's list or a workbook in any form; the first byte says what its name ends in.
#include "core/book/list_file.h"
#include "core/ground/error.h"
#include "core/ground/utf8.h"
#include "tests/fuzz/target.h"

using namespace casebound;

namespace {

class Rows final : public BookRows {
public:
    bool row(unsigned long line, const std::vector<BookCell>& cells) override {
        fuzz::promised(line > last_ && line <= BookLimits::most_rows, "rows come in order, within a sheet");
        fuzz::promised(cells.size() <= BookLimits::most_columns, "a row is no wider than a sheet");
        for (const auto& cell : cells) {
            fuzz::promised(cell.text.size() <= BookLimits::most_cell_bytes, "a cell is no longer than it may be");
            fuzz::promised(bad_utf8(cell.text) == std::string_view::npos, "a cell is text");
        }
        last_ = line;
        return ++rows_ < 5000;
    }
    void merged(const MergedCells& cells) override {
        fuzz::promised(cells.first_line <= cells.last_line && cells.first_column <= cells.last_column,
                       "what is merged has a first and a last cell");
    }

private:
    unsigned long last_ = 0;
    int rows_ = 0;
};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const fuzz::Folder folder;
    if (size == 0) return 0;
    const char* ends[] = {"csv", "xlsx", "ods"};
    const auto path = folder.write(std::string("list.") + ends[data[0] % 3], fuzz::text_of(data + 1, size - 1));
    try {
        const ListFile list(path, "");
        fuzz::promised(!list.form().empty(), "it says what it was taken for");
        Rows rows;
        list.read(rows);
    } catch (const Error&) {}
    return 0;
}
