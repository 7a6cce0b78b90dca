#include "core/verdict/ruled_out.h"

namespace casebound {

const Bits& RuledOut::operator()(const std::string& group) {
    const auto [found, fresh] = known_.try_emplace(group);
    if (fresh) found->second = asked(group);
    return found->second;
}

Bits RuledOut::by_others(const Member& part, const std::string& but) {
    Bits out(judge_.line().set.size());
    if (!part.in_several) return out;
    for (const auto& group : judge_.catalog().groups_of(part.item))
        if (group != but) out |= against(group);
    return out;
}

Bits RuledOut::against(const std::string& group) {
    const auto* recorded = place_.group(group);
    return recorded ? (*this)(group) | recorded->no_line : (*this)(group);
}

Bits RuledOut::asked(const std::string& group) const {
    if (const auto* recorded = place_.group(group)) return recorded->out_line;
    RoleAnswer place;
    place.role = place_.role;
    place.domain = place_.domain;
    const auto vetoed = judge_.candidate(place, group).vetoed_line;
    return place_.none_line.size() ? vetoed | place_.none_line : vetoed;
}

}  // namespace casebound
