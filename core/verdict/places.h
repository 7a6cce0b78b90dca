// The one judge of what may fill a place of a vehicle, and on what evidence: what is recorded for the place, what may
// stand in for that here, what its sources divide, what the parts of a group are by their other groups, and what was
// told. Every list, order, sheet and page asks it; none has a rule of its own.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/verdict/fits.h"
#include "core/verdict/interchange.h"

namespace casebound {

// A stand-in that may be taken without a word more than the vehicle says.
bool outright(const SwapAnswer& swap);
// The same, or once what goes with it goes in, too.
bool as_stated(const SwapAnswer& swap);

class Places {
public:
    // Both must outlive this, and be of the same vehicle.
    Places(const Judge& judge, const Interchange& interchange) : judge_(judge), interchange_(interchange) {}

    // As Judge::role, with all of the above. Throws Error(usage) with a near miss for an unknown role.
    RoleAnswer role(std::string_view role) const;
    std::vector<RoleAnswer> roles() const;  // every role the line has applications for, by name

    // What may stand in for a group in its place, outright or on conditions, best first; nothing that is recorded as
    // not fitting there.
    std::vector<SwapAnswer> stand_ins_for(const RoleAnswer& place, const GroupAnswer& wanted) const;

    // May one item or group stand in for another on this vehicle? A part recorded as not fitting it may not.
    SwapAnswer swap(const std::string& wanted, const std::string& offered) const;

    // What stands in only together with other parts, and so is right on all that is left. A place that is open is
    // answered with it; beside what fits alone it is another way.
    void add_with_others(RoleAnswer& place) const;

    // The members of a group that may be ordered for the place on all of `on`: not withdrawn, in the group by more than
    // a claim, and in no other group that is ruled out there.
    std::vector<Member> members(const RoleAnswer& place, const GroupAnswer& group) const;

    // The group by which a part of another group is ruled out of the place, and where; of none: "".
    struct ByGroup {
        std::string group;
        Bits on;
    };
    ByGroup ruled_out_by(const RoleAnswer& place, const GroupAnswer& group, const std::string& part) const;

    // The same of what stands in.
    std::vector<Member> members_standing_in(const RoleAnswer& place, const SwapAnswer& swap) const;

    // And of what goes in together with it, in its own place.
    std::vector<Member> members_beside(const GoesWith& one) const;

    // Where a part is ruled out of the place by a group of it other than this one.
    Bits ruled_out_by_others(const RoleAnswer& place, const GroupAnswer& group, const Member& part) const;

    // Doubts about what was told that would change what is ordered for the place.
    std::vector<Doubt> doubts(const RoleAnswer& place) const;

    // Hearsay that keeps `on` out of what is left: without it the vehicle might be one of these. Empty: none does.
    std::vector<const ToldFact*> hearsay_against(const Bits& on) const;

    // Hearsay that a stand-in needs where what it stands in for does not.
    std::vector<const ToldFact*> hearsay_behind(const RoleAnswer& place, const GroupAnswer& wanted,
                                                const SwapAnswer& swap) const;

    const Judge& judge() const { return judge_; }
    const Interchange& interchange() const { return interchange_; }

private:
    RoleAnswer judged(RoleAnswer answer) const;
    void weigh(RoleAnswer& answer) const;
    std::optional<GroupAnswer> with_others(const RoleAnswer& place, const std::string& offered,
                                           const std::vector<const GroupAnswer*>& wanted) const;
    std::optional<GoesWith> beside(const RoleAnswer& place, const std::string& group, Bits& against,
                                   std::vector<Leaf>& leaves) const;
    std::string place_of(const Group& group) const;
    void hold_where_sources_divide(RoleAnswer& answer) const;
    void hold_where_excluded(RoleAnswer& answer) const;
    void doubt_where_columns_differ(RoleAnswer& answer) const;
    void hold_where_quantities_differ(RoleAnswer& answer) const;
    void add_stand_ins(RoleAnswer& answer) const;
    void doubt_members(RoleAnswer& answer) const;
    void add_parts_of_several(RoleAnswer& answer) const;
    Bits reach_there(const RoleAnswer& place, const GroupAnswer& wanted, const std::string& offered) const;
    Member weakest_membership(Member member, const std::vector<std::string>& groups) const;
    void settle(RoleAnswer& answer) const;
    void add_hearsay(RoleAnswer& answer) const;

    const Judge& judge_;
    const Interchange& interchange_;
};

}  // namespace casebound
