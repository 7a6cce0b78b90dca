#include "core/pack/csv_rows.h"

#include <csv.h>

#include <array>
#include <cstring>
#include <new>
#include <utility>

#include <fmt/format.h>

#include "core/ground/file_stamp.h"
#include "core/ground/utf8.h"

namespace casebound {

namespace {

// The physical lines of a file, read through one buffer of fixed size.
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

void CsvLines::fill() {
    if (dry_) return;
    std::memmove(buffer_.data(), buffer_.data() + at_, end_ - at_);
    end_ -= at_;
    at_ = 0;
    const std::size_t want = buffer_.size() - end_;
    const std::size_t got = file_.read(buffer_.data() + end_, want);
    dry_ = got < want;
    end_ += got;
    bytes_read_ += got;
}

void CsvLines::skip_line() {
    for (;;) {
        const auto* found = static_cast<const char*>(std::memchr(buffer_.data() + at_, '\n', end_ - at_));
        if (found) {
            at_ = static_cast<std::size_t>(found - buffer_.data()) + 1;
            return;
        }
        at_ = end_;
        if (dry_) return;
        fill();
    }
}

bool CsvLines::next() {
    if (skip_) skip_line();
    skip_ = too_long_ = false;
    const auto find = [&] { return static_cast<const char*>(std::memchr(buffer_.data() + at_, '\n', end_ - at_)); };
    const char* found = find();
    if (!found && !dry_) {
        fill();
        found = find();
    }
    if (at_ == end_) return false;
    const char* const start = buffer_.data() + at_;
    too_long_ = skip_ = !found && !dry_;
    std::size_t length = found ? static_cast<std::size_t>(found - start) : end_ - at_;
    at_ += length + (found ? 1 : 0);
    if (found && length > 0 && start[length - 1] == '\r') --length;
    text_ = {start, length};
    ++number_;
    return true;
}

constexpr std::size_t most_cell_bytes = 64 * 1024;
constexpr std::uint64_t most_file_bytes = std::uint64_t{4} << 30;

// What a byte means to the plain path: an ordinary byte, a comma, or something that needs the careful path.
enum class Byte : unsigned char { plain, comma, special };

constexpr std::array<Byte, 256> byte_table() {
    std::array<Byte, 256> table{};
    for (std::size_t b = 0; b < 256; ++b)
        table[b] = b == ',' ? Byte::comma : (b < 0x20 || b == '"' || b >= 0x7F) ? Byte::special : Byte::plain;
    return table;
}
constexpr auto bytes = byte_table();

int never(unsigned char) { return 0; }
int is_line_feed(unsigned char c) { return c == '\n'; }

// Splits at every comma. False when a byte needs the careful path; `cells` is then unfinished.
bool split_plain(std::string_view line, std::vector<std::string_view>& cells) {
    cells.clear();
    std::size_t start = 0;
    for (std::size_t at = 0; at < line.size(); ++at) {
        const Byte b = bytes[static_cast<unsigned char>(line[at])];
        if (b == Byte::plain) continue;
        if (b == Byte::special) return false;
        cells.push_back(line.substr(start, at - start));
        start = at + 1;
    }
    cells.push_back(line.substr(start));
    return true;
}

void split_commas(std::string_view line, std::vector<std::string_view>& cells) {
    cells.clear();
    for (;;) {
        const auto comma = line.find(',');
        cells.push_back(line.substr(0, comma));
        if (comma == std::string_view::npos) return;
        line.remove_prefix(comma + 1);
    }
}

// libcsv, one physical line at a time: a row that is not finished at a line's end has a quote open.
class QuotedRow {
public:
    QuotedRow() { start(); }
    ~QuotedRow() { csv_free(&parser_); }
    QuotedRow(const QuotedRow&) = delete;
    QuotedRow& operator=(const QuotedRow&) = delete;

    // False when a quote stands where none may; the row must then be given up with reset().
    bool feed(std::string_view line) { return feed_bytes(line) && feed_bytes("\n"); }

    bool finished() const { return finished_; }
    std::size_t open_bytes() const { return parser_.entry_pos; }
    std::size_t cells_so_far() const { return ends_.size(); }

    // Views into this object, valid until the next feed() or reset().
    void cells(std::vector<std::string_view>& into) const {
        into.clear();
        std::size_t start = 0;
        for (const auto end : ends_) {
            into.push_back(std::string_view(text_).substr(start, end - start));
            start = end;
        }
    }

    void reset() {
        csv_free(&parser_);
        start();
    }

    void next_row() {
        text_.clear();
        ends_.clear();
        finished_ = false;
    }

private:
    void start() {
        if (csv_init(&parser_, CSV_STRICT) != 0) throw std::bad_alloc();
        csv_set_space_func(&parser_, never);
        csv_set_term_func(&parser_, is_line_feed);
        next_row();
    }

    bool feed_bytes(std::string_view part) {
        const auto done = csv_parse(&parser_, part.data(), part.size(), on_cell, on_row, this);
        if (done == part.size()) return true;
        if (csv_error(&parser_) == CSV_ENOMEM) throw std::bad_alloc();
        return false;
    }

    static void on_cell(void* text, std::size_t size, void* self) {
        auto& row = *static_cast<QuotedRow*>(self);
        row.text_.append(static_cast<const char*>(text), size);
        row.ends_.push_back(row.text_.size());
    }

    static void on_row(int, void* self) { static_cast<QuotedRow*>(self)->finished_ = true; }

    csv_parser parser_{};
    std::string text_;
    std::vector<std::size_t> ends_;
    bool finished_ = false;
};

class Reader {
public:
    Reader(const std::string& path, CsvEvents& events) : lines_(path), events_(events) {}

    std::uint64_t read() {
        if (lines_.file_bytes() > most_file_bytes) {
            events_.fault(0, 0, "larger than 4 GB: split the pack");
            return lines_.file_bytes();
        }
        while (lines_.next() && line()) {}
        if (open_ && lines_.number() > 0 && !given_up_)
            events_.fault(
                row_line_, open_cell(),
                "a quote is opened here and never closed: close it, or write it twice if it belongs to the text");
        return lines_.bytes_read();
    }

private:
    // False when nothing sensible can follow.
    bool line() {
        std::string_view text = lines_.text();
        if (lines_.number() == 1 && !first_line(text)) return false;
        if (lines_.too_long()) return long_line(text);
        if (!open_ && split_plain(text, cells_)) {
            if (text.empty()) events_.fault(lines_.number(), 0, "an empty line: delete it");
            else deliver(lines_.number(), true);
            return true;
        }
        return careful_line(text);
    }

    bool first_line(std::string_view& text) {
        const auto begins = [&](std::string_view mark) { return text.substr(0, mark.size()) == mark; };
        if (begins("\xFF\xFE") || begins("\xFE\xFF")) {
            events_.fault(1, 0, "saved as UTF-16: save it as CSV in UTF-8");
            return false;
        }
        if (begins("\xEF\xBB\xBF")) {
            events_.fault(1, 1,
                          "begins with a byte-order mark: save it as UTF-8 without one (in a spreadsheet: text CSV, "
                          "character set UTF-8)");
            text.remove_prefix(3);
        }
        return true;
    }

    bool long_line(std::string_view text) {
        split_commas(text, cells_);
        unsigned cell = 0;
        for (std::size_t i = 0; i < cells_.size() && cell == 0; ++i)
            if (cells_[i].size() > most_cell_bytes) cell = static_cast<unsigned>(i + 1);
        events_.fault(
            lines_.number(), cell,
            cell ? "a cell of more than 64 KB: shorten it" : "a line of more than 1 MB: this is not a row of a pack");
        return !open_;
    }

    bool careful_line(std::string_view text) {
        const bool sound = check_bytes(text);
        if (!open_ && text.find('"') == std::string_view::npos) {
            split_commas(text, cells_);
            deliver(lines_.number(), sound);
            return true;
        }
        if (!open_) row_line_ = lines_.number();
        if (!quoted_.feed(text)) {
            events_.fault(row_line_, open_cell(),
                          "a quote inside the cell: write it twice, and put quotes round the whole cell");
            quoted_.reset();
            split_commas(text, cells_);
            deliver(std::exchange(row_line_, lines_.number()), false);
            open_ = false;
            return true;
        }
        return quoted_line(sound);
    }

    bool quoted_line(bool sound) {
        open_ = !quoted_.finished();
        if (open_ && quoted_.open_bytes() > most_cell_bytes) {
            events_.fault(row_line_, open_cell(),
                          "a cell of more than 64 KB, or a quote that is never closed; the rest of the file was not "
                          "read: close the quote");
            given_up_ = true;
            return false;
        }
        if (open_) return true;
        quoted_.cells(cells_);
        bool one_line = true;
        for (std::size_t i = 0; i < cells_.size(); ++i)
            if (cells_[i].find('\n') != std::string_view::npos) {
                events_.fault(row_line_, static_cast<unsigned>(i + 1),
                              "a line break inside the cell: write it on one line");
                one_line = false;
            }
        deliver(row_line_, sound && one_line);
        quoted_.next_row();
        return true;
    }

    // Reports what no text may hold. True when there is nothing of it.
    bool check_bytes(std::string_view text) {
        bool sound = true;
        const auto report = [&](std::size_t at, std::string_view what) {
            events_.fault(lines_.number(), cell_at(text, at), std::string(what));
            sound = false;
        };
        if (const auto at = bad_utf8(text); at != std::string_view::npos)
            report(at, fmt::format("byte {:02X} is not UTF-8: save the file as UTF-8",
                                   static_cast<unsigned char>(text[at])));
        if (const auto at = text.find('\0'); at != std::string_view::npos)
            report(at, "a NUL byte: this is not a text file, or it is damaged");
        if (const auto at = text.find('\r'); at != std::string_view::npos)
            report(at, "a carriage return without a line feed: save the file with line ends LF or CRLF");
        for (std::size_t at = 0; at < text.size(); ++at) {
            const auto b = static_cast<unsigned char>(text[at]);
            if ((b >= 0x20 || b == '\0' || b == '\r' || b == '\t') && b != 0x7F) continue;
            report(at, fmt::format("a control character \\x{:02X}: delete it", b));
            break;
        }
        return sound;
    }

    // The cell that the byte at `offset` of the present line is in.
    unsigned cell_at(std::string_view text, std::size_t offset) const {
        bool quoted = open_;
        unsigned cell = open_ ? open_cell() : 1;
        for (const char c : text.substr(0, offset)) {
            if (c == '"') quoted = !quoted;
            if (c == ',' && !quoted) ++cell;
        }
        return cell;
    }

    unsigned open_cell() const { return static_cast<unsigned>(quoted_.cells_so_far() + 1); }

    void deliver(unsigned long line, bool whole) {
        for (std::size_t i = 0; i < cells_.size(); ++i)
            if (cells_[i].size() > most_cell_bytes) {
                events_.fault(line, static_cast<unsigned>(i + 1), "a cell of more than 64 KB: shorten it");
                whole = false;
            }
        events_.row(line, cells_, whole);
    }

    CsvLines lines_;
    CsvEvents& events_;
    QuotedRow quoted_;
    std::vector<std::string_view> cells_;
    unsigned long row_line_ = 0;  // where the quoted row begins
    bool open_ = false;           // inside a quoted cell
    bool given_up_ = false;
};

}  // namespace

std::uint64_t read_csv(const std::string& path, CsvEvents& events) { return Reader(path, events).read(); }

std::string wrong_width(std::size_t cells, std::size_t wanted) {
    if (cells == wanted) return {};
    return fmt::format("{} cells, {} are wanted: {}", cells, wanted,
                       cells < wanted ? "add the missing commas" : "put quotes round a cell that holds a comma");
}

std::string csv_cell(std::string_view text) {
    if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + '"';
}

}  // namespace casebound
