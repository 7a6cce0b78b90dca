#pragma once
// Which of the findings told speak of trouble with the mounts, what imitates a mount, and which orders wait for that.

#include <string>
#include <vector>

#include "core/contract/false_leads.h"

namespace casebound::mounts {

Findings findings(const Services& services);

// Told trouble that shakes like a bad mount.
struct Imitator {
    std::string attribute, text;  // "misfire", "a misfire is told"
    SourceNote source;
};
// An idle is low only when it is below the maker's idle in every row that may hold.
std::vector<Imitator> imitators_told(const Services& services);

// What else a shake or a clunk that is told may be, as rows have it, and is not ruled out.
std::vector<FalseLead> leads_told(const Services& services);

// No engine mount is ordered while an imitator is told, or may stand behind what is told, and nothing seen speaks for a
// mount: common practice, no source. Fluid at a mount speaks for an engine mount, torn rubber for any; none of the
// engine is ordered where the rubber was found sound and no fluid seen.
std::vector<Hold> holds(const Services& services);

}  // namespace casebound::mounts
