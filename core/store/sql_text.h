// What SQLite keeps of a CREATE TABLE but does not tell: comments and CHECK expressions, taken from its text.
// Reads only text that SQLite has already accepted; never judges SQL.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace casebound {

struct SqlDefinition {
    std::string text;     // of one column or table constraint, comments left out
    std::string comment;  // the `--` comments beside it, joined by a blank
    std::string name;     // first word, unquoted: the column's name, or CHECK, UNIQUE, ...
};

std::vector<SqlDefinition> definitions_in(std::string_view create_table);

// The `--` lines directly above `CREATE TABLE <table>`, joined by a blank.
std::string comment_above(std::string_view sql, std::string_view table);

// The expressions inside CHECK (...).
std::vector<std::string> checks_in(std::string_view definition);

// The texts of `<column> IN ('a', 'b')` when the expression is just that; else none.
std::vector<std::string> choices_in(std::string_view expression, std::string_view column);

// `<column> >= 1.5` and the like when the expression is just that.
struct SqlBound {
    double value{};
    bool minimum{}, exclusive{};
};
std::vector<SqlBound> bounds_in(std::string_view expression, std::string_view column);

}  // namespace casebound
