#include "rows/tightening.h"

#include <stdexcept>
#include <string>

#include "rows/mount_record.h"
#include "science/stages.h"

namespace casebound::mounts {
namespace {

// A text that is no list of stages was reported when the pack was checked; it is shown as it stands.
std::string stages_or_text(std::string_view text) {
    if (text.empty()) return "tightening not stated";
    try {
        if (const auto stages = read_stages(text)) return stages_text(*stages);
    } catch (const std::domain_error&) {}
    return std::string(text);
}

}  // namespace

Fastener fastener_of(const HeldRow& row) {
    std::string text = stages_or_text(row->text("tightening"));
    if (row->text("reuse") == "never") text += "; new each time";
    if (row->yes("settle_first")) text += "; loose until the engine has settled";
    return {std::string(row->text("count")) + " x " + std::string(row->text("fastener")), text + row.where(),
            row_source(*row)};
}

std::vector<HeldRow> fasteners_at(const Services& services, Position position) {
    auto rows = rows_here(services, "mounts_fasteners");
    if (position != Position::unknown)
        std::erase_if(rows, [&](const HeldRow& row) { return row->text("position") != position_key(position); });
    return rows;
}

Tightening tightening(std::string_view role, const Services& services) {
    const auto position = position_of_role(role);
    if (position == Position::unknown) return {true, {}};
    Tightening tightening;
    for (const auto& row : fasteners_at(services, position)) tightening.fasteners.push_back(fastener_of(row));
    return tightening;
}

}  // namespace casebound::mounts
