#include "core/verdict/narrowing.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <stdexcept>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/reason/condition_words.h"

namespace casebound {

namespace {

std::string values_of(const Possibilities::Column& column) {
    std::vector<std::string> texts;
    for (const auto& value : column.values) texts.push_back(value.text);
    if (texts.size() > 12) return fmt::format("{} to {}", texts.front(), texts.back());
    return fmt::format("{}", fmt::join(texts, ", "));
}

// The value as typed may only be refused with what could have been meant.
void meet(const LineModel& line, const Vocabularies& vocabularies, ToldFact& fact) {
    const auto* known = vocabularies.attribute(fact.attribute);
    if (!known) {
        std::vector<std::string> names;
        for (const auto& [name, owned] : vocabularies.attributes()) names.push_back(name);
        const auto near = nearest(fact.attribute, names);
        throw Error(Exit::usage, fmt::format("{}: no such attribute{}", fact.attribute,
                                             near.empty() ? ": see `casebound vehicle show`"
                                                          : fmt::format(": did you mean {}?", near)));
    }
    try {
        const Term term{fact.attribute, false, fact.right_side.spans(), 0};
        const auto* column = line.set.column(fact.attribute);
        const auto& meant = column ? column->attribute : *known;
        const Matcher typed(meant, term);  // refuses a value it cannot have
        if (const auto* value = fact.right_side.single()) fact.number = typed_value(meant, *value).number;
        fact.applies = column != nullptr;
        if (!column) return;
        fact.holding = line.set.where(term, known->tolerance);
        // A range may hold what nobody has mentioned yet.
        const bool one_value = std::all_of(term.spans.begin(), term.spans.end(),
                                           [](const Span& span) { return span.single(); });
        if (line.open && !one_value)
            fact.holding |= line.set.where(Term{fact.attribute, false, parse_spans(something_else), 0});
        if (fact.holding.none())
            throw Error(Exit::bad_data,
                        fmt::format("{}={}: no {} was recorded with it: it has {}; measure again, or correct the pack",
                                    fact.attribute, fact.text, line.title, values_of(*column)));
    } catch (const ConditionFault& fault) {
        throw Error(Exit::bad_data, fmt::format("{}={}: {}", fact.attribute, fact.text, fault.what()));
    }
}

// Does the term hold on what was told: on every value of it, on none, or on some?
// What is seen side by side is each of them: told pan_rail+cooler_line, it is wet at the pan rail.
bool matches_told(const Attribute& attribute, const Term& term, const std::string& told) {
    Term named = term;
    named.negated = false;
    const Matcher matcher(attribute, named, attribute.tolerance);
    bool any = matcher.matches(typed_value(attribute, told));
    if (attribute.several)
        for (const auto& one : split_at(told, '+')) any |= matcher.matches(typed_value(attribute, one));
    return any != term.negated;
}

Holds holds_on_told(const Attribute& attribute, const Term& term, const ToldFact& fact) {
    bool some = false, none = false;
    for (const auto& span : fact.right_side.spans()) {
        if (!span.single()) return Holds::open;
        (matches_told(attribute, term, *span.low) ? some : none) = true;
    }
    return some == none ? Holds::open : some ? Holds::yes : Holds::no;
}

// Facts that no contradiction needs: whatever agrees with a configuration agrees with one where these hold too.
std::vector<bool> innocent(const Narrowing& narrowing, std::size_t configurations) {
    const auto& facts = narrowing.facts;
    std::set<std::vector<bool>> agreements;  // per configuration, the facts that hold on it
    for (std::size_t c = 0; c < configurations; ++c) {
        std::vector<bool> holding;
        for (const auto& fact : facts) holding.push_back(!fact.applies || fact.holding.test(c));
        agreements.insert(std::move(holding));
    }
    const auto within = [](const std::vector<bool>& less, const std::vector<bool>& more) {
        for (std::size_t i = 0; i < less.size(); ++i)
            if (less[i] && !more[i]) return false;
        return true;
    };
    std::vector<bool> result;
    for (std::size_t i = 0; i < facts.size(); ++i)
        result.push_back(std::all_of(agreements.begin(), agreements.end(), [&](std::vector<bool> with) {
            with[i] = true;
            return std::any_of(agreements.begin(), agreements.end(),
                               [&](const auto& other) { return within(with, other); });
        }));
    return result;
}

// The configuration that was told, with what nobody has told of it yet: "build=VALUE; engine=2.9d".
std::string as_told(const LineModel& line, const std::vector<ToldFact>& facts) {
    std::vector<std::string> values;
    for (const auto& column : line.set.columns()) {
        const auto& name = column.attribute.name;
        const auto told = std::find_if(facts.begin(), facts.end(),
                                       [&](const ToldFact& one) { return one.attribute == name; });
        values.push_back(fmt::format("{}={}", name, told == facts.end() ? "VALUE" : told->right_side.text()));
    }
    return fmt::format("{}", fmt::join(values, "; "));
}

[[noreturn]] void contradiction(const LineModel& line, const Narrowing& narrowing) {
    std::vector<std::string> lines{fmt::format("{}: what was told leaves no configuration:", line.title)};
    bool hearsay = false;
    const auto beside_the_point = innocent(narrowing, line.set.size());
    for (std::size_t i = 0; i < narrowing.facts.size(); ++i) {
        const auto& fact = narrowing.facts[i];
        if (beside_the_point[i]) continue;
        hearsay |= is_hearsay(fact.evidence);
        const auto without = narrowing.left_without(i);
        if (without.none()) {
            lines.push_back(fmt::format("  {}", fact.said()));
            continue;
        }
        lines.push_back(fmt::format("  {} excludes the {} left by the others", fact.said(), without.count()));
        const auto pieces = describe_in_pieces(line.set, without, line.set.all());
        for (const auto& piece : pieces.conditions)
            lines.push_back(fmt::format("    without it: {}", piece.empty() ? "any configuration" : piece));
        if (pieces.further > 0) lines.push_back(fmt::format("    without it: {}", further_words(pieces)));
    }
    lines.push_back("  Look again at the least certain of these, and tell it anew; nothing was recorded.");
    if (!hearsay)
        lines.push_back(
            fmt::format("  Is all of it so, as where a part of another vehicle was put in? Then this version is "
                        "not on record: write it down, and tell it again: casebound note VEHICLE "
                        "configurations attribute_values=\"{}\" --says WHO --kind measured",
                        as_told(line, narrowing.facts)));
    throw Error(Exit::bad_data, lines);
}

}  // namespace

Met meet(const LineModel& line, const Vocabularies& vocabularies, const Narrowing& narrowing,
         const Condition& condition) {
    Met met{line.set.all(), false, false};
    for (const auto& term : condition.terms) {
        if (line.set.column(term.attribute)) {
            met.on &= line.set.where(term);
            continue;
        }
        const auto* attribute = vocabularies.attribute(term.attribute);
        if (!attribute) throw ConditionFault(term.at, fmt::format("{} is no attribute", term.attribute));
        const auto fact = std::find_if(narrowing.facts.begin(), narrowing.facts.end(),
                                       [&](const ToldFact& one) { return one.attribute == term.attribute; });
        if (fact == narrowing.facts.end()) {
            met.untold = true;
            continue;
        }
        const auto holds = holds_on_told(*attribute, term, *fact);
        if (holds == Holds::no) met.on = Bits(line.set.size());
        met.open |= holds == Holds::open;
    }
    return met;
}

Holds holds_on(const LineModel& line, const Vocabularies& vocabularies, const Narrowing& narrowing,
               std::string_view condition) {
    try {
        const auto met = meet(line, vocabularies, narrowing, parse_condition(condition));
        if (!met.on.meets(narrowing.left)) return Holds::no;
        return met.on.contains(narrowing.left) && !met.open && !met.untold ? Holds::yes : Holds::open;
    } catch (const ConditionFault& fault) {
        throw std::invalid_argument(fmt::format("condition `{}`: {}", condition, fault.what()));
    }
}

std::vector<std::string> values_in_doubt(const LineModel& line, const Doubt& doubt) {
    std::vector<std::string> values;
    const auto* column = line.set.column(doubt.attribute);
    if (!column) return values;
    for (const auto& [value, share] : line.set.values_left(*column, doubt.worlds)) {
        if (value->text == something_else) continue;  // nobody can tell it
        auto text = value->text;
        std::erase(text, ' ');
        values.push_back(std::move(text));
    }
    return values;
}

Bits Narrowing::left_without(std::size_t fact) const {
    Bits bits;
    for (std::size_t i = 0; i < facts.size(); ++i) {
        if (!facts[i].applies) continue;
        if (bits.size() == 0) bits = Bits(facts[i].holding.size(), true);
        if (i != fact) bits &= facts[i].holding;
    }
    return bits.size() ? bits : left;
}

std::vector<std::string> Narrowing::not_asked() const {
    auto names = out_of_reach;
    for (const auto& fact : facts)
        if (fact.applies && fact.right_side.single()) names.push_back(fact.attribute);
    return names;
}

Bits Narrowing::left_by(const std::vector<const ToldFact*>& some) const {
    Bits bits(left.size(), true);
    for (const auto* fact : some)
        if (fact->applies) bits &= fact->holding;
    return bits;
}

namespace {

// Beyond this share of the tolerance an agreement is at the edge (common practice, no source).
constexpr double sure_share = 0.75;

// A number that agrees with the record only at the edge of what measuring it allows.
void doubt_at_the_edge(const LineModel& line, const Attribute& attribute, std::size_t at, Narrowing& narrowing) {
    const auto& fact = narrowing.facts[at];
    const auto told = fact.number;
    const auto* column = line.set.column(fact.attribute);
    if (!column || attribute.tolerance <= 0) return;
    double nearest = attribute.tolerance;
    std::vector<std::string> taken;
    std::size_t others = 0;
    for (const auto& value : column->values) {
        if (!value.number || !told) continue;
        const double off = std::abs(*value.number - *told);
        nearest = std::min(nearest, off);
        if (off > attribute.tolerance) ++others;
        else taken.push_back(value.text);
    }
    if (!told || others == 0 || nearest <= attribute.tolerance * sure_share) return;
    narrowing.doubts.push_back(
        {fact.attribute,
         fmt::format("{} {} is taken as {}: on record are {}", attribute.title, value_words(attribute, fact.text),
                     fmt::join(taken, " or "), values_of(*column)),
         fmt::format("measure the {} again", attribute.title),
         {evidence_of(fact.evidence), std::string(tell_evidence_words(fact.evidence)), {}},
         narrowing.left_without(at),
         true});
}

}  // namespace

Narrowing narrow(const LineModel& line, const Vocabularies& vocabularies, std::vector<ToldFact> facts) {
    if (line.set.size() == 0)
        throw Error(Exit::bad_data,
                    fmt::format("{}: no configuration of it is recorded: load a pack that gives some", line.title));
    Narrowing narrowing{std::move(facts), line.set.all(), {}, {}, {}};
    std::stable_sort(narrowing.facts.begin(), narrowing.facts.end(),
                     [](const ToldFact& a, const ToldFact& b) { return a.attribute < b.attribute; });
    for (auto& fact : narrowing.facts) {
        meet(line, vocabularies, fact);
        if (fact.applies) narrowing.left &= fact.holding;
    }
    if (narrowing.left.none()) contradiction(line, narrowing);
    for (std::size_t i = 0; i < narrowing.facts.size(); ++i)
        if (narrowing.facts[i].applies)
            doubt_at_the_edge(line, *vocabularies.attribute(narrowing.facts[i].attribute), i, narrowing);
    return narrowing;
}

}  // namespace casebound
