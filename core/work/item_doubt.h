// What the catalog says against an item in a role of a vehicle, for what was written down as bought or fitted.
// Judges nothing anew: it asks the role's answer. What happened stays on record whatever is said here.
#pragma once

#include <optional>
#include <string>

#include "core/session/session.h"
#include "core/verdict/interchange.h"

namespace casebound {

struct ItemDoubt {
    std::string words;  // "does not fit this vehicle: ..."
    bool unfit{};       // it may not stay: false when it is only not known yet
    bool says_no{};     // a row says so; false too where nothing is on record of it
};

// Nothing when the item serves the role, no item is named, or the role is not answered today.
std::optional<ItemDoubt> item_doubt(const Situation& situation, const RoleAnswer& role, const std::string& item);

// The same for one role asked alone; nothing when no loaded pack has the vehicle's line.
std::optional<ItemDoubt> item_doubt(Session& session, const std::string& vehicle, const std::string& role,
                                    const std::string& item);

// Throws Error(usage) when the item is of another kind than the role takes; a kit may stand in any role it has a part for.
void check_kind(const Catalog& catalog, const std::string& role, const std::string& item);

}  // namespace casebound
