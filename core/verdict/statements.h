// What sourced statements come to when they are met with configurations: where a group fits, where its sources
// disagree, where there is no such place, and which statements that rests on. Knows neither domains nor what was
// told; decides no verdict.
#pragma once

#include <cstdint>
#include <vector>

#include "core/verdict/catalog.h"

namespace casebound {

// A statement that counts (not withdrawn), and the configurations it speaks of.
struct Claim {
    const ApplicationRow* row = nullptr;
    Evidence evidence = Evidence::invented;
    Bits on;
};
using Claims = std::vector<Claim>;

struct Standing {
    Bits on, disagreed;
    Bits denied{};  // where something that counts says no, and nothing that counts for as much says yes; no part of it
    bool operator==(const Standing& other) const { return on == other.on && disagreed == other.disagreed; }
};

struct Weighed {
    std::vector<Standing> groups;  // as asked for
    Bits none;                     // there is no such place, and nothing that counts for as much says that a group fits
    bool operator==(const Weighed&) const = default;
};

// One source that says "fits" and then "no" on part of it has made an exception, not a contradiction. A statement
// from memory counts only where nothing firmer is said. "None needed" says no to every group.
Weighed weigh(const Claims& claims, const std::vector<std::int64_t>& groups, std::size_t configurations);

// Where a "fits" holds: what its own source does not except.
Bits holds(const Claim& fits, const Claims& claims);

// Which claims the outcome on `left` rests on: the others are left out one by one, the least firm and narrowest
// first, until without any one that remains the outcome would be another.
std::vector<bool> needed(Claims claims, const std::vector<std::int64_t>& groups, const Bits& left);

}  // namespace casebound
