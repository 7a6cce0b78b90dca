// A workbook of a spreadsheet (.xlsx, ISO/IEC 29500; .ods, ISO/IEC 26300) as sheets of cells, each as the file stores it,
// whatever the locale. Memory is bounded whatever the file holds. Knows no columns, repairs nothing, computes no formula:
// what stands in the file as its last result is read.
#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "core/book/cells.h"
#include "core/ground/file_stamp.h"

namespace casebound {

class Workbook {
public:
    static constexpr std::size_t most_bytes = std::size_t{128} << 20;  // packed

    explicit Workbook(const std::string& path);            // throws Error(no_input or bad_data)
    Workbook(std::string bytes, const std::string& path);  // what was read or sent already
    ~Workbook();
    Workbook(Workbook&&) noexcept;

    const std::vector<std::string>& sheets() const;  // their names, in order
    const FileStamp& stamp() const;                  // of the whole file
    // Throws Error(bad_data) for a sheet that is damaged or larger than a sheet can be.
    void read(std::size_t sheet, BookRows& rows) const;

private:
    struct Contents;
    std::unique_ptr<Contents> contents_;
};

// Does the name end in .xlsx or .ods?
bool names_workbook(std::string_view path);

}  // namespace casebound
