// The whole contract between casebound and a domain plugin; a plugin sees nothing else of core.
//
// A plugin is a shared library that exports one plain-data symbol, `casebound_manifest`. Its stamp is
// read from the file before any code of the plugin runs; a plugin built against another version of this
// header, or by another compiler, is refused. Objects cross this edge by value or const reference;
// whoever made an object destroys it. Plugins never open files or databases, print, or start threads.
// A domain may lower a verdict or add a caution, a companion or a question. It can never raise one.
#pragma once

#include <cstdint>
#include <cstdlib>
#include <limits>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "core/contract/valid_range.h"

namespace casebound {

// ---------------------------------------------------------------- facts and where they come from

// Strongest first. An answer carries the weakest evidence on the path that decided it.
enum class Evidence : std::uint8_t { law, standard, maker, measured, common_practice, memory, invented };

// One row of a pack, named so that a person can open it.
struct Origin {
    std::string pack;      // "demo-fleet"
    std::string file;      // "applications.csv"
    std::uint32_t line{};  // line in the file, the header is line 1
    std::string source;    // title and edition of the work; "common practice, no source"
    Evidence evidence = Evidence::invented;
};

// A row of a table, cells as text in the table's own order. An empty cell is "not stated".
struct Row {
    Origin origin;
    std::vector<std::pair<std::string, std::string>> cells;
    std::string_view text(std::string_view column) const;         // "" when absent
    std::optional<double> number(std::string_view column) const;  // nothing when empty or not a number
};

// Read access to the catalog: the domain's own tables (`<domain>_...`) and core's pack tables
// (`items`, `groups`, `group_members`, `applications`, `lines`, ...; see schema/core.sql).
class Facts {
public:
    virtual ~Facts() = default;
    // Rows whose `column` equals `value`, in pack and file order; every row when `column` is empty.
    // Kept as long as the facts are. Throws std::invalid_argument for a table that is not the domain's own or core's.
    virtual const std::vector<Row>& rows(std::string_view table, std::string_view column = {},
                                         std::string_view value = {}) const = 0;
};

// ---------------------------------------------------------------- vocabulary

enum class ValueKind : std::uint8_t { choice, yes_no, number, year, month };  // month is YYYY-MM

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
    std::string unit;                    // for numbers: "mm", "ohm", "degC"; else empty
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

struct Role {
    std::string name;  // kebab-case: "filter-neck-seal"
    std::string title;
    std::string item_kind;
    bool exact_only{};  // safety: no stand-in is ever offered
};

struct Vocabulary {
    std::vector<Attribute> attributes;
    std::vector<ItemKind> item_kinds;
    std::vector<Role> roles;
};

// ---------------------------------------------------------------- verdicts

// Order matters: a domain may only move a verdict towards the end of this list, except that
// `not_answered` is core's own (the domain is not loaded).
enum class Verdict : std::uint8_t {
    fits,
    none_needed,
    check_first,
    sources_disagree,
    not_recorded,
    does_not_fit,
    not_answered
};

struct SourceNote {
    Evidence evidence = Evidence::common_practice;
    std::string title = "common practice, no source";
};

// ---------------------------------------------------------------- the vehicle as a domain sees it

struct PossibleValue {
    std::string text;              // as written in the pack: "38 mm", "4wd"
    std::optional<double> number;  // in the attribute's unit; month as year * 12 + month - 1
    double share{};                // of the configurations still possible, by weight; sums to 1
};

struct Told {
    std::string attribute, text, evidence, date;  // evidence: measured, read, seller said, assumed
    std::optional<double> number;
    std::vector<std::string> seen() const;  // what is seen side by side: "a+b" is a, b
};

class VehicleView {
public:
    virtual ~VehicleView() = default;
    virtual std::string name() const = 0;  // "bookvan"
    virtual std::string line() const = 0;  // the vehicle line's key
    virtual std::vector<PossibleValue> possible(
        std::string_view attribute) const = 0;   // empty: not an attribute of this line
    virtual std::vector<Told> told() const = 0;  // newest entry per attribute, findings included
};

// ---------------------------------------------------------------- the possibilities engine, lent to domains

struct Alternative {
    std::string label;  // alternatives may share a label; their shares are added
    double weight = 1;
    std::vector<std::string> values;  // one per attribute of the table; "" means nothing is said
};

struct AlternativeTable {
    std::vector<Attribute> attributes;
    std::vector<Alternative> alternatives;
};

struct Ranking {
    struct Place {
        std::string label;
        double share;
    };
    struct Question {
        std::string attribute, how;
        double minutes{};
        double gain_bits{};
    };
    std::vector<Place> places;        // largest share first; empty when the findings contradict each other
    std::vector<Question> questions;  // best information per minute first
    std::string contradiction;        // names the findings that leave nothing
};

class Reasoner {
public:
    virtual ~Reasoner() = default;
    // `findings`: attribute and value (a condition's right side: "a", "a|b", "11..16").
    virtual Ranking rank(const AlternativeTable& table,
                         const std::vector<std::pair<std::string, std::string>>& findings) const = 0;
};

struct Services {
    const Facts& facts;
    const Reasoner& reasoner;
    const VehicleView* vehicle = nullptr;  // null when the question is about no vehicle
};

// ---------------------------------------------------------------- check, examine, may stand in

// A fault of a pack. The text says what is wrong and what to do.
struct Fault {
    Origin origin;
    std::string column, what;
};

struct Candidate {
    std::string role, group, item;  // item is empty when the group as a whole is examined
};

// "On configurations where `condition` holds (empty: all), the verdict is at most `at_most`."
// Core meets the condition with the possibilities left, so a domain never counts configurations.
// `condition` may name only attributes of the vehicle's line.
struct Objection {
    std::string condition;
    Verdict at_most = Verdict::does_not_fit;
    std::string reason;
    SourceNote source;
};

struct Companion {
    std::string role, reason;  // a further role that this candidate needs
    SourceNote source;
};

struct Examination {
    std::vector<Objection> objections;
    std::vector<std::string> cautions;
    std::vector<Companion> companions;
    std::vector<std::string> questions;  // attributes worth finding out before ordering this candidate
};

struct Substitution {
    std::string wanted_group, wanted_item;  // item may be empty
    std::string offered_group, offered_item;
    std::string role;     // may be empty
    bool claimed_only{};  // the offered item is in its group by its seller's claim only
};

struct Opinion {
    Verdict at_most = Verdict::fits;   // does_not_fit is a veto
    std::vector<std::string> reasons;  // required when the verdict is lowered
    std::vector<std::string> conditions, cautions;
    SourceNote source;
};

// What a domain makes of a value that is told, where a range or a list cannot say it: codes, gears.
struct Telling {
    std::string text;                  // as it is to be kept; empty: as typed
    std::vector<std::string> faults;   // it cannot be: what, and what to write instead
    std::vector<std::string> unusual;  // it is taken, and this is said
};

// ---------------------------------------------------------------- inquiries and their answer

struct Measure {
    double value{};
    std::string unit;
    int decimals = 1;
};

struct AnswerLine {
    std::string label;
    std::variant<std::string, Measure> value;
    SourceNote source;
};

struct Curve {
    std::string name;
    std::vector<std::pair<double, double>> points;
};

struct Series {
    std::string title, x_label, x_unit, y_label, y_unit;
    bool log_y{};
    std::vector<Curve> curves;
    std::vector<std::pair<double, std::string>> marks;  // x and its label
};

struct Grid {  // a table worth seeing as one, such as an apply table
    std::string title;
    std::vector<std::string> columns;
    std::vector<std::vector<std::string>> rows;
    std::vector<std::size_t> marked_rows;
};

struct Shape {  // mm, x to the right, y downwards
    enum class Kind : std::uint8_t { box, line, note } kind = Kind::box;
    double x{}, y{}, width{}, height{};
    std::string label;
    bool emphasis{};
};

struct Picture {
    std::string title, text_equivalent;
    std::vector<Shape> shapes;
};

struct Answer {
    Verdict verdict = Verdict::fits;
    std::string headline;  // one sentence that a person can act on
    std::vector<AnswerLine> lines;
    std::vector<std::string> assumptions, cautions, next;  // next: what to do or find out
    std::vector<Series> series;
    std::vector<Grid> grids;
    std::vector<Picture> pictures;
};

// A typed input. Numbers are converted to `unit` before the inquiry sees them; out of range is refused
// by core with the range. `attribute` names the vehicle attribute that fills it when not given by hand.
struct Input {
    enum class Kind : std::uint8_t { number, text, choice, yes_no, number_list, text_list, date } kind = Kind::number;
    std::string name, title, unit;
    double min = -std::numeric_limits<double>::infinity();
    double max = std::numeric_limits<double>::infinity();
    std::vector<std::string> choices{};
    bool required{};
    std::string fallback{};  // used, and shown as assumed, when nothing is given
    std::string attribute{};
    std::string help{};
};

struct GivenValue {
    std::string text;                // as typed, or the choice
    std::vector<double> numbers;     // in the input's unit
    std::vector<std::string> items;  // for text lists
    std::string origin;              // "given", "told: measured 2026-11-25", "assumed", "demo-fleet, items.csv:41"
};

class Given {
public:
    std::map<std::string, GivenValue, std::less<>> values;
    bool has(std::string_view name) const { return values.find(name) != values.end(); }
    // Requires: has(name), or the input is required or has a fallback.
    double number(std::string_view name) const { return values.find(name)->second.numbers.at(0); }
    const std::string& text(std::string_view name) const { return values.find(name)->second.text; }
    const std::vector<double>& numbers(std::string_view name) const { return values.find(name)->second.numbers; }
    const std::vector<std::string>& items(std::string_view name) const { return values.find(name)->second.items; }
    bool yes(std::string_view name) const { return has(name) && text(name) == "yes"; }
    std::optional<double> maybe_number(std::string_view name) const {
        return has(name) ? std::optional(number(name)) : std::nullopt;
    }
};

// `run` throws std::domain_error ("what: got X: valid range is A to B") for inputs that make no sense
// together; core shows it as bad data.
struct Inquiry {
    std::string name, title;  // kebab-case name: "level-rise"
    std::vector<Input> inputs;
    Answer (*run)(const Given&, const Services&) = nullptr;
};

// ---------------------------------------------------------------- the domain and its manifest

class Domain {
public:
    virtual ~Domain() = default;
    virtual Vocabulary vocabulary() const = 0;
    // The SQL of schema/<domain>.sql: tables named `<domain>_...` only. The build embeds it.
    virtual std::string_view schema() const = 0;
    // The domain's own consistency rules over rows of `pack`; every fault, not the first.
    virtual std::vector<Fault> check(const Facts&, std::string_view pack) const {
        (void)pack;
        return {};
    }
    virtual Examination examine(const Candidate&, const Services&) const { return {}; }
    virtual Opinion may_stand_in(const Substitution&, const Services&) const { return {}; }
    virtual std::vector<Inquiry> inquiries() const { return {}; }
    // One value of one of the domain's attributes, before it is written down and when it is shown.
    virtual Telling telling(std::string_view attribute, std::string_view text, const Services&) const {
        (void)attribute, (void)text;
        return {};
    }
};

inline std::vector<std::string> Told::seen() const {
    std::vector<std::string> all(1);
    for (const char c : text) {
        if (c == '+') all.emplace_back();
        else all.back() += c;
    }
    return all;
}

inline std::string_view Row::text(std::string_view column) const {
    for (const auto& [name, value] : cells)
        if (name == column) return value;
    return {};
}

inline std::optional<double> Row::number(std::string_view column) const {
    const std::string cell{text(column)};
    if (cell.empty()) return std::nullopt;
    char* end = nullptr;
    const double value = std::strtod(cell.c_str(), &end);
    return *end == '\0' ? std::optional(value) : std::nullopt;
}

// First in the section `.casebound` of the file, so that it can be read without loading.
struct Manifest {
    char magic[8];    // "CASEBND"
    char stamp[80];   // CASEBOUND_STAMP: sha256 of this header, and the compiler
    char domain[32];  // snake_case
    const Domain& (*domain_instance)();
};

inline constexpr char manifest_magic[8] = "CASEBND";
inline constexpr const char* manifest_section = ".casebound";

}  // namespace casebound

// In exactly one file of a plugin:
//   CASEBOUND_MANIFEST("door_seals", instance)   with   const casebound::Domain& instance();
#define CASEBOUND_MANIFEST(domain_name, instance)                                  \
    extern "C" __attribute__((visibility("default"), used, section(".casebound"))) \
    const casebound::Manifest casebound_manifest{"CASEBND", CASEBOUND_STAMP, domain_name, &instance};
