// Reads a CSV file (RFC 4180: commas, double quotes, UTF-8, LF or CRLF) and says exactly where each row and each
// damaged byte is. Memory is bounded whatever the file holds: a cell may have 64 KB, a line 1 MB, a file 4 GB.
// Knows no columns, trims nothing, guesses nothing. Quoted rows go through libcsv in strict mode.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace casebound {

class CsvEvents {
public:
    virtual ~CsvEvents() = default;
    // A row, the header too. `line` is the physical line it begins on, from 1. The cells are valid until this
    // returns. `whole` is false when the row had a fault and its cells are a best effort.
    virtual void row(unsigned long line, const std::vector<std::string_view>& cells, bool whole) = 0;
    // `cell` counts from 1; 0 is the line as a whole.
    virtual void fault(unsigned long line, unsigned cell, const std::string& what) = 0;
};

// Returns the bytes read. Throws Error(no_input) when the file cannot be read.
std::uint64_t read_csv(const std::string& path, CsvEvents& events);

// Why a row of `cells` is none under a header of `wanted`; "" when it is as wide.
std::string wrong_width(std::size_t cells, std::size_t wanted);

// A cell as it must be written: quoted when it holds a comma, a quote or a line end.
std::string csv_cell(std::string_view text);

}  // namespace casebound
