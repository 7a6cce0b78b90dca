// What an examination of one candidate is collected in, for any domain; part of the contract, and nothing but shorthand.
// Decides nothing.
#pragma once

#include <algorithm>
#include <string>
#include <utility>

#include "core/contract/plugin.h"

namespace casebound {

// `services.vehicle` must be set.
struct Examiner {
    const Candidate& candidate;
    const Services& services;
    Examination result{};

    const VehicleView& vehicle() const { return *services.vehicle; }

    // A question only where there is something to choose between, and once.
    void ask(const std::string& attribute) {
        auto& asked = result.questions;
        const bool open = vehicle().possible(attribute).size() > 1;
        if (open && std::find(asked.begin(), asked.end(), attribute) == asked.end()) asked.push_back(attribute);
    }
    // Whether the vehicle has such a thing, or may: only then is there something to object to.
    bool can_tell(const std::string& attribute) {
        ask(attribute);
        return !vehicle().possible(attribute).empty();
    }
    void object(std::string condition, Verdict at_most, std::string reason, SourceNote source) {
        result.objections.push_back({std::move(condition), at_most, std::move(reason), std::move(source)});
    }
    void object(std::string condition, Verdict at_most, std::string reason, const Row& row) {
        object(std::move(condition), at_most, std::move(reason), row_source(row));
    }
    // The same sentence is said once.
    void warn(std::string text, SourceNote source) {
        const auto same = [&](const Caution& one) { return one.text == text; };
        if (std::none_of(result.cautions.begin(), result.cautions.end(), same))
            result.cautions.push_back({std::move(text), std::move(source)});
    }
};

}  // namespace casebound
