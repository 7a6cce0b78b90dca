// What a line of the list needs, and what may serve it: the parts of every group that fits, what stands in outright, and
// things in kits. Knows no offer and no order.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/cover/market.h"
#include "core/verdict/parts_list.h"

namespace casebound {

struct BuyWish {
    std::vector<std::string> jobs, with, without;  // roles to order although they are looked at first; roles left out
    std::optional<double> reserve_l{};             // as the list counts it when not given
    PurchaseLimits limits{};
    std::vector<std::string> found_bad{}, left_in{};  // roles, by what was looked at
};

bool among(const std::vector<std::string>& keys, const std::string& key);

// Is the line to be ordered, by its reach and by the wish?
bool wanted(const ListLine& line, const BuyWish& wish);

// However sound the old one was found: it is used once.
bool goes_in_new(const ListLine& line);

// Outright ones only: one that stands in on a condition is the person's to choose.
bool may_be_ordered(const SwapAnswer& swap);
Need need_of(const ListLine& line, const PartsList& list, const Places& places, const BuyWish& wish);

// The same place served by such a stand-in: the need with it alone, and a need for each thing that goes with it.
struct WithOthers {
    std::string offered, wanted;  // groups
    Need need;
    std::vector<Need> others;  // by place
};
std::vector<WithOthers> served_with_others(const ListLine& line, const PartsList& list, const Places& places,
                                           const BuyWish& wish);

}  // namespace casebound
