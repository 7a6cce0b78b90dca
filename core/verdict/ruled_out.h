// Where something that counts rules a group, or a part by another of its groups, out of a place: a statement, or its
// domain, which is asked of a group that nobody recorded there as well. Lives no longer than the place and does not
// see it change.
#pragma once

#include <map>
#include <string>

#include "core/verdict/fits.h"

namespace casebound {

class RuledOut {
public:
    RuledOut(const Judge& judge, const RoleAnswer& place) : judge_(judge), place_(place) {}
    const Bits& operator()(const std::string& group) {
        const auto [found, fresh] = known_.try_emplace(group);
        if (fresh) found->second = asked(group);
        return found->second;
    }

    // Where a part is ruled out by any of its groups but this one; that sources disagree about one is enough.
    Bits by_others(const Member& part, const std::string& but) {
        Bits out(judge_.line().set.size());
        if (!part.in_several) return out;
        for (const auto& group : judge_.catalog().groups_of(part.item))
            if (group != but) out |= against(group);
        return out;
    }

    Bits against(const std::string& group) {
        Bits out = (*this)(group);
        for (const auto& one : place_.groups)
            if (one.key == group) out |= one.no_line;
        return out;
    }

private:
    Bits asked(const std::string& group) const {
        for (const auto& one : place_.groups)
            if (one.key == group) return one.out_line;
        RoleAnswer place;
        place.role = place_.role;
        place.domain = place_.domain;
        const auto vetoed = judge_.candidate(place, group).vetoed_line;
        return place_.none_line.size() ? vetoed | place_.none_line : vetoed;
    }

    const Judge& judge_;
    const RoleAnswer& place_;
    std::map<std::string, Bits> known_;
};

}  // namespace casebound
