// The best path of statements from one group to another. Knows what a statement is worth only by what it is told.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "core/ground/bits.h"
#include "core/verdict/swap_answer.h"

namespace casebound {

// Best verdict first, then nothing to be fitted beside it, then firmest evidence, then fewest steps; exact because every threshold is searched breadth first
// on its own. On a vehicle, a path whose conditions cannot all hold is none.
class PathSearch {
public:
    std::string wanted, offered;
    std::optional<Bits> left;  // configurations of the vehicle; none meant: every condition stays open
    std::function<const std::vector<Edge>&(const std::string&)> edges_to;
    std::function<bool(const Edge&)> usable;
    std::function<Bits(const Edge&)> where;
    std::function<SwapVerdict(const Edge&)> gives;  // yes, yes_if or differs: what a path by this edge comes to at best
    std::function<bool(const std::string&)> barred;

    std::vector<Edge> best() const;  // from the offered group to the wanted one; empty when there is none

private:
    std::vector<Edge> within(SwapVerdict worst, bool alone, Evidence weakest) const;
};

}  // namespace casebound
