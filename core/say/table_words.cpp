#include "core/say/table_words.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/column_units.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/say/in_words.h"

namespace casebound {

namespace {

std::string cell_words(const Catalog& catalog, const Column& column, const Cell& cell) {
    const auto unit = column_unit(column.name).unit;
    if (cell.number && !unit.empty() && column.kind != CellKind::text) return shown_quantity(*cell.number, unit, 4);
    if (cell.text.find('|') != std::string::npos) {  // several keys; a title may have a comma of its own
        std::vector<std::string> titles;
        for (const auto& key : split_at(cell.text, '|')) titles.push_back(in_titles(catalog, key));
        return fmt::format("{}", fmt::join(titles, " / "));
    }
    return column.choices.empty() ? cell.text : spaced(cell.text);
}

}  // namespace

std::string row_words(const Catalog& catalog, const ReferenceTable& table, const Row& row) {
    std::vector<std::string> words;
    for (const auto& column : table.shape->columns)
        for (const auto& cell : row.cells) {
            if (cell.column != column.name || column.name == "source" || cell.text.empty() ||
                column.kind == CellKind::findings)
                continue;
            const bool bare = words.empty() && column.kind != CellKind::number && column.kind != CellKind::integer;
            const auto says = bare ? std::string() : column_says(column);
            words.push_back(fmt::format("{}{}{}", says, says.empty() ? "" : " ", cell_words(catalog, column, cell)));
        }
    return fmt::format("{}", fmt::join(words, "; "));
}

}  // namespace casebound
