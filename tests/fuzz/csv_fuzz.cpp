// A CSV file: rows in order, and a whole row, written again cell by cell, is read as the same row.
#include "core/ground/error.h"
#include "core/pack/csv_rows.h"
#include "tests/fuzz/target.h"

using namespace casebound;

namespace {

class Rows final : public CsvEvents {
public:
    void row(unsigned long line, const std::vector<std::string_view>& cells, bool whole) override {
        fuzz::promised(line > last_, "rows come in order");
        last_ = line;
        if (!whole) return;
        std::string again;
        for (const auto& cell : cells) again += (again.empty() && &cell == &cells.front() ? "" : ",") + csv_cell(cell);
        text += (cells.size() == 1 && again.empty() ? "\"\"" : again) + "\n";
        ++whole_rows;
    }
    void fault(unsigned long line, unsigned, const std::string& what) override {
        fuzz::promised(line > 0 && !what.empty(), "a fault says where and what");
        ++faults;
    }
    std::string text = "first row\n";  // a mark of the byte order at the front of a file would be taken for one
    std::size_t whole_rows = 0, faults = 0;

private:
    unsigned long last_ = 0;
};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    static const fuzz::Folder folder;
    Rows first;
    read_csv(folder.write("first.csv", fuzz::text_of(data, size)), first);
    Rows second;
    read_csv(folder.write("second.csv", first.text), second);
    fuzz::promised(
        second.faults == 0 && second.whole_rows == first.whole_rows + 1 && second.text == "first row\n" + first.text,
        "whole rows, written again, are read as the same");
    return 0;
}
