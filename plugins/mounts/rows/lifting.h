#pragma once
// What packs say about lifting the engine of a vehicle, each statement with its row. Decides nothing.

#include <string>
#include <vector>

#include "core/contract/services.h"
#include "science/lifting.h"

namespace casebound::mounts {

struct LiftStatement {
    LiftInstruction instruction;
    SourceNote source;
    std::string where;  // " where engine=2.4d"; empty where it holds
};

// Those that hold on the vehicle or may, in file order.
std::vector<LiftStatement> lift_statements(const Services& services);

std::vector<LiftInstruction> instructions_of(const std::vector<LiftStatement>& statements);

// Of the statements about a point the weakest; common practice where there is none.
SourceNote source_at(const std::string& point, const std::vector<LiftStatement>& statements);

}  // namespace casebound::mounts
