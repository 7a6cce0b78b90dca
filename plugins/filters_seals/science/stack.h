// Pan, filter and neck as one stack, from four lengths measured at the bench:
// the gap left under the filter and how far its neck reaches into the seal.
// What an old seal left in the bore does to both is part of the sum.
// Never decides from the default window alone: it is from memory, so only a
// pan that cannot close or a neck that does not reach is a firm no.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/contract/answer.h"
#include "science/judgement.h"

namespace casebound::filters_seals {

// All lengths in mm. An absent one is unknown, never zero.
struct FilterStack {
    std::optional<Toleranced> pan_depth_mm;      // gasket rail to pan floor
    std::optional<Toleranced> filter_height_mm;  // same datum, down to the filter's lowest point
    std::optional<Toleranced> neck_length_mm;
    std::optional<Toleranced> depth_to_seal_mm;  // bore mouth to the seal
    std::optional<double> old_seal_left_mm;      // height; 0 = looked up the bore, nothing there
};

enum class GapPlace { unknown, will_not_close, below_window, inside_window, above_window, straddles };

struct StackAnswer {
    std::optional<Stacked> gap_mm;
    std::optional<Stacked> engagement_mm;
    GapPlace place;
    Finding gap;
    Finding engagement;
    Judgement overall;
    std::vector<std::string> measure_next;  // what is missing, in the order of effort
    std::vector<std::string> cautions;
};

// 3 to 10 mm, from memory.
Window default_gap_window();

// The gap of the pair that came off, plus or minus `margin_mm`, never reaching
// 0 or less. Without a margin half the width of the default window is taken,
// and the window stays from memory; with the caller's margin it is measured.
Window window_from_old_pair(const Toleranced& old_pan_depth_mm, const Toleranced& old_filter_height_mm,
                            std::optional<double> margin_mm = std::nullopt);

// gap = pan depth - filter height - old seal left in.
Stacked gap_mm(const Toleranced& pan_depth_mm, const Toleranced& filter_height_mm, double old_seal_left_mm);

// engagement = neck length - depth to seal - old seal left in.
Stacked engagement_mm(const Toleranced& neck_length_mm, const Toleranced& depth_to_seal_mm, double old_seal_left_mm);

// `engagement_window`: what the seal needs, when known (seal height, or the old
// neck). Without it a positive engagement is an open question.
// Throws std::domain_error outside: pan depth, filter height 1 to 300 mm; neck
// length, depth to seal 0 to 200 mm; old seal 0 to 50 mm; margin 0 to 50 mm.
StackAnswer examine_stack(const FilterStack& stack, const Window& gap_window = default_gap_window(),
                          const std::optional<Window>& engagement_window = std::nullopt);

// The section through case, neck seal, filter and pan with the measured lengths, for a page; and the same in words.
// Heights are to scale, widths are not. A length that is not known is left out, never drawn by guess.
// `seal_height_mm`: of the seal in its seat, when known.
Picture section_picture(const FilterStack& stack, const StackAnswer& answer, std::optional<double> seal_height_mm);

}  // namespace casebound::filters_seals
