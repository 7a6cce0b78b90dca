#include "core/store/migrations.h"

#include <filesystem>
#include <stdexcept>

#include <fmt/format.h>

#include "core/ground/dates.h"
#include "core/ground/error.h"

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
    const bool empty = id == 0 && version_of(database) == 0 &&
                       database.integer("SELECT count(*) FROM sqlite_schema") == 0;
    if (id == kind.application_id || empty) return;
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

// Of migrations that were killed: never a copy that was put in its place. The caller holds the write lock.
void remove_unfinished_copies(const std::string& path) {
    const std::filesystem::path file(path);
    const auto begin = file.stem().string() + "-v";
    for (const auto& entry :
         std::filesystem::directory_iterator(file.has_parent_path() ? file.parent_path() : std::filesystem::path(".")))
        if (entry.path().filename().string().starts_with(begin) && entry.path().extension() == ".new")
            std::filesystem::remove(entry.path());
}

// A second connection makes the copy: SQLite does not copy from one that holds the write lock.
void back_up(const std::string& path, std::size_t version) {
    remove_unfinished_copies(path);
    Database(path, Database::Mode::read_only).copy_to(backup_path(path, version).string());
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
    const auto sections = schema_versions(kind.schema);
    Database database(path, Database::Mode::create);
    check_owner(database, kind);
    database.execute("PRAGMA journal_mode=DELETE");  // a change only when something else had put it into WAL
    database.execute("PRAGMA synchronous=EXTRA");
    if (known_version(database, kind, sections.size()) < sections.size()) apply_missing(database, kind, sections);
    return database;
}

}  // namespace casebound
