// A candidate for a role on a vehicle, examined: objections, cautions, companions. One function a kind of part, all on
// the same case. A verdict can only be lowered; what is not known raises no objection. What was told counts whether or
// not the vehicle's line has the attribute.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound::filters_seals {

struct Case {
    const Candidate& candidate;
    const Services& services;
    Examination result{};

    const VehicleView& vehicle() const { return *services.vehicle; }
    // The row of `table` for the candidate's group; nullptr when there is none.
    const Row* row(std::string_view table) const { return row_of_group(services.facts, table, candidate.group); }
    std::optional<Told> told(std::string_view attribute) const { return told_of(services.vehicle, attribute); }
    std::vector<std::string> told_seen(std::string_view attribute) const;  // what is seen side by side

    // At most `at_most` where the condition holds; an objection that rests on memory asks and never refuses.
    void object(std::string condition, Verdict at_most, std::string reason, SourceNote source);
    // The same where `attribute` is `value`, or meets `comparison` ("<=32mm"); what nobody here measured or read of it
    // asks and never refuses.
    void object_where(std::string_view attribute, const PossibleValue& value, Verdict at_most, std::string reason,
                      SourceNote source);
    void object_if(std::string_view attribute, std::string condition, Verdict at_most, std::string reason,
                   SourceNote source);
    void caution(std::string text, SourceNote source = {}) {
        result.cautions.push_back({std::move(text), std::move(source)});
    }

    // A range or a list that was told of an attribute that the line does not have, as it was told.
    std::optional<Told> told_as_range(std::string_view attribute) const;

    // An objection for each possible value of `attribute` that differs from a recorded count, and for what was told
    // otherwise. None when nothing is known of the attribute or nothing is recorded.
    void object_to_other_count(std::string_view attribute, const std::optional<double>& recorded_count,
                               std::string_view what, const Row& row);
};

void examine_filter(Case& one);
void examine_in_line_filter(Case& one);
void examine_pan(Case& one);
void examine_seal(Case& one);
void examine_gasket(Case& one);
void examine_pan_bolts(Case& one);

}  // namespace casebound::filters_seals
