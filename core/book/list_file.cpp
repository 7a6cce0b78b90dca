#include "core/book/list_file.h"

#include <csv.h>
#include <iconv.h>

#include <algorithm>
#include <array>
#include <map>
#include <new>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/error.h"
#include "core/ground/utf8.h"

namespace casebound {

namespace {

// Throws Error(bad_data) for bytes that are not of the encoding.
std::string decoded(std::string_view bytes, const char* encoding, const std::string& path) {
    const iconv_t call = ::iconv_open("UTF-8", encoding);
    if (call == reinterpret_cast<iconv_t>(-1))
        throw Error(Exit::bad_data, fmt::format("{}: {} cannot be read here: save it as UTF-8", path, encoding));
    std::string out(bytes.size() * 2 + 16, '\0');
    char* from = const_cast<char*>(bytes.data());
    char* to = out.data();
    std::size_t left = bytes.size(), room = out.size();
    const bool whole = ::iconv(call, &from, &left, &to, &room) != static_cast<std::size_t>(-1);
    ::iconv_close(call);
    if (!whole)
        throw Error(Exit::bad_data, fmt::format("{}: neither UTF-8 nor {}, from byte {} on: save it as UTF-8", path,
                                                encoding, bytes.size() - left));
    out.resize(out.size() - room);
    return out;
}

// What stands between the cells: what cuts most of the first lines into the same number of cells.
char between_in(std::string_view text) {
    constexpr std::size_t looked_at = 60;
    constexpr std::array<char, 4> candidates{';', '\t', ',', '|'};
    std::array<std::map<std::size_t, std::size_t>, candidates.size()> lines_with;
    std::array<std::size_t, candidates.size()> counts{};
    std::size_t lines = 0;
    bool quoted = false;
    for (const char c : text) {
        if (c == '"') quoted = !quoted;
        if (quoted) continue;
        for (std::size_t i = 0; i < candidates.size(); ++i) counts[i] += c == candidates[i] ? 1 : 0;
        if (c != '\n') continue;
        for (std::size_t i = 0; i < candidates.size(); ++i)
            if (counts[i] > 0) ++lines_with[i][counts[i]];
        counts = {};
        if (++lines == looked_at) break;
    }
    char best = ',';
    std::size_t most = 0;
    for (std::size_t i = 0; i < candidates.size(); ++i)
        for (const auto& [cells, alike] : lines_with[i])
            if (alike > most) {
                most = alike;
                best = candidates[i];
            }
    return best;
}

int is_blank(unsigned char c) { return c == ' ' || c == '\r'; }
int is_line_end(unsigned char c) { return c == '\n'; }

// One record after the other as cells; a blank one is counted and not handed on.
class Records {
public:
    explicit Records(BookRows& rows) : rows_(rows) {}

    static void on_cell(void* text, std::size_t size, void* self) {
        auto& records = *static_cast<Records*>(self);
        records.texts_.append(static_cast<const char*>(text), size);
        records.ends_.push_back(records.texts_.size());
    }
    static void on_row(int, void* self) { static_cast<Records*>(self)->row(); }
    bool done() const { return done_; }
    bool too_wide() const { return ends_.size() > BookLimits::most_columns; }
    unsigned long line() const { return line_; }
    std::string open_cell() const { return fmt::format("row {}, cell {}", line_ + 1, ends_.size() + 1); }

private:
    void row() {
        ++line_;
        cells_.clear();
        std::size_t start = 0;
        bool any = false;
        for (const auto end : ends_) {
            const auto text = std::string_view(texts_).substr(start, end - start);
            cells_.push_back({text.empty() ? CellIs::empty : CellIs::text, text});
            any = any || !text.empty();
            start = end;
        }
        if (any && !done_) done_ = !rows_.row(line_, cells_);
        texts_.clear();
        ends_.clear();
    }

    BookRows& rows_;
    std::string texts_;
    std::vector<std::size_t> ends_;
    std::vector<BookCell> cells_;
    unsigned long line_ = 0;
    bool done_ = false;
};

std::string name_of(char between) {
    return between == '\t' ? "a tab between cells" : fmt::format("`{}` between cells", between);
}

}  // namespace

ListFile::ListFile(const std::string& path, const std::string& sheet) : path_(path) {
    auto bytes = read_whole(path, most_bytes);
    if (!names_workbook(path) &&
        !bytes.starts_with("PK\x03\x04")) {  // a workbook by its first bytes, whatever its name
        if (!sheet.empty()) throw Error(Exit::usage, fmt::format("{}: a CSV file has no sheets", path));
        take_text(std::move(bytes));
        return;
    }
    book_.emplace(std::move(bytes), path);
    stamp_ = book_->stamp();
    const auto& sheets = book_->sheets();
    if (!sheet.empty())
        sheet_ = static_cast<std::size_t>(std::find(sheets.begin(), sheets.end(), sheet) - sheets.begin());
    if (sheet_ == sheets.size())
        throw Error(Exit::usage,
                    fmt::format("{}: there is no sheet {}: it has {}", path, sheet, fmt::join(sheets, ", ")));
    form_ = fmt::format("sheet {} of a workbook", sheets[sheet_]);
}

void ListFile::take_text(std::string bytes) {
    stamp_ = {bytes.size(), sha256_of(bytes)};
    const char* encoding = "UTF-8";
    if (bytes.starts_with("\xEF\xBB\xBF")) bytes.erase(0, 3);
    if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF")) encoding = "UTF-16";
    else if (bad_utf8(bytes) != std::string_view::npos) encoding = "Windows-1252";
    text_ = std::string_view(encoding) == "UTF-8" ? std::move(bytes) : decoded(bytes, encoding, path_);
    if (text_.find('\0') != std::string::npos)
        throw Error(Exit::bad_data, fmt::format("{}: a NUL byte in it: this is no list", path_));
    if (text_.find('\n') == std::string::npos) std::replace(text_.begin(), text_.end(), '\r', '\n');
    between_ = between_in(text_);
    form_ = fmt::format("CSV, {}, {}", name_of(between_), encoding);
}

void ListFile::read(BookRows& rows) const {
    if (book_) book_->read(sheet_, rows);
    else read_text(rows);
}

void ListFile::read_text(BookRows& rows) const {
    csv_parser parser{};
    // Strict: a quote within a cell would else swallow the cells and rows behind it.
    if (csv_init(&parser, CSV_STRICT | CSV_STRICT_FINI | CSV_REPALL_NL) != 0) throw std::bad_alloc();
    csv_set_delim(&parser, static_cast<unsigned char>(between_));
    csv_set_space_func(&parser, is_blank);
    csv_set_term_func(&parser, is_line_end);
    Records records(rows);
    std::string_view left = text_;
    const auto refuse = [&](std::string_view what) {
        if (csv_error(&parser) == CSV_ENOMEM) throw std::bad_alloc();
        throw Error(Exit::bad_data, fmt::format("{}: {}: {}", path_, records.open_cell(), what));
    };
    try {
        while (!left.empty() && !records.done()) {
            const auto piece = left.substr(0, BookLimits::most_cell_bytes);
            if (csv_parse(&parser, piece.data(), piece.size(), Records::on_cell, Records::on_row, &records) !=
                piece.size())
                refuse("a quote inside the cell: write it twice, and put quotes round the whole cell");
            left.remove_prefix(piece.size());
            if (parser.entry_pos > BookLimits::most_cell_bytes)
                refuse("a cell of more than 64 KB, or a quote that is opened here and never closed: close it");
            if (records.too_wide()) refuse("more than 1024 cells in a row: this is not a list of parts");
        }
        if (!records.done() && csv_fini(&parser, Records::on_cell, Records::on_row, &records) != 0)
            refuse("a quote is opened here and never closed: close it, or write it twice if it belongs to the text");
    } catch (...) {
        csv_free(&parser);
        throw;
    }
    csv_free(&parser);
}

}  // namespace casebound
