// The judge against the slow second implementation, on generated catalogs and partly known vehicles.
#include <iostream>

#include "core/verdict/open_worlds.h"
#include "tests/must.h"

#include "tests/verdict/oracle_engine.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

constexpr int catalogs = 20000, vehicles_each = 3;

struct Tally {
    std::map<Verdict, std::size_t> roles, groups;
    std::size_t vehicles = 0, conditions = 0, narrowed = 0, partly = 0;
};

std::string shown(const Where& on) {
    std::string text;
    for (const bool one : on) text += one ? '1' : '0';
    return text;
}

std::string story(const PlainCatalog& plain, const std::vector<PlainFact>& facts, const std::string& role) {
    std::string text;
    for (const auto& [row, share] : plain.configuration_rows) text += "configuration " + row + "\n";
    for (const auto& row : plain.rows)
        if (row.role == role)
            text += fmt::format("row {} says {} {} where {} source {} withdrawn '{}'\n", row.line,
                                static_cast<int>(row.says), row.group, row.condition, plain_sources()[row.source].key,
                                row.withdrawn);
    for (const auto& one : plain.objections)
        if (one.role == role)
            text += fmt::format("objection {} where {} at most {}\n", one.group, one.condition,
                                verdict_name(one.at_most));
    for (const auto& fact : facts) text += fmt::format("told {}={}\n", fact.attribute, fact.right_side);
    return text;
}

// Every difference between core's answer and the truth, in words; "" when there is none.
std::string differences(const Opened& opened, const RoleAnswer& answer, const RoleTruth& wanted, const Where& left) {
    std::string text;
    if (answer.verdict != wanted.verdict)
        text += fmt::format("verdict {} but {} wanted\n", verdict_name(answer.verdict), verdict_name(wanted.verdict));
    const auto none = opened.where(answer.none_line);
    if (none != wanted.none) text += fmt::format("none needed on {} but {} wanted\n", shown(none), shown(wanted.none));
    if (answer.groups.size() != wanted.groups.size())
        text += fmt::format("{} groups but {} wanted\n", answer.groups.size(), wanted.groups.size());
    Where blank = left;
    for (std::size_t c = 0; c < blank.size(); ++c) {
        blank[c] = blank[c] && !wanted.none[c];
        for (const auto& [key, group] : wanted.groups)
            blank[c] = blank[c] && !group.on[c] && !group.disagreed[c] && !group.vetoed[c];
    }
    if (opened.where(answer.blank) != blank)
        text += fmt::format("blank on {} but {} wanted\n", shown(opened.where(answer.blank)), shown(blank));
    for (const auto& group : answer.groups) {
        const auto found = wanted.groups.find(group.key);
        if (found == wanted.groups.end()) {
            text += group.key + " is not wanted\n";
            continue;
        }
        const auto& truth_of = found->second;
        const auto compare = [&](const char* what, const Bits& bits, const Where& on) {
            if (opened.where(bits) != on)
                text += fmt::format("{} {} on {} but {} wanted\n", group.key, what, shown(opened.where(bits)),
                                    shown(on));
        };
        compare("fits", group.on_line, truth_of.on);
        compare("is disputed", group.disagreed_line, truth_of.disagreed);
        compare("is vetoed", group.vetoed_line, truth_of.vetoed);
        compare("is left", group.on, [&] {
            Where on = truth_of.on;
            for (std::size_t c = 0; c < on.size(); ++c) on[c] = on[c] && left[c];
            return on;
        }());
        if (group.verdict != truth_of.verdict)
            text += fmt::format("{} {} but {} wanted\n", group.key, verdict_name(group.verdict),
                                verdict_name(truth_of.verdict));
        if (group.quantity_low != truth_of.quantity_low || group.quantity_high != truth_of.quantity_high)
            text += fmt::format("{} takes {}..{} but {}..{} wanted\n", group.key, group.quantity_low,
                                group.quantity_high, truth_of.quantity_low, truth_of.quantity_high);
    }
    return text;
}

void require_none(const std::string& differing, const PlainCatalog& plain, const std::vector<PlainFact>& facts,
                  const std::string& role) {
    must(differing.empty(), differing, [&] { return story(plain, facts, role); });
}

void check_conditions(const Opened& opened, const PlainCatalog& plain, Tally& tally) {
    for (const auto& row : plain.rows) {
        ++tally.conditions;
        const auto on = opened.where(opened.line().set.where(parse_condition(row.condition)));
        require_none(
            on == row.on ? "" : fmt::format("`{}` on {} but {} wanted", row.condition, shown(on), shown(row.on)), plain,
            {}, row.role);
    }
    const auto& set = opened.line().set;
    for (std::size_t i = 0; i < set.size(); ++i)
        must(std::abs(set.weight(i) - plain.weights[opened.plain_of(i)]) <= 1e-12, "a row's share is divided evenly",
             "");
}

void check_vehicle(const Opened& opened, const PlainCatalog& plain, const std::vector<PlainFact>& facts, Tally& tally) {
    const auto narrowing = opened.narrowed(facts);
    const auto left = left_by(plain, facts);
    require_none(opened.where(narrowing.left) == left
                     ? ""
                     : fmt::format("{} left but {} wanted", shown(opened.where(narrowing.left)), shown(left)),
                 plain, facts, "");
    ++tally.vehicles;
    tally.narrowed += !narrowing.left.contains(opened.line().set.all());
    tally.partly += narrowing.left.count() > 1;
    const auto judge = opened.judge(narrowing);
    const auto all = judge.roles();
    for (const auto& role : plain_roles()) {
        const auto rows = rows_of(plain, role);
        const auto wanted = truth(plain, role, rows, left, opened.where(may_be_true(narrowing)));
        const auto answer = judge.role(role);
        require_none(differences(opened, answer, wanted, left), plain, facts, role);
        const auto among = std::find_if(all.begin(), all.end(),
                                        [&](const RoleAnswer& one) { return one.role == role; });
        require_none((among != all.end()) == !rows.empty() ? "" : "roles() must list exactly the roles on record",
                     plain, facts, role);
        if (among != all.end()) require_none(differences(opened, *among, wanted, left), plain, facts, role);
        ++tally.roles[answer.verdict];
        for (const auto& group : answer.groups) ++tally.groups[group.verdict];
    }
}

}  // namespace

TEST_CASE("the judge agrees with looking at every configuration, on twenty thousand catalogs") {
    Bench bench;
    Tally tally;
    for (int n = 0; n < catalogs; ++n) {
        Dice dice(static_cast<std::uint64_t>(n));
        const auto plain = some_catalog(dice);
        const Opened opened(bench, plain);
        check_conditions(opened, plain, tally);
        for (int v = 0; v < vehicles_each; ++v)
            check_vehicle(opened, plain, some_facts(dice, plain, 4, dice.below(plain.configurations.size())), tally);
    }
    std::cout << "oracle: " << catalogs << " catalogs, " << tally.conditions << " conditions, " << tally.vehicles
              << " vehicles (" << tally.narrowed << " narrowed, " << tally.partly
              << " not down to one configuration)\n";
    for (const auto verdict : {Verdict::fits, Verdict::none_needed, Verdict::check_first, Verdict::sources_disagree,
                               Verdict::not_recorded, Verdict::does_not_fit, Verdict::not_answered}) {
        std::cout << "  " << verdict_name(verdict) << ": " << tally.roles[verdict] << " roles, "
                  << tally.groups[verdict] << " groups\n";
        INFO(verdict_name(verdict));
        CHECK(tally.roles[verdict] >= 100);
    }
}
