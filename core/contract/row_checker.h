// What a domain's check of a pack is written in; part of the contract, and nothing but shorthand. Says what is wrong of
// the rows of one pack, and reads those of all.
#pragma once

#include <cstddef>
#include <initializer_list>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound {

class RowChecker {
public:
    RowChecker(const Facts& facts, std::string_view pack) : facts_(facts), pack_(pack) {}
    std::vector<RowFault> found() { return std::move(faults_); }

protected:
    ~RowChecker() = default;

    void fault(const Row& row, const char* column, std::string what) {
        if (row.origin.pack == pack_) faults_.push_back({row.origin, column, std::move(what)});
    }
    // Two rows that `clash(a, b)` finds at odds: the later one, with the words for the line of the earlier.
    template <class Clash> void each_at_odds(const std::vector<Row>& rows, const char* column, std::string_view before,
                                             std::string_view behind, Clash&& clash) {
        for (std::size_t i = 0; i < rows.size(); ++i)
            for (std::size_t j = 0; j < i; ++j)
                if (clash(rows[i], rows[j]))
                    fault(rows[i], column,
                          std::string(before).append(std::to_string(rows[j].origin.line)).append(behind));
    }
    static bool alike_in(const Row& a, const Row& b, std::initializer_list<const char*> columns) {
        for (const auto* column : columns)
            if (a.text(column) != b.text(column)) return false;
        return true;
    }

    const Facts& facts_;
    std::string_view pack_;
    std::vector<RowFault> faults_{};
};

// What a checker finds by its rules: each row of a table by itself, then rows of a table beside each other.
template <class Checker> using RowRule = std::pair<std::string_view, void (Checker::*)(const Row&)>;
template <class Checker> using RowsRule = std::pair<std::string_view, void (Checker::*)(const std::vector<Row>&)>;

template <class Checker> std::vector<RowFault> faults_by(const Facts& facts, std::string_view pack,
                                                         std::initializer_list<RowRule<Checker>> each,
                                                         std::initializer_list<RowsRule<Checker>> together) {
    Checker checker(facts, pack);
    for (const auto& [table, rule] : each)
        for (const auto& row : facts.rows(table)) (checker.*rule)(row);
    for (const auto& [table, rule] : together) (checker.*rule)(facts.rows(table));
    return checker.found();
}

}  // namespace casebound
