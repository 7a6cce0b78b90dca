// A thin layer over SQLite: outside this room nobody includes <sqlite3.h>.
// Values are bound, never pasted into SQL. Every failure throws Error with SQLite's own text and the
// file's path: 75 when another process holds the lock, 74 when it cannot be written, 65 when it is damaged.
#pragma once

#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

struct sqlite3;
struct sqlite3_stmt;

namespace casebound {

class Database;

// Once, before anything is opened, in a program of one thread: without SQLite's mutexes and its own accounting.
void start_single_threaded_sqlite();

class Statement {
public:
    Statement(const Database& database, std::string_view sql);
    ~Statement();
    Statement(Statement&& other) noexcept;
    Statement(const Statement&) = delete;
    Statement& operator=(const Statement&) = delete;
    Statement& operator=(Statement&&) = delete;

    // Bind by position, 1-based. Text is copied, except by bind_view, which borrows it until the next reset.
    Statement& bind(int index, std::int64_t value);
    Statement& bind(int index, double value);
    Statement& bind(int index, std::string_view value);
    Statement& bind_view(int index, std::string_view value);
    Statement& bind_null(int index);
    Statement& bind_or_null(int index, std::string_view value);  // empty text is NULL
    Statement& bind_or_null(int index, std::optional<double> value);

    bool step();         // true while a row is there
    void run();          // steps to the end, then resets; bindings stay
    Statement& reset();  // does not clear the bindings

    bool is_null(int column) const;
    std::int64_t integer(int column) const;
    double real(int column) const;
    std::string_view text(int column) const;  // valid until the next step or reset; "" for NULL
    std::string str(int column) const { return std::string(text(column)); }

    int columns() const;
    std::string_view name(int column) const;           // valid until the statement goes
    std::string_view declared_type(int column) const;  // as its table says it; "" of an expression

private:
    const Database* database_;
    sqlite3_stmt* handle_ = nullptr;
};

class Database {
public:
    enum class Mode { read_only, read_write, create };
    enum class Pages { plain, checked };  // checked: see checked_pages.h
    Database(const std::string& path, Mode mode,
             Pages pages = Pages::plain);  // ":memory:" with create makes a private one
    ~Database();
    Database(Database&& other) noexcept;
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;
    Database& operator=(Database&&) = delete;

    void execute(const std::string& sql);              // one or more statements without results
    std::int64_t integer(std::string_view sql) const;  // first column of the first row, 0 when none
    const std::string& path() const { return path_; }

    // Asked for each action while SQL is prepared: action code, two names, schema. False refuses it.
    using Authorizer = std::function<bool(int action, std::string_view first, std::string_view second)>;
    void authorize(Authorizer authorizer);  // empty: everything is allowed again

    // A consistent copy, checked (integrity and foreign keys) beside it as PATH.new, synced and put in its place.
    // Throws and leaves no file behind on failure; a kill leaves at most PATH.new.
    void copy_to(const std::string& path) const;

    void rest() const;  // resets every statement, so that no lock is held until the next step
    void when_damaged(std::string advice) { advice_ = std::move(advice); }  // what to do then, for the message
    bool pages_are_checked() const;                                         // every page has room for its checksum
    void wait_at_most(int ms);  // for the lock of another process; two seconds when not said

    // Two times it says the same only when nothing was written in between: by another connection (sqlite.org, "PRAGMA
    // data_version"), or by this one, where what was taken back counts too. Tables are not made or dropped by this one.
    std::pair<std::int64_t, std::int64_t> written() const;

    [[noreturn]] void fail(int code, std::string_view doing) const;
    [[noreturn]] void fail_as_damaged(std::string_view what) const;
    sqlite3* handle() const { return handle_; }

private:
    std::string path_, advice_;
    sqlite3* handle_ = nullptr;
    mutable sqlite3_stmt* data_version_ = nullptr;  // prepared when first asked
    Authorizer authorizer_;
};

// Rolls back unless committed. Within another one it is a part of it, which may be rolled back alone. Immediate: no other
// process writes from its beginning on, so that what is checked in it is still so when it is written.
class Transaction {
public:
    explicit Transaction(Database& database, bool immediate = true);
    ~Transaction();
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    void commit();

private:
    Database& database_;
    std::int64_t changes_before_;
    bool inner_, open_ = true;
};

}  // namespace casebound
