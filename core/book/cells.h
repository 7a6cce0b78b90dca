// Cells as a file stores them, row by row, whatever the file is; and how much of them one list may hold.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace casebound {

struct BookLimits {
    static constexpr std::size_t most_rows = 1048576, most_columns = 1024;  // of a sheet
    static constexpr std::size_t most_cell_bytes = std::size_t{64} << 10;
    static constexpr std::size_t most_shared_bytes = std::size_t{256} << 20;  // texts that an .xlsx keeps apart
};

enum class CellIs : std::uint8_t { empty, text, number, date, truth, error };

struct BookCell {
    CellIs is = CellIs::empty;
    std::string_view
        text;  // number: the shortest that reads back the same; date: 2026-09-02, with the time where it has one
};

// Cells that are shown as one: only the first of them holds what is shown, the others are read as empty.
struct MergedCells {
    unsigned long first_line{}, last_line{};
    unsigned first_column{}, last_column{};  // from 1
    std::string name() const;                // "E2:E3"
    std::string what_to_do() const;
};

class BookRows {
public:
    virtual ~BookRows() = default;
    // Rows with anything in them, from the top; `line` as the spreadsheet counts, from 1. Valid until it returns.
    // False: no more rows are wanted.
    virtual bool row(unsigned long line, const std::vector<BookCell>& cells) = 0;
    // Two cells or more, from a row that was handed on; before or after it. Not called once no more rows are wanted.
    virtual void merged(const MergedCells& cells) = 0;
};

// "D12" for row 12, column 4 (both from 1).
std::string cell_name(unsigned long line, unsigned column);

// The text of a number that a file stores as `text`: 4.7249999999999996 is 4.725. "" when it is none.
std::string stored_number(std::string_view text);

}  // namespace casebound
