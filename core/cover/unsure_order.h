// What to order while more than one configuration is still possible: find out first, order for the most likely
// one, or order so that it is right in every one and send back the rest. Three expected prices, the reason for
// the cheapest, and what each leads to. Knows no vehicle: a possibility is its share and its needs.
#pragma once

#include <string>
#include <vector>

#include "core/cover/purchase.h"

namespace casebound {

struct Possibility {
    std::string name;
    double share{};  // of what is still possible; they need not add up to 1
    std::vector<Need> needs;
};

bool same_needs(const Possibility& a, const Possibility& b);

// What comes back for a pack that is sent back; 0 where it may not, or where that is not said. The own shelf takes all.
std::int64_t refund_cents(const Offer& offer, bool own_shelf, bool cores_come_back);

struct UnsureCosts {
    std::int64_t finding_out_cents{};   // once, before ordering
    std::int64_t second_order_cents{};  // each time an order turns out wrong: the wait, the second delivery
};

struct NotNeeded {
    std::string seller, item;
    int packs{};
    std::int64_t refund_cents{};  // after the fee, for all of them
    double pack_quantity = 1;     // of the item, in each pack
};

// What follows when the order has come and the configuration is known.
struct Outcome {
    std::size_t first{};  // of the possibilities that were given: the first of those that come to this
    std::string name;
    double share{};
    std::optional<Order> more;                   // bought on top, when something is missing
    std::vector<NotNeeded> sent_back;            // not needed after all
    std::vector<NotNeeded> left_over;            // nor needed, but not returnable, or kept for the free carriage
    std::int64_t refund_cents{}, total_cents{};  // total: first order, second order and its cost, less refunds
};

struct UnsurePlan {
    std::optional<Order> order;     // the first; of find out first: none
    std::vector<Outcome> outcomes;  // by possibility
    std::int64_t expected_cents{}, worst_cents{};
    bool proven = true;
    std::string reason;  // why there is none
    bool possible() const { return reason.empty(); }
};

enum class UnsureChoice : std::uint8_t { find_out_first, most_likely, right_in_every };

struct UnsureAdvice {
    UnsurePlan find_out_first;  // outcome.more: the order then
    UnsurePlan most_likely;
    UnsurePlan right_in_every;
    std::string likely;                        // the name of the most likely possibility
    double chance_wrong{};                     // that an order for it needs a second one
    std::int64_t cost_of_being_wrong_cents{};  // expected, against knowing at once
    UnsureChoice cheapest = UnsureChoice::find_out_first;
    std::string because;
};

// Possibilities with the same needs are one. Own stock goes back on the shelf at its price. Of an order meant to be
// right in every one, what may go back counts towards no free carriage and no minimum order: sellers take that
// back. Of an order that turned out wrong, free carriage once given stays.
// Throws Error(bad_data) as cheapest_order does, and when nothing is possible.
UnsureAdvice order_while_unsure(const std::vector<Possibility>& possible, const Market& market,
                                const UnsureCosts& costs, const PurchaseLimits& limits = {});

std::string_view unsure_choice_words(UnsureChoice choice);

}  // namespace casebound
