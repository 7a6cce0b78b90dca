// The physical lines of a file, read through one buffer of fixed size. Only csv_rows.cpp needs it.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/ground/file_stamp.h"

namespace casebound {

class CsvLines {
public:
    static constexpr std::size_t most_line_bytes = std::size_t{1} << 20;

    explicit CsvLines(const std::string& path) : file_(path), buffer_(most_line_bytes) {}

    // Moves to the next line. False at the end of the file.
    bool next();

    std::string_view text() const { return text_; }   // without its line end; valid until next()
    unsigned long number() const { return number_; }  // from 1
    bool too_long() const { return too_long_; }       // text() is the line's first megabyte, the rest is skipped
    std::uint64_t bytes_read() const { return bytes_read_; }
    std::uint64_t file_bytes() const { return file_.bytes(); }

private:
    void fill();       // moves what is left to the front and reads more
    void skip_line();  // past the next line end, however far

    InputFile file_;
    std::vector<char> buffer_;
    std::size_t at_ = 0, end_ = 0;
    std::string_view text_;
    unsigned long number_ = 0;
    std::uint64_t bytes_read_ = 0;
    bool too_long_ = false, skip_ = false, dry_ = false;
};

}  // namespace casebound
