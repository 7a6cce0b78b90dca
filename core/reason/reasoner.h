// The possibilities engine as domains borrow it: alternatives with weights, narrowed by findings, ranked, and the
// next question by information per minute.
#pragma once

#include "core/contract/plugin.h"

namespace casebound {

class Engine : public Reasoner {
public:
    // Throws std::domain_error for a finding whose value its attribute cannot have, or a table whose rows are ragged.
    Ranking rank(const AlternativeTable& table,
                 const std::vector<std::pair<std::string, std::string>>& findings) const override;
};

}  // namespace casebound
