// .ods: ISO/IEC 26300, part 3. One file holds every sheet; cells and rows may stand for many.
#include <algorithm>
#include <charconv>
#include <utility>

#include <fmt/format.h>

#include "core/book/workbook_parts.h"
#include "core/ground/error.h"

namespace casebound {

namespace {

constexpr const char* contents = "content.xml";

std::size_t repeated(std::string_view text) {
    std::size_t value = 1;
    std::from_chars(text.data(), text.data() + text.size(), value);
    return std::max<std::size_t>(value, 1);
}

class SheetNames final : public XmlEvents {
public:
    void start(std::string_view name, const XmlAttributes& attributes) override {
        if (name == "table" && depth_++ == 0) found.emplace_back(attributes.get("name"));
    }
    void end(std::string_view name) override {
        if (name == "table") --depth_;
    }
    void text(std::string_view) override {}
    std::vector<std::string> found;

private:
    int depth_ = 0;  // a table within a cell is no sheet
};

struct Cell {
    CellIs is = CellIs::empty;
    std::string text;
    std::size_t times = 1, rows_spanned = 1, columns_spanned = 1;
};

class OdsCells final : public XmlEvents {
public:
    OdsCells(std::size_t sheet, BookRows& rows, std::string place)
        : sheet_(sheet), rows_(rows), row_(rows, std::move(place)) {}

    void start(std::string_view name, const XmlAttributes& attributes) override {
        if (name == "table" && ++depth_ == 1) inside_ = next_++ == sheet_;
        if (!inside_) return;
        if (name == "annotation" || name == "shapes" || name == "frame") ++aside_;
        if (aside_ > 0 || depth_ > 1) return;
        if (name == "table-row") {
            row_times_ = repeated(attributes.get("number-rows-repeated"));
            cells_.clear();
        }
        if (name == "table-cell" || name == "covered-table-cell") begin_cell(attributes);
        if (name == "p" && paragraphs_++ > 0) text_ += '\n';
        if (name == "p") in_paragraph_ = true;
        if (name == "line-break") text_ += '\n';
        if (name == "tab") text_ += '\t';
        if (name == "s") text_.append(std::min(repeated(attributes.get("c")), BookLimits::most_cell_bytes), ' ');
    }

    void end(std::string_view name) override {
        if (name == "table" && depth_-- == 1 && std::exchange(inside_, false)) done_ = true;
        if (!inside_) return;
        if (name == "annotation" || name == "shapes" || name == "frame") --aside_;
        if (aside_ > 0 || depth_ > 1) return;
        if (name == "p") in_paragraph_ = false;
        if (name == "table-cell" || name == "covered-table-cell") end_cell();
        if (name == "table-row") end_row();
    }

    void text(std::string_view part) override {
        if (inside_ && in_paragraph_ && aside_ == 0 && text_.size() <= BookLimits::most_cell_bytes) text_ += part;
    }
    bool enough() const override { return done_; }

private:
    void begin_cell(const XmlAttributes& attributes) {
        cell_ = {CellIs::empty,
                 {},
                 repeated(attributes.get("number-columns-repeated")),
                 repeated(attributes.get("number-rows-spanned")),
                 repeated(attributes.get("number-columns-spanned"))};
        text_.clear();
        paragraphs_ = 0;
        const auto type = attributes.get("value-type");
        formula_ = !attributes.get("formula").empty();
        unvalued_ = formula_ && type.empty();
        if (type.empty()) return;
        value_ = attributes.get("value");
        if (type == "float" || type == "percentage" || type == "currency") cell_.is = CellIs::number;
        else if (type == "date" || type == "time") {
            cell_.is = CellIs::date;
            value_ = attributes.get(type == "date" ? "date-value" : "time-value");
        } else if (type == "boolean") {
            cell_.is = CellIs::truth;
            value_ = attributes.get("boolean-value") == "true" ? "TRUE" : "FALSE";
        } else cell_.is = CellIs::text;
        // The standard has no type for an error: programs mark it in an attribute of their own, of the same name.
        error_ = attributes.any("value-type", "error");
    }

    void end_cell() {
        if (cell_.is == CellIs::number) {
            cell_.text = stored_number(value_);
            if (cell_.text.empty()) cell_.is = CellIs::error;
        }
        if (cell_.is == CellIs::date || cell_.is == CellIs::truth) cell_.text = value_;
        if (cell_.is == CellIs::text) cell_.text = text_;
        if (error_ || (formula_ && is_error(text_))) {
            cell_.is = CellIs::error;
            cell_.text = text_;
        }
        if (cell_.is == CellIs::error && cell_.text.empty()) cell_.text = "an error";
        if (unvalued_) {
            cell_.is = CellIs::error;
            cell_.text = no_value;
        }
        error_ = formula_ = unvalued_ = false;
        cells_.push_back(std::move(cell_));
        cell_ = {};
    }

    static bool is_error(std::string_view text) {
        return text.starts_with("Err:") || (text.size() > 2 && text[0] == '#');
    }

    void end_row() {
        const auto first = std::exchange(next_line_, next_line_ + row_times_);
        if (std::all_of(cells_.begin(), cells_.end(), [](const Cell& cell) { return cell.is == CellIs::empty; }))
            return;
        for (std::size_t n = 0; n < row_times_ && !done_; ++n) {
            row_.begin(first + n);
            std::size_t column = 0;
            for (const auto& cell : cells_) {
                if (cell.is == CellIs::empty) column += cell.times;
                else
                    for (std::size_t k = 0; k < cell.times; ++k) row_.put(column++, cell.is, cell.text);
            }
            done_ = !row_.deliver();
        }
        if (!done_) hand_on_merged(first);
    }

    void hand_on_merged(unsigned long line) {
        std::size_t column = 1;
        for (const auto& cell : cells_) {
            if (cell.is != CellIs::empty && (cell.rows_spanned > 1 || cell.columns_spanned > 1))
                rows_.merged({line, line + cell.rows_spanned - 1, static_cast<unsigned>(column),
                              static_cast<unsigned>(column + cell.columns_spanned - 1)});
            column += cell.times;
        }
    }

    const std::size_t sheet_;
    BookRows& rows_;
    RowMaker row_;
    std::size_t next_ = 0, row_times_ = 1;
    unsigned long next_line_ = 1;
    int depth_ = 0, aside_ = 0;  // aside: in a note or a drawing, which is no content of the cell
    std::vector<Cell> cells_;
    Cell cell_;
    std::string text_, value_;
    int paragraphs_ = 0;
    bool inside_ = false, in_paragraph_ = false, error_ = false, formula_ = false, unvalued_ = false, done_ = false;
};

class Ods final : public BookFormat {
public:
    Ods(const ZipReader& zip, const std::string& path) : zip_(zip), path_(path) {
        SheetNames names;
        read_part(zip, contents, names, path);
        sheets = std::move(names.found);
    }
    void read(std::size_t sheet, BookRows& rows) const override {
        OdsCells cells(sheet, rows, fmt::format("{}:{}", path_, sheets.at(sheet)));
        read_part(zip_, contents, cells, path_);
    }

private:
    const ZipReader& zip_;
    std::string path_;
};

}  // namespace

std::unique_ptr<BookFormat> ods_in(const ZipReader& zip, const std::string& path) {
    return std::make_unique<Ods>(zip, path);
}

}  // namespace casebound
