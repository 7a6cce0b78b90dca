// Explanations on generated catalogs: the rows and told facts cited are enough for the answer, none can be taken
// away, and the same catalog is always explained in the same words.
#include <iostream>

#include "core/reason/condition.h"
#include "tests/must.h"
#include "tests/verdict/oracle_engine.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

constexpr int explained_catalogs = 4000;

struct Cited {
    Rows rows;
    std::vector<PlainFact> facts;
    std::size_t redundant = 0;
};

const PlainRow* row_of(const PlainCatalog& plain, const Leaf& leaf) {
    if (leaf.origin().pack.empty()) return nullptr;
    REQUIRE(leaf.origin().pack == "oracle");
    REQUIRE(leaf.origin().file == "applications.csv");
    const auto found = std::find_if(plain.rows.begin(), plain.rows.end(),
                                    [&](const PlainRow& row) { return row.line == leaf.origin().line; });
    REQUIRE(found != plain.rows.end());
    return &*found;
}

void cite(Cited& cited, const PlainCatalog& plain, const std::vector<Leaf>& leaves) {
    for (const auto& leaf : leaves) {
        const auto* row = row_of(plain, leaf);
        cited.redundant += leaf.redundant;
        const bool fresh = std::find(cited.rows.begin(), cited.rows.end(), row) == cited.rows.end();
        if (row && !leaf.redundant && fresh) cited.rows.push_back(row);
    }
}

bool cites_a_row(const std::vector<Leaf>& leaves) {
    return std::any_of(leaves.begin(), leaves.end(),
                       [](const Leaf& leaf) { return !leaf.redundant && !leaf.origin().pack.empty(); });
}

Cited cited_by(const PlainCatalog& plain, const RoleAnswer& answer, const std::vector<PlainFact>& facts) {
    Cited cited;
    for (const auto& group : answer.groups) {
        cite(cited, plain, group.leaves);
        cite(cited, plain, group.against);
    }
    cite(cited, plain, answer.none_leaves);
    for (const auto& leaf : answer.told) {
        const auto found = std::find_if(facts.begin(), facts.end(), [&](const PlainFact& fact) {
            return leaf.text().rfind(fact.attribute + "=", 0) == 0;
        });
        REQUIRE(found != facts.end());
        cited.facts.push_back(*found);
    }
    return cited;
}

Where within(Where on, const Where& left) {
    for (std::size_t c = 0; c < on.size(); ++c) on[c] = on[c] && left[c];
    return on;
}

// The verdict, and what each group covers of what is left. A group that nothing is said of covers nothing.
using Coverage = std::tuple<Verdict, Where, std::map<std::string, std::pair<Where, Where>>>;

Coverage coverage(const PlainCatalog& plain, const std::string& role, const Rows& rows, const Where& left) {
    const auto all = truth(plain, role, rows, left, left);
    std::map<std::string, std::pair<Where, Where>> groups;
    for (const auto& [key, group] : all.groups) {
        Where on = group.on;
        for (std::size_t c = 0; c < on.size(); ++c) on[c] = on[c] || group.vetoed[c];  // the rows say it fits there
        auto one = std::pair(within(on, left), within(group.disagreed, left));
        if (any_of_left(left, one.first) || any_of_left(left, one.second)) groups.emplace(key, std::move(one));
    }
    return {all.verdict, within(all.none, left), groups};
}

// The verdict, and which groups fit some and which all of what is left.
using Outcome = std::pair<Verdict, std::map<std::string, bool>>;

Outcome outcome(const PlainCatalog& plain, const std::string& role, const Rows& rows,
                const std::vector<PlainFact>& facts) {
    const auto left = left_by(plain, facts);
    const auto all = truth(plain, role, rows, left, left);
    Outcome result{all.verdict, {}};
    for (const auto& [key, group] : all.groups)
        if (any_of_left(left, group.on)) result.second[key] = all_of_left(left, group.on);
    return result;
}

template <class List> List without(List list, std::size_t at) {
    list.erase(list.begin() + static_cast<std::ptrdiff_t>(at));
    return list;
}

// What the answer is about, in words.
std::string story(const PlainCatalog& plain, const std::string& role, const std::vector<PlainFact>& facts) {
    std::string text;
    for (const auto& [row, share] : plain.configuration_rows) text += "configuration " + row + "\n";
    for (const auto* row : rows_of(plain, role))
        text += fmt::format("row {} says {} {} where {} source {} {}\n", row->line, static_cast<int>(row->says),
                            row->group, row->condition, plain_sources()[row->source].key, row->withdrawn);
    for (const auto& one : plain.objections)
        if (one.role == role) text += fmt::format("objection {} where {}\n", one.group, one.condition);
    for (const auto& fact : facts) text += fmt::format("told {}={}\n", fact.attribute, fact.right_side);
    return text;
}

std::string words_of(const Leaf& leaf) {
    return fmt::format("{} [{} {}:{} {} {}]{}{}\n", leaf.text(), leaf.origin().pack, leaf.origin().file,
                       leaf.origin().line, leaf.origin().source, evidence_name(leaf.evidence()),
                       leaf.told ? " told" : "", leaf.redundant ? " redundant" : "");
}

// Everything a person could read of an answer.
std::string words_of(const RoleAnswer& answer) {
    std::string text = fmt::format("{} {} {} weakest {}\n", answer.role, answer.title, verdict_name(answer.verdict),
                                   evidence_name(answer.weakest));
    const auto list = [&](const char* what, const std::vector<Leaf>& leaves) {
        text += std::string(what) + "\n";
        for (const auto& leaf : leaves) text += words_of(leaf);
    };
    for (const auto& group : answer.groups) {
        text += fmt::format("{} {} {} {}..{}\n", group.key, group.title, verdict_name(group.verdict),
                            group.quantity_low, group.quantity_high);
        list("for", group.leaves);
        list("against", group.against);
    }
    list("none needed", answer.none_leaves);
    list("told", answer.told);
    list("withdrawn", answer.withdrawn);
    return text;
}

// The leaf says in words what its row says.
bool says_its_row(const PlainCatalog& plain, const Leaf& leaf) {
    const auto* row = row_of(plain, leaf);
    if (!row) return leaf.text() == "the toy domain objects";
    const char* says = row->says == Says::fits                              ? " fits "
                       : row->says == Says::does_not_fit                    ? " does not fit "
                       : leaf.text().rfind("nothing is needed on ", 0) == 0 ? "nothing is needed on "
                                                                            : "nothing is needed where ";
    const std::string start = row->group + says,
                      withdrawn = row->withdrawn.empty() ? "" : " (withdrawn: " + row->withdrawn + ")";
    if (leaf.text().rfind(start, 0) != 0 || leaf.text().size() < start.size() + withdrawn.size()) return false;
    const auto where = leaf.text().substr(start.size(), leaf.text().size() - start.size() - withdrawn.size());
    if (start + where + withdrawn != leaf.text()) return false;
    return (where == "every configuration" || where == "any configuration" ? Where(plain.configurations.size(), true)
                                                                           : where_holds(plain, where)) == row->on;
}

// Another order of the rows, the same within each role.
std::vector<std::size_t> reordered(Dice& dice, const PlainCatalog& plain) {
    std::map<std::string, std::vector<std::size_t>> by_role;
    std::vector<std::string> slots;
    for (std::size_t i = 0; i < plain.rows.size(); ++i) {
        by_role[plain.rows[i].role].push_back(i);
        slots.push_back(plain.rows[i].role);
    }
    dice.shuffle(slots);
    std::map<std::string, std::size_t> next;
    std::vector<std::size_t> order;
    for (const auto& role : slots) order.push_back(by_role[role][next[role]++]);
    return order;
}

}  // namespace

TEST_CASE("what an explanation cites is enough for the answer, and nothing of it can be taken away") {
    Bench bench;
    std::size_t answers = 0, rows_cited = 0, facts_cited = 0, redundant = 0, left_out = 0;
    for (int n = 0; n < explained_catalogs; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 1000000);
        const auto plain = some_catalog(dice);
        const auto facts = some_facts(dice, plain, 4, dice.below(plain.configurations.size()));
        const Opened opened(bench, plain);
        const auto narrowing = opened.narrowed(facts);
        const auto judge = opened.judge(narrowing);
        const auto left = left_by(plain, facts);
        for (const auto& role : plain_roles()) {
            if (role == unloaded_role()) continue;
            const auto answer = judge.role(role);
            const auto cited = cited_by(plain, answer, facts);
            const auto rows = rows_of(plain, role);
            const auto about = [&] { return story(plain, role, facts); };
            const auto want = coverage(plain, role, rows, left);
            ++answers;
            rows_cited += cited.rows.size();
            facts_cited += cited.facts.size();
            redundant += cited.redundant;
            left_out += rows.size() > cited.rows.size();
            must(coverage(plain, role, cited.rows, left) == want, "the rows cited give the answer", about);
            for (const auto& group : answer.groups)
                if (group.disagreed_line.meets(narrowing.left))
                    must(cites_a_row(group.leaves) && cites_a_row(group.against), "a disagreement shows both sides",
                         about);
            for (std::size_t i = 0; i < cited.rows.size(); ++i)
                must(coverage(plain, role, without(cited.rows, i), left) != want, "no row cited can be taken away",
                     about);
            const auto end = outcome(plain, role, rows, facts);
            must(outcome(plain, role, cited.rows, cited.facts) == end,
                 "the rows and facts cited give the outcome together", about);
            for (std::size_t i = 0; i < cited.facts.size(); ++i)
                must(outcome(plain, role, cited.rows, without(cited.facts, i)) != end,
                     "no told fact cited can be taken away", about);
        }
    }
    std::cout << "explanations: " << answers << " answers cite " << rows_cited << " rows and " << facts_cited
              << " told facts, and show " << redundant << " redundant rows; " << left_out << " leave rows out\n";
    CHECK(redundant > 100);
    CHECK(left_out > 100);
    CHECK(facts_cited > 500);
}

TEST_CASE("an explanation is the same from run to run, whatever other rows are in the catalog and in whatever order") {
    Bench bench;
    for (int n = 0; n < 500; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 2000000);
        const auto plain = some_catalog(dice);
        const auto facts = some_facts(dice, plain, 3, dice.below(plain.configurations.size()));
        std::map<std::string, std::string> first;
        for (const bool shuffled : {false, false, true}) {
            const Opened opened(bench, plain, shuffled ? reordered(dice, plain) : std::vector<std::size_t>{});
            const auto narrowing = opened.narrowed(facts);
            const auto judge = opened.judge(narrowing);
            for (const auto& role : plain_roles()) {
                const auto text = words_of(judge.role(role));
                const auto [at, fresh] = first.emplace(role, text);
                if (!fresh && at->second != text) REQUIRE(at->second == text);
            }
        }
    }
}

TEST_CASE("every leaf says in words what its row says, and names no number of the catalog's own") {
    Bench bench;
    std::size_t leaves = 0;
    for (int n = 0; n < 1000; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 3000000);
        const auto plain = some_catalog(dice);
        const auto facts = some_facts(dice, plain, 3, dice.below(plain.configurations.size()));
        const Opened opened(bench, plain);
        const auto narrowing = opened.narrowed(facts);
        const auto judge = opened.judge(narrowing);
        for (const auto& role : plain_roles()) {
            const auto answer = judge.role(role);
            auto all = answer.none_leaves;
            all.insert(all.end(), answer.withdrawn.begin(), answer.withdrawn.end());
            for (const auto& group : answer.groups) {
                all.insert(all.end(), group.leaves.begin(), group.leaves.end());
                all.insert(all.end(), group.against.begin(), group.against.end());
            }
            for (const auto& leaf : all) {
                ++leaves;
                INFO(leaf.text());
                if (!says_its_row(plain, leaf)) CHECK(says_its_row(plain, leaf));
            }
            for (const auto& leaf : answer.told) {
                const bool named = std::any_of(facts.begin(), facts.end(), [&](const PlainFact& fact) {
                    return leaf.text() == fmt::format("{}={} ({} 2026-11-25)", fact.attribute, fact.right_side,
                                                      tell_evidence_words(fact.evidence));
                });
                if (!named) CHECK(leaf.text() == "a told fact as it was said");
            }
        }
    }
    CHECK(leaves > 5000);
}
