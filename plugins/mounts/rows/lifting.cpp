#include "rows/lifting.h"

#include <optional>

namespace casebound::mounts {

std::vector<LiftStatement> lift_statements(const Services& services) {
    std::vector<LiftStatement> all;
    for (const auto& row : rows_here(services, "mounts_lifting"))
        all.push_back({{std::string(row->text("point")), row->text("says") == "allowed",
                        std::string(row->text("words")), row->origin.source},
                       row_source(*row),
                       row.where()});
    return all;
}

std::vector<LiftInstruction> instructions_of(const std::vector<LiftStatement>& statements) {
    std::vector<LiftInstruction> instructions;
    for (const auto& one : statements) instructions.push_back(one.instruction);
    return instructions;
}

SourceNote source_at(const std::string& point, const std::vector<LiftStatement>& statements) {
    std::optional<SourceNote> weakest;
    for (const auto& one : statements)
        if (one.instruction.point == point) weakest = weakest ? weaker(*weakest, one.source) : one.source;
    return weakest.value_or(SourceNote{});
}

}  // namespace casebound::mounts
