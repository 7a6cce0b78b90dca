// What is to be bought, as far as it is known: the needs of settled lines, what blocks the rest, and, while lines are
// open, what each kind of vehicle that is still possible would need. Plain data.
#pragma once

#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/buy/needs.h"
#include "core/buy/pieces.h"
#include "core/cover/purchase.h"
#include "core/cover/unsure_order.h"
#include "core/session/session.h"
#include "core/shop/shop_offers.h"
#include "core/verdict/parts_list.h"

namespace casebound {

struct Blocked {  // a line that nobody may order yet
    std::string title, why;
    std::string may_leave_out{};  // the role, where the order may go without it
    std::vector<std::string> measure,
        accept;  // of a doubt: attributes that settle it; "pan_depth=41mm": may be accepted
};

struct Buying {
    PartsList list;
    std::vector<Need> needs;  // of the lines that are settled
    std::vector<Blocked> blocked;
    std::vector<std::string> open;      // titles of lines to check first
    std::vector<std::string> left_out;  // titles, by hand
    std::vector<std::string> left_in;   // "pan gasket (sound, 2026-11-25)": looked at, nothing is ordered for it
    std::vector<std::string> fitted;    // "pan filter (H-3310, 2026-11-25)": nothing is ordered for it
    std::vector<Piece> here;            // on order or here for this vehicle
    std::vector<Possibility> possible;  // when lines are open and nothing blocks
    std::vector<std::string> deciding;  // attributes that settle the open lines
    double finding_out_minutes{};
    std::optional<double> hour_value;           // the shop's setting, of an hour of own work
    Market market;                              // offers for any of the needs, the own shelf with them
    std::vector<std::string> not_offered;       // roles of needed lines that nothing on file serves
    std::map<std::string, std::string> titles;  // of items and roles, by key
    std::map<std::string, std::vector<std::string>>
        notes;                        // of items: their spec, what they stand in for, what a kit holds beside
    std::set<std::string> stand_ins;  // items that stand in for others
};

// A note of an item, once.
void add_note(Buying& buying, const std::string& item, const std::string& text);

// Titles and notes of what is on a list.
void add_notes(Buying& buying, const PartsList& list, const Catalog& catalog);

}  // namespace casebound
