#include "core/work/measured_pack.h"

#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/file_stamp.h"
#include "core/pack/csv_rows.h"
#include "core/pack/pack.h"
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

// A copy of the pack beside it, taken away again unless it was put in its place.
class Staged {
public:
    explicit Staged(const std::string& folder) : folder_(fs::path(folder).lexically_normal()) {
        if (!folder_.has_filename()) folder_ = folder_.parent_path();
        beside_ = folder_.parent_path() / fmt::format(".{}.new", folder_.filename().string());
        std::error_code error;
        fs::remove_all(beside_, error);  // of a run that was killed
        if (!fs::create_directories(beside_, error))
            throw Error(Exit::cannot_create,
                        fmt::format("{}: the folder cannot be made: {}", beside_.string(), error.message()));
        if (fs::exists(folder_))
            fs::copy(folder_, beside_, fs::copy_options::recursive | fs::copy_options::overwrite_existing);
    }
    ~Staged() {
        std::error_code ignored;
        fs::remove_all(beside_, ignored);
    }
    Staged(const Staged&) = delete;
    Staged& operator=(const Staged&) = delete;

    std::string path() const { return beside_.string(); }
    std::string name() const { return folder_.filename().string(); }

    // One step: the two folders change names. What was there before then lies at path().
    void change_places() {
        const bool there = fs::exists(folder_);
        const unsigned how = there ? RENAME_EXCHANGE : RENAME_NOREPLACE;
        if (::renameat2(AT_FDCWD, beside_.c_str(), AT_FDCWD, folder_.c_str(), how) != 0)
            throw Error(Exit::cannot_write,
                        fmt::format("{}: it cannot be replaced in one step here: {}: keep your pack on a local disk",
                                    folder_.string(), std::strerror(errno)));
        sync_parent();
    }

private:
    void sync_parent() const {
        const auto parent = folder_.parent_path().empty() ? fs::path(".") : folder_.parent_path();
        const int fd = ::open(parent.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
        if (fd < 0) return;
        ::fsync(fd);
        ::close(fd);
    }

    fs::path folder_, beside_;
};

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

std::vector<std::pair<std::string, std::string>> rows_of(Session& session, const OwnFact& fact,
                                                         const std::string& folder) {
    const PackShape shape(session.plugins());
    const auto key = source_key(fact, folder);
    const auto title = fmt::format("measured here, vehicle {}, {}", fact.vehicle, fact.date);
    std::vector<std::pair<std::string, std::string>> rows{
        {"sources.csv",
         row_text(
             *shape.find("sources"),
             {{"source", key}, {"kind", "measured"}, {"title", title}, {"edition", fact.date}, {"note", fact.note}})}};
    for (const auto& [table, own] : fact.rows) {
        auto cells = own;
        cells.emplace_back("source", key);
        rows.emplace_back(table + ".csv", row_text(shape_of(shape, table), cells));
    }
    return rows;
}

void keep_fact(Session& session, const OwnFact& fact, const std::string& folder) {
    const auto rows = rows_of(session, fact, folder);
    const PackShape shape(session.plugins());
    Staged staged(folder);
    for (const auto& [file, row] : rows)
        add_row(staged.path() + "/" + file,
                fmt::format("{}\n", fmt::join(shape.find(file.substr(0, file.size() - 4))->column_names(), ",")), row);
    new_pack(staged.path(), staged.name(), session.plugins());
    refuse_faults(check_pack(staged.path(), session.options().catalog, session.plugins(), true));
    seal_pack(staged.path());
    staged.change_places();
    refuse_faults(load_pack(folder, session.options().catalog,
                            session.plugins()));  // derived: a kill before this is mended by loading the pack
}

}  // namespace casebound
