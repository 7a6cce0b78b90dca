// The rows of one pack in memory, compact enough for ten million applications: keys and conditions are interned,
// the four large tables are records, all others rows of cells. Rows with faults are in it too; nothing that has a
// fault is ever stored. Never checks.
#pragma once

#include <cstddef>
#include <cstdint>
#include <deque>
#include <memory>
#include <string_view>
#include <vector>

#include "core/ground/interner.h"
#include "core/pack/pack_shape.h"

namespace casebound {

// Absent cells are name 0, text 0. `line` is the line in the file.
struct PackItem {
    NameId item{}, kind{}, source{}, title{}, withdrawn{};
    std::uint32_t line{};
    double pack_quantity{};
};
struct PackGroup {
    NameId group{}, kind{}, source{}, title{};
    std::uint32_t line{};
};
struct PackMember {
    NameId group{}, item{}, source{};
    std::uint32_t line{};
    std::uint8_t basis{};
};
struct PackApplication {
    static constexpr std::uint8_t fits = 0, does_not_fit = 1, none_needed = 2;  // as in the catalog
    double quantity{};                                                          // 0: not stated
    NameId vehicle_line{}, role{}, group{}, condition{}, source{}, note{}, withdrawn{};
    std::uint32_t line{};
    std::uint8_t says{};
};

struct PlainTable {
    const TableShape* shape = nullptr;
    LargeVector<std::string_view> cells;  // row by row
    LargeVector<NameId> names;            // same layout; 0 where a column holds no names
    LargeVector<std::uint32_t> lines;

    std::size_t rows() const { return lines.size(); }
    std::string_view cell(std::size_t row, std::size_t column) const {
        return cells[row * shape->columns.size() + column];
    }
    NameId name(std::size_t row, std::size_t column) const { return names[row * shape->columns.size() + column]; }
};

// One number per row, wherever it lies.
class Strided {
public:
    Strided() = default;
    Strided(const std::uint32_t* first, std::size_t stride_bytes)
        : first_(reinterpret_cast<const std::byte*>(first)), stride_(stride_bytes) {}
    explicit operator bool() const { return first_ != nullptr; }
    std::uint32_t operator[](std::size_t row) const {
        return *reinterpret_cast<const std::uint32_t*>(first_ + row * stride_);
    }

private:
    const std::byte* first_ = nullptr;
    std::size_t stride_ = 0;
};

// Any table, record or plain, as columns of names.
struct TableView {
    const TableShape* shape = nullptr;
    std::size_t rows = 0;
    std::vector<Strided> names;  // one a column; false where it holds no names, or the table has no row
    Strided lines;
    const PlainTable* plain = nullptr;  // null for a record table
};

// Where a reader puts the rows of one table.
class RowTaker {
public:
    virtual ~RowTaker() = default;
    // About so many rows will come; more or fewer may.
    virtual void expect(std::size_t rows) = 0;
    // As many cells and numbers as the table has columns.
    virtual void take(std::uint32_t line, const std::vector<std::string_view>& cells,
                      const std::vector<double>& numbers) = 0;
};

class PackData {
public:
    Interner names;  // keys, roles, kinds and conditions
    Interner texts;  // titles, notes, reasons of the record tables
    LargeVector<PackItem> items;
    LargeVector<PackGroup> groups;
    LargeVector<PackMember> members;
    LargeVector<PackApplication> applications;
    std::deque<PlainTable> plain;
    std::vector<const TableShape*> unreadable;  // their header is wrong: nothing may be said of their keys

    std::unique_ptr<RowTaker> taker(const TableShape& table);
    std::vector<TableView> views(const PackShape& shape) const;  // of the tables that have rows
    const PlainTable* find(std::string_view table) const;
    std::size_t rows(const TableShape& table) const;
    bool readable(const TableShape& table) const;

private:
    friend class PlainTaker;
    Arena cells_;
};

}  // namespace casebound
