#include "core/work/measured_pack.h"

#include <algorithm>
#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <nlohmann/json.hpp>

#include "core/ground/dates.h"
#include "core/ground/file_stamp.h"
#include "core/ground/replacement.h"
#include "core/pack/csv_rows.h"
#include "core/pack/pack.h"
#include "core/pack/pack_descriptor.h"
#include "core/pack/pack_shape.h"
#include "core/work/own_pack.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_bytes = 64u << 20;

std::string row_text(const TableShape& table, const std::vector<std::pair<std::string, std::string>>& cells) {
    std::vector<std::string> texts(table.columns.size());
    for (const auto& [column, text] : cells) {
        const auto at = table.find(column);
        if (at == table.columns.size())
            throw Error(Exit::usage, fmt::format("{}: no such column of {}: use {}", column, table.name,
                                                 fmt::join(table.column_names(), ", ")));
        texts[at] = csv_cell(text);
    }
    return fmt::format("{}\n", fmt::join(texts, ","));
}

const TableShape& shape_of(const PackShape& shape, const std::string& table) {
    const auto* found = shape.find(table);
    if (found && found->find("source") < found->columns.size()) return *found;
    const auto near = nearest(table, shape.table_names());
    throw Error(Exit::usage, fmt::format("{}: not a table for facts with a source{}", table,
                                         near.empty() ? "" : fmt::format(": did you mean {}?", near)));
}

// The last word of a folder's name, as far as a key has room for it.
std::string pack_word(const std::string& folder) {
    constexpr std::size_t longest = 24, kept = 15, of_hash = 8;
    const auto whole = fs::weakly_canonical(fs::absolute(folder));
    const auto name = (whole.has_filename() ? whole : whole.parent_path()).filename().string();
    return name.size() <= longest ? name : name.substr(0, kept) + "." + sha256_of(name).substr(0, of_hash);
}

// The first free key: measured-own+van-20261125-1, -2, ... The pack is in it, so that two own packs never meet; no pack
// and no vehicle has a plus in its name.
std::string source_key(const OwnFact& fact, const std::string& folder, const std::string& pack) {
    std::string day = fact.date;
    std::erase(day, '-');
    auto kind = fact.kind;
    std::replace(kind.begin(), kind.end(), '_', '-');
    const auto file = folder + "/sources.csv";
    const auto text = fs::exists(file) ? read_whole(file, most_bytes) : std::string();
    for (int number = 1;; ++number) {
        const auto key = fmt::format("{}-{}+{}-{}-{}", kind, pack, fact.vehicle, day, number);
        if (text.find("\n" + key + ",") == std::string::npos) return key;
    }
}

// A folder of anything else is not copied, described and sealed as if it were a pack.
const std::string& required_pack(const std::string& folder) {
    if (!fs::exists(folder) || fs::is_empty(folder) || fs::exists(fs::path(folder) / descriptor_file)) return folder;
    throw Error(Exit::usage, fmt::format("{}: there are files in it, and it is no pack: name your own pack, or a "
                                         "folder that is not there yet",
                                         folder));
}

// Returns the line it is on.
unsigned long add_row(const std::string& path, const std::string& header, const std::string& row) {
    auto text = fs::exists(path) ? read_whole(path, most_bytes) : header;
    if (!text.ends_with('\n')) text += '\n';
    replace_file(path, text + row);
    return static_cast<unsigned long>(std::count(text.begin(), text.end(), '\n')) + 1;
}

std::string header_of(const TableShape& table) { return fmt::format("{}\n", fmt::join(table.column_names(), ",")); }

std::string text_in(const OwnCells& cells, std::string_view column) {
    for (const auto& [name, text] : cells)
        if (name == column) return text;
    return {};
}

// An item, a group or a line is there whatever else is said of it.
bool only_names(std::string_view table) {
    return table == "sources" || table == "items" || table == "groups" || table == "group_members" || table == "lines";
}

}  // namespace

bool own_table_has(Session& session, const std::string& table, std::string_view column) {
    const PackShape shape(session.plugins());
    const auto& found = shape_of(shape, table);
    return found.find(column) < found.columns.size();
}

namespace {

OwnRows rows_with(Session& session, const OwnFact& fact, const std::string& key) {
    const PackShape shape(session.plugins());
    const auto title = fact.title.empty() ? fmt::format("measured here, vehicle {}, {}", fact.vehicle, fact.date)
                                          : fact.title;
    OwnRows rows{
        {"sources.csv",
         row_text(
             *shape.find("sources"),
             {{"source", key}, {"kind", fact.kind}, {"title", title}, {"edition", fact.date}, {"note", fact.note}})}};
    for (const auto& [table, own] : fact.rows) {
        auto cells = own;
        cells.emplace_back("source", key);
        rows.emplace_back(table + ".csv", row_text(shape_of(shape, table), cells));
    }
    return rows;
}

}  // namespace

OwnRows rows_of(Session& session, const OwnFact& fact, const std::string& folder) {
    return rows_with(session, fact, source_key(fact, folder, pack_word(folder)));
}

OwnPackChange::OwnPackChange(Session& session, const std::string& folder)
    : session_(session), folder_(required_pack(folder)), shape_(session.plugins()),
      made_(folder, NewFolder::Begin::copy) {}

std::string OwnPackChange::add(const OwnFact& fact) {
    const auto key = source_key(fact, made_.path(), pack_word(folder_));
    for (auto& [file, row] : rows_with(session_, fact, key)) {
        const auto& table = *shape_.find(file.substr(0, file.size() - 4));
        added_at_.emplace_back(file, add_row(made_.path() + "/" + file, header_of(table), row));
        added_.emplace_back(file, std::move(row));
    }
    return key;
}

void OwnPackChange::remember(const std::string& what, const std::string& table, const OwnCells& row,
                             const std::string& source, const std::string& why) {
    nlohmann::ordered_json line{{"date", today()}, {"what", what}, {"source", source}, {"table", table}, {"why", why}};
    line["row"] = nlohmann::ordered_json::object();
    for (const auto& [column, text] : row)
        if (column != "source" && !text.empty()) line["row"][column] = text;
    const auto path = made_.path() + "/" + own_history_file;
    replace_file(path, (fs::exists(path) ? read_whole(path, most_bytes) : std::string()) + line.dump() + "\n");
}

void OwnPackChange::withdraw(const std::string& source, const std::string& why) {
    std::size_t done = 0;
    for (const auto& table : shape_.tables()) {
        const auto path = made_.path() + "/" + table.file();
        if (only_names(table.name) || !fs::exists(path)) continue;
        auto text = header_of(table);
        std::size_t here = 0;
        for (auto& row : own_rows_in(path, table)) {
            if (text_in(row.cells, "source") == source && text_in(row.cells, "withdrawn").empty()) {
                remember("withdrawn", table.name, row.cells, source, why);
                ++here;
                if (table.find("withdrawn") == table.columns.size()) continue;
                std::erase_if(row.cells, [](const auto& cell) { return cell.first == "withdrawn"; });
                row.cells.emplace_back("withdrawn", why);
            }
            text += row_text(table, row.cells);
        }
        if (here > 0) replace_file(path, text);
        done += here;
    }
    if (done == 0)
        throw Error(Exit::usage, fmt::format("{}: nothing of it stands: see casebound own show --full", source));
}

void OwnPackChange::reword_item(const std::string& source, const std::string& column, const std::string& text) {
    const auto& table = *shape_.find("items");
    const auto path = made_.path() + "/" + table.file();
    auto whole = header_of(table);
    bool found = false;
    if (fs::exists(path))
        for (auto& row : own_rows_in(path, table)) {
            if (text_in(row.cells, "source") == source) {
                remember("reworded", table.name, row.cells, source, column);
                found = true;
                for (auto& cell : row.cells)
                    if (cell.first == column) cell.second = text;
            }
            whole += row_text(table, row.cells);
        }
    if (!found) throw Error(Exit::usage, fmt::format("{}: this statement brought no part of its own", column));
    replace_file(path, whole);
}

std::vector<std::string> OwnPackChange::faults_of(const std::vector<PackFault>& faults) const {
    std::vector<std::string> texts;
    for (const auto& fault : faults) {
        const bool new_row = std::find(added_at_.begin(), added_at_.end(), std::pair(fault.file, fault.line)) !=
                             added_at_.end();
        texts.push_back(new_row && !fault.column.empty() ? fmt::format("{}: {}", fault.column, fault.what)
                                                         : fault.text());
    }
    return texts;
}

OwnRows OwnPackChange::finish() {
    const auto refuse = [&](const PackReport& report) {
        if (!report.faults.empty()) throw Error(Exit::bad_data, faults_of(report.faults));
    };
    new_pack(made_.path(), made_.name(), session_.plugins());
    refuse(check_pack(made_.path(), session_.options().catalog, session_.plugins(), true));
    seal_pack(made_.path());
    made_.change_places();
    // derived: a kill before this is mended by loading the pack
    refuse(load_pack(folder_, session_.options().catalog, session_.plugins()));
    return added_;
}

OwnRows keep_fact(Session& session, const OwnFact& fact, const std::string& folder) {
    OwnPackChange change(session, folder);
    change.add(fact);
    return change.finish();
}

}  // namespace casebound
