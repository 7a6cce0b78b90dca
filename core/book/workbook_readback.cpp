#include "core/book/workbook_readback.h"

#include "core/book/workbook.h"
#include "core/book/workbook_parts.h"
#include "core/ground/error.h"

namespace casebound {

namespace {

class Whole final : public XmlEvents {
public:
    void start(std::string_view, const XmlAttributes&) override {}
    void end(std::string_view) override {}
    void text(std::string_view) override {}
};

// Compares the rows that are read with those of a sheet, by their line.
class SameRows final : public BookRows {
public:
    explicit SameRows(const BookSheet& sheet) {
        if (!sheet.columns.empty()) {
            for (const auto& column : sheet.columns) head_.push_back(column.name);
            wanted_.push_back(&head_);
        }
        for (const auto& row : sheet.rows) wanted_.push_back(&row);
    }
    bool row(unsigned long line, const std::vector<BookCell>& cells) override {
        nothing_before(line - 1);
        same_ = same_ && line <= wanted_.size() && is_same(cells, *wanted_[line - 1]);
        next_ = line;
        return same_;
    }
    void merged(const MergedCells&) override { same_ = false; }
    bool all_same() {
        nothing_before(wanted_.size());
        return same_;
    }

private:
    void nothing_before(std::size_t line) {
        for (; same_ && next_ < line && next_ < wanted_.size(); ++next_) same_ = is_same({}, *wanted_[next_]);
    }
    static bool is_same(const std::vector<BookCell>& cells, const std::vector<std::string>& wanted) {
        for (std::size_t i = 0; i < std::max(cells.size(), wanted.size()); ++i) {
            const auto text = i < cells.size() ? cells[i].text : std::string_view();
            if (text != (i < wanted.size() ? std::string_view(wanted[i]) : std::string_view())) return false;
            if (!text.empty() && cells[i].is != CellIs::text) return false;
        }
        return true;
    }

    std::vector<std::string> head_;
    std::vector<const std::vector<std::string>*> wanted_;  // by line, from 0
    std::size_t next_ = 0;                                 // line of the next one, from 0
    bool same_ = true;
};

}  // namespace

bool reads_back(const std::string& path, const std::vector<BookSheet>& sheets) {
    try {
        const auto bytes = read_whole(path, Workbook::most_bytes);
        const ZipReader zip(bytes, path);
        for (const auto& name : zip.names()) {
            Whole whole;
            read_part(zip, name, whole, path);
        }
        const auto book = xlsx_in(zip, path);
        if (book->sheets.size() != sheets.size()) return false;
        for (std::size_t i = 0; i < sheets.size(); ++i) {
            SameRows rows(sheets[i]);
            if (book->sheets[i] == sheets[i].name) book->read(i, rows);
            if (book->sheets[i] != sheets[i].name || !rows.all_same()) return false;
        }
        return true;
    } catch (const Error&) { return false; }
}

}  // namespace casebound
