#include "core/work/measured_pack.h"

#include <algorithm>
#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/file_stamp.h"
#include "core/ground/replacement.h"
#include "core/pack/csv_rows.h"
#include "core/pack/pack.h"
#include "core/pack/pack_descriptor.h"
#include "core/pack/pack_shape.h"

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
void require_pack(const std::string& folder) {
    if (!fs::exists(folder) || fs::is_empty(folder) || fs::exists(fs::path(folder) / descriptor_file)) return;
    throw Error(Exit::usage, fmt::format("{}: there are files in it, and it is no pack: name your own pack, or a "
                                         "folder that is not there yet",
                                         folder));
}

void refuse_faults(const PackReport& report) {
    if (report.faults.empty()) return;
    std::vector<std::string> faults;
    for (const auto& fault : report.faults) faults.push_back(fault.text());
    throw Error(Exit::bad_data, faults);
}

void add_row(const std::string& path, const std::string& header, const std::string& row) {
    auto text = fs::exists(path) ? read_whole(path, most_bytes) : header;
    if (!text.ends_with('\n')) text += '\n';
    replace_file(path, text + row);
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

OwnRows keep_fact(Session& session, const OwnFact& fact, const std::string& folder) {
    require_pack(folder);
    NewFolder made(folder, NewFolder::Begin::copy);
    auto rows = rows_with(session, fact, source_key(fact, made.path(), pack_word(folder)));
    const PackShape shape(session.plugins());
    for (const auto& [file, row] : rows)
        add_row(made.path() + "/" + file,
                fmt::format("{}\n", fmt::join(shape.find(file.substr(0, file.size() - 4))->column_names(), ",")), row);
    new_pack(made.path(), made.name(), session.plugins());
    refuse_faults(check_pack(made.path(), session.options().catalog, session.plugins(), true));
    seal_pack(made.path());
    made.change_places();
    refuse_faults(load_pack(folder, session.options().catalog,
                            session.plugins()));  // derived: a kill before this is mended by loading the pack
    return rows;
}

}  // namespace casebound
