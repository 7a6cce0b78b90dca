#include "core/page/page_table_form.h"

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/work/statement.h"

namespace casebound {

namespace {

bool has_field(const Column& column) {
    return column.name != "source" && column.name != "withdrawn" && (column.name != "line" || column.unique);
}

Field column_field(Session& session, const Column& column, const std::string& value) {
    if (column.word == WordOf::role) return role_field(session, column.name, value, column.required);
    Field field{column.name,    column_words(column.name), Field::Kind::words, "", column.meaning, value, {},
                column.required};
    if (column.kind == CellKind::number || column.kind == CellKind::integer) {
        field.kind = Field::Kind::number;
        field.unit = unit_of_column(column.name);
    } else if (!column.choices.empty()) {
        field.kind = Field::Kind::choice;
        field.options = as_options(column.choices);
        field.options.insert(field.options.begin(), {"", column.required ? "choose" : "not stated"});
    }
    return field;
}

}  // namespace

Field role_field(Session& session, const std::string& name, const std::string& role, bool required) {
    Field field{"", "Place", Field::Kind::choice, "", "", role, {{"", "choose"}}, required};
    field.name = name;
    for (const auto& [key, owned] : session.catalog().vocabularies().roles())
        field.options.emplace_back(key, owned.word.title);
    return field;
}

Form table_form(Session& session, const TableShape& table, const std::string& key,
                const std::function<std::string(const std::string&)>& value) {
    Form form{key, spaced(table.name), "Write it down", {}};
    for (const auto& column : table.columns) {
        if (!has_field(column)) continue;
        auto field = column_field(session, column, value(column.name));
        (column.required || !field.value.empty() ? form.fields : form.more).push_back(std::move(field));
    }
    return form;
}

std::vector<std::string> field_columns(const TableShape& table) {
    std::vector<std::string> names;
    for (const auto& column : table.columns)
        if (has_field(column)) names.push_back(column.name);
    return names;
}

std::vector<std::string> cells_of(const Visit& visit, const TableShape& table, bool blank) {
    std::vector<std::string> cells;
    for (const auto& name : field_columns(table)) {
        const auto value = visit.typed(name);
        if (!value.empty() || blank) cells.push_back(fmt::format("{}={}", name, value));
    }
    return cells;
}

}  // namespace casebound
