// The words that a domain brings: what can be found out about a vehicle, kinds of items, and the places that parts
// fill. Part of the contract with plugins; plain data.
#pragma once

#include <cstdint>
#include <limits>
#include <string>
#include <utility>
#include <vector>

namespace casebound {

// A month is YYYY-MM; a size is lengths in the attribute's unit, "25x32x7".
enum class ValueKind : std::uint8_t { choice, yes_no, number, year, month, size };

// What a told number can be, in its attribute's unit. Outside `least`..`most` it is refused; outside what is usual it
// is taken, and said.
struct Extent {
    double least = -std::numeric_limits<double>::infinity(), most = std::numeric_limits<double>::infinity();
    double usual_least = least, usual_most = most;
    bool whole{};  // a count
};

// Something that can be found out: about the vehicle (identity), or about its trouble (finding).
struct Attribute {
    std::string name;  // snake_case: "pan_depth"
    std::string title;
    ValueKind kind = ValueKind::choice;
    std::string unit;                    // for numbers and sizes: "mm", "ohm", "degC"; else empty
    double tolerance{};                  // a told number agrees with a recorded one within this, in `unit`
    std::string how;                     // how to find it out, imperative, one line
    double minutes = 5;                  // effort
    bool raised{};                       // vehicle must be raised
    bool dismantling{};                  // something must come off
    bool finding{};                      // true: an observation of trouble; false: identity of the vehicle
    std::vector<std::string> choices{};  // closed list of values, empty when open
    Extent extent{};                     // of numbers
    std::vector<std::string> words{};    // taken where a number is wanted: "open"
    bool several{};                      // a choice of which several may be seen side by side: two leaks, "a+b"
    std::string alone{};                 // of several: the value that says there is none, "dry"
};

struct ItemKind {
    std::string name;  // kebab-case: "pan-filter"
    std::string title;
    std::string unit;  // "each" or "L": the unit quantities of this kind are given in
};

// May anything else than the recorded part be offered for a place? Brake, steering and airbag parts: no.
enum class StandIns : std::uint8_t { may_be_offered, exact_part_only };

constexpr StandIns stand_ins_from(bool exact_only) {
    return exact_only ? StandIns::exact_part_only : StandIns::may_be_offered;
}

// What decides whether a part goes into a place and works there: columns of one of the domain's tables that has a row a
// group. Two groups are the same to the place where every column is stated of both and equal; where one is stated of
// both and differs, only one of them can be right.
struct DecidingColumn {
    std::string column, title;  // "height_mm", "height, mm"
    double within{};            // numbers no farther apart are the same, in the column's unit
    bool may_be_bare{};         // empty says that there is none: a grade mark
};
struct DecidedBy {
    std::string table;
    std::vector<DecidingColumn> columns{};
};

struct Role {
    Role(std::string name_, std::string title_, std::string item_kind_, StandIns stand_ins_, DecidedBy decided_by_ = {})
        : name(std::move(name_)), title(std::move(title_)), item_kind(std::move(item_kind_)), stand_ins(stand_ins_),
          decided_by(std::move(decided_by_)) {}
    std::string name;  // kebab-case: "filter-neck-seal"
    std::string title;
    std::string item_kind;
    StandIns stand_ins;
    DecidedBy decided_by;  // of no column: nothing here can be compared
    bool upkeep{};         // due by age or distance, whatever ails the vehicle: a job that needs only such is no cure
    bool exact_only() const { return stand_ins == StandIns::exact_part_only; }
};

struct Vocabulary {
    std::vector<Attribute> attributes;
    std::vector<ItemKind> item_kinds;
    std::vector<Role> roles;
};

}  // namespace casebound
