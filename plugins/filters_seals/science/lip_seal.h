// Rotary lip seals by size d1 x d2 x b (ISO 6194-1, DIN 3760), their press fit
// in the bore, and the hat seal of a filter neck, which is pressed the same way.
// Only the published rows are known; the full size list is not held here, so a
// size not found is not recorded, never "does not exist".
// Never reads lip direction, dust lip or elastomer: the size alone is no match.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/answer.h"
#include "science/judgement.h"
#include "science/measure.h"

namespace casebound::filters_seals {

enum class LipCasing { metal, rubber_covered };

// Seal OD over nominal bore, mm (ISO 6194-1; "over" one row's end, "to" the next).
// Throws std::domain_error for a bore outside 0 to 500 mm.
Range press_fit_allowance_mm(double bore_mm, LipCasing casing);
double roundness_max_mm(double bore_mm);
Range seal_od_mm(double bore_mm, LipCasing casing);

// ISO 286-2 fits. H8: upper deviation of the bore (lower is 0), not recorded to
// 6 mm. h11: lower deviation of the shaft, a negative number (upper is 0).
// Throw std::domain_error outside 0 to 500 mm.
std::optional<double> bore_h8_upper_mm(double bore_mm);
double shaft_h11_lower_mm(double shaft_mm);

// The whole millimetre that a bore is machined from: its H8 holds the measure, which may be off by so much either way.
// Nothing where none does: worn, or of another nominal.
std::optional<double> nominal_bore_mm(double measured_mm, double off_by_mm);

// Plus or minus, mm: 0.20 to 10 mm wide, 0.30 above. Throws outside 1 to 50 mm.
double width_tolerance_mm(double width_mm);

struct HousingDepth {
    double width_mm;
    double t1_min_mm;  // full-diameter part of the bore
    double t2_min_mm;  // to the shoulder
};

// Not recorded for a width other than 7, 8, 10, 12, 15 or 20 mm.
std::optional<HousingDepth> housing_depth(double width_mm);

// Seal OD less bore; above 0 is a press fit.
Stacked interference_mm(const Toleranced& seal_od_mm, const Toleranced& bore_mm);

// A hat seal pressed in the case bore, its lip on the filter neck. mm; absent
// is unknown.
struct HatSeal {
    std::optional<Toleranced> seal_od_mm;
    std::optional<Toleranced> bore_mm;
    std::optional<Toleranced> neck_mm;
    std::optional<Toleranced> lip_id_mm;
};

struct HatSealAnswer {
    std::optional<Stacked> press_mm;  // seal OD - bore
    std::optional<Stacked> lip_mm;    // neck - lip ID
    Finding press;
    Finding lip;
    Judgement overall;
    std::vector<std::string> measure_next;
};

Window default_hat_press_window();  // 0.1 to 0.4 mm, from memory
Window default_hat_lip_window();    // 0.5 to 1.5 mm, from memory

// Interference of zero or less is a firm no; the windows, while from memory,
// only ask. Throws std::domain_error for a diameter outside 0.3 to 500 mm.
HatSealAnswer examine_hat_seal(const HatSeal& seal, const Window& press = default_hat_press_window(),
                               const Window& lip = default_hat_lip_window());

// `name` is borrowed from the caller's rows.
struct LipSealSize {
    std::string_view name;
    double shaft_mm;  // d1
    double bore_mm;   // d2
    double width_mm;  // b
};

// Shaft and bore as measured on the vehicle, width on the old seal.
struct LipSealMeasured {
    std::optional<Toleranced> shaft_mm;
    std::optional<Toleranced> bore_mm;
    std::optional<Toleranced> width_mm;
};

struct LipSealMatch {
    const LipSealSize* size;  // into the caller's rows
    Judgement judgement;
    double off_mm;
};

// Every row whose shaft (h11), bore (H8) and width tolerance allow what was
// measured; nearest first, then by name. An unknown measurement rules nothing
// out. "fits" only for a single row with all three wholly inside.
// Throws std::domain_error for a diameter outside 0.3 to 500 mm, width 1 to 50.
std::vector<LipSealMatch> lip_seals_like(std::span<const LipSealSize> rows, const LipSealMeasured& measured);

// What was measured across a bore, a seal and a filter's neck; nothing where it was not.
struct SealAcross {
    std::optional<double> bore_mm, outside_mm, neck_mm, lip_mm;
};

// The section, with each number that was measured; nothing until the bore and one thing in it are.
std::optional<Picture> seal_picture(const SealAcross& seal);

}  // namespace casebound::filters_seals
