#pragma once
// Hypotheses and tests whose outcome is only probable, written out as the weighted alternatives that core's
// possibilities engine narrows and asks about. Nothing is ranked, narrowed or chosen here.

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "core/contract/services.h"

namespace casebound::solenoids {

struct Hypothesis {
    std::string label;  // may repeat: the engine adds the shares
    double weight;      // 0 to 1e9; need not sum to 1
};

struct ProbableTest {
    Attribute attribute;                      // a choice: its name, how to do it and the minutes
    std::vector<std::string> outcomes;        // plain words: no `|`, `=`, `<`, `>` and no `..`
    std::vector<std::vector<double>> chance;  // [hypothesis][outcome], each row sums to 1
};

struct SeenTest {
    ProbableTest test;
    std::size_t outcome;
};

inline constexpr std::size_t most_alternatives = 65536;

// The tests count as independent once the hypothesis is known. A hypothesis becomes one alternative for each
// combination of outcomes of the tests still to be done, all seen outcomes met, weighted by the product of the
// chances; and one for each seen test that would have gone otherwise, which says nothing about the tests after
// it. A hypothesis of no weight is left out. std::domain_error when a row has the wrong length, a chance lies
// outside 0 to 1, a row does not sum to 1, or more than most_alternatives would result.
AlternativeTable expand(const std::vector<Hypothesis>& hypotheses, const std::vector<SeenTest>& seen,
                        const std::vector<ProbableTest>& asked);

// The seen outcomes as the engine takes them.
std::vector<std::pair<std::string, std::string>> findings(const std::vector<SeenTest>& seen);

}  // namespace casebound::solenoids
