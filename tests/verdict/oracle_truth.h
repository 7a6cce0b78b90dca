// The slow, obvious second implementation: conditions read term by term on one configuration at a time, verdicts
// decided by looking at every configuration in turn. Written from the meaning of the words, not from core.
#pragma once

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "tests/split_at.h"
#include "tests/verdict/oracle_catalog.h"

namespace casebound::tests {

// ---------------------------------------------------------------- the little evaluator

constexpr double hair = 1e-6;  // no two values of the pools are this close, unless they are the same

// "38", "38..45", "38..", "..45": one alternative of a right side.
inline bool alternative_holds(const PlainAttribute& a, const std::string& text, const PlainValue& value,
                              double tolerance) {
    const auto ends = split_at(text, "..");
    if (ends.size() == 1) {
        const auto wanted = plain_value(a, text);
        if (wanted.none || value.none) return wanted.none == value.none;
        return a.ordered() ? std::abs(wanted.number - value.number) <= tolerance + hair : wanted.word == value.word;
    }
    if (value.none) return false;
    if (!ends[0].empty() && value.number < plain_value(a, ends[0]).number - tolerance - hair) return false;
    return ends[1].empty() || value.number <= plain_value(a, ends[1]).number + tolerance + hair;
}

inline bool right_side_holds(const PlainAttribute& a, const std::string& text, const PlainValue& value,
                             double tolerance = 0) {
    for (const auto& part : split_at(text, "|"))
        if (alternative_holds(a, part, value, tolerance)) return true;
    return false;
}

inline bool comparison_holds(const PlainAttribute& a, const std::string& op, const std::string& text,
                             const PlainValue& value) {
    if (value.none) return false;
    const double bound = plain_value(a, text).number, at = value.number;
    if (op == "<") return at < bound - hair;
    if (op == "<=") return at <= bound + hair;
    return op == ">" ? at > bound + hair : at >= bound - hair;
}

inline bool term_holds(const PlainCatalog& plain, std::string text, const std::vector<PlainValue>& configuration) {
    const bool negated = text.rfind("not ", 0) == 0;
    if (negated) text = stripped(text.substr(4));
    const auto at = text.find_first_of("=<>");
    const auto name = stripped(text.substr(0, at));
    for (std::size_t a = 0; a < plain.attributes.size(); ++a) {
        if (plain.attributes[a]->name != name) continue;
        const auto& attribute = *plain.attributes[a];
        if (text[at] == '=') return right_side_holds(attribute, text.substr(at + 1), configuration[a]) != negated;
        const std::string op = text.substr(at, text[at + 1] == '=' ? 2 : 1);
        return comparison_holds(attribute, op, stripped(text.substr(at + op.size())), configuration[a]) != negated;
    }
    return false;
}

inline Where where_holds(const PlainCatalog& plain, const std::string& condition) {
    Where on;
    for (const auto& configuration : plain.configurations) {
        bool holds = true;
        if (!condition.empty())
            for (const auto& term : split_at(condition, ";")) holds = holds && term_holds(plain, term, configuration);
        on.push_back(holds);
    }
    return on;
}

// ---------------------------------------------------------------- verdicts, one configuration at a time

struct GroupTruth {
    Where on, disagreed, doubted, vetoed;  // over the whole line
    Verdict verdict = Verdict::not_recorded;
    double quantity_low = 0, quantity_high = 0;
};

struct RoleTruth {
    Where none;
    std::map<std::string, GroupTruth> groups;
    Verdict verdict = Verdict::not_recorded;
};

using Rows = std::vector<const PlainRow*>;

inline Rows rows_of(const PlainCatalog& plain, const std::string& role) {
    Rows rows;
    for (const auto& row : plain.rows)
        if (row.role == role) rows.push_back(&row);
    return rows;
}

inline bool from_memory(const PlainRow& row) { return plain_sources()[row.source].evidence == Evidence::memory; }

// Does `row` say no to the group: it does not fit, or there is no such place?
inline bool says_no(const PlainRow& row, const std::string& group) {
    return row.says == Says::none_needed || (row.says == Says::does_not_fit && row.group == group);
}

enum class Standing { unsaid, fits, does_not, disagreed };

// Says that its group fits there, and its own source excepts nothing.
inline bool says_yes(const Rows& rows, const PlainRow& row, std::size_t c) {
    return row.says == Says::fits && row.withdrawn.empty() && row.on[c] &&
           std::none_of(rows.begin(), rows.end(), [&](const PlainRow* other) {
               return other->withdrawn.empty() && other->on[c] && other->source == row.source &&
                      says_no(*other, row.group);
           });
}

// What is said of the group on one configuration. A source's own "no" is an exception to its "fits"; a statement
// from memory counts only where nothing firmer is said, and that there is no such place only where nothing firmer
// fills it.
inline Standing standing(const Rows& rows, const std::string& group, std::size_t c) {
    const bool firm_place = std::any_of(
        rows.begin(), rows.end(), [&](const PlainRow* row) { return !from_memory(*row) && says_yes(rows, *row, c); });
    std::vector<const PlainRow*> yes, no;
    for (const auto* row : rows) {
        if (!row->withdrawn.empty() || !row->on[c]) continue;
        const bool outdone = firm_place && from_memory(*row) && row->says == Says::none_needed;
        if (says_no(*row, group) && !outdone) no.push_back(row);
        if (row->group == group && says_yes(rows, *row, c)) yes.push_back(row);
    }
    const auto firm = [](const PlainRow* row) { return !from_memory(*row); };
    if (std::any_of(yes.begin(), yes.end(), firm) || std::any_of(no.begin(), no.end(), firm)) {
        std::erase_if(yes, [&](const PlainRow* row) { return !firm(row); });
        std::erase_if(no, [&](const PlainRow* row) { return !firm(row); });
    }
    if (!yes.empty()) return no.empty() ? Standing::fits : Standing::disagreed;
    return no.empty() ? Standing::unsaid : Standing::does_not;
}

inline bool all_of_left(const Where& left, const Where& on) {
    for (std::size_t c = 0; c < left.size(); ++c)
        if (left[c] && !on[c]) return false;
    return true;
}
inline bool any_of_left(const Where& left, const Where& on) {
    for (std::size_t c = 0; c < left.size(); ++c)
        if (left[c] && on[c]) return true;
    return false;
}

inline Verdict group_verdict(const GroupTruth& group, const Where& left) {
    if (all_of_left(left, group.on)) return any_of_left(left, group.doubted) ? Verdict::check_first : Verdict::fits;
    if (any_of_left(left, group.on)) return Verdict::check_first;
    return any_of_left(left, group.disagreed) ? Verdict::sources_disagree : Verdict::does_not_fit;
}

inline Verdict role_verdict(const RoleTruth& role, const Where& left) {
    bool open = any_of_left(left, role.none), disagreed = false;
    Where vetoed(left.size(), false);
    for (const auto& [key, group] : role.groups) {
        if (all_of_left(left, group.on) && !any_of_left(left, group.doubted)) return Verdict::fits;
        open = open || any_of_left(left, group.on);
        disagreed = disagreed || any_of_left(left, group.disagreed);
        for (std::size_t c = 0; c < left.size(); ++c) vetoed[c] = vetoed[c] || group.vetoed[c];
    }
    if (all_of_left(left, role.none)) return Verdict::none_needed;
    if (open) return Verdict::check_first;
    if (disagreed) return Verdict::sources_disagree;
    return all_of_left(left, vetoed) ? Verdict::does_not_fit : Verdict::not_recorded;
}

// How much the rows that hold say the role takes.
inline void quantities(GroupTruth& group, const Rows& rows, const std::string& key, const Where& left) {
    for (const auto* row : rows) {
        if (row->group != key || row->says != Says::fits || !row->withdrawn.empty()) continue;
        for (std::size_t c = 0; c < left.size(); ++c) {
            if (!left[c] || !group.on[c] || standing({row}, key, c) != Standing::fits) continue;
            const bool excepted = std::any_of(rows.begin(), rows.end(), [&](const PlainRow* other) {
                return other->withdrawn.empty() && other->on[c] && other->source == row->source && says_no(*other, key);
            });
            if (excepted) continue;
            const double quantity = row->quantity.value_or(1);
            group.quantity_low = group.quantity_high == 0 ? quantity : std::min(group.quantity_low, quantity);
            group.quantity_high = std::max(group.quantity_high, quantity);
        }
    }
}

// `may`: what open doubts allow beside `left`; what is wanted there is wanted.
inline RoleTruth truth(const PlainCatalog& plain, const std::string& role, const Rows& rows, const Where& left,
                       const Where& may) {
    const std::size_t size = plain.configurations.size();
    RoleTruth result;
    result.none.assign(size, false);
    for (const auto* row : rows)
        if (row->says != Says::none_needed && row->withdrawn.empty())
            result.groups[row->group] = {Where(size), Where(size), Where(size), Where(size)};
    for (std::size_t c = 0; c < size; ++c) {
        for (const auto* row : rows)
            if (row->says == Says::none_needed && row->withdrawn.empty() && row->on[c]) result.none[c] = true;
        for (auto& [key, group] : result.groups) {
            const auto said = standing(rows, key, c);
            group.on[c] = said == Standing::fits;
            group.disagreed[c] = said == Standing::disagreed;
            if (group.on[c] || group.disagreed[c]) result.none[c] = false;
        }
    }
    for (auto& [key, group] : result.groups) {
        if (role == unloaded_role()) continue;
        for (const auto& objection : plain.objections) {
            if (objection.role != role || objection.group != key) continue;
            for (std::size_t c = 0; c < size; ++c) {
                if (!objection.on[c] || !group.on[c]) continue;
                if (objection.at_most == Verdict::does_not_fit) group.on[c] = false, group.vetoed[c] = true;
                else group.doubted[c] = true;
            }
        }
    }
    for (auto& [key, group] : result.groups) {
        group.verdict = role == unloaded_role() ? Verdict::not_answered : group_verdict(group, left);
        quantities(group, rows, key, may);
    }
    result.verdict = role == unloaded_role() ? Verdict::not_answered : role_verdict(result, left);
    return result;
}

}  // namespace casebound::tests
