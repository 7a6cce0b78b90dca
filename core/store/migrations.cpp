#include "core/store/migrations.h"

#include <filesystem>
#include <stdexcept>

#include <fmt/format.h>

#include "core/ground/dates.h"
#include "core/ground/error.h"
#include "core/ground/outlet.h"
#include "core/ground/replacement.h"

namespace casebound {

namespace {

constexpr std::string_view mark = "-- version ";

std::size_t next_mark(std::string_view schema, std::size_t from) {
    while (true) {
        const auto at = schema.find(mark, from);
        if (at == std::string_view::npos || at == 0 || schema[at - 1] == '\n') return at;
        from = at + mark.size();
    }
}

// A name that is not taken, beside the file.
std::filesystem::path backup_path(const std::string& path, std::size_t version) {
    const std::filesystem::path file(path);
    const std::string stem = fmt::format("{}-v{}-{}", file.stem().string(), version, time_stamp());
    auto candidate = file.parent_path() / (stem + file.extension().string());
    for (int n = 2; std::filesystem::exists(candidate); ++n)
        candidate = file.parent_path() / fmt::format("{}-{}{}", stem, n, file.extension().string());
    return candidate;
}

std::int64_t version_of(const Database& database) { return database.integer("PRAGMA user_version"); }

void check_owner(const Database& database, const MigratedKind& kind) {
    const auto id = database.integer("PRAGMA application_id");
    if (id == kind.application_id) return;
    throw Error(Exit::bad_data, fmt::format("{}: this is not a casebound {}: nothing was changed; move it away, or set "
                                            "CASEBOUND_HOME to another folder",
                                            database.path(), kind.what));
}

std::size_t known_version(const Database& database, const MigratedKind& kind, std::size_t newest) {
    const auto version = static_cast<std::size_t>(version_of(database));
    if (version <= newest) return version;
    throw Error(
        Exit::bad_data,
        fmt::format("{}: written by a newer casebound (version {} of the {}; this one knows {}): update casebound",
                    database.path(), version, kind.what, newest));
}

std::filesystem::path folder_of(const std::string& path) {
    const auto folder = std::filesystem::path(path).parent_path();
    return folder.empty() ? std::filesystem::path(".") : folder;
}

// Of migrations that were killed, with their journals: never a copy that was put in its place. The caller holds the
// write lock.
void remove_unfinished_copies(const std::string& path) {
    const std::filesystem::path file(path);
    const auto begin = file.stem().string() + "-v";
    for (const auto& entry : std::filesystem::directory_iterator(folder_of(path)))
        if (entry.path().filename().string().starts_with(begin) &&
            entry.path().extension().string().starts_with(".new"))
            std::filesystem::remove(entry.path());
}

// A second connection makes the copy: SQLite does not copy from one that holds the write lock.
void back_up(const std::string& path, std::size_t version) {
    remove_unfinished_copies(path);
    const auto copy = backup_path(path, version).string();
    Database(path, Database::Mode::read_only).copy_to(copy);
    forget_written(copy);
}

void check_keys(const Database& database) {
    Statement keys(database, "PRAGMA foreign_key_check");
    if (!keys.step()) return;
    throw Error(Exit::bad_data, fmt::format("{}: table {}: a row points nowhere after the migration: nothing was "
                                            "changed; please report it with the copy beside the file",
                                            database.path(), keys.text(0)));
}

// Keys are off meanwhile, so that a section may rebuild a table (sqlite.org, "ALTER TABLE", 7), and are checked at the end.
void apply_missing(Database& database, const MigratedKind& kind, const std::vector<std::string>& sections) {
    database.execute("PRAGMA foreign_keys=OFF");
    {
        Transaction transaction(database);
        const auto from = known_version(database, kind, sections.size());  // another process may just have migrated it
        if (from > 0 && from < sections.size()) back_up(database.path(), from);
        for (auto i = from; i < sections.size(); ++i) database.execute(sections[i]);
        check_keys(database);
        database.execute(fmt::format("PRAGMA application_id={}", kind.application_id));
        database.execute(fmt::format("PRAGMA user_version={}", sections.size()));
        transaction.commit();
    }
    database.execute("PRAGMA foreign_keys=ON");
    forget_written(database.path());
}

void keep_safely(Database& database) {
    database.execute("PRAGMA journal_mode=DELETE");  // a change only when something else had put it into WAL
    database.execute("PRAGMA synchronous=EXTRA");
}

// Beside it, and put in its place when it is whole: a file that is there is never between nothing and a shop. One
// process makes it.
void make_whole(const std::string& path, const MigratedKind& kind, const std::vector<std::string>& sections) {
    const FolderLock lock(path);
    if (std::filesystem::exists(path)) return;
    const auto beside = path + ".new";
    for (const auto* end : {"", "-journal"}) std::filesystem::remove(beside + end);  // of a run that was killed
    {
        Database made(beside, Database::Mode::create);
        keep_safely(made);
        apply_missing(made, kind, sections);
    }
    put_in_place(beside, path);
    forget_written(path);
}

// Nothing that casebound does leaves one: what was in it went elsewhere, or was lost.
[[noreturn]] void refuse_empty(const std::string& path, const MigratedKind& kind) {
    throw Error(Exit::bad_data,
                fmt::format("{}: this {} is EMPTY (0 bytes), and no new one is begun in its place: put back a backup, "
                            "or take the file away when there was never anything in it",
                            path, kind.what));
}

}  // namespace

std::vector<std::string> schema_versions(std::string_view schema) {
    std::vector<std::string> sections;
    for (auto at = next_mark(schema, 0); at != std::string_view::npos;) {
        const auto line_end = schema.find('\n', at);
        const auto next = next_mark(schema, at + mark.size());
        if (schema.substr(at, line_end - at) != fmt::format("{}{}", mark, sections.size() + 1))
            throw std::logic_error(
                fmt::format("schema: expected \"{}{}\": number the sections 1, 2, 3", mark, sections.size() + 1));
        sections.emplace_back(schema.substr(at, next - at));
        at = next;
    }
    return sections;
}

Database open_migrated(const std::string& path, const MigratedKind& kind) {
    namespace fs = std::filesystem;
    const auto sections = schema_versions(kind.schema);
    if (!fs::exists(path) && fs::is_directory(folder_of(path))) make_whole(path, kind, sections);
    if (fs::is_regular_file(path) && fs::file_size(path) == 0) refuse_empty(path, kind);
    Database database(path, Database::Mode::create);
    check_owner(database, kind);
    keep_safely(database);
    if (known_version(database, kind, sections.size()) < sections.size()) apply_missing(database, kind, sections);
    return database;
}

}  // namespace casebound
