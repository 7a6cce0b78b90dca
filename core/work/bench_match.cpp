#include "core/work/bench_match.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/error.h"

namespace casebound {

namespace {

// Configurations of the line that a part of this measure belongs to.
Bits belonging(const Possibilities& set, const std::string& name, const std::string& value) {
    const auto* column = set.column(name);
    if (!column)
        throw Error(Exit::usage,
                    fmt::format("{}: neither a key of `record` nor an attribute of this vehicle line", name));
    try {
        const Term term{name, false, parse_spans(value), 0};
        const Matcher typed(column->attribute, term);  // refuses a value the attribute cannot have
        return set.where(term, column->attribute.tolerance);
    } catch (const ConditionFault& fault) { throw Error(Exit::usage, fmt::format("{}: {}", name, fault.what())); }
}

std::string named(const std::vector<const GroupAnswer*>& groups) {
    std::vector<std::string> names;
    for (const auto* group : groups) names.push_back(group->title);
    return fmt::format("{}", fmt::join(names, " or "));
}

std::vector<const GroupAnswer*> groups_on(const RoleAnswer& answer, const Bits& where) {
    std::vector<const GroupAnswer*> groups;
    for (const auto& group : answer.groups)
        if (group.on_line.meets(where)) groups.push_back(&group);
    return groups;
}

// The domain of a part declares what can be measured on it; the engine or the model year is not on the part.
bool on_the_part(const Catalog& catalog, const std::string& attribute, const std::string& domain) {
    const auto& words = catalog.vocabularies().attributes();
    const auto found = words.find(attribute);
    return found != words.end() && found->second.owner == domain;
}

bool of_item(const Catalog& catalog, const GroupAnswer& group, const std::string& item) {
    const auto groups = catalog.groups_of(item);
    return group.key == item || std::find(groups.begin(), groups.end(), group.key) != groups.end();
}

}  // namespace

BenchMatch bench_match(const Situation& situation, const std::string& role, const std::string& item,
                       const std::vector<std::pair<std::string, std::string>>& measured) {
    const auto answer = situation.places().role(role);
    const auto& set = situation.model().set;
    BenchMatch match;
    Bits together = set.all();
    for (const auto& [name, value] : measured) {
        const auto where = belonging(set, name, value);
        together &= where;
        (where.meets(situation.narrowing().left) ? match.agree : match.differ)
            .push_back(fmt::format("{}={}", name, value));
    }
    for (const auto& name : answer.speaks_of())
        if (on_the_part(situation.judge().catalog(), name, answer.domain) &&
            std::none_of(measured.begin(), measured.end(), [&](const auto& one) { return one.first == name; }))
            match.not_compared.push_back(name);
    if (measured.empty() && !match.not_compared.empty())
        throw Error(
            Exit::usage,
            fmt::format("{}: nothing is compared: measure on the part in hand what tells its alternatives apart: {}",
                        role, fmt::join(match.not_compared, ", ")));
    if (measured.empty()) match.agree.emplace_back("compared with the old part");
    if (match.differ.empty() && !together.meets(situation.narrowing().left))
        std::swap(match.agree, match.differ);  // each is possible, not all of them at once
    const auto fitting = groups_on(answer, together);
    for (const auto& group : answer.groups)
        if (match.differ.empty() && !measured.empty() && of_item(situation.judge().catalog(), group, item) &&
            !group.on_line.meets(together))
            std::swap(match.agree, match.differ);
    if (!match.differ.empty() && !fitting.empty()) match.instead = named(fitting);
    return match;
}

}  // namespace casebound
