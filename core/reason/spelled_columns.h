// The rows that list what a line was built as, spelled out into its configurations, column by column.
#pragma once

#include <cstddef>
#include <vector>

#include "core/reason/possibilities.h"
#include "core/reason/vocabulary.h"

namespace casebound {

class SpelledColumns {
public:
    explicit SpelledColumns(const Vocabularies& words) : words_(words) {}

    // The first row says which attributes the line has; of one that a later row does not name, it has none. `share`, of
    // the row as a whole, is divided. Returns how many configurations it stands for. Throws ConditionFault.
    std::size_t add(const Condition& row, double share);

    Possibilities possibilities();  // of all that was added; once

private:
    const Vocabularies& words_;
    std::vector<Attribute> attributes_;
    std::vector<Possibilities::Cells> columns_;
    std::vector<double> weights_;
};

}  // namespace casebound
