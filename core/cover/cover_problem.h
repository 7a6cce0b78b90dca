// The bare problem behind an order: whole packs, bought from sellers, that cover every need at least cost.
// Integers only. Knows no item, no name and no day. A seller asks carriage below a threshold, and may ask a
// minimum; packs that nobody needs may be added to reach either.
#pragma once

#include <cstddef>
#include <cstdint>
#include <limits>
#include <vector>

namespace casebound {

inline constexpr int without_end = 1'000'000;  // packs, sellers: as many as you like
inline constexpr std::int64_t never_free_cents = std::numeric_limits<std::int64_t>::max();

struct CoverGift {
    std::size_t need{};
    int amount{};
};

struct CoverOffer {
    std::size_t seller{};
    std::int64_t goods_cents{};
    int available = without_end;
    bool may_pad = true;  // a pack may be bought only to reach a threshold or a minimum, for its goods_cents
};

// A way to use one pack of an offer. Several columns may share an offer, and then share its packs.
struct CoverColumn {
    std::size_t offer{};
    std::int64_t cost{};  // in 1 / cost_per_cent cents
    std::vector<CoverGift> gives;
    bool counts = true;  // the offer's goods_cents count towards threshold and minimum
};

struct CoverSeller {
    std::int64_t carriage_cents{};
    std::int64_t free_from_cents = never_free_cents;
    std::int64_t minimum_cents{};
    bool counted = true;  // the own shelf is not counted as a seller
};

struct CoverProblem {
    std::vector<int> needs;  // amounts; whole numbers in the need's own unit
    std::vector<CoverOffer> offers;
    std::vector<CoverColumn> columns;  // earlier ones are preferred among equals
    std::vector<CoverSeller> sellers;  // likewise
    std::int64_t cost_per_cent = 1;
    int most_sellers = without_end;
    std::int64_t most_nodes = 200'000;  // then the search gives up the proof, not the answer
};

struct CoverAnswer {
    bool found{};
    std::int64_t cost{};       // in 1 / cost_per_cent cents, carriage and padding included
    std::vector<int> packs;    // by column
    std::vector<int> padding;  // by offer: bought only to reach a threshold or a minimum
    bool proven = true;        // false: most_nodes was reached, and it may be dearer than it need be,
    std::int64_t at_least{};   // but by no more than cost - at_least
    std::int64_t nodes{};      // looked at
};

}  // namespace casebound
