#include "core/verdict/laid_out.h"

namespace casebound {

std::vector<std::int64_t> group_ids(const RoleAnswer& answer) {
    std::vector<std::int64_t> ids;
    ids.reserve(answer.groups.size());
    for (const auto& group : answer.groups) ids.push_back(group.id);
    return ids;
}

void lay_out(RoleAnswer& answer, const Weighed& weighed) {
    answer.none_line = weighed.none;
    for (std::size_t i = 0; i < answer.groups.size(); ++i) {
        auto& group = answer.groups[i];
        group.on_line = weighed.groups[i].on;
        group.disagreed_line = weighed.groups[i].disagreed;
        group.denied_line = weighed.groups[i].denied.size() ? weighed.groups[i].denied : Bits(weighed.none.size());
        group.doubted_line = group.vetoed_line = Bits(weighed.none.size());
        group.out_line = group.denied_line;
        group.no_line = group.denied_line | group.disagreed_line;
    }
}

void object(RoleAnswer& answer, const std::vector<Objected>& objections) {
    for (const auto& objection : objections)
        for (auto& group : answer.groups) {
            if (group.id != objection.group) continue;
            const Bits on = objection.where & group.on_line;
            if (objection.at_most == Verdict::does_not_fit) {
                group.on_line -= on;
                group.vetoed_line |= on;
                group.out_line |= objection.where;
            } else {
                group.doubted_line |= on;
            }
        }
}

}  // namespace casebound
