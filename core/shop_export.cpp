#include "shop_export.h"

#include <charconv>
#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

#include "csv_rows.h"
#include "error.h"
#include "file_stamp.h"
#include "one_line.h"
#include "replacement.h"

namespace casebound {

namespace {

using Json = nlohmann::ordered_json;

struct TableColumn {
    std::string name, type;
    bool required{};
};

std::vector<std::string> tables_of(const Database& shop) {
    std::vector<std::string> names;
    Statement rows(shop,
                   "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY rowid");
    while (rows.step()) names.push_back(rows.str(0));
    return names;
}

std::vector<TableColumn> columns_of(const Database& shop, const std::string& table) {
    std::vector<TableColumn> columns;
    Statement rows(shop, "SELECT name, type, \"notnull\" OR pk FROM pragma_table_info(?) ORDER BY cid");
    rows.bind(1, table);
    while (rows.step()) columns.push_back({rows.str(0), rows.str(1), rows.integer(2) != 0});
    return columns;
}

std::vector<std::string> names_of(const std::vector<TableColumn>& columns) {
    std::vector<std::string> names;
    for (const auto& column : columns) names.push_back(column.name);
    return names;
}

// A real number as the shortest text that reads back the same.
std::string cell_of(const Statement& row, int at, const TableColumn& column) {
    return column.type == "REAL" && !row.is_null(at) ? fmt::format("{}", row.real(at))
                                                     : csv_cell(on_one_line(row.text(at)));
}

Json described(const std::string& table, const std::vector<TableColumn>& columns) {
    Json fields = Json::array();
    for (const auto& column : columns)
        fields.push_back({{"name", column.name},
                          {"type", column.type == "REAL"      ? "number"
                                   : column.type == "INTEGER" ? "integer"
                                                              : "string"},
                          {"constraints", {{"required", column.required}}}});
    return {{"name", table},       {"path", table + ".csv"},
            {"type", "table"},     {"profile", "tabular-data-resource"},
            {"format", "csv"},     {"mediatype", "text/csv"},
            {"encoding", "utf-8"}, {"schema", {{"fields", fields}, {"missingValues", {""}}}}};
}

class TableFile final : public CsvEvents {
public:
    TableFile(const Database& shop, std::string table, const std::string& path, std::vector<std::string>& faults)
        : columns_(columns_of(shop, table)), path_(path), faults_(faults),
          insert_(shop, fmt::format("INSERT INTO \"{}\" ({}) VALUES ({})", table, fmt::join(names_of(columns_), ", "),
                                    marks(columns_.size()))) {
        read_csv(path, *this);
    }

    void row(unsigned long line, const std::vector<std::string_view>& cells, bool whole) override {
        if (!whole) return;
        if (!headed_) {
            headed_ = true;
            if (std::vector<std::string>(cells.begin(), cells.end()) != names_of(columns_))
                fault(line, 0, fmt::format("the header is not {}", fmt::join(names_of(columns_), ",")));
            return;
        }
        if (cells.size() != columns_.size())
            return fault(line, 0, fmt::format("{} cells, not {}", cells.size(), columns_.size()));
        bool good = true;
        for (std::size_t i = 0; i < cells.size(); ++i) good &= bind(line, i, cells[i]);
        if (!good) return;
        try {
            insert_.run();
            ++rows;
        } catch (const Error& error) {
            insert_.reset();
            fault(line, 0, error.what());
        }
    }
    void fault(unsigned long line, unsigned cell, const std::string& what) override {
        if (faults_.size() < 1000) faults_.push_back(fmt::format("{}:{}:{}: {}", path_, line, cell, what));
    }

    std::int64_t rows = 0;

private:
    static std::string marks(std::size_t count) {
        std::string text = "?";
        for (std::size_t i = 1; i < count; ++i) text += ", ?";
        return text;
    }
    template <class Number> bool bind_number(unsigned long line, std::size_t i, std::string_view cell, Number value) {
        const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
        const bool good = error == std::errc{} && end == cell.data() + cell.size();
        if (good) insert_.bind(static_cast<int>(i + 1), value);
        else
            fault(line, static_cast<unsigned>(i + 1),
                  fmt::format("{}: \"{}\" is not a number", columns_[i].name, cell));
        return good;
    }
    bool bind(unsigned long line, std::size_t i, std::string_view cell) {
        const auto& column = columns_[i];
        const int at = static_cast<int>(i + 1);
        if (cell.empty() && !column.required) return insert_.bind_null(at), true;
        if (column.type == "INTEGER") return bind_number(line, i, cell, std::int64_t{});
        if (column.type == "REAL") return bind_number(line, i, cell, 0.0);
        const auto text = from_one_line(cell);
        if (text) insert_.bind(at, *text);
        else
            fault(line, static_cast<unsigned>(at),
                  fmt::format("{}: a backslash is followed by something else than \\, n, r, t or xNN", column.name));
        return text.has_value();
    }

    std::vector<TableColumn> columns_;
    std::string path_;
    std::vector<std::string>& faults_;
    Statement insert_;
    bool headed_ = false;
};

void require_empty(const Database& shop) {
    for (const auto& table : tables_of(shop))
        if (shop.integer(fmt::format("SELECT count(*) FROM \"{}\"", table)) > 0)
            throw Error(Exit::usage,
                        fmt::format("{}: it is not empty: import into a new shop file, with --shop FILE", shop.path()));
}

}  // namespace

std::vector<MovedTable> export_shop(const Database& shop, const std::string& folder) {
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (!std::filesystem::is_directory(folder))
        throw Error(Exit::cannot_create, fmt::format("{}: the folder cannot be made: {}", folder, error.message()));
    std::vector<MovedTable> moved;
    Json package{{"$schema", "https://datapackage.org/profiles/2.0/datapackage.json"},
                 {"profile", "tabular-data-package"},
                 {"name", "casebound-shop"},
                 {"description",
                  "In texts, a backslash is doubled; line ends, tabs, control characters and bytes that are no UTF-8 "
                  "are \\n, \\r, \\t, \\xNN."},
                 {"version", fmt::format("{}.0.0", shop.integer("PRAGMA user_version"))},
                 {"resources", Json::array()}};
    for (const auto& table : tables_of(shop)) {
        const auto columns = columns_of(shop, table);
        std::string text = fmt::format("{}\n", fmt::join(names_of(columns), ","));
        MovedTable one{table, 0};
        Statement rows(shop,
                       fmt::format("SELECT {} FROM \"{}\" ORDER BY rowid", fmt::join(names_of(columns), ", "), table));
        for (; rows.step(); ++one.rows)
            for (std::size_t i = 0; i < columns.size(); ++i)
                text += cell_of(rows, static_cast<int>(i), columns[i]) + (i + 1 == columns.size() ? "\n" : ",");
        replace_file(folder + "/" + table + ".csv", text);
        package["resources"].push_back(described(table, columns));
        moved.push_back(one);
    }
    replace_file(folder + "/datapackage.json", package.dump(2) + "\n");
    return moved;
}

std::vector<MovedTable> import_shop(Database& shop, const std::string& folder) {
    const auto package = Json::parse(read_whole(folder + "/datapackage.json", 1 << 20), nullptr, false);
    if (package.is_discarded() || package.value("name", "") != "casebound-shop" ||
        package.value("version", "") != fmt::format("{}.0.0", shop.integer("PRAGMA user_version")))
        throw Error(Exit::bad_data, fmt::format("{}: not the export of a shop file of this version: export it again "
                                                "with the casebound that wrote it, after updating",
                                                folder));
    std::vector<MovedTable> moved;
    std::vector<std::string> faults;
    Transaction transaction(shop);
    require_empty(shop);
    shop.execute("PRAGMA defer_foreign_keys=ON");
    for (const auto& table : tables_of(shop)) {
        const TableFile file(shop, table, folder + "/" + table + ".csv", faults);
        moved.push_back({table, file.rows});
    }
    if (!faults.empty()) throw Error(Exit::bad_data, faults);
    transaction.commit();
    return moved;
}

}  // namespace casebound
