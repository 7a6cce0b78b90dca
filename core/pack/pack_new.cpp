#include <algorithm>
#include <filesystem>
#include <map>
#include <memory>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/interner.h"
#include "core/ground/replacement.h"
#include "core/pack/csv_rows.h"
#include "core/pack/pack.h"
#include "core/pack/pack_descriptor.h"
#include "core/pack/pack_files.h"
#include "core/pack/pack_shape.h"
#include "core/reason/vocabulary.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;

// The texts of one column of a file.
class ColumnTexts final : public CsvEvents {
public:
    ColumnTexts(const std::string& path, std::string column) : column_(std::move(column)) { read_csv(path, *this); }

    void row(unsigned long line, const std::vector<std::string_view>& cells, bool) override {
        if (line == 1) at_ = static_cast<std::size_t>(std::find(cells.begin(), cells.end(), column_) - cells.begin());
        else if (at_ < cells.size()) texts.id(cells[at_]);
    }
    void fault(unsigned long, unsigned, const std::string&) override {}

    Interner texts;

private:
    std::string column_;
    std::size_t at_ = ~std::size_t{0};
};

// Which references the rows of a folder meet themselves.
class InsideReferences {
public:
    explicit InsideReferences(std::string folder) : folder_(std::move(folder)) {}

    bool met(const std::string& file, const std::string& column, const std::string& target_file,
             const std::string& target_column) {
        if (!fs::is_regular_file(folder_ + "/" + target_file)) return false;
        const ColumnTexts from(folder_ + "/" + file, column);
        const auto& to = keys(target_file, target_column);
        for (NameId id = 1; id < from.texts.size(); ++id)
            if (to.find(from.texts.text(id)) == 0) return false;
        return true;
    }

private:
    const Interner& keys(const std::string& file, const std::string& column) {
        auto& kept = kept_[{file, column}];
        if (!kept) kept = std::make_unique<ColumnTexts>(folder_ + "/" + file, column);
        return kept->texts;
    }

    std::string folder_;
    std::map<std::pair<std::string, std::string>, std::unique_ptr<ColumnTexts>> kept_;
};

void require_name(const std::string& name) {
    if (!is_pack_name(name))
        throw Error(Exit::usage,
                    fmt::format("pack name `{}`: write at most 64 lower-case letters, digits, . _ -", name));
}

std::vector<TableToDescribe> tables_in(const std::string& folder, const PackShape& shape) {
    const auto files = csv_files_in(folder);
    for (const auto& file : files) {
        const auto table = file.substr(0, file.rfind('.'));
        if (shape.find(table)) continue;
        const auto near = nearest(table, shape.table_names());
        throw Error(Exit::bad_data,
                    fmt::format("{}/{}: no table of core or a loaded domain is called {}: {}", folder, file, table,
                                near.empty() ? "take the file out, or load its domain"
                                             : fmt::format("did you mean {}?", near)));
    }
    InsideReferences inside(folder);
    std::vector<TableToDescribe> tables;
    for (const auto& table : shape.tables()) {
        if (std::find(files.begin(), files.end(), table.file()) == files.end()) continue;
        TableToDescribe described{&table};
        for (const auto& column : table.columns)
            if (column.refers &&
                inside.met(table.file(), column.name, column.refers->table + ".csv", column.refers->column))
                described.inside_references.push_back(column.name);
        tables.push_back(std::move(described));
    }
    return tables;
}

std::vector<std::string> write_empty_tables(const std::string& folder, const PackShape& shape,
                                            const std::vector<std::string>& wanted) {
    std::vector<std::string> written;
    for (const auto& table : shape.tables()) {
        if (!wanted.empty() && std::find(wanted.begin(), wanted.end(), table.name) == wanted.end()) continue;
        replace_file(folder + "/" + table.file(), fmt::format("{}\n", fmt::join(table.column_names(), ",")));
        written.push_back(table.file());
    }
    return written;
}

}  // namespace

std::vector<std::string> new_pack(const std::string& folder, const std::string& name, const Plugins& plugins,
                                  const std::vector<std::string>& tables) {
    const PackShape shape(plugins);
    make_folder(folder);
    const bool old = fs::exists(fs::symlink_status(fs::path(folder) / descriptor_file));
    if (!old) require_name(name);
    const auto old_text = old ? read_descriptor_text(folder) : std::string();
    std::vector<std::string> written;
    if (!old && csv_files_in(folder).empty()) written = write_empty_tables(folder, shape, tables);
    const auto text = described(old_text, name, tables_in(folder, shape));
    if (text == old_text) return written;
    replace_file(folder + "/" + descriptor_file, text);
    written.emplace_back(descriptor_file);
    return written;
}

void seal_pack(const std::string& folder) {
    FaultList faults;
    const auto descriptor = read_descriptor(folder, faults);
    if (!descriptor || !faults.empty()) {
        std::vector<std::string> all;
        for (const auto& fault : faults.faults()) all.push_back(fault.text());
        throw Error(Exit::bad_data, std::move(all));
    }
    InsideReferences inside(folder);
    std::map<std::string, FileStamp> stamps;
    std::vector<std::pair<std::string, std::string>> met;
    for (const auto& file : descriptor->files) {
        if (file.path != file.table + ".csv" || file.path.find('/') != std::string::npos)
            throw Error(
                Exit::bad_data,
                fmt::format("{}: `{}`: the file of table {} is called {}.csv: check the pack before it is sealed",
                            descriptor_file, file.path, file.table, file.table));
        stamps[file.path] = stamp_file(folder + "/" + file.path);
        for (const auto& reference : file.inside_references)
            if (inside.met(file.path, reference.column,
                           reference.target_table.empty() ? file.path : reference.target_table + ".csv",
                           reference.target_column))
                met.emplace_back(file.path, reference.column);
    }
    replace_file(folder + "/" + descriptor_file, sealed(read_descriptor_text(folder), stamps, met));
}

}  // namespace casebound
