// What core asks of this domain about rows and vehicles, one function a hook. Each only reads; none raises a verdict.
#pragma once

#include <string_view>
#include <vector>

#include "core/contract/plugin.h"
#include "science/debris.h"

namespace casebound::filters_seals {

// The words of this domain. How to find out and the minutes it takes: common practice, no source.
// Never declares a word of core (year, gearbox, cooler, ...), and no word of another domain.
Vocabulary vocabulary();

// The consistency of this domain's rows in a pack: what the SQL cannot hold. Every fault, with its row, column and what
// to do. Numbers known only from memory never make a fault.
std::vector<RowFault> check(const Facts& facts, std::string_view pack);

// Without a vehicle there is nothing to examine: the answer is empty.
Examination examine(const Candidate& candidate, const Services& services);

// One group in place of another, by what packs record of both. What neither side records raises no opinion; what only
// one side records becomes a condition to look at.
Opinion may_stand_in(const Substitution& substitution, const Services& services);

// Which of the findings told speak of trouble, and what may imitate the leak that they speak of.
Findings findings(const Services& services);

// How the fasteners of a role are tightened on this vehicle, or that it is not recorded.
Tightening tightening(std::string_view role, const Services& services);

// What lies in the pan and asks to stop and decide again, as a pack reads it, else as common practice does.
struct StopFinding {
    DebrisRow row;
    SourceNote source;  // told, and what reads it so
};
std::vector<StopFinding> stop_findings(const Services& services);

// No order of a part of this domain while one of those stands; none for a job about a leak while something that imitates
// one is not ruled out.
std::vector<Hold> holds(const Services& services);

}  // namespace casebound::filters_seals
