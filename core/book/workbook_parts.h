// The two formats behind workbook.h: what each is read by. No other room includes this.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "core/book/cells.h"
#include "core/book/xml_pieces.h"
#include "core/book/zip_reader.h"

namespace casebound {

class BookFormat {
public:
    virtual ~BookFormat() = default;
    virtual void read(std::size_t sheet, BookRows& rows) const = 0;
    std::vector<std::string> sheets;
};

std::unique_ptr<BookFormat> xlsx_in(const ZipReader& zip, const std::string& path);
std::unique_ptr<BookFormat> ods_in(const ZipReader& zip, const std::string& path);

// In the place of what a formula gives, where the file does not store it.
inline constexpr std::string_view no_value = "a formula without its value";

// A row as it is put together: cells at their columns, their texts kept, and what no sheet may hold refused.
class RowMaker {
public:
    RowMaker(BookRows& rows, std::string place) : rows_(rows), place_(std::move(place)) {}

    void begin(unsigned long line);
    void put(std::size_t column, CellIs is, std::string text);  // column from 0
    bool deliver();                                             // false: no more are wanted
    unsigned long line() const { return line_; }

private:
    BookRows& rows_;
    std::string place_;
    unsigned long line_ = 0;
    std::size_t bytes_ = 0;  // handed on so far
    std::vector<std::pair<CellIs, std::string>> kept_;
    std::vector<BookCell> cells_;
};

void read_part(const ZipReader& zip, std::string_view name, XmlEvents& events, const std::string& path);

}  // namespace casebound
