// Which recorded seals a seal in the hand may be, by its measured size. A measurement rules a seal out only where the
// seal records that length and the two cannot meet within tolerance; what is not measured rules nothing out.
// Never matches on colour, and never says more of a match than its size.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"
#include "science/measure.h"

namespace casebound::filters_seals {

struct InHand {
    std::optional<Toleranced> id_mm, od_mm, height_mm, section_mm;
    std::string form;  // as packs say it; "" when nobody has said
};

// "25 x 32 x 7", "25x32x7 mm", "25-32-7": inside, outside, height. Nothing for anything else, and for an outside that
// is not larger than the inside.
struct PrintedSize {
    double id_mm, od_mm, height_mm;
};
std::optional<PrintedSize> printed_size(std::string_view text);

struct SealMatch {
    const Row* row;  // into the caller's rows
    int compared;    // lengths that both sides state
    bool certain;    // every measured length is stated, and lies inside the seal's own tolerance
    double off_mm;   // sum of the differences of what was compared
};

// Rows of filters_seals_seals, nearest first, then by group. Rows that share no length with what was measured are left out.
// Tolerances: O-rings as recorded for their size in `sizes`, else 0; a lip seal's outside may exceed its recorded bore by the
// press fit of ISO 6194-1, its height by the width tolerance of the same standard.
// Throws std::domain_error outside: diameters 0.3 to 2000 mm, height and section 0.3 to 100 mm.
std::vector<SealMatch> seals_like(const std::vector<Row>& seals, const std::vector<Row>& sizes, const InHand& in_hand);

}  // namespace casebound::filters_seals
