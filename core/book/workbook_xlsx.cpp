// .xlsx: ISO/IEC 29500-1, part "SpreadsheetML". Dates are numbers whose format is one of a date.
#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <optional>

#include <fmt/format.h>

#include "core/book/workbook_parts.h"
#include "core/ground/error.h"

namespace casebound {

namespace {

std::size_t number_in(std::string_view text, std::size_t otherwise) {
    std::size_t value = otherwise;
    const auto end = text.data() + text.size();
    return std::from_chars(text.data(), end, value).ptr == end && !text.empty() ? value : otherwise;
}

// "xl/worksheets" and "../sheets/a.xml", or "/xl/a.xml" from the root.
std::string part_at(const std::string& folder, std::string_view target) {
    if (!target.empty() && target[0] == '/') return std::string(target.substr(1));
    std::string base = folder;
    while (target.starts_with("../")) {
        target.remove_prefix(3);
        base.erase(base.find_last_of('/') == std::string::npos ? 0 : base.find_last_of('/'));
    }
    return base.empty() ? std::string(target) : base + "/" + std::string(target);
}

// Relationships of a part: by identity, and by the last word of their type.
class Relations final : public XmlEvents {
public:
    Relations(const ZipReader& zip, const std::string& part, const std::string& path) {
        const auto slash = part.rfind('/');
        folder_ = slash == std::string::npos ? "" : part.substr(0, slash);
        const auto name = fmt::format("{}_rels/{}.rels", folder_.empty() ? "" : folder_ + "/",
                                      slash == std::string::npos ? part : part.substr(slash + 1));
        if (zip.has(name)) read_part(zip, name, *this, path);
    }
    void start(std::string_view name, const XmlAttributes& attributes) override {
        if (name != "Relationship") return;
        const auto type = attributes.get("Type");
        const auto target = part_at(folder_, attributes.get("Target"));
        by_id.emplace(attributes.get("Id"), target);
        by_type.emplace(type.substr(type.rfind('/') + 1), target);
    }
    void end(std::string_view) override {}
    void text(std::string_view) override {}

    std::map<std::string, std::string, std::less<>> by_id, by_type;

private:
    std::string folder_;
};

class SheetList final : public XmlEvents {
public:
    void start(std::string_view name, const XmlAttributes& attributes) override {
        if (name == "workbookPr") from_1904 = attributes.get("date1904") == "1" || attributes.get("date1904") == "true";
        if (name == "sheet") found.emplace_back(attributes.get("name"), attributes.get("id"));
    }
    void end(std::string_view) override {}
    void text(std::string_view) override {}

    std::vector<std::pair<std::string, std::string>> found;  // name, identity of the relationship
    bool from_1904 = false;
};

// _x000D_ stands for a character that XML cannot hold, or that a reader would change.
std::string unescaped(std::string text) {
    for (std::size_t at = 0; (at = text.find("_x", at)) != std::string::npos; ++at) {
        unsigned code = 0;
        const char* const digits = text.data() + at + 2;
        if (at + 7 > text.size() || text[at + 6] != '_') continue;
        if (std::from_chars(digits, digits + 4, code, 16).ptr != digits + 4 || code >= 0x80) continue;
        text.replace(at, 7, 1, static_cast<char>(code));
    }
    return text;
}

class SharedTexts final : public XmlEvents {
public:
    explicit SharedTexts(std::string place) : place_(std::move(place)) {}
    void start(std::string_view name, const XmlAttributes&) override {
        if (name == "si") texts.emplace_back();
        if (name == "rPh") sound_ = true;  // how it is said aloud, in another script
        taken_ = name == "t" && !sound_;
    }
    void end(std::string_view name) override {
        taken_ = false;
        if (name == "rPh") sound_ = false;
        if (name == "si") texts.back() = unescaped(std::move(texts.back()));
    }
    void text(std::string_view part) override {
        if (!taken_ || texts.empty()) return;
        texts.back() += part;
        constexpr std::size_t weight = 32;
        if ((bytes_ += part.size()) + weight * texts.size() > BookLimits::most_shared_bytes)
            throw Error(Exit::bad_data,
                        fmt::format("{}: more than 256 MB of texts: this is not a list of parts", place_));
    }
    std::vector<std::string> texts;

private:
    std::string place_;
    std::size_t bytes_ = 0;
    bool taken_ = false, sound_ = false;
};

// A format code of one's own that shows a day or a time: y, m, d, h or s outside quotes, brackets and escapes.
bool shows_a_date(std::string_view code) {
    for (std::size_t at = 0; at < code.size(); ++at) {
        const char c = code[at];
        if (c == '\\' || c == '_' || c == '*') ++at;
        else if (c == '"' || c == '[') at = std::min(code.find(c == '"' ? '"' : ']', at + 1), code.size());
        else if (c == ';') return false;  // the rest is for numbers below 0
        else if (std::string_view("yYmMdDhHsS").find(c) != std::string_view::npos) return true;
    }
    return false;
}

// Formats that every program knows by number (ISO/IEC 29500-1, 18.8.30).
bool known_date(std::size_t id) {
    return (id >= 14 && id <= 22) || (id >= 27 && id <= 36) || (id >= 45 && id <= 47) || (id >= 50 && id <= 58);
}

// Which styles of cells are dates.
class DateStyles final : public XmlEvents {
public:
    void start(std::string_view name, const XmlAttributes& attributes) override {
        const auto id = number_in(attributes.get("numFmtId"), 0);
        if (name == "numFmt" && shows_a_date(attributes.get("formatCode"))) own_.push_back(id);
        if (name == "cellXfs") inside_ = true;
        if (name == "xf" && inside_)
            dates.push_back(known_date(id) || std::find(own_.begin(), own_.end(), id) != own_.end());
    }
    void end(std::string_view name) override {
        if (name == "cellXfs") inside_ = false;
    }
    void text(std::string_view) override {}
    std::vector<bool> dates;

private:
    std::vector<std::size_t> own_;
    bool inside_ = false;
};

// Days since 1899-12-30, so that 61 is 1900-03-01 as every program has it; before that the old error of a leap year.
std::string day_of(double serial, bool from_1904) {
    constexpr double day_of_1904 = 1462, most = 2958465;  // 9999-12-31
    if (from_1904) serial += day_of_1904;
    if (!(serial >= 0 && serial <= most + 1)) return fmt::format("{}", serial);
    auto day = static_cast<std::int64_t>(serial);
    const auto seconds = static_cast<std::int64_t>(std::llround((serial - static_cast<double>(day)) * 86400));
    // Civil calendar from a count of days, in whole numbers: eras of 400 years beginning on 1 March.
    constexpr std::int64_t to_march_of_year_0 = 719468 - 25569;
    day += to_march_of_year_0;
    const auto era = day / 146097, of_era = day % 146097;
    const auto year_of_era = (of_era - of_era / 1460 + of_era / 36524 - of_era / 146096) / 365;
    const auto of_year = of_era - (365 * year_of_era + year_of_era / 4 - year_of_era / 100);
    const auto month = (5 * of_year + 2) / 153;
    const auto civil = month < 10 ? month + 3 : month - 9;
    const auto year = year_of_era + era * 400 + (civil <= 2 ? 1 : 0);
    auto text = fmt::format("{:04}-{:02}-{:02}", year, civil, of_year - (153 * month + 2) / 5 + 1);
    if (seconds > 0) text += fmt::format(" {:02}:{:02}", seconds / 3600, seconds / 60 % 60);
    return serial < 1 ? fmt::format("{:02}:{:02}", seconds / 3600, seconds / 60 % 60) : text;
}

// "E2:E3"; nothing for one cell, or what is no range.
std::optional<MergedCells> merged_in(std::string_view range) {
    const auto colon = range.find(':');
    if (colon == std::string_view::npos) return std::nullopt;
    const auto cell = [](std::string_view place) {
        std::size_t at = 0, column = 0;
        for (; at < place.size() && place[at] >= 'A' && place[at] <= 'Z' && at < 3; ++at)
            column = column * 26 + static_cast<std::size_t>(place[at] - 'A') + 1;
        return std::pair(number_in(place.substr(at), 0), static_cast<unsigned>(column));
    };
    const auto [first_line, first_column] = cell(range.substr(0, colon));
    const auto [last_line, last_column] = cell(range.substr(colon + 1));
    if (first_line == 0 || first_column == 0 || last_line < first_line || last_column < first_column ||
        (first_line == last_line && first_column == last_column))
        return std::nullopt;
    return MergedCells{first_line, last_line, first_column, last_column};
}

struct Kept {
    std::vector<std::string> texts;
    std::vector<bool> dates;
    bool from_1904 = false;
};

class XlsxCells final : public XmlEvents {
public:
    XlsxCells(const Kept& kept, BookRows& rows, const std::string& place)
        : kept_(kept), row_(rows, place), place_(place) {}

    void start(std::string_view name, const XmlAttributes& attributes) override {
        if (name == "mergeCell") add_merged(attributes.get("ref"));
        if (below_) return;
        if (name == "row") {
            row_.begin(number_in(attributes.get("r"), row_.line() + 1));
            column_ = 0;
        }
        if (name == "c") begin_cell(attributes);
        if (name == "rPh") sound_ = true;
        formula_ = formula_ || name == "f";
        valued_ = valued_ || name == "v";
        taken_ = name == "v" || (name == "t" && !sound_);
    }
    void end(std::string_view name) override {
        taken_ = false;
        if (below_) return;
        if (name == "rPh") sound_ = false;
        if (name == "c") end_cell();
        if (name == "row") done_ = !row_.deliver();
        if (name == "sheetData") below_ = true;
    }
    void text(std::string_view part) override {
        if (taken_ && value_.size() <= BookLimits::most_cell_bytes) value_ += part;
    }
    bool enough() const override { return done_; }
    void finish(BookRows& rows) const {
        for (const auto& cells : merged_)
            if (!done_ && cells.first_line <= row_.line()) rows.merged(cells);
    }

private:
    void add_merged(std::string_view range) {
        constexpr std::size_t most = 65536;
        if (merged_.size() == most)
            throw Error(Exit::bad_data,
                        fmt::format("{}: more than {} merged cells: this is not a list of parts", place_, most));
        if (const auto cells = merged_in(range)) merged_.push_back(*cells);
    }

    void begin_cell(const XmlAttributes& attributes) {
        const auto place = attributes.get("r");  // "D12"; where it is missing, the next one
        std::size_t column = 0;
        for (const char c : place) {
            if (c < 'A' || c > 'Z' || column > BookLimits::most_columns) break;
            column = column * 26 + static_cast<std::size_t>(c - 'A') + 1;
        }
        if (column > 0) column_ = column - 1;
        type_ = attributes.get("t");
        style_ = number_in(attributes.get("s"), 0);
        value_.clear();
        formula_ = valued_ = false;
    }

    void end_cell() {
        const auto column = column_++;
        if (value_.empty() && formula_ && !(type_ == "str" && valued_))  // a text may be empty, a number never
            return row_.put(column, CellIs::error, std::string(no_value));
        if (value_.empty()) return;
        if (type_ == "s") {
            const auto at = number_in(value_, kept_.texts.size());
            if (at >= kept_.texts.size())
                throw Error(Exit::bad_data, fmt::format("{}: {}: its text is not in the file: save it again", place_,
                                                        cell_name(row_.line(), static_cast<unsigned>(column + 1))));
            return row_.put(column, CellIs::text, kept_.texts[at]);
        }
        if (type_ == "inlineStr" || type_ == "str") return row_.put(column, CellIs::text, unescaped(value_));
        if (type_ == "b") return row_.put(column, CellIs::truth, value_ == "1" ? "TRUE" : "FALSE");
        if (type_ == "e") return row_.put(column, CellIs::error, value_);
        if (type_ == "d") return row_.put(column, CellIs::date, value_);
        put_number(column);
    }

    void put_number(std::size_t column) {
        auto text = stored_number(value_);
        if (text.empty()) return row_.put(column, CellIs::error, value_);
        if (style_ >= kept_.dates.size() || !kept_.dates[style_])
            return row_.put(column, CellIs::number, std::move(text));
        double serial = 0;
        std::from_chars(value_.data(), value_.data() + value_.size(), serial);
        row_.put(column, CellIs::date, day_of(serial, kept_.from_1904));
    }

    const Kept& kept_;
    RowMaker row_;
    const std::string& place_;
    std::size_t column_ = 0, style_ = 0;
    std::string type_, value_;
    std::vector<MergedCells> merged_;  // they stand below the rows
    bool taken_ = false, sound_ = false, formula_ = false, valued_ = false, below_ = false, done_ = false;
};

class Xlsx final : public BookFormat {
public:
    Xlsx(const ZipReader& zip, const std::string& path) : zip_(zip), path_(path) {
        const Relations root(zip, "", path);
        const auto main = root.by_type.find("officeDocument");
        const std::string workbook = main == root.by_type.end() ? "xl/workbook.xml" : main->second;
        SheetList list;
        read_part(zip, workbook, list, path);
        const Relations relations(zip, workbook, path);
        for (const auto& [name, id] : list.found) {
            const auto part = relations.by_id.find(id);
            if (part == relations.by_id.end()) continue;
            sheets.push_back(name);
            parts_.push_back(part->second);
        }
        kept_.from_1904 = list.from_1904;
        if (const auto part = relations.by_type.find("styles");
            part != relations.by_type.end() && zip.has(part->second)) {
            DateStyles styles;
            read_part(zip, part->second, styles, path);
            kept_.dates = std::move(styles.dates);
        }
        if (const auto part = relations.by_type.find("sharedStrings"); part != relations.by_type.end())
            shared_ = part->second;
    }

    void read(std::size_t sheet, BookRows& rows) const override {
        if (!read_texts_ && !shared_.empty() && zip_.has(shared_)) {
            SharedTexts texts(path_);
            read_part(zip_, shared_, texts, path_);
            kept_.texts = std::move(texts.texts);
        }
        read_texts_ = true;
        const auto place = fmt::format("{}:{}", path_, sheets.at(sheet));
        XlsxCells cells(kept_, rows, place);
        read_part(zip_, parts_.at(sheet), cells, path_);
        cells.finish(rows);
    }

private:
    const ZipReader& zip_;
    std::string path_, shared_;
    std::vector<std::string> parts_;
    mutable Kept kept_;  // its texts once a sheet is read
    mutable bool read_texts_ = false;
};

}  // namespace

std::unique_ptr<BookFormat> xlsx_in(const ZipReader& zip, const std::string& path) {
    return std::make_unique<Xlsx>(zip, path);
}

}  // namespace casebound
