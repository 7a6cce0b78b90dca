// What a domain sees of core, small enough to read in a test: rows of packs in memory, one vehicle, and an inquiry
// asked as on the command line (core's own typing of inputs; the possibilities engine is the real one).
// All data given through these is the test's own and invented.
#pragma once

#include <algorithm>
#include <deque>
#include <map>
#include <sstream>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/contract/plugin.h"
#include "core/reason/condition.h"
#include "core/reason/reasoner.h"
#include "core/session/inquiry.h"

namespace casebound::tests {

class FakeFacts : public Facts {
public:
    // `csv`: a header line, then a line a row; cells may not hold commas. Adds to the table; lines are counted on.
    FakeFacts& table(const std::string& name, const std::string& csv, Evidence evidence = Evidence::invented,
                     const std::string& pack = "test-pack", const std::string& source = "invented for the test") {
        std::istringstream lines(csv);
        std::string line;
        std::getline(lines, line);
        const auto header = cells(line);
        auto& rows = tables_[name];
        while (std::getline(lines, line)) {
            if (line.empty()) continue;
            auto values = cells(line);
            values.resize(header.size());
            Row row;
            row.origin = {pack, name + ".csv", static_cast<std::uint32_t>(rows.size() + 2), source, evidence};
            for (std::size_t i = 0; i < header.size(); ++i) row.cells.emplace_back(header[i], values[i]);
            rows.push_back(std::move(row));
        }
        return *this;
    }

    const std::vector<Row>& rows(std::string_view table, std::string_view column = {},
                                 std::string_view value = {}) const override {
        const auto found = tables_.find(table);
        auto& result = answered_.emplace_back();
        if (found == tables_.end()) return result;
        for (const auto& row : found->second)
            if (column.empty() || row.text(column) == value) result.push_back(row);
        return result;
    }

private:
    static std::vector<std::string> cells(const std::string& line) {
        std::vector<std::string> values;
        std::istringstream parts(line);
        for (std::string cell; std::getline(parts, cell, ',');) values.push_back(cell);
        return values;
    }
    std::map<std::string, std::vector<Row>, std::less<>> tables_;
    mutable std::deque<std::vector<Row>> answered_;  // a row lives as long as the facts
};

class FakeVehicle : public VehicleView {
public:
    // Possible values, each with the same share; a number is read from the front of the text.
    FakeVehicle& may_be(const std::string& attribute, const std::vector<std::string>& values) {
        auto& possible = possible_[attribute];
        for (const auto& value : values)
            possible.push_back({value, leading_number(value), 1.0 / static_cast<double>(values.size())});
        return *this;
    }
    FakeVehicle& tell(const std::string& attribute, const std::string& text,
                      TellEvidence evidence = TellEvidence::measured, const std::string& date = "2026-11-25") {
        told_.push_back({attribute, text, evidence, date, leading_number(text)});
        return *this;
    }

    std::string name() const override { return "yardvan"; }
    std::string line() const override { return "test-line"; }
    std::vector<PossibleValue> possible(std::string_view attribute) const override {
        if (const auto found = possible_.find(attribute); found != possible_.end()) return found->second;
        std::vector<PossibleValue> values;
        for (const auto& told : told_)
            if (told.attribute == attribute && told.text.find_first_of("<>.") == std::string::npos)
                for (const auto& one : told.alternatives())
                    values.push_back({one, leading_number(one), 1.0 / static_cast<double>(told.alternatives().size())});
        return values;
    }
    std::vector<Told> told() const override { return told_; }
    Evidence left_rests_on() const override { return Evidence::invented; }
    // By each attribute alone: the values of one do not depend on another's.
    Holds holds(std::string_view condition) const override {
        auto all = Holds::yes;
        try {
            for (const auto& term : parse_condition(condition).terms) all = std::min(all, holds(term));
        } catch (const ConditionFault& fault) { throw std::invalid_argument(fault.what()); }
        return all;
    }

private:
    Holds holds(const Term& term) const {
        bool some = false, none = false;
        for (const auto& value : possible(term.attribute)) {
            Attribute attribute;
            attribute.name = term.attribute;
            attribute.kind = value.number ? ValueKind::number : ValueKind::choice;
            if (const auto blank = value.text.find(' '); value.number && blank != std::string::npos)
                attribute.unit = value.text.substr(blank + 1);
            (matches(attribute, term, value) ? some : none) = true;
        }
        return some == none ? Holds::open : some ? Holds::yes : Holds::no;
    }
    // What is seen side by side is each of them.
    static bool matches(const Attribute& attribute, Term term, const PossibleValue& value) {
        const bool negated = term.negated;
        term.negated = false;
        const Matcher matcher(attribute, term);
        bool any = matcher.matches({value.text, value.number});
        for (const auto& one : split_at(value.text, '+')) any |= matcher.matches({one, value.number});
        return any != negated;
    }
    static std::optional<double> leading_number(const std::string& text) {
        char* end = nullptr;
        const double value = std::strtod(text.c_str(), &end);
        const bool whole = end != text.c_str() && (*end == '\0' || *end == ' ');
        return whole ? std::optional(value) : std::nullopt;
    }
    std::map<std::string, std::vector<PossibleValue>, std::less<>> possible_;
    std::vector<Told> told_;
};

// An answer of the domain's inquiry `name`; throws what core throws for inputs that make no sense.
inline Answer ask(const Domain& domain, std::string_view name,
                  const std::vector<std::pair<std::string, std::string>>& inputs, const Facts& facts,
                  const VehicleView* vehicle = nullptr) {
    const Engine engine;
    for (const auto& inquiry : domain.inquiries())
        if (inquiry.name == name)
            return run_inquiry_with(GuardedDomain("test", domain), inquiry, inputs, Services{facts, engine, vehicle})
                .answer;
    throw std::logic_error("no inquiry " + std::string(name));
}

inline std::string value_text(const AnswerLine& line) {
    if (const auto* text = std::get_if<std::string>(&line.value)) return *text;
    const auto& measure = std::get<Measure>(line.value);
    std::ostringstream shown;
    shown.setf(std::ios::fixed);
    shown.precision(measure.decimals);
    shown << measure.value << (measure.unit.empty() ? "" : " " + measure.unit);
    return shown.str();
}

// The value of the first line with this label, as text; "" when there is none.
inline std::string line_text(const Answer& answer, std::string_view label) {
    for (const auto& line : answer.lines)
        if (line.label == label) return value_text(line);
    return "";
}

inline std::string joined(const std::vector<std::string>& texts) {
    std::string all;
    for (const auto& text : texts) all += text + "\n";
    return all;
}

// Everything an answer says in words, for "it never says" claims.
inline std::string all_text(const Answer& answer) {
    std::string all = answer.headline + "\n" + joined(answer.assumptions) + joined(answer.cautions) +
                      joined(answer.next);
    for (const auto& line : answer.lines)
        all += line.label + ": " + value_text(line) + " [" + line.source.title + "]\n";
    for (const auto& grid : answer.grids) {
        all += grid.title + "\n" + joined(grid.columns);
        for (const auto& row : grid.rows) all += joined(row);
    }
    for (const auto& picture : answer.pictures) all += picture.title + "\n" + picture.text_equivalent + "\n";
    for (const auto& series : answer.series) all += series.title + "\n";
    return all;
}

}  // namespace casebound::tests
