// O-ring sizes by number or by measurement (AS568 in inch, ISO 3601-1 in mm).
// The caller brings the rows; only the few the demo needs are built in.
// A worn ring has taken a set and may have swollen: a match by measurement
// names candidates, and never more than that while two rows remain.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "science/judgement.h"

namespace casebound::filters_seals {

// `number` and `note` are borrowed from the caller's rows. A note says where
// published tolerances disagree.
struct RingSize {
    std::string_view number;
    Toleranced id_mm;
    Toleranced section_mm;
    std::string_view note;
};

struct RingMatch {
    const RingSize* size;  // into the caller's rows
    Judgement judgement;
    double off_mm;  // |ID difference| + |section difference| of the nominals
};

// AS568 sizes 010, 112, 120, 214, 325, 425, 910.
std::span<const RingSize> built_in_ring_sizes();
Source built_in_ring_sizes_source();

// nullptr when the rows do not hold that number.
const RingSize* ring_by_number(std::span<const RingSize> rows, std::string_view number);

// Every row that the measurements allow, nearest first, then by number. An
// unknown measurement rules nothing out. "fits" only for a single row, both
// measured, each wholly inside the row's own tolerance.
// Throws std::domain_error outside: ID 0.3 to 2000 mm, section 0.3 to 100 mm.
std::vector<RingMatch> rings_like(std::span<const RingSize> rows, const std::optional<Toleranced>& id_mm,
                                  const std::optional<Toleranced>& section_mm);

// Tolerance of the inside diameter, plus or minus, ISO 3601-1:2012 class B,
// equation A.1: 0.009 d1^0.95 + 0.11 mm.
// Throws std::domain_error outside 0.3 to 2000 mm.
double class_b_id_tolerance_mm(double id_mm);

}  // namespace casebound::filters_seals
