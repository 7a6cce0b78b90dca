#include "core/store/given_rows.h"

#include <sqlite3.h>

#include <algorithm>
#include <exception>
#include <new>

#include <fmt/format.h>

namespace casebound {

namespace {

constexpr const char* name_in_sql = "given_rows";

// https://www.sqlite.org/vtab.html: a table that is there by its name alone, read once from its beginning.
struct Source {
    GivenRows& rows;
    std::int64_t columns;
    std::exception_ptr failure = nullptr;  // none may pass through SQLite
};

struct Table : sqlite3_vtab {
    Source* source = nullptr;
};

struct Cursor : sqlite3_vtab_cursor {
    Source* source = nullptr;
    std::int64_t at = 0;
    bool more = false;

    int advance() {
        try {
            more = source->rows.next();
            ++at;
            return SQLITE_OK;
        } catch (const std::bad_alloc&) {
            source->failure = std::current_exception();
            return SQLITE_NOMEM;
        } catch (...) {
            source->failure = std::current_exception();
            return SQLITE_ERROR;
        }
    }
};

Cursor& own(sqlite3_vtab_cursor* cursor) { return *static_cast<Cursor*>(cursor); }

int connect(sqlite3* handle, void* source, int, const char* const*, sqlite3_vtab** into, char**) {
    auto* const table = new (std::nothrow) Table;
    if (!table) return SQLITE_NOMEM;
    table->source = static_cast<Source*>(source);
    std::string columns = "CREATE TABLE given(";
    for (std::int64_t i = 0; i < table->source->columns; ++i) columns += (i ? ",c" : "c") + std::to_string(i);
    const int code = sqlite3_declare_vtab(handle, (columns + ")").c_str());
    if (code == SQLITE_OK) *into = table;
    else delete table;
    return code;
}

int disconnect(sqlite3_vtab* table) {
    delete static_cast<Table*>(table);
    return SQLITE_OK;
}

int open(sqlite3_vtab* table, sqlite3_vtab_cursor** into) {
    auto* const cursor = new (std::nothrow) Cursor;
    if (!cursor) return SQLITE_NOMEM;
    cursor->source = static_cast<Table*>(table)->source;
    *into = cursor;
    return SQLITE_OK;
}

int close(sqlite3_vtab_cursor* cursor) {
    delete &own(cursor);
    return SQLITE_OK;
}

sqlite3_module module_of_given_rows() {
    sqlite3_module module{};
    module.xConnect = connect;
    module.xDisconnect = disconnect;
    module.xBestIndex = [](sqlite3_vtab*, sqlite3_index_info*) { return SQLITE_OK; };
    module.xOpen = open;
    module.xClose = close;
    module.xFilter = [](sqlite3_vtab_cursor* cursor, int, const char*, int, sqlite3_value**) {
        return own(cursor).advance();
    };
    module.xNext = [](sqlite3_vtab_cursor* cursor) { return own(cursor).advance(); };
    module.xEof = [](sqlite3_vtab_cursor* cursor) { return own(cursor).more ? 0 : 1; };
    module.xColumn = [](sqlite3_vtab_cursor* cursor, sqlite3_context* into, int column) {
        own(cursor).source->rows.cell(column, GivenCell(into));
        return SQLITE_OK;
    };
    module.xRowid = [](sqlite3_vtab_cursor* cursor, sqlite3_int64* into) {
        *into = own(cursor).at;
        return SQLITE_OK;
    };
    return module;
}

}  // namespace

void GivenCell::set(std::int64_t value) { sqlite3_result_int64(into_, value); }
void GivenCell::set(double value) { sqlite3_result_double(into_, value); }
void GivenCell::set_null() { sqlite3_result_null(into_); }
void GivenCell::set_view(std::string_view text) {
    sqlite3_result_text64(into_, text.data() ? text.data() : "", text.size(), SQLITE_STATIC, SQLITE_UTF8);
}

void insert_rows(Database& database, const std::string& table, const std::string& columns, GivenRows& rows) {
    static const sqlite3_module module = module_of_given_rows();
    Source source{rows, std::count(columns.begin(), columns.end(), ',') + 1};
    const auto known_as_given = [&](const sqlite3_module* how) {
        return sqlite3_create_module_v2(database.handle(), name_in_sql, how, &source, nullptr);
    };
    if (const int code = known_as_given(&module); code != SQLITE_OK) database.fail(code, table);
    try {
        database.execute(fmt::format("INSERT INTO {} ({}) SELECT * FROM {}", table, columns, name_in_sql));
    } catch (...) {
        known_as_given(nullptr);
        if (source.failure) std::rethrow_exception(source.failure);
        throw;
    }
    known_as_given(nullptr);
}

}  // namespace casebound
