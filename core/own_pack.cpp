#include "own_pack.h"

#include <algorithm>
#include <filesystem>
#include <optional>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "csv_rows.h"
#include "file_stamp.h"
#include "pack.h"
#include "pack_shape.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_bytes = 64u << 20;

std::string row_text(const TableShape& table, const std::vector<std::pair<std::string, std::string>>& cells) {
    std::vector<std::string> texts(table.columns.size());
    for (const auto& [column, text] : cells) {
        const auto at = table.find(column);
        if (at == table.columns.size()) throw Error(Exit::usage, fmt::format("{}: no such column of {}: use {}", column, table.name, fmt::join(table.column_names(), ", ")));
        texts[at] = csv_cell(text);
    }
    return fmt::format("{}\n", fmt::join(texts, ","));
}

const TableShape& shape_of(const PackShape& shape, const std::string& table) {
    const auto* found = shape.find(table);
    if (found && found->find("source") < found->columns.size()) return *found;
    const auto near = nearest(table, shape.table_names());
    throw Error(Exit::usage, fmt::format("{}: not a table for facts with a source{}", table, near.empty() ? "" : fmt::format(": did you mean {}?", near)));
}

// The first free key: measured-van-20261125-1, -2, ...
std::string source_key(const OwnFact& fact, const std::string& folder) {
    std::string day = fact.date;
    std::erase(day, '-');
    const auto file = folder + "/sources.csv";
    const auto text = fs::exists(file) ? read_whole(file, most_bytes) : std::string();
    for (int number = 1;; ++number) {
        const auto key = fmt::format("measured-{}-{}-{}", fact.vehicle, day, number);
        if (text.find("\n" + key + ",") == std::string::npos) return key;
    }
}

// Files as they were, put back unless all goes well.
class Kept {
public:
    explicit Kept(std::vector<std::string> paths) {
        for (auto& path : paths) {
            auto text = fs::exists(path) ? std::optional(read_whole(path, most_bytes)) : std::nullopt;
            before_.emplace_back(std::move(path), std::move(text));
        }
    }
    ~Kept() {
        if (done_) return;
        for (const auto& [path, text] : before_) try {
            if (text) replace_file(path, *text);
            else fs::remove(path);
        } catch (const std::exception&) {  // the fault that led here is the one to report
        }
    }
    Kept(const Kept&) = delete;
    Kept& operator=(const Kept&) = delete;
    void done() { done_ = true; }

private:
    std::vector<std::pair<std::string, std::optional<std::string>>> before_;
    bool done_ = false;
};

}  // namespace

std::vector<std::pair<std::string, std::string>> rows_of(Session& session, const OwnFact& fact, const std::string& folder) {
    const PackShape shape(session.plugins());
    const auto key = source_key(fact, folder);
    auto cells = fact.cells;
    cells.emplace_back("source", key);
    const auto title = fmt::format("measured here, vehicle {}, {}", fact.vehicle, fact.date);
    return {{"sources.csv", row_text(*shape.find("sources"), {{"source", key}, {"kind", "measured"}, {"title", title}, {"edition", fact.date}, {"note", fact.note}})},
            {fact.table + ".csv", row_text(shape_of(shape, fact.table), cells)}};
}

void keep_fact(Session& session, const OwnFact& fact, const std::string& folder) {
    const auto rows = rows_of(session, fact, folder);
    const PackShape shape(session.plugins());
    std::error_code error;
    fs::create_directories(folder, error);
    std::vector<std::string> paths{folder + "/datapackage.json"};
    for (const auto& [file, row] : rows) paths.push_back(folder + "/" + file);
    Kept kept(paths);
    for (const auto& [file, row] : rows) {
        const auto path = folder + "/" + file;
        auto text = fs::exists(path) ? read_whole(path, most_bytes) : fmt::format("{}\n", fmt::join(shape.find(file.substr(0, file.size() - 4))->column_names(), ","));
        if (!text.ends_with('\n')) text += '\n';
        replace_file(path, text + row);
    }
    new_pack(folder, fs::path(folder).filename().string(), session.plugins());
    const auto report = load_pack(folder, session.options().catalog, session.plugins());
    if (!report.faults.empty()) {
        std::vector<std::string> faults;
        for (const auto& fault : report.faults) faults.push_back(fault.text());
        throw Error(Exit::bad_data, faults);
    }
    kept.done();
}

}  // namespace casebound
