// What an order leaves on record once it is placed: a line of the job for every role it serves, and, when the work is
// done, what of it is left for the shelf. Computes entries; writes nothing, and knows nothing of money paid.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "core/buy/buying.h"
#include "core/shop/shop_records.h"

namespace casebound {

// What sellers send, and what is kept on the own shelf until it is fitted. A core charge stands at the first role of its
// item.
std::vector<LineEvent> ordered_lines(const Order& order, const Buying& buying, std::optional<std::int64_t> job);

struct LeftOver {
    std::string role, item;
    double quantity{};
    std::optional<std::int64_t> job;
};

// Per job, role and item: came, less fitted, sent back and shelved before. A fitted entry without a quantity used all
// that came for its place. Places in which nothing was fitted count only when their job is among `closed`.
std::vector<LeftOver> left_for_the_shelf(const std::vector<LineEvent>& events, const std::vector<std::int64_t>& closed);

}  // namespace casebound
