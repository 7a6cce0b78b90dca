// Random catalogs, conditions and told facts. The same seed gives the same catalog on every machine.
#pragma once

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "tests/dice.h"
#include "tests/verdict/oracle_truth.h"

namespace casebound::tests {

struct Sizes {
    std::size_t attributes_low = 2, attributes_high = 6, rows_high = 4, most_configurations = 32, applications_high = 7;
    bool objections = true;
};

inline std::string blank(Dice& dice) { return dice.chance(30) ? " " : ""; }

// Some values of the attribute as a row of `configurations` writes them, and those values.
inline std::pair<std::string, std::vector<PlainValue>> some_values(Dice& dice, const PlainAttribute& a,
                                                                   std::size_t most) {
    const bool counted = a.kind == ValueKind::year || a.kind == ValueKind::month;
    const std::size_t numbers = a.pool.back() == "none" ? a.pool.size() - 1 : a.pool.size();
    const std::size_t count = dice.between(1, std::max<std::size_t>(1, most));
    if (counted && count > 1 && dice.chance(70)) {
        const std::size_t first = dice.below(numbers), last = std::min(numbers - 1, first + count - 1);
        std::vector<PlainValue> values;
        for (std::size_t v = first; v <= last; ++v) values.push_back(plain_value(a, a.pool[v]));
        return {a.pool[first] + (last > first ? ".." + a.pool[last] : ""), values};
    }
    auto pool = a.pool;
    dice.shuffle(pool);
    std::string text;
    std::vector<PlainValue> values;
    for (std::size_t v = 0; v < std::min(count, pool.size()); ++v) {
        text += (text.empty() ? "" : blank(dice) + "|" + blank(dice)) + pool[v];
        values.push_back(plain_value(a, pool[v]));
    }
    return {text, values};
}

// One row of `configurations`; left out when it repeats a configuration or there would be too many.
inline void add_configuration_row(Dice& dice, PlainCatalog& plain, std::size_t most, std::set<std::string>& seen) {
    std::vector<std::pair<std::string, std::vector<PlainValue>>> cells;
    std::size_t combinations = 1;
    for (const auto* a : plain.attributes) {
        cells.push_back(some_values(dice, *a, dice.chance(50) ? 1 : 3));
        combinations *= cells.back().second.size();
    }
    if (combinations + plain.configurations.size() > most) return;
    const auto before = plain.configurations.size();
    for (std::size_t n = 0; n < combinations; ++n) {
        std::vector<PlainValue> values;
        std::size_t rest = n;
        for (const auto& [text, choices] : cells) {
            values.push_back(choices[rest % choices.size()]);
            rest /= choices.size();
        }
        plain.configurations.push_back(values);
    }
    bool fresh = true;
    std::set<std::string> keys;
    for (std::size_t c = before; c < plain.configurations.size(); ++c) {
        const auto key = configuration_key(plain, c);
        fresh = fresh && seen.count(key) == 0 && keys.insert(key).second;
    }
    if (!fresh) {
        plain.configurations.resize(before);
        return;
    }
    seen.insert(keys.begin(), keys.end());
    std::vector<std::string> terms;
    for (std::size_t a = 0; a < cells.size(); ++a)
        terms.push_back(plain.attributes[a]->name + blank(dice) + "=" + blank(dice) + cells[a].first);
    if (before > 0) dice.shuffle(terms);
    std::string text;
    for (const auto& term : terms) text += (text.empty() ? "" : blank(dice) + ";" + blank(dice)) + term;
    const auto share = dice.chance(60) ? std::optional(static_cast<double>(dice.between(1, 9))) : std::nullopt;
    plain.configuration_rows.emplace_back(text, share);
    plain.weights.resize(plain.configurations.size(), share.value_or(1) / static_cast<double>(combinations));
}

// ---------------------------------------------------------------- conditions

inline std::string some_right_side(Dice& dice, const PlainAttribute& a) {
    std::vector<std::string> numbers;
    for (const auto& text : a.pool)
        if (text != "none") numbers.push_back(text);
    std::sort(numbers.begin(), numbers.end(),
              [&](const auto& x, const auto& y) { return plain_value(a, x).number < plain_value(a, y).number; });
    if (a.ordered() && dice.chance(45)) {
        const std::size_t low = dice.below(numbers.size()), high = dice.between(low, numbers.size() - 1);
        const auto shape = dice.below(4);
        return shape == 0   ? numbers[low] + ".."
               : shape == 1 ? ".." + numbers[high]
                            : numbers[low] + blank(dice) + ".." + numbers[high];
    }
    std::string text = dice.any(a.pool);
    for (auto more = dice.below(3); more > 0; --more) text += blank(dice) + "|" + blank(dice) + dice.any(a.pool);
    return text;
}

inline std::string some_term(Dice& dice, const PlainAttribute& a) {
    const std::string start = (dice.chance(15) ? "not " : "") + a.name + blank(dice);
    if (!a.ordered() || dice.chance(75)) return start + "=" + blank(dice) + some_right_side(dice, a);
    static const std::vector<std::string> ops{"<", "<=", ">", ">="};
    std::string value = dice.any(a.pool);
    while (value == "none") value = dice.any(a.pool);
    return start + dice.any(ops) + blank(dice) + value;
}

inline std::string some_condition(Dice& dice, const PlainCatalog& plain, std::size_t most_terms) {
    std::string text;
    for (auto terms = dice.below(most_terms + 1); terms > 0; --terms)
        text += (text.empty() ? "" : blank(dice) + ";" + blank(dice)) + some_term(dice, *dice.any(plain.attributes));
    return text;
}

// One that some configuration meets, as pack load demands.
inline std::string some_live_condition(Dice& dice, const PlainCatalog& plain, Where& on) {
    for (;;) {
        auto text = some_condition(dice, plain, 3);
        on = where_holds(plain, text);
        if (std::find(on.begin(), on.end(), true) != on.end()) return text;
    }
}

// ---------------------------------------------------------------- catalogs

inline void add_applications(Dice& dice, PlainCatalog& plain, const Sizes& sizes) {
    for (const auto& role : plain_roles()) {
        const std::size_t groups = dice.between(1, 3);
        for (auto rows = dice.below(sizes.applications_high + 1); rows > 0; --rows) {
            PlainRow row;
            row.role = role;
            const auto kind = dice.below(100);
            row.says = kind < 60 ? Says::fits : kind < 85 ? Says::does_not_fit : Says::none_needed;
            if (row.says != Says::none_needed)
                row.group = role.substr(0, 1) + "-group-" + std::to_string(dice.below(groups));
            row.condition = some_live_condition(dice, plain, row.on);
            row.source = dice.below(plain_sources().size());
            if (dice.chance(40)) row.quantity = static_cast<double>(dice.between(1, 5));
            if (dice.chance(8)) row.withdrawn = "replaced by a later sheet";
            plain.rows.push_back(std::move(row));
        }
    }
    dice.shuffle(plain.rows);
    std::uint32_t line = 2;
    for (auto& row : plain.rows) row.line = line++;
}

inline void add_objections(Dice& dice, PlainCatalog& plain) {
    std::set<std::pair<std::string, std::string>> seen;
    for (const auto& row : plain.rows) {
        if (row.group.empty() || !dice.chance(12) || !seen.emplace(row.role, row.group).second) continue;
        for (auto count = dice.between(1, 2); count > 0; --count) {
            PlainObjection objection{
                row.role, row.group, "", dice.chance(60) ? Verdict::does_not_fit : Verdict::check_first, {}};
            objection.condition = dice.chance(30) ? "" : some_live_condition(dice, plain, objection.on);
            objection.on = where_holds(plain, objection.condition);
            plain.objections.push_back(std::move(objection));
        }
    }
}

inline PlainCatalog some_catalog(Dice& dice, const Sizes& sizes = {}) {
    PlainCatalog plain;
    for (const auto& a : plain_attributes()) plain.attributes.push_back(&a);
    dice.shuffle(plain.attributes);
    plain.attributes.resize(dice.between(sizes.attributes_low, sizes.attributes_high));
    std::set<std::string> seen;
    for (auto rows = dice.between(1, sizes.rows_high); rows > 0 || plain.configurations.empty(); rows -= rows > 0)
        add_configuration_row(dice, plain, sizes.most_configurations, seen);
    add_applications(dice, plain, sizes);
    if (sizes.objections) add_objections(dice, plain);
    return plain;
}

// ---------------------------------------------------------------- vehicles

// How a person writes the value of configuration `c`: exact, one of several, a range, or a little off.
inline std::string told_right_side(Dice& dice, const PlainAttribute& a, const PlainValue& value) {
    if (value.none) return "none";
    const auto number = [&](double at) {
        if (a.kind == ValueKind::month)
            return fmt::format("{:04}-{:02}", static_cast<int>(at) / 12, static_cast<int>(at) % 12 + 1);
        return a.kind == ValueKind::year ? fmt::format("{}", static_cast<int>(at))
                                         : fmt::format("{:.6f}{}", at, dice.chance(50) ? " " + a.unit : "");
    };
    if (!a.ordered()) {
        std::string text = value.word;
        if (dice.chance(30)) text += "|" + dice.any(a.pool);
        return text;
    }
    const auto shape = dice.below(4);
    if (shape == 0)
        return number(value.number - static_cast<double>(dice.below(3))) + ".." +
               number(value.number + static_cast<double>(dice.below(3)));
    if (shape == 1) return number(value.number) + "|" + dice.any(a.pool);
    const double off = a.tolerance > 0 ? (static_cast<double>(dice.below(3)) - 1) * a.tolerance * 0.8 : 0;
    return number(value.number + off);
}

// True of configuration `truth` when it is given; else anything the attribute can have.
inline PlainFact some_fact(Dice& dice, const PlainCatalog& plain, std::optional<std::size_t> truth) {
    static const std::vector<TellEvidence> evidences{TellEvidence::measured, TellEvidence::read,
                                                     TellEvidence::seller_said, TellEvidence::assumed};
    PlainFact fact;
    const std::size_t a = dice.below(plain.attributes.size());
    const auto& attribute = *plain.attributes[a];
    fact.attribute = attribute.name;
    fact.evidence = dice.any(evidences);
    fact.right_side = truth ? told_right_side(dice, attribute, plain.configurations[*truth][a])
                            : some_right_side(dice, attribute);
    for (const auto& configuration : plain.configurations)
        fact.on.push_back(right_side_holds(attribute, fact.right_side, configuration[a], attribute.tolerance));
    return fact;
}

inline std::vector<PlainFact> some_facts(Dice& dice, const PlainCatalog& plain, std::size_t most,
                                         std::optional<std::size_t> truth) {
    std::vector<PlainFact> facts;
    std::set<std::string> seen;
    for (auto count = dice.below(most + 1); count > 0; --count)
        if (auto fact = some_fact(dice, plain, truth); seen.insert(fact.attribute).second)
            facts.push_back(std::move(fact));
    if (dice.chance(15))
        facts.push_back({"knock", "yes", TellEvidence::measured, false, Where(plain.configurations.size(), true)});
    return facts;
}

inline Where left_by(const PlainCatalog& plain, const std::vector<PlainFact>& facts) {
    Where left(plain.configurations.size(), true);
    for (const auto& fact : facts)
        for (std::size_t c = 0; c < left.size(); ++c) left[c] = left[c] && fact.on[c];
    return left;
}

}  // namespace casebound::tests
