#include "core/work/own_words.h"

#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"
#include "core/work/own_pack.h"
#include "core/work/statement.h"

namespace casebound {

namespace {

std::string line_words(const Catalog& catalog, const std::string& key) {
    const auto* line = catalog.line(key);
    return line ? named(line->title, key) : key;
}

std::string cell_words(const Catalog& catalog, const std::string& column, const std::string& text) {
    if (column == "line") return line_words(catalog, text);
    if (column == "condition" || column.ends_with("_condition")) return condition_words(text, catalog.vocabularies());
    if (const auto* role = column == "role" ? catalog.vocabularies().role(text) : nullptr)
        return named(role->title, text);
    if (const auto* kind = column == "kind" ? catalog.vocabularies().item_kind(text) : nullptr)
        return named(kind->title, text);
    return column == "item" ? text : in_titles(catalog, text);
}

std::string place_words(const Catalog& catalog, const OwnCells& cells) {
    const auto role = cell_of(cells, "role"), says = cell_of(cells, "says"), group = cell_of(cells, "group_key"),
               condition = cell_of(cells, "condition"), quantity = cell_of(cells, "quantity"),
               note = cell_of(cells, "note");
    return fmt::format("{}: {}{}{}, on {}{}{}", cell_words(catalog, "role", role),
                       group.empty() ? "" : group_words(catalog, group) + " ", spaced(says),
                       quantity.empty() ? "" : ", " + quantity, line_words(catalog, cell_of(cells, "line")),
                       condition.empty() ? "" : " where " + cell_words(catalog, "condition", condition),
                       note.empty() ? "" : "; " + note);
}

}  // namespace

std::string statement_words(const Catalog& catalog, std::string_view table, const OwnCells& cells) {
    if (table == "applications") return place_words(catalog, cells);
    if (table == "lines") return fmt::format("a vehicle: {}", cell_of(cells, "title"));
    std::vector<std::string> words;
    for (const auto& [column, text] : cells)
        if (column != "source" && column != "withdrawn" && !text.empty())
            words.push_back(fmt::format("{} {}", column_words(column), cell_words(catalog, column, text)));
    return fmt::format("{}: {}", spaced(table), fmt::join(words, "; "));
}

std::vector<std::string> amounts_missing(const Catalog& catalog, const OwnCells& cells) {
    const auto text = [&](std::string_view column) {
        for (const auto& [name, cell] : cells)
            if (name == column) return cell;
        return std::string();
    };
    const auto& words = catalog.vocabularies();
    const auto* role = words.role(text("role"));
    const auto* kind = role ? words.item_kind(role->item_kind) : nullptr;
    const auto group = catalog.group(text("group_key"));
    std::vector<std::string> missing;
    if (!kind || kind->unit == "each" || !group || text("says") != "fits") return missing;
    if (text("quantity").empty())
        missing.emplace_back("How much it takes is not recorded by that: say it with --quantity AMOUNT.");
    if (catalog.members(group->id).empty())
        missing.emplace_back(
            "How much one pack holds is not recorded: say it with --pack AMOUNT before it is ordered.");
    return missing;
}

}  // namespace casebound
