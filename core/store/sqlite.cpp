#include "core/store/sqlite.h"

#include <sqlite3.h>

#include <cstdio>
#include <new>
#include <utility>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/outlet.h"
#include "core/ground/replacement.h"
#include "core/store/checked_pages.h"

namespace casebound {

namespace {

bool is_damage(int code) {
    const int kind = code & 0xff;
    return kind == SQLITE_CORRUPT || kind == SQLITE_NOTADB || code == SQLITE_IOERR_DATA ||
           code == SQLITE_IOERR_CORRUPTFS;
}

Exit exit_for(int code) {
    switch (code & 0xff) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED: return Exit::busy;
        case SQLITE_CANTOPEN: return Exit::no_input;
        case SQLITE_READONLY:
        case SQLITE_IOERR:
        case SQLITE_FULL:
        case SQLITE_PERM: return Exit::cannot_write;
        case SQLITE_CONSTRAINT: return Exit::bad_data;
        default: return Exit::bug;
    }
}

std::string_view advice_for(int code) {
    switch (code & 0xff) {
        case SQLITE_BUSY:
        case SQLITE_LOCKED: return "another casebound is writing; try again when it is done";
        case SQLITE_CANTOPEN: return "check that the file exists and may be read";
        case SQLITE_FULL: return "the disk is full; make room and try again";
        case SQLITE_READONLY:
        case SQLITE_IOERR:
        case SQLITE_PERM: return "check permissions and space";
        default: return "nothing was changed";
    }
}

// Like any other request for memory that is refused, wherever it was made.
void require_memory(int code) {
    if ((code & 0xff) == SQLITE_NOMEM || code == SQLITE_IOERR_NOMEM) throw std::bad_alloc();
}

constexpr std::string_view usual_repair = "not a sound SQLite file: put back a backup of it";

int open_flags(Database::Mode mode) {
    switch (mode) {
        case Database::Mode::read_only: return SQLITE_OPEN_READONLY;
        case Database::Mode::read_write: return SQLITE_OPEN_READWRITE;
        case Database::Mode::create: return SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE;
    }
    return SQLITE_OPEN_READONLY;
}

int ask_authorizer(void* self, int action, const char* first, const char* second, const char*, const char*) {
    const auto& authorizer = *static_cast<const Database::Authorizer*>(self);
    return authorizer(action, first ? first : "", second ? second : "") ? SQLITE_OK : SQLITE_DENY;
}

}  // namespace

void start_single_threaded_sqlite() {
    sqlite3_config(SQLITE_CONFIG_SINGLETHREAD);
    sqlite3_config(SQLITE_CONFIG_MEMSTATUS, 0);
}

Statement::Statement(const Database& database, std::string_view sql) : database_(&database) {
    const int code = sqlite3_prepare_v3(database.handle(), sql.data(), static_cast<int>(sql.size()), 0, &handle_,
                                        nullptr);
    if (code != SQLITE_OK) database.fail(code, sql);
}

Statement::~Statement() { sqlite3_finalize(handle_); }

Statement::Statement(Statement&& other) noexcept
    : database_(other.database_), handle_(std::exchange(other.handle_, nullptr)) {}

Statement& Statement::bind(int index, std::int64_t value) {
    if (const int code = sqlite3_bind_int64(handle_, index, value); code != SQLITE_OK) database_->fail(code, "bind");
    return *this;
}

Statement& Statement::bind(int index, double value) {
    if (const int code = sqlite3_bind_double(handle_, index, value); code != SQLITE_OK) database_->fail(code, "bind");
    return *this;
}

Statement& Statement::bind(int index, std::string_view value) {
    const int code = sqlite3_bind_text(handle_, index, value.data() ? value.data() : "", static_cast<int>(value.size()),
                                       SQLITE_TRANSIENT);
    if (code != SQLITE_OK) database_->fail(code, "bind");
    return *this;
}

Statement& Statement::bind_view(int index, std::string_view value) {
    const int code = sqlite3_bind_text(handle_, index, value.data() ? value.data() : "", static_cast<int>(value.size()),
                                       SQLITE_STATIC);
    if (code != SQLITE_OK) database_->fail(code, "bind");
    return *this;
}

Statement& Statement::bind_null(int index) {
    if (const int code = sqlite3_bind_null(handle_, index); code != SQLITE_OK) database_->fail(code, "bind");
    return *this;
}

Statement& Statement::bind_or_null(int index, std::string_view value) {
    return value.empty() ? bind_null(index) : bind(index, value);
}

Statement& Statement::bind_or_null(int index, std::optional<double> value) {
    return value ? bind(index, *value) : bind_null(index);
}

bool Statement::step() {
    const int code = sqlite3_step(handle_);
    if (code == SQLITE_ROW) return true;
    if (code != SQLITE_DONE) database_->fail(code, sqlite3_sql(handle_));
    return false;
}

void Statement::run() {
    while (step()) {}
    reset();
}

Statement& Statement::reset() {
    sqlite3_reset(handle_);  // repeats step()'s code, already reported
    return *this;
}

bool Statement::is_null(int column) const { return sqlite3_column_type(handle_, column) == SQLITE_NULL; }
std::int64_t Statement::integer(int column) const { return sqlite3_column_int64(handle_, column); }
double Statement::real(int column) const { return sqlite3_column_double(handle_, column); }

std::string_view Statement::text(int column) const {
    const auto* text = reinterpret_cast<const char*>(sqlite3_column_text(handle_, column));
    if (!text) require_memory(sqlite3_errcode(database_->handle()));  // SQLite ends a text in memory of its own
    return text ? std::string_view(text, static_cast<std::size_t>(sqlite3_column_bytes(handle_, column)))
                : std::string_view();
}

int Statement::columns() const { return sqlite3_column_count(handle_); }
std::string_view Statement::name(int column) const {
    const char* name = sqlite3_column_name(handle_, column);
    if (!name) throw std::bad_alloc();
    return name;
}

std::string_view Statement::declared_type(int column) const {
    const char* type = sqlite3_column_decltype(handle_, column);
    return type ? type : "";
}

Database::Database(const std::string& path, Mode mode, Pages pages) : path_(path), advice_(usual_repair) {
    const int code = sqlite3_open_v2(path.c_str(), &handle_, open_flags(mode) | SQLITE_OPEN_NOMUTEX,
                                     pages == Pages::checked ? checked_pages() : nullptr);
    if (code != SQLITE_OK) {
        const std::string text = handle_ ? sqlite3_errmsg(handle_) : sqlite3_errstr(code);
        sqlite3_close(handle_);
        require_memory(code);
        throw Error(mode == Mode::create ? Exit::cannot_create : exit_for(code),
                    fmt::format("{}: {}: {}", path, text, advice_for(code)));
    }
    sqlite3_extended_result_codes(handle_, 1);
    sqlite3_busy_timeout(handle_, 2000);
    sqlite3_db_config(handle_, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
    sqlite3_db_config(handle_, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, nullptr);
    execute("PRAGMA foreign_keys=ON");
    int reserved = checksum_bytes;  // of a new file; one that is there keeps what it has
    if (pages == Pages::checked && mode == Mode::create)
        sqlite3_file_control(handle_, "main", SQLITE_FCNTL_RESERVE_BYTES, &reserved);
}

Database::~Database() {
    sqlite3_finalize(data_version_);
    sqlite3_close(handle_);
}

Database::Database(Database&& other) noexcept
    : path_(std::move(other.path_)), advice_(std::move(other.advice_)), handle_(std::exchange(other.handle_, nullptr)),
      data_version_(std::exchange(other.data_version_, nullptr)), authorizer_(std::move(other.authorizer_)) {
    if (handle_ && authorizer_) sqlite3_set_authorizer(handle_, ask_authorizer, &authorizer_);
}

void Database::execute(const std::string& sql) {
    if (const int code = sqlite3_exec(handle_, sql.c_str(), nullptr, nullptr, nullptr); code != SQLITE_OK)
        fail(code, sql);
}

std::int64_t Database::integer(std::string_view sql) const {
    Statement statement(*this, sql);
    return statement.step() ? statement.integer(0) : 0;
}

void Database::authorize(Authorizer authorizer) {
    authorizer_ = std::move(authorizer);
    sqlite3_set_authorizer(handle_, authorizer_ ? ask_authorizer : nullptr, &authorizer_);
}

void Database::copy_to(const std::string& path) const {
    const std::string beside = path + ".new";
    try {
        {
            Database copy(beside, Mode::create);
            sqlite3_backup* backup = sqlite3_backup_init(copy.handle_, "main", handle_, "main");
            if (!backup) copy.fail(sqlite3_errcode(copy.handle_), "backup");
            sqlite3_backup_step(backup, -1);
            if (const int code = sqlite3_backup_finish(backup); code != SQLITE_OK) copy.fail(code, "backup");
            Statement check(copy, "PRAGMA integrity_check");
            const bool sound = check.step() && check.text(0) == "ok";
            Statement keys(copy, "PRAGMA foreign_key_check");
            if (!sound || keys.step())
                throw Error(Exit::bad_data, fmt::format("{}: the copy is not sound: nothing was changed", path));
        }
        put_in_place(beside, path);
    } catch (...) {
        std::remove(beside.c_str());
        throw;
    }
}

void Database::rest() const {
    for (auto* one = sqlite3_next_stmt(handle_, nullptr); one; one = sqlite3_next_stmt(handle_, one))
        sqlite3_reset(one);
}

bool Database::pages_are_checked() const { return has_checked_pages(handle_); }

std::pair<std::int64_t, std::int64_t> Database::written() const {
    constexpr std::string_view sql = "PRAGMA data_version";
    if (!data_version_)
        if (const int code = sqlite3_prepare_v3(handle_, sql.data(), static_cast<int>(sql.size()),
                                                SQLITE_PREPARE_PERSISTENT, &data_version_, nullptr);
            code != SQLITE_OK)
            fail(code, sql);
    const int code = sqlite3_step(data_version_);
    if (code != SQLITE_ROW) {
        sqlite3_reset(data_version_);
        fail(code, sql);
    }
    const std::int64_t by_others = sqlite3_column_int64(data_version_, 0);
    sqlite3_reset(data_version_);
    return {by_others, sqlite3_total_changes64(handle_)};
}

void Database::wait_at_most(int ms) { sqlite3_busy_timeout(handle_, ms); }

void Database::fail_as_damaged(std::string_view what) const {
    throw Damaged(fmt::format("{}: DAMAGED: {}: {}", path_, what, advice_));
}

void Database::fail(int code, std::string_view doing) const {
    require_memory(code);
    std::string first_line{doing.substr(0, doing.find('\n'))};
    if (first_line.size() > 80) first_line.resize(80);
    const std::string_view what = code == SQLITE_IOERR_DATA ? "a page of it is not what was written to it"
                                                            : sqlite3_errmsg(handle_);
    if (is_damage(code)) fail_as_damaged(what);
    throw Error(exit_for(code), fmt::format("{}: {} ({}): {}", path_, what, first_line, advice_for(code)));
}

Transaction::Transaction(Database& database, bool immediate)
    : database_(database), changes_before_(sqlite3_total_changes64(database.handle())),
      inner_(sqlite3_get_autocommit(database.handle()) == 0) {
    database_.execute(inner_ ? "SAVEPOINT part" : immediate ? "BEGIN IMMEDIATE" : "BEGIN");
}

Transaction::~Transaction() {
    if (!open_) return;
    try {
        database_.execute(inner_ ? "ROLLBACK TO part; RELEASE part" : "ROLLBACK");
    } catch (...) {  // SQLite has already rolled back
    }
}

void Transaction::commit() {
    database_.execute(inner_ ? "RELEASE part" : "COMMIT");
    open_ = false;
    if (!inner_ && sqlite3_total_changes64(database_.handle()) > changes_before_) note_written(database_.path());
}

}  // namespace casebound
