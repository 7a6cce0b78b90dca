// A candidate for a role on a vehicle, examined: objections, cautions, companions. One function a kind of part, all on
// the same case. A verdict can only be lowered; what is not known raises no objection.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "asked.h"
#include "core/contract/plugin.h"
#include "judgement.h"

namespace casebound::filters_seals {

struct Case {
    const Candidate& candidate;
    const Services& services;
    Examination result{};

    const VehicleView& vehicle() const { return *services.vehicle; }
    // The row of `table` for the candidate's group.
    std::optional<Row> row(std::string_view table) const { return recorded(services.facts, table, candidate.group); }
    // Newest value told for an attribute; "" when nobody has told.
    std::string told(std::string_view attribute) const;
    std::vector<std::string> told_seen(std::string_view attribute) const;  // what is seen side by side

    // At most `at_most` where the condition holds; an objection that rests on memory asks and never refuses.
    void object(std::string condition, Verdict at_most, std::string reason, SourceNote source);
    void caution(std::string text) { result.cautions.push_back(std::move(text)); }

    // An objection for each possible value of `attribute` that differs from a recorded number. None when the line
    // does not have the attribute or nothing is recorded.
    void object_to_other_number(std::string_view attribute, const std::optional<double>& recorded_value,
                                std::string_view what, const Row& row);
};

// "pan_depth=41 mm"
std::string condition_for(std::string_view attribute, const PossibleValue& value);
// Both hold; either may be empty.
std::string both(std::string_view a, std::string_view b);

void examine_filter(Case& one);
void examine_pan(Case& one);
void examine_seal(Case& one);
void examine_gasket(Case& one);
void examine_pan_bolts(Case& one);

// Without a vehicle there is nothing to examine: the answer is empty.
Examination examine_candidate(const Candidate& candidate, const Services& services);

}  // namespace casebound::filters_seals
