// A list that somebody sends: a CSV file of any dialect and encoding, or one sheet of a workbook, as rows of cells. What was
// found out about the file is said, so that a person can confirm it; bounded as workbook.h is. Knows no columns.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/book/cells.h"
#include "core/book/workbook.h"

namespace casebound {

class ListFile {
public:
    static constexpr std::size_t most_bytes = std::size_t{256} << 20;

    // `sheet`: of a workbook, by name; "" the first. Throws Error(no_input, bad_data, or usage for no such sheet).
    ListFile(const std::string& path, const std::string& sheet);

    const std::string& path() const { return path_; }
    // "CSV, `;` between cells, Windows-1252" or "sheet Prices of a workbook".
    const std::string& form() const { return form_; }
    const FileStamp& stamp() const { return stamp_; }
    // Rows are counted as a spreadsheet counts them, blank ones too; blank ones are not handed on.
    void read(BookRows& rows) const;

private:
    void take_text(std::string bytes);
    void read_text(BookRows& rows) const;

    std::string path_, form_, text_;  // text: UTF-8
    char between_ = ',';
    std::optional<Workbook> book_;
    std::size_t sheet_ = 0;
    FileStamp stamp_;
};

}  // namespace casebound
