#include <algorithm>
#include <array>

#include "rows/hooks.h"

namespace casebound::filters_seals {
namespace {

// Roles that are screwed; all others of this domain are pressed, clipped or laid in.
constexpr std::array<std::string_view, 3> kScrewed{"pan-bolts", "drain-plug", "pan-filter"};

std::string stated(const Row& row, std::string_view column, std::string_view otherwise) {
    return std::string(row.stated(column) ? row.text(column) : otherwise);
}

Fastener pan_bolts(const HeldRow& row) {
    const std::string sequence = row->stated("sequence") ? ", " + std::string(row->text("sequence")) : "";
    return {stated(*row, "bolt_count", "?") + " x " + stated(*row, "bolt", "thread not stated"),
            stated(*row, "tightening", "tightening not stated") + sequence + row.where(), row_source(*row)};
}

}  // namespace

Tightening tightening(std::string_view role, const Services& services) {
    if (std::find(kScrewed.begin(), kScrewed.end(), role) == kScrewed.end()) return {true, {}};
    Tightening tightening;
    if (role == "pan-bolts")
        for (const auto& row : rows_here(services, "filters_seals_flanges"))
            tightening.fasteners.push_back(pan_bolts(row));
    return tightening;
}

}  // namespace casebound::filters_seals
