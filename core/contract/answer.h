// Inquiries: named computations with typed, unit-carrying inputs, and the one form of their answer. Part of the
// contract with plugins. Core fills the inputs, with the evidence of each, and renders the answer; an inquiry does
// neither.
#pragma once

#include <cstdint>
#include <limits>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include "core/contract/services.h"

namespace casebound {

// Order matters: a domain may only move a verdict towards the end of this list, except that
// `not_answered` is core's own (the domain is not loaded, or failed).
enum class Verdict : std::uint8_t {
    fits,
    none_needed,
    check_first,
    sources_disagree,
    not_recorded,
    does_not_fit,
    not_answered
};

// ---------------------------------------------------------------- the answer

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

// An answer that computes has no verdict; one that judges states it. Neither is the default.
struct Answer {
    static Answer computing() { return Answer{std::nullopt}; }
    static Answer judging(Verdict verdict) { return Answer{verdict}; }

    // Moves the verdict towards the end of the list, never back. What could not be computed is judged.
    void lower(Verdict at_most) {
        if (!verdict || at_most > *verdict) verdict = at_most;
    }

    std::optional<Verdict> verdict;
    std::string headline;  // one sentence that a person can act on
    std::vector<AnswerLine> lines;
    std::vector<std::string> assumptions, cautions, next;  // next: what to do or find out
    std::vector<Series> series;
    std::vector<Grid> grids;
    std::vector<Picture> pictures;

private:
    explicit Answer(std::optional<Verdict> verdict_) : verdict(verdict_) {}
};

// ---------------------------------------------------------------- what it is asked with

// Where an input is on record: rows of `table` that hold on the vehicle, or, where an input of the inquiry is a key of
// `table`, the row of that group. `match`: columns that must equal another input's value.
struct Recorded {
    std::string table, column;
    std::vector<std::pair<std::string, std::string>> match{};  // column, input
};

// A typed input. Numbers are converted to `unit` before the inquiry sees them; out of range is refused by core with
// the range. Core fills it by hand, else from what was told of the vehicle, else from the pack, else with `fallback`.
struct Input {
    enum class Kind : std::uint8_t { number, text, choice, yes_no, number_list, text_list, date } kind = Kind::number;
    std::string name, title, unit;
    double min = -std::numeric_limits<double>::infinity();
    double max = std::numeric_limits<double>::infinity();
    std::vector<std::string> choices{};
    bool required{};
    std::string fallback{};   // used, and shown as assumed, when nothing is given
    std::string attribute{};  // of the vehicle, that fills it
    std::string help{};
    std::optional<Recorded> recorded{};
    bool whole{};          // a count: 2.5 is refused
    std::string key_of{};  // a group, or an item in one, that has a row in this table
    std::string how{};     // how to find it out, imperative, when it is missing
};

// Where a value comes from, firmest first.
enum class From : std::uint8_t { by_hand, told, left, recorded, assumed };

struct GivenValue {
    std::string text;                  // as typed, or the choice
    std::vector<double> numbers{};     // in the input's unit
    std::vector<std::string> items{};  // for text lists
    From from = From::by_hand;
    SourceNote source{};       // how it is known, in words, and the evidence of it
    std::string only_where{};  // a record that may hold: the condition; empty where it holds
    bool hearsay{};            // assumed, or told and neither measured nor read
};

// The inputs of one run. Remembers which were asked for: an answer is no better than what it used.
class Given {
public:
    std::map<std::string, GivenValue, std::less<>> values;
    // Records that may hold and differ: then the input has no value.
    std::map<std::string, std::vector<GivenValue>, std::less<>> undecided;

    bool has(std::string_view name) const {
        asked_.emplace(name);
        return values.find(name) != values.end();
    }
    const GivenValue& value(std::string_view name) const {  // Requires: has(name), or required, or a fallback
        asked_.emplace(name);
        return values.find(name)->second;
    }
    const GivenValue* find(std::string_view name) const { return has(name) ? &value(name) : nullptr; }
    double number(std::string_view name) const { return value(name).numbers.at(0); }
    const std::string& text(std::string_view name) const { return value(name).text; }
    const std::vector<double>& numbers(std::string_view name) const { return value(name).numbers; }
    const std::vector<std::string>& items(std::string_view name) const { return value(name).items; }
    bool yes(std::string_view name) const { return has(name) && text(name) == "yes"; }
    std::optional<double> maybe_number(std::string_view name) const {
        return has(name) ? std::optional(number(name)) : std::nullopt;
    }
    std::optional<bool> maybe_yes(std::string_view name) const {
        return has(name) ? std::optional(yes(name)) : std::nullopt;
    }
    std::string text_or(std::string_view name, std::string otherwise = {}) const {
        return has(name) ? text(name) : std::move(otherwise);
    }
    // How the value is known; common practice for one that is not given.
    SourceNote source(std::string_view name) const { return has(name) ? value(name).source : SourceNote{}; }
    bool hearsay(std::string_view name) const { return has(name) && value(name).hearsay; }
    const std::set<std::string, std::less<>>& asked() const { return asked_; }

private:
    mutable std::set<std::string, std::less<>> asked_;
};

// `run` throws std::domain_error ("what: got X: valid range is A to B") for inputs that make no sense
// together; core shows it as bad data.
struct Inquiry {
    std::string name, title;  // kebab-case name: "level-rise"
    std::vector<Input> inputs;
    Answer (*run)(const Given&, const Services&) = nullptr;
    std::string example{};  // what is typed behind its name, as it works: "thread=10mm pitch=1.5mm"
};

}  // namespace casebound
