// The workbook of a pack as sheets: what to do, the tables, the words.
#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/book/workbook_writer.h"
#include "core/pack/pack_workbook.h"

namespace casebound {

namespace {

constexpr std::size_t offered_rows = 5000;  // of another sheet's keys

std::string column_letter(std::size_t at) {
    return cell_name(1, static_cast<unsigned>(at + 1)).substr(0, at < 26 ? 1 : 2);
}

std::string cells_from(std::string_view sheet, std::size_t column, std::size_t rows) {
    return fmt::format("{}!${}$2:${}${}", sheet, column_letter(column), column_letter(column), rows + 1);
}

BookSheet first_sheet(const PackContents& contents, const std::string& path) {
    BookSheet sheet{pack_sheet, {}, {}};
    sheet.widths = {24, 90};
    sheet.rows = {
        {"name", contents.name},
        {"title", contents.title},
        {"version", contents.version},
        {"invented", contents.invented ? "yes" : "no"},
        {},
        {"what to do"},
        {"1", "Give the pack a title, and fill in a sheet a table. What is not known stays empty."},
        {"2", "Every cell is text, so that a part number keeps its zeros: leave the columns formatted as they are."},
        {"3", "Point at the name of a column: a note says what it means and in which unit."},
        {"4",
         "A cell with a list takes the words of that list; the sheet `words` shows them all, with what they mean."},
        {"5", "Begin with `sources`: where you have it from. Every row of the other sheets names one of them."},
        {"6", fmt::format("Save it as .xlsx or .ods, then: casebound pack check {}", path)},
        {"7", fmt::format("Without a fault: casebound pack load {}", path)},
        {},
        {"sheet", "what a row of it is"}};
    for (const auto& table : contents.edition.tables) sheet.rows.push_back({table.shape->name, table.shape->meaning});
    sheet.beside.resize(4);
    sheet.beside[3].choices = {"yes", "no"};
    return sheet;
}

// The sheet of words, and where each kind of them stands in it.
class Words {
public:
    explicit Words(const Vocabularies& words) {
        for (const char* head : {"role", "item kind of the role", "what the role is", "item kind", "unit",
                                 "what the item kind is", "attribute", "its values", "how to find it out"})
            sheet.columns.push_back({head, "", {}, "", true, 24});
        for (const auto& [name, role] : words.roles()) put(roles_++, 0, {name, role.word.item_kind, role.word.title});
        for (const auto& [name, kind] : words.item_kinds()) put(kinds_++, 3, {name, kind.word.unit, kind.word.title});
        std::size_t row = 0;
        for (const auto& [name, attribute] : words.attributes())
            put(row++, 6, {name, values_of(attribute.word), attribute.word.how});
    }
    std::string of(WordOf word) const {
        if (word == WordOf::role && roles_ > 0) return cells_from(words_sheet, 0, roles_);
        if (word == WordOf::item_kind && kinds_ > 0) return cells_from(words_sheet, 3, kinds_);
        return {};
    }
    BookSheet sheet{words_sheet, {}, {}};

private:
    static std::string values_of(const Attribute& attribute) {
        if (!attribute.choices.empty()) return fmt::format("{}", fmt::join(attribute.choices, " | "));
        if (attribute.kind == ValueKind::number && !attribute.unit.empty())
            return fmt::format("a number, {}", attribute.unit);
        return std::string(value_kind_name(attribute.kind));
    }
    void put(std::size_t row, std::size_t column, const std::vector<std::string>& texts) {
        if (sheet.rows.size() <= row) sheet.rows.resize(row + 1);
        auto& cells = sheet.rows[row];
        if (cells.size() < column + texts.size()) cells.resize(column + texts.size());
        std::copy(texts.begin(), texts.end(), cells.begin() + static_cast<std::ptrdiff_t>(column));
    }
    std::size_t roles_ = 0, kinds_ = 0;
};

BookSheet sheet_of(const EditionTable& table, const PackContents& contents, const Words& words) {
    BookSheet sheet{table.shape->name, {}, {}};
    for (const auto& column : table.shape->columns) {
        BookColumn made{column.name, column.meaning, column.choices, words.of(column.word)};
        if (column.required && !column.meaning.empty()) made.meaning += " (must be filled in)";
        if (column.refers)
            if (const auto* target = contents.edition.find(column.refers->table)) {
                made.choices_from = cells_from(column.refers->table, target->shape->find(column.refers->column),
                                               offered_rows);
                made.only_these = false;  // it may be of another pack
            }
        const bool long_text = column.kind == CellKind::text || column.kind == CellKind::condition ||
                               column.kind == CellKind::findings || column.kind == CellKind::values;
        if (long_text && column.choices.empty()) made.width = 32;
        sheet.columns.push_back(std::move(made));
    }
    for (const auto& row : table.rows) sheet.rows.push_back(row.cells);
    return sheet;
}

}  // namespace

void write_pack_workbook(const std::string& path, const PackContents& contents, const Vocabularies& words) {
    const Words lists(words);
    std::vector<BookSheet> sheets{first_sheet(contents, path)};
    for (const auto& table : contents.edition.tables) sheets.push_back(sheet_of(table, contents, lists));
    sheets.push_back(lists.sheet);
    write_workbook(path, sheets);
}

}  // namespace casebound
