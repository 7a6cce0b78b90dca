// What is doubtful in the catalog as a whole: contradictions, gaps, dead conditions, groups with nothing to buy,
// and verdicts that rest on memory alone. Reads only; the rows are named so that a person can mend them.
#pragma once

#include <string>
#include <vector>

#include "core/verdict/fits.h"

namespace casebound {

struct AuditFinding {
    std::string kind;  // contradiction, gap, conditions exclude each other, empty group, from memory
    std::string what;
    std::vector<Origin> rows;
};

std::vector<AuditFinding> audit(const Catalog& catalog, const Plugins& plugins, const Reasoner& reasoner);

}  // namespace casebound
