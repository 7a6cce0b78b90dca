// One piece serves one place: which needs draw on the same pieces, and who gets which of them. Whole numbers only;
// knows no item, no price and no seller.
//
// Pieces of small packs are dealt out: each way is a column of its own. What is poured, and what can be dealt in too many
// ways, need not be: every need can be met exactly when, for every group of needs, all that any of them can take is
// enough for all of them together (max flow and min cut), so that it is enough to cover the groups.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

namespace casebound {

// What one pack of a column holds of one thing, and the needs that it may be given to. A kit has several.
struct Lot {
    std::size_t column{};
    std::int64_t amount{};
    std::vector<std::size_t> takers;  // ascending, at least one
};

// Needs that draw on the same lots are one: the number of each need's class, counted by their first needs. Needs that
// draw on nothing stand alone.
std::vector<std::size_t> alike(const std::vector<Lot>& lots, std::size_t needs);

// All that one pack holds, dealt out in pieces of this size: the ways that give as much as can be used, each with lots of
// one taker. Nothing when there are more than `most`, or when something in it is not whole pieces.
std::optional<std::vector<std::vector<Lot>>> ways_to_deal(const std::vector<Lot>& pack,
                                                          const std::vector<std::int64_t>& wanted, std::int64_t piece,
                                                          std::size_t most);

using NeedGroup = std::vector<std::size_t>;  // ascending

// The groups that have to be covered, in order of their needs; those that others imply are left out. Where no lot is
// shared they are the needs, one by one. Nothing when they would be more than `most`.
std::optional<std::vector<NeedGroup>> groups_that_share(const std::vector<Lot>& lots, std::size_t needs,
                                                        std::size_t most);

struct LotShare {
    std::size_t lot{}, need{};
    std::int64_t amount{};
};

// `held`: amounts at hand, by lot; `wanted`: by need. As much as can be met; among equals earlier needs and lots first.
std::vector<LotShare> shared_out(const std::vector<Lot>& lots, const std::vector<std::int64_t>& held,
                                 const std::vector<std::int64_t>& wanted);

// Gives what nobody wants to the first that has some of the lot, else to the first that could take it.
void give_the_rest(std::vector<LotShare>& shares, const std::vector<Lot>& lots, const std::vector<std::int64_t>& held);

}  // namespace casebound
