// One row of a seller's list by what its columns are: texts, amounts of money, and how much a pack holds. What cannot
// be read as that is a reason not to take it. Knows no part.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/book/list_file.h"
#include "core/work/list_mapping.h"

namespace casebound {

// Why a row, or a part of it, is not taken.
struct Reason {
    std::string why;
};

class ListRow {
public:
    // `currency`: the shop's; "" when it is not set, then the first that the list names.
    ListRow(const ListMapping& mapping, const std::string& currency);

    std::vector<std::string> take_header(const std::vector<BookCell>& cells);  // as it stands, tidied
    void take(unsigned long line, const std::vector<BookCell>& cells);         // kept until the next

    unsigned long line() const { return line_; }
    std::vector<std::string> as_it_stands() const;
    const std::map<std::string, std::size_t, std::less<>>& columns() const { return at_; }
    // The cell of the column that is `meaning`; null when no column is, or nothing stands in it.
    const BookCell* cell(std::string_view meaning) const;

    // All throw Reason; "" when nothing stands there.
    std::string text(std::string_view meaning) const;
    std::string amount(std::string_view meaning);  // "12.50"
    std::string whole(std::string_view meaning) const;
    // How much one pack holds, in `unit`; Requires: the column says something.
    double contents(const std::string& unit);

    bool needs_decimal() const { return needs_decimal_; }  // an amount has a sign, and nobody said which it is

private:
    std::string number_in(std::string_view meaning, const std::string& said);
    std::string taken_out_of(std::string& said) const;  // the currency it names, "" none
    void require_ours(const std::string& currency, std::string_view said);

    const ListMapping& mapping_;
    std::map<std::string, std::size_t, std::less<>> at_;
    std::string unit_of_column_, currency_;
    std::map<std::string, std::string, std::less<>> currency_of_column_;  // that the header names
    const bool shop_has_currency_;
    unsigned long line_ = 0;
    const std::vector<BookCell>* cells_ = nullptr;
    bool needs_decimal_ = false;
};

}  // namespace casebound
