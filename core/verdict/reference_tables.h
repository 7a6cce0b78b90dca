// The table book: tables of the loaded domains that speak of no vehicle line, no part and no other table, only of what
// holds anywhere: sizes, classes, grades, codes. Each stands as one, with the source of every row, and a row is found
// by what is in the hand. Knows no domain; which tables these are follows from their schema.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/contract/facts.h"
#include "core/pack/pack_shape.h"
#include "core/verdict/in_hand.h"

namespace casebound {

struct ReferenceTable {
    const TableShape* shape;       // as long as the shape it was asked of
    const std::vector<Row>* rows;  // as long as the facts
    std::string name;              // as it is typed: "the-domain-sizes"
};

// Those that have rows, in the order of the shape.
std::vector<ReferenceTable> reference_tables(const Facts& facts, const PackShape& shape);

// By "the-domain-sizes" or "the domain sizes", also without the domain where only one table ends so; else null.
const ReferenceTable* table_named(const std::vector<ReferenceTable>& tables, const std::string& typed);

// What a column says, in words: "inside diameter"; of remarks nothing.
std::string column_says(const Column& column);

struct TableHit {
    const ReferenceTable* table;
    const Row* row;
    std::vector<std::string> apart;  // "inside diameter 24.99 mm, 0.01 less than 25"; empty: exactly
    double off{};                    // of all numbers: 0 exactly, 1 a number as far as a calliper may be off
    bool within = true;              // none is farther off than that
};

struct FoundRows {
    std::vector<TableHit> hits;          // nearest first
    bool near_only{};                    // none is within what a calliper may be off; these are the nearest
    std::size_t more{};                  // left off
    std::vector<std::string> not_known;  // words that no table knows
};

// How far a measured number and a printed one may be apart: a hundredth of it, and at least 0.15. From memory: a calliper
// on rubber or a worn thread.
double hand_within(double value);

FoundRows find_rows(const std::vector<ReferenceTable>& tables, const InHand& hand, std::size_t most);

}  // namespace casebound
