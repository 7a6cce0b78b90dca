#include "core/work/own_pack.h"

#include <algorithm>
#include <charconv>
#include <filesystem>
#include <sstream>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

#include "core/ground/file_stamp.h"
#include "core/ground/owned_json.h"
#include "core/ground/text_layout.h"
#include "core/pack/csv_rows.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_pack_note_bytes = 64u << 20;

class RowsInFile final : public CsvEvents {
public:
    RowsInFile(const std::string& path, const TableShape& table) : path_(path), table_(table) { read_csv(path, *this); }

    void row(unsigned long line, const std::vector<std::string_view>& cells, bool whole) override {
        if (!whole || cells.size() != table_.columns.size()) return fault(line, 0, "the row is damaged");
        if (header_) return take(line, cells);
        header_ = true;
        for (std::size_t i = 0; i < cells.size(); ++i)
            if (cells[i] != table_.columns[i].name) fault(line, 0, "the columns are not those of the table");
    }
    void fault(unsigned long line, unsigned, const std::string& what) override {
        throw Error(Exit::bad_data, fmt::format("{}:{}: {}: casebound pack check {}", path_, line, what,
                                                fs::path(path_).parent_path().string()));
    }

    std::vector<OwnRow> rows;

private:
    void take(unsigned long line, const std::vector<std::string_view>& cells) {
        OwnRow row{table_.name, line};
        for (std::size_t i = 0; i < cells.size(); ++i)
            row.cells.emplace_back(table_.columns[i].name, std::string(cells[i]));
        rows.push_back(std::move(row));
    }

    const std::string& path_;
    const TableShape& table_;
    bool header_ = false;
};

void add_history(std::vector<OwnStatement>& all, const std::string& path) {
    if (!fs::exists(path)) return;
    std::istringstream lines(read_whole(path, most_pack_note_bytes));
    for (std::string line; std::getline(lines, line);) {
        const OwnedJson owned = nlohmann::ordered_json::parse(line, nullptr, false);
        const auto& json = *owned;
        if (!json.is_object()) continue;
        const auto text = [&](const char* key) { return json.value(key, std::string()); };
        OwnChange change{text("date"), text("what"), text("table"), text("why"), {}};
        if (json.contains("row"))
            for (const auto& [column, cell] : json["row"].items())
                if (cell.is_string()) change.row.emplace_back(column, cell.get<std::string>());
        for (auto& one : all)
            if (one.source == text("source")) one.changes.push_back(change);
    }
}

bool names_only(std::string_view table) {
    return table == "items" || table == "groups" || table == "group_members" || table == "lines";
}

}  // namespace

std::string OwnRow::text(std::string_view column) const {
    for (const auto& [name, text] : cells)
        if (name == column) return text;
    return {};
}

const OwnRow* OwnStatement::main() const {
    for (const auto& row : rows)
        if (!names_only(row.table)) return &row;
    return nullptr;
}

const OwnRow* OwnStatement::brought() const {
    for (const auto& row : rows)
        if (row.table == "items") return &row;
    return nullptr;
}

bool OwnStatement::stands() const {
    const auto* row = main();
    return row ? row->text("withdrawn").empty()
               : std::none_of(changes.begin(), changes.end(),
                              [](const OwnChange& one) { return one.what == "withdrawn"; });
}

std::vector<OwnRow> own_rows_in(const std::string& path, const TableShape& table) {
    return RowsInFile(path, table).rows;
}

std::vector<OwnStatement> own_statements(Session& session, const std::string& folder) {
    const PackShape shape(session.plugins());
    std::vector<OwnStatement> all;
    if (!fs::exists(folder + "/sources.csv")) return all;
    for (const auto& row : own_rows_in(folder + "/sources.csv", *shape.find("sources")))
        all.push_back({all.size() + 1, row.text("source"), row.text("kind"), row.text("title"), row.text("edition"),
                       row.text("note")});
    for (const auto& table : shape.tables()) {
        const auto path = folder + "/" + table.file();
        if (table.name == "sources" || !fs::exists(path)) continue;
        for (auto& row : own_rows_in(path, table))
            for (auto& one : all)
                if (one.source == row.text("source")) one.rows.push_back(row);
    }
    add_history(all, folder + "/" + own_history_file);
    return all;
}

OwnStatement own_statement(Session& session, const std::string& folder, const std::string& number) {
    for (auto& one : own_statements(session, folder))
        if (std::to_string(one.number) == number) return std::move(one);
    throw Error(Exit::usage,
                fmt::format("{}: no statement of your own pack has this number: casebound own show", number));
}

std::string cell_of(const OwnCells& cells, std::string_view column) {
    for (const auto& [name, text] : cells)
        if (name == column) return text;
    return {};
}

std::string row_words(const OwnCells& cells) {
    std::vector<std::string> words;
    for (const auto& [column, text] : cells)
        if (column != "source" && column != "withdrawn" && !text.empty())
            words.push_back(fmt::format("{}: {}", spaced(column), text));
    return fmt::format("{}", fmt::join(words, "; "));
}

}  // namespace casebound
