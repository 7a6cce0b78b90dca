// Rows in memory that SQLite takes as from a table, all in one statement: with a statement a row it would look for the
// end of the table, and let go of everything, once for each of them.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

#include "core/store/sqlite.h"

struct sqlite3_context;

namespace casebound {

class GivenCell {
public:
    explicit GivenCell(sqlite3_context* into) : into_(into) {}
    void set(std::int64_t value);
    void set(double value);
    void set_view(std::string_view text);  // borrowed until all rows are stored
    void set_null();

private:
    sqlite3_context* into_;
};

class GivenRows {
public:
    virtual ~GivenRows() = default;
    virtual bool next() = 0;                                  // to the first row, then to each further one
    virtual void cell(int column, GivenCell into) const = 0;  // of the row that it is at; columns from 0
};

// INSERT INTO table (columns); rows come in the order of its primary key, or are slow. What the rows throw is thrown.
void insert_rows(Database& database, const std::string& table, const std::string& columns, GivenRows& rows);

}  // namespace casebound
