#include "rows/stand_in.h"

#include <string>

#include "core/contract/answer_lines.h"
#include "rows/mount_record.h"
#include "rows/vehicle_mounts.h"

namespace casebound::mounts {
namespace {

Opinion not_recorded(const std::string& group) {
    return {Verdict::check_first,
            {"kind and position of " + group + " are not recorded"},
            {"compare position, kind, hose or plug, bracket and stud with the old mount before it comes off"},
            {},
            practice(),
            {}};
}

// What the vehicle shows beats what the wanted group's row says of hose and plug.
Mount wanted_here(Mount wanted, const Substitution& substitution, const VehicleView* vehicle) {
    if (const auto position = position_of_role(substitution.role); position != Position::unknown)
        wanted.position = position;
    const auto seen = connection_seen(vehicle);
    if (seen == Connection::hose && wanted.kind == Kind::hydraulic)
        return mount_shown(wanted.position, Kind::switched_vacuum);
    if (seen == Connection::plug && wanted.kind == Kind::hydraulic)
        return mount_shown(wanted.position, Kind::switched_electric);
    return wanted;
}

std::string millimetres(std::optional<double> length_mm) {
    return length_mm ? number_text(*length_mm) + " mm" : "unknown";
}

// What must go with a recorded difference.
std::string needs(const std::string& what, const Mount& wanted, const Mount& offered) {
    if (what == "bracket")
        return "the bracket that goes with it: " + std::string(word(offered.bracket)) + " offered, " +
               std::string(word(wanted.bracket)) + " wanted";
    if (what == "stud thread")
        return "nut and hole for its stud of " + millimetres(offered.stud_thread_mm) + " instead of " +
               millimetres(wanted.stud_thread_mm);
    if (what == "stud length")
        return "room for its stud of " + millimetres(offered.stud_length_mm) + " instead of " +
               millimetres(wanted.stud_length_mm);
    return offered.locating_pin.value_or(false) ? "a hole for its locating pin"
                                                : "something in place of the locating pin that keeps it from turning";
}

void add_bench(Opinion& opinion, const Mount& wanted, const Mount& offered) {
    std::vector<std::string> open;
    for (const auto& line : bench_differences(wanted, offered)) {
        opinion.at_most = Verdict::check_first;
        if (!line.known) open.push_back(line.what);
        else {
            opinion.reasons.push_back(line.what + " differs as recorded");
            opinion.conditions.push_back(needs(line.what, wanted, offered));
        }
    }
    if (open.empty()) return;
    opinion.reasons.push_back("not recorded on both sides: " + listed(open));
    opinion.conditions.push_back("compare at the bench: " + listed(open));
}

void lower(Opinion& opinion, const ReplacementAnswer& answer) {
    opinion.at_most = answer.verdict == Replacement::no ? Verdict::does_not_fit : Verdict::check_first;
    opinion.reasons = answer.reasons;
    if (answer.verdict == Replacement::bolts_up_but) {
        opinion.reasons.insert(opinion.reasons.begin(), "bolts up, but differs in function");
        opinion.conditions.push_back(
            "only if the difference is accepted: more is passed on at idle, or bounce is not damped");
    }
    if (answer.note_required) opinion.conditions.push_back("write in the job record what was fitted instead, and why");
    for (const auto& look : answer.look_first) opinion.conditions.push_back("look first: " + look);
}

}  // namespace

Opinion may_stand_in(const Substitution& substitution, const Services& services) {
    const auto wanted = mount_of_group(services.facts, substitution.wanted_group);
    const auto offered = mount_of_group(services.facts, substitution.offered_group);
    if (substitution.wanted_group == substitution.offered_group) return {};
    if (!wanted) return not_recorded(substitution.wanted_group);
    if (!offered) return not_recorded(substitution.offered_group);
    const Mount here = wanted_here(wanted->mount, substitution, services.vehicle);
    const auto answer = may_replace(here, offered->mount);
    Opinion opinion;
    opinion.source = weaker(row_source(wanted->origin), row_source(offered->origin));
    if (answer.verdict != Replacement::same_kind) lower(opinion, answer);
    if (answer.verdict != Replacement::no) add_bench(opinion, here, offered->mount);
    return opinion;
}

}  // namespace casebound::mounts
