#include <algorithm>
#include <charconv>
#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/error.h"
#include "core/ground/line_escapes.h"
#include "core/ground/outlet.h"
#include "core/ground/replacement.h"
#include "core/ground/utf8.h"
#include "core/pack/csv_rows.h"
#include "core/shop/shop_export.h"
#include "core/shop/shop_package.h"
#include "core/shop/shop_photos.h"
#include "core/shop/shop_vehicles.h"
#include "core/store/migrations.h"

namespace casebound {

extern const char* const shop_sql;  // schema/shop.sql

namespace {

class TableFile final : public CsvEvents {
public:
    TableFile(const Database& shop, std::string table, const std::string& path, std::vector<std::string>& faults,
              bool escaped)
        : columns_(columns_of(shop, table)), path_(path), faults_(faults), insert_(shop, insert_into(table, columns_)),
          escaped_(escaped) {
        if (escaped) read_csv(path, *this);
        else read_plain();
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
            if (error.exit() != Exit::bad_data) throw;
            fault(line, 0, error.what());
        }
    }
    void fault(unsigned long line, unsigned cell, const std::string& what) override {
        if (faults_.size() < 1000) faults_.push_back(fmt::format("{}:{}:{}: {}", path_, line, cell, what));
    }

    std::int64_t rows = 0;

private:
    // Texts as they were, line ends and all (RFC 4180); such an export is older than the escapes.
    void read_plain() {
        const auto text = read_whole(path_, std::filesystem::file_size(path_));
        std::vector<std::string> cells(1);
        bool quoted = false;
        unsigned long line = 1, row_line = 1;
        for (std::size_t at = 0; at < text.size(); ++at) {
            const char c = text[at];
            if (c == '\n') ++line;
            if (quoted && c == '"' && at + 1 < text.size() && text[at + 1] == '"') cells.back() += text[++at];
            else if (c == '"') quoted = !quoted;
            else if (!quoted && c == ',') cells.emplace_back();
            else if (!quoted && c == '\n') {
                row(row_line, {cells.begin(), cells.end()}, true);
                cells.assign(1, "");
                row_line = line;
            } else cells.back() += c;
        }
        if (quoted || cells != std::vector<std::string>{""}) fault(row_line, 0, "the last row is not whole");
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
        const auto text = escaped_ ? from_one_line(cell) : std::optional(std::string(cell));
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
    bool escaped_, headed_ = false;
};

void require_empty(const Database& shop) {
    for (const auto& table : tables_of(shop))
        if (shop.integer(fmt::format("SELECT count(*) FROM \"{}\"", table)) > 0)
            throw Error(Exit::usage,
                        fmt::format("{}: it is not empty: import into a new shop file, with --shop FILE", shop.path()));
}

// A shop file in memory, of the version of an export, filled from it and brought up to date. Every fault of the files
// is found here, before anything is written.
class FilledShop {
public:
    FilledShop(const std::string& folder, const ExportedShop& described)
        : folder_(folder), described_(described), sections_(schema_versions(shop_sql)),
          shop_(":memory:", Database::Mode::create) {
        shop_.execute("PRAGMA foreign_keys=OFF");  // as for a migration; checked below
        for (std::size_t i = 0; i < described.version; ++i) shop_.execute(sections_[i]);
        fill();
        check_keys();
        check_names();
        check_amounts();
        if (!faults_.empty()) throw Error(Exit::bad_data, faults_);
        for (std::size_t i = described.version; i < sections_.size(); ++i) shop_.execute(sections_[i]);
        check_photos();
        if (!faults_.empty()) throw Error(Exit::bad_data, faults_);
    }
    std::vector<Photo> photos() const { return photo_files(shop_, folder_ + "/" + exported_photos); }

    const Database& shop() const { return shop_; }

private:
    void fill() {
        const auto tables = tables_of(shop_);
        Transaction transaction(shop_);
        for (const auto& table : tables) {
            const auto path = folder_ + "/" + table + ".csv";
            const auto found = described_.tables.find(table);
            if (found == described_.tables.end()) {
                faults_.push_back(fmt::format("{}/{}: table {} is missing", folder_, shop_descriptor, table));
                continue;
            }
            const auto& counted = found->second;
            if (counted && stamp_file(path) != counted->stamp)
                faults_.push_back(fmt::format("{}: not what was exported: it was changed or damaged since", path));
            const TableFile file(shop_, table, path, faults_, described_.escaped);
            if (counted && file.rows != counted->rows)
                faults_.push_back(
                    fmt::format("{}: {} rows, not the {} that were exported", path, file.rows, counted->rows));
        }
        for (const auto& [table, counted] : described_.tables)
            if (std::find(tables.begin(), tables.end(), table) == tables.end())
                faults_.push_back(fmt::format("{}/{}: table {} is not of a shop file of version {}", folder_,
                                              shop_descriptor, table, described_.version));
        transaction.commit();
    }
    void check_keys() {
        Statement keys(shop_, "PRAGMA foreign_key_check");
        while (keys.step())
            faults_.push_back(fmt::format("{}/{}.csv: the row with id {} points to one of {} that is not there",
                                          folder_, keys.text(0), keys.text(1), keys.text(2)));
    }

    void check_photos() {
        for (const auto& photo : photos()) {
            const bool there = std::filesystem::is_regular_file(std::filesystem::symlink_status(photo.path));
            const FileStamp is{static_cast<std::uint64_t>(photo.bytes), photo.sha256};
            if (!there || stamp_file(photo.path) != is)
                faults_.push_back(fmt::format("{}: {}", photo.path,
                                              there ? "not what was exported: it was changed or damaged since"
                                                    : "this photo is missing: it belongs to the export"));
        }
    }

    // An address of the page and a file's name are made of it.
    void check_names() {
        Statement names(shop_, "SELECT name FROM vehicles ORDER BY id");
        while (names.step())
            if (!is_vehicle_name(names.text(0)))
                faults_.push_back(
                    fmt::format("{}/vehicles.csv: `{}` cannot be a vehicle's name: 1 to 64 letters, "
                                "digits, . _ -, a letter or digit first",
                                folder_, shown(names.text(0))));
    }

    // As for what is typed (cents_from): sums of it can be counted.
    void check_amounts() {
        constexpr std::int64_t most_cents = 99'999'999'999;
        for (const auto& table : tables_of(shop_))
            for (const auto& column : columns_of(shop_, table))
                if (column.name.ends_with("cents") &&
                    shop_.integer(fmt::format("SELECT count(*) FROM \"{}\" WHERE \"{}\" > {}", table, column.name,
                                              most_cents)) > 0)
                    faults_.push_back(fmt::format("{}/{}.csv: {}: an amount of more than {} cents: correct it", folder_,
                                                  table, column.name, most_cents));
    }

    const std::string& folder_;
    const ExportedShop& described_;
    std::vector<std::string> sections_, faults_;
    Database shop_;
};

// The rows of a table, between two files of one version. Any error ends it: SQLite may have rolled back by itself.
std::int64_t copy_rows(const Database& from, const Database& to, const std::string& table) {
    const auto columns = columns_of(from, table);
    Statement rows(from, select_from(table, columns)), insert(to, insert_into(table, columns));
    std::int64_t count = 0;
    for (; rows.step(); ++count) {
        for (int i = 0; i < static_cast<int>(columns.size()); ++i) {
            const auto& type = columns[static_cast<std::size_t>(i)].type;
            if (rows.is_null(i)) insert.bind_null(i + 1);
            else if (type == "INTEGER") insert.bind(i + 1, rows.integer(i));
            else if (type == "REAL") insert.bind(i + 1, rows.real(i));
            else insert.bind(i + 1, rows.text(i));
        }
        insert.run();
    }
    return count;
}

ExportedShop described_for_import(const std::string& folder, std::size_t newest) {
    const auto described = exported_shop(folder);
    if (!described || described->version == 0)
        throw Error(Exit::bad_data, fmt::format("{}: not the export of a shop file: name the folder that `casebound "
                                                "shop export` wrote",
                                                folder));
    if (described->version > newest)
        throw Error(Exit::bad_data, fmt::format("{}: written by a newer casebound (version {} of the shop file; this "
                                                "one knows {}): update casebound",
                                                folder, described->version, newest));
    return *described;
}

}  // namespace

std::vector<MovedTable> import_shop(Database& shop, const std::string& folder) {
    const auto described = described_for_import(folder, schema_versions(shop_sql).size());
    const FilledShop filled(folder, described);
    std::vector<MovedTable> moved;
    Transaction transaction(shop);
    require_empty(shop);
    shop.execute("PRAGMA defer_foreign_keys=ON");
    const auto photos = filled.photos();
    if (!photos.empty()) make_folder(photos_folder(shop.path()));
    for (const auto& photo : photos) {  // the files before the rows that name them
        const auto path = photos_folder(shop.path()) + "/" + photo_file_name(photo);
        replace_file(path, photo_bytes(photo));
        forget_written(path);
    }
    for (const auto& table : tables_of(shop)) moved.push_back({table, copy_rows(filled.shop(), shop, table)});
    transaction.commit();
    return moved;
}

}  // namespace casebound
