// Pan, filter and neck seal as packs record them: whether each goes with the next. The same arithmetic serves the
// inquiry, the examination of a candidate, and a substitution.
// A length that is not stated gives an open question, never a yes.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/contract/plugin.h"
#include "science/judgement.h"

namespace casebound::filters_seals {

// A recorded length may be off by this where it decides against a part: a ruler's millimetre, common practice.
inline constexpr double kRulerMm = 1.0;

struct Pairing {
    std::string label;
    Finding finding;
    SourceNote source;  // of the rows
};

// Absent is not recorded. `bore_source`: where the bore comes from, when there is one.
struct Triple {
    const Row *filter, *pan, *seal;
    std::optional<double> bore_mm;
    SourceNote bore_source;
};

std::vector<Pairing> examine_triple(const Triple& triple);

// A filter under a pan this deep. `made_for_mm`: the pan depth the filter is made for; a depth near it is as good
// as the old pair, whatever the default window says.
struct UnderPan {
    bool will_not_close, much_room, close;
    Finding finding;
};
UnderPan filter_under_pan(double pan_depth_mm, double filter_height_mm, std::optional<double> made_for_mm);

// The gap of the pair a filter is made for, give or take the tolerance of pan_depth; the default window where that
// pair makes no sense.
Window window_made_for(double filter_height_mm, double made_for_mm, Source source);

// The form of a seal as neck seals name it: a plain O-ring sits on the neck.
std::string_view neck_form(std::string_view form);

// Two forms that each have their own way of fitting, and are not the same one.
bool opposite_forms(std::string_view a, std::string_view b);

// The seal of a row on a neck, in a bore; each nothing when a length is not stated.
std::optional<Finding> seal_in_bore(const Row& seal, double bore_mm);
std::optional<Finding> seal_on_neck(const Row& seal, double neck_mm, std::optional<double> bore_mm);

}  // namespace casebound::filters_seals
