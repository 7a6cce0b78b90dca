#include "science/lifting.h"

#include <algorithm>
#include <set>

#include "core/contract/valid_range.h"

namespace casebound::mounts {
namespace {

void note(LiftAnswer& answer, const Clearance& clearance) {
    if (!clearance.room_mm) {
        answer.not_measured.push_back(clearance.what);
        return;
    }
    const double room_mm = in_range("room_mm", *clearance.room_mm, 0.0, 1000.0);
    if (room_mm < answer.need.least_mm) answer.release.push_back(clearance.what);
    if (!answer.smallest || room_mm < *answer.smallest->room_mm) answer.smallest = clearance;
}

LiftVerdict verdict_of(const LiftAnswer& answer) {
    if (!answer.release.empty()) return LiftVerdict::not_enough;
    if (!answer.smallest || !answer.not_measured.empty()) return LiftVerdict::cannot_tell;
    const bool roomy = *answer.smallest->room_mm >= answer.need.comfortable_mm;
    return roomy ? LiftVerdict::enough : LiftVerdict::tight;
}

LiftPermission permission_of(const std::vector<LiftInstruction>& about) {
    if (about.empty()) return LiftPermission::not_recorded;
    const auto allows = std::count_if(about.begin(), about.end(),
                                      [](const LiftInstruction& one) { return one.allowed; });
    if (allows == 0) return LiftPermission::forbidden;
    const bool all = static_cast<std::size_t>(allows) == about.size();
    return all ? LiftPermission::allowed : LiftPermission::cannot_tell;
}

}  // namespace

LiftNeed lift_needed_mm(double stud_engagement_mm) {
    const double engaged_mm = in_range("stud_engagement_mm", stud_engagement_mm, 0.0, 200.0);
    return {engaged_mm + 5.0, engaged_mm + 10.0};
}

std::vector<Clearance> clearances_to_measure() {
    std::vector<Clearance> list;
    for (const char* what :
         {"fan to shroud", "upper hose", "air-conditioning line", "exhaust joints", "steering shaft",
          "wiring at the bulkhead", "driveshaft angle", "shifter cable", "intake duct", "opposite mount, nut released"})
        list.push_back({what, std::nullopt});
    return list;
}

LiftAnswer lift_answer(double stud_engagement_mm, const std::vector<Clearance>& clearances) {
    LiftAnswer answer{};
    answer.need = lift_needed_mm(stud_engagement_mm);
    for (const Clearance& clearance : clearances) note(answer, clearance);
    answer.verdict = verdict_of(answer);
    return answer;
}

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
