// Why an item fits, does not, or cannot be told yet, on one vehicle: role by role, with what would make it fit.
// Renders nothing.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/session/session.h"
#include "core/verdict/interchange.h"

namespace casebound {

struct Why {
    RoleAnswer role;
    const GroupAnswer* group;  // of the roles that `whys` was given
    std::string lowered;       // why this item is less than its group: a claim, withdrawn, in a group that does not fit
    std::optional<Leaf> member{};  // what puts it in the group; nothing when the group itself is asked about
    std::vector<Leaf> leaves() const {
        auto all = group->leaves;
        if (member) all.push_back(*member);
        return all;
    }
    Evidence weakest() const { return member ? weaker(role.weakest, member->evidence()) : role.weakest; }
    Verdict verdict() const {
        return !lowered.empty() && group->verdict == Verdict::fits ? Verdict::check_first : group->verdict;
    }
};

// With the attributes that settle it, when it is to be checked first.
RoleAnswer with_deciding(RoleAnswer answer, const Situation& situation);

// Roles of the line on which one of the groups is on record. `roles` outlives the result.
std::vector<Why> whys(const Catalog& catalog, const Situation& situation, const std::string& item,
                      const std::vector<RoleAnswer>& roles, const std::vector<std::string>& groups);

// Where in the line the group would fit, in plain words; "" when nowhere.
std::string would_fit(const Situation& situation, const RoleAnswer& role, const GroupAnswer& group);

// Of a group that is sure to fit on none of them.
inline std::string_view fits_none_words(const GroupAnswer& group) {
    return group.disagreed_line.any() ? "Its sources agree on no version of this line."
                                      : "It fits no version of this line.";
}

// Groups of an item: those in a kit, its own, or itself. Throws Error(usage) with a near miss.
struct ItemGroups {
    std::vector<std::string> groups;
    bool kit{};
};
ItemGroups groups_asked(const Catalog& catalog, const std::string& item);

// An item that no application names may still stand in for one that does: the role's title with each answer.
struct StandIn {
    std::string role, best;
    SwapAnswer answer;
};
std::vector<StandIn> stand_ins_of(const Places& places, const std::string& item, const std::vector<RoleAnswer>& roles);

// May `offered` stand in for `wanted`? On the vehicle, where one is meant.
SwapAnswer swap_on(Session& session, const Situation* vehicle, const std::string& wanted, const std::string& offered);

}  // namespace casebound
