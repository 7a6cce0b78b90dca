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
    const Bits& operator()(const std::string& group);
    // Where a part is ruled out by any of its groups but this one; that sources disagree about one is enough.
    Bits by_others(const Member& part, const std::string& but);
    Bits against(const std::string& group);  // and where any statement says no, whoever says yes

private:
    Bits asked(const std::string& group) const;

    const Judge& judge_;
    const RoleAnswer& place_;
    std::map<std::string, Bits> known_;
};

}  // namespace casebound
