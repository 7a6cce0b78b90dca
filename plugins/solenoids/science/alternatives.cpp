#include "science/alternatives.h"

#include <numeric>

#include "core/contract/valid_range.h"

namespace casebound::solenoids {
namespace {

const char* const otherwise = "otherwise";

void check_row(const ProbableTest& test, const std::vector<double>& row) {
    const auto outcomes = static_cast<double>(test.outcomes.size());
    const std::string& name = test.attribute.name;
    in_range("outcomes of " + name, static_cast<double>(row.size()), outcomes, outcomes);
    for (double chance : row) in_range("chance in " + name, chance, 0.0, 1.0);
    const double sum = std::accumulate(row.begin(), row.end(), 0.0);
    in_range("sum of chances in " + name, sum, 0.999999, 1.000001);
}

void check_test(const ProbableTest& test, std::size_t hypotheses) {
    const auto count = static_cast<double>(hypotheses);
    in_range("rows of " + test.attribute.name, static_cast<double>(test.chance.size()), count, count);
    for (const auto& row : test.chance) check_row(test, row);
}

Attribute as_choice(const Attribute& attribute) {
    Attribute choice = attribute;
    choice.kind = ValueKind::choice;
    choice.unit.clear();
    choice.tolerance = 0;
    choice.choices.clear();
    return choice;
}

struct Expansion {
    const std::vector<SeenTest>& seen;
    const std::vector<ProbableTest>& asked;
    AlternativeTable table{};

    void add(Alternative one) {
        if (one.weight <= 0.0) return;
        one.values.resize(seen.size() + asked.size());
        table.alternatives.push_back(std::move(one));
        in_range("number of alternatives", static_cast<double>(table.alternatives.size()), 0.0,
                 static_cast<double>(most_alternatives));
    }

    // One alternative more for every seen test that would have gone otherwise.
    void add_seen(std::size_t hypothesis, Alternative so_far) {
        for (const auto& [test, outcome] : seen) {
            const double chance = test.chance[hypothesis].at(outcome);
            Alternative missed = so_far;
            missed.weight *= 1.0 - chance;
            missed.values.emplace_back(otherwise);
            add(std::move(missed));
            so_far.weight *= chance;
            so_far.values.push_back(test.outcomes.at(outcome));
        }
        add_asked(hypothesis, 0, so_far);
    }

    void add_asked(std::size_t hypothesis, std::size_t at, const Alternative& so_far) {
        if (so_far.weight <= 0.0) return;
        if (at == asked.size()) return add(so_far);
        for (std::size_t outcome = 0; outcome < asked[at].outcomes.size(); ++outcome) {
            Alternative one = so_far;
            one.weight *= asked[at].chance[hypothesis][outcome];
            one.values.push_back(asked[at].outcomes[outcome]);
            add_asked(hypothesis, at + 1, one);
        }
    }
};

}  // namespace

AlternativeTable expand(const std::vector<Hypothesis>& hypotheses, const std::vector<SeenTest>& seen,
                        const std::vector<ProbableTest>& asked) {
    Expansion expansion{seen, asked};
    for (const auto& one : seen) {
        check_test(one.test, hypotheses.size());
        expansion.table.attributes.push_back(as_choice(one.test.attribute));
    }
    for (const auto& test : asked) {
        check_test(test, hypotheses.size());
        expansion.table.attributes.push_back(as_choice(test.attribute));
    }
    for (std::size_t i = 0; i < hypotheses.size(); ++i)
        expansion.add_seen(
            i, {hypotheses[i].label, in_range("weight of " + hypotheses[i].label, hypotheses[i].weight, 0.0, 1e9), {}});
    return std::move(expansion.table);
}

std::vector<std::pair<std::string, std::string>> findings(const std::vector<SeenTest>& seen) {
    std::vector<std::pair<std::string, std::string>> all;
    for (const auto& [test, outcome] : seen) all.emplace_back(test.attribute.name, test.outcomes.at(outcome));
    return all;
}

}  // namespace casebound::solenoids
