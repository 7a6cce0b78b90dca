#include "core/pack/condition_check.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ground/utf8.h"

namespace casebound {

struct ConditionCheck::Compiled {
    enum class Known : std::uint8_t { unasked, no, yes };
    struct SpanMatch {
        Matcher matcher;
        std::string text;
        std::vector<Known> known;  // by value of the axis
    };
    struct TermMatch {
        std::uint32_t axis{};
        bool negated{};
        std::vector<SpanMatch> spans;
    };
    std::string fault;
    std::vector<TermMatch> terms;
};

ConditionCheck::ConditionCheck(PackData& data, LoadedPacks& others, PackKeys& keys, const Vocabularies& words,
                               FaultList& faults)
    : data_(data), keys_(keys), faults_(faults), built_(data, others, words, faults) {}

ConditionCheck::~ConditionCheck() = default;

ConditionCheck::Compiled& ConditionCheck::compiled(NameId condition) {
    auto& slot = compiled_[condition];
    if (!slot) {
        slot = std::make_unique<Compiled>();
        compile(data_.names.text(condition), *slot);
    }
    return *slot;
}

void ConditionCheck::compile(std::string_view text, Compiled& into) {
    try {
        for (const auto& term : parse_condition(text).terms) {
            const auto& attribute = built_.attribute(term);
            Compiled::TermMatch match{built_.axis(attribute), term.negated, {}};
            for (const auto& span : term.spans) {
                Term one{term.attribute, false, {span}, term.at};
                match.spans.push_back({Matcher(attribute, one), to_text(Condition{{one}}), {}});
            }
            into.terms.push_back(std::move(match));
        }
    } catch (const ConditionFault& fault) { into.fault = at_character(fault); }
}

bool ConditionCheck::matches(Compiled& condition, std::size_t term, std::size_t span, std::uint32_t value) {
    auto& match = condition.terms[term].spans[span];
    const auto& values = built_.axis(condition.terms[term].axis).values;
    if (value >= match.known.size()) match.known.resize(values.size(), Compiled::Known::unasked);
    auto& known = match.known[value];
    if (known == Compiled::Known::unasked)
        known = match.matcher.matches(values[value]) ? Compiled::Known::yes : Compiled::Known::no;
    return known == Compiled::Known::yes;
}

bool ConditionCheck::allows(Compiled& condition, std::size_t term, std::uint32_t value) {
    bool any = false;
    for (std::size_t span = 0; span < condition.terms[term].spans.size() && !any; ++span)
        any = matches(condition, term, span, value);
    return any != condition.terms[term].negated;
}

bool ConditionCheck::value_possible(Compiled& condition, std::size_t term, std::size_t span, const Rows& rows) {
    for (const auto* row : rows) {
        const auto* slot = row->find(condition.terms[term].axis);
        for (std::uint32_t i = 0; slot && i < slot->count; ++i)
            if (matches(condition, term, span, row->values[slot->first + i])) return true;
    }
    return false;
}

bool ConditionCheck::met_by(Compiled& condition, const BuiltRow& row) {
    for (std::size_t term = 0; term < condition.terms.size(); ++term) {
        const auto axis = condition.terms[term].axis;
        const auto* slot = row.find(axis);
        bool any = false;
        for (std::uint32_t i = 0; slot && i < slot->count && !any; ++i) {
            any = true;
            for (std::size_t other = 0; other < condition.terms.size() && any; ++other)
                if (condition.terms[other].axis == axis) any = allows(condition, other, row.values[slot->first + i]);
        }
        if (!any) return false;
    }
    return true;
}

std::string ConditionCheck::fault_anywhere(NameId condition) { return compiled(condition).fault; }

std::string ConditionCheck::fault_on(NameId key, NameId condition_name) {
    auto& condition = compiled(condition_name);
    if (!condition.fault.empty()) return condition.fault;
    if (!built_.readable() || !keys_.known("lines", "line", key)) return {};
    const auto rows = built_.rows(key);
    const auto name = [&] { return shown(data_.names.text(key)); };
    const auto sound = std::find_if(rows.begin(), rows.end(), [](const BuiltRow* row) { return row->fault.empty(); });
    if (rows.empty()) return {};  // nobody has listed them: what conditions speak of is asked
    if (sound == rows.end()) return {};
    for (std::size_t term = 0; term < condition.terms.size(); ++term) {
        const auto axis = condition.terms[term].axis;
        const auto& attribute = built_.axis(axis).attribute->name;
        if (!(*sound)->find(axis))
            return fmt::format("{} is not an attribute of {}: its configurations give {}", attribute, name(),
                               built_.attributes_of(**sound));
        for (std::size_t span = 0; span < condition.terms[term].spans.size(); ++span)
            if (!value_possible(condition, term, span, rows))
                return fmt::format("no configuration of {} has {}: there is {}", name(),
                                   condition.terms[term].spans[span].text, built_.values_on(rows, axis));
    }
    if (std::any_of(rows.begin(), rows.end(), [&](const BuiltRow* row) { return met_by(condition, *row); })) return {};
    return fmt::format("no configuration of {} meets this: each value occurs, but never all together", name());
}

void ConditionCheck::check_conditions(const std::vector<TableView>& views) {
    for (const auto& view : views)
        for (std::size_t i = 0; i < view.shape->columns.size(); ++i)
            if (view.shape->columns[i].kind == CellKind::condition) check_condition_column(view, i);
            else if (view.shape->columns[i].kind == CellKind::findings) check_findings_column(view, i);
}

// "" when each attribute is a finding and every value is one it can have. What was found meets no configuration.
std::string ConditionCheck::fault_of_findings(std::string_view text) const {
    try {
        for (const auto& term : parse_condition(text).terms) Matcher(built_.finding(term), term);
        return {};
    } catch (const ConditionFault& fault) { return at_character(fault); }
}

void ConditionCheck::check_findings_column(const TableView& view, std::size_t column) {
    for (std::size_t row = 0; row < view.rows; ++row)
        if (auto fault = fault_of_findings(data_.names.text(view.names[column][row])); !fault.empty())
            faults_.at(*view.shape, view.lines[row], column, std::move(fault));
}

void ConditionCheck::check_condition_column(const TableView& view, std::size_t column) {
    const auto& columns = view.shape->columns;
    const auto line_column = static_cast<std::size_t>(
        std::find_if(columns.begin(), columns.end(),
                     [](const Column& c) { return c.refers && c.refers->table == "lines"; }) -
        columns.begin());
    std::vector<NameId> met_on(data_.names.size());  // by condition: the line that it was last found sound on
    for (std::size_t row = 0; row < view.rows; ++row) {
        const NameId condition = view.names[column][row];
        const NameId key = line_column < columns.size() ? view.names[line_column][row] : 0;
        if (condition == 0 || (key != 0 && met_on[condition] == key)) continue;
        auto fault = key != 0 ? fault_on(key, condition) : fault_anywhere(condition);
        if (fault.empty()) met_on[condition] = key;
        else faults_.at(*view.shape, view.lines[row], column, std::move(fault));
    }
}

}  // namespace casebound
