#include "lifting_point.h"

#include <algorithm>
#include <set>

namespace casebound::mounts {
namespace {

LiftPermission permission_of(const std::vector<LiftInstruction>& about) {
    if (about.empty()) return LiftPermission::not_recorded;
    const auto allows = std::count_if(about.begin(), about.end(),
                                      [](const LiftInstruction& one) { return one.allowed; });
    if (allows == 0) return LiftPermission::forbidden;
    const bool all = static_cast<std::size_t>(allows) == about.size();
    return all ? LiftPermission::allowed : LiftPermission::cannot_tell;
}

}  // namespace

LiftPointAnswer lift_at(std::string_view point, const std::vector<LiftInstruction>& instructions) {
    LiftPointAnswer answer{LiftPermission::not_recorded, {}};
    for (const LiftInstruction& one : instructions)
        if (one.point == point) answer.instructions.push_back(one);
    answer.permission = permission_of(answer.instructions);
    return answer;
}

std::vector<LiftPointAnswer> lift_points(const std::vector<LiftInstruction>& instructions) {
    std::set<std::string_view> points;
    for (const LiftInstruction& one : instructions) points.insert(one.point);
    std::vector<LiftPointAnswer> answers;
    for (std::string_view point : points) answers.push_back(lift_at(point, instructions));
    return answers;
}

}  // namespace casebound::mounts
