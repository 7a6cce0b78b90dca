#include "rows/examine.h"

#include <algorithm>
#include <stdexcept>
#include <string>

#include "core/contract/answer_lines.h"
#include "core/contract/examiner.h"
#include "rows/findings.h"
#include "rows/lifting.h"
#include "rows/mount_record.h"
#include "rows/tightening.h"
#include "rows/vehicle_mounts.h"
#include "science/stages.h"

namespace casebound::mounts {
namespace {

// The row was read when the pack was loaded; a text that is no list of stages was reported then.
bool by_angle(std::string_view tightening) {
    try {
        const auto stages = read_stages(tightening);
        return stages && wants_new_bolts(*stages);
    } catch (const std::domain_error&) { return false; }
}

constexpr double thread_apart_mm = 0.2, length_apart_mm = 1.0;  // as bench_differences, from memory

// The role that a fastener is bought in; empty where the row does not say whether it is a bolt or a nut.
std::string fastener_role(Position position, const Row& row) {
    if (position == Position::transmission) return "gearbox-mount-bolts";
    if (position == Position::torque) return "torque-mount-bolts";
    if (!row.stated("form")) return "";
    return row.text("form") == "nut" ? "engine-mount-nuts" : "engine-mount-bolts";
}

struct MountExaminer : Examiner {
    Position position;
    MountRecord record{};

    void object_as_recorded(std::string condition, Verdict at_most, std::string reason) {
        object(std::move(condition), at_most, std::move(reason), row_source(record.origin));
    }

    void by_position() {
        if (record.mount.position != Position::unknown && record.mount.position != position)
            object_as_recorded("", Verdict::does_not_fit,
                               candidate.group + " is a " + std::string(word(record.mount.position)) + " mount; " +
                                   std::string(word(record.mount.position)) + " is not " + std::string(word(position)) +
                                   ", even where they look alike");
    }

    void by_kind() {
        for (const auto& sight : sights(vehicle(), position)) {
            const auto answer = may_replace(sight.wanted, record.mount);
            if (answer.verdict == Replacement::same_kind) continue;
            ask(sight.attribute);
            if (answer.verdict == Replacement::cannot_tell) {
                warn(answer.reasons.front() +
                         (answer.look_first.empty() ? "" : ": compare " + listed(answer.look_first)),
                     row_source(record.origin));
                continue;
            }
            const bool refused = answer.verdict == Replacement::no;
            object_as_recorded(sight.condition, refused ? Verdict::does_not_fit : Verdict::check_first,
                               (refused ? "" : "bolts up, but differs: ") + answer.reasons.front());
        }
        if (is_switched(record.mount.kind)) by_missing_connection();
    }

    // A switched mount where the hose or plug that would drive it was looked for and is not there.
    void by_missing_connection() {
        const bool vacuum = record.mount.kind == Kind::switched_vacuum;
        const std::string attribute = vacuum ? "mount_hose" : "mount_plug";
        ask(attribute);
        for (const auto& value : vehicle().possible(attribute))
            if (value.text == "no")
                object_as_recorded(
                    attribute + "=no", Verdict::check_first,
                    std::string("bolts up, but differs: nothing drives it, there is no ") + (vacuum ? "hose" : "plug"));
    }

    void by_length(const char* attribute, std::optional<double> recorded_mm, double apart_mm, Verdict at_most,
                   const std::string& what) {
        if (!recorded_mm || vehicle().possible(attribute).empty()) return;
        ask(attribute);
        const std::string reason = what + " of " + candidate.group + " is " + number_text(*recorded_mm) + " mm";
        object_as_recorded(std::string(attribute) + "<" + fixed(*recorded_mm - apart_mm, 2) + "mm", at_most,
                           reason + ": the vehicle's is smaller");
        object_as_recorded(std::string(attribute) + ">" + fixed(*recorded_mm + apart_mm, 2) + "mm", at_most,
                           reason + ": the vehicle's is larger");
    }

    void by_pin() {
        if (!record.mount.locating_pin || vehicle().possible("mount_pin").empty()) return;
        ask("mount_pin");
        object_as_recorded(
            *record.mount.locating_pin ? "mount_pin=no" : "mount_pin=yes", Verdict::check_first,
            candidate.group + (*record.mount.locating_pin
                                   ? " has a locating pin, the old mount none: is there a hole for it?"
                                   : " has no locating pin, the old mount one: what else keeps it from turning?"));
    }

    void by_bracket() {
        if (record.mount.bracket != Bracket::separate || vehicle().possible("mount_bracket").empty()) return;
        ask("mount_bracket");
        object_as_recorded(
            "mount_bracket=integral", Verdict::check_first,
            candidate.group +
                " comes without a bracket and the old mount is one piece with its own: a bracket is needed as well");
    }

    // What is looked at on a mount that carries the engine.
    void by_looks() {
        by_length("mount_stud", record.mount.stud_thread_mm, thread_apart_mm, Verdict::does_not_fit, "the stud thread");
        by_length("mount_stud_length", record.mount.stud_length_mm, length_apart_mm, Verdict::check_first,
                  "the stud length");
        by_pin();
        by_bracket();
    }

    void add_fastener(const HeldRow& row) {
        const std::string text = fastener_of(row).what;
        if (row->text("reuse") == "never") {
            const auto role = fastener_role(position, *row);
            if (row.holds == Holds::yes && !role.empty())
                result.companions.push_back({role, text + ": new each time", row_source(*row)});
            else warn(text + ": new each time" + (row.holds == Holds::yes ? "" : "," + row.where()), row_source(*row));
        } else if (row->text("reuse") != "by_design" && by_angle(row->text("tightening"))) {
            warn(text + ": tightened by angle; new ones unless the maker's text allows the old", row_source(*row));
        }
        if (row->yes("settle_first"))
            warn("leave " + std::string(row->text("fastener")) +
                     " loose until the engine has settled in its free position, then tighten",
                 row_source(*row));
    }

    void add_pair(const HeldRow& row) {
        const auto other = position_from(row->text("with_position"));
        const std::string both = std::string(word(position)) + " and " + std::string(word(other)) + " mount together";
        const bool required = row->text("rule") == "required";
        if (required && row.holds == Holds::yes)
            result.companions.push_back({role_of_position(other), "the source requires " + both, row_source(*row)});
        else if (row->text("rule") != "no")
            warn("the source " + std::string(required ? "requires " : "recommends ") + both +
                     (row.holds == Holds::yes ? "" : "," + row.where()),
                 row_source(*row));
    }

    void by_rows() {
        for (const auto& row : fasteners_at(services, position)) add_fastener(row);
        for (const auto& row : rows_here(services, "mounts_pairs"))
            if (row->text("position") == position_key(position)) add_pair(row);
    }

    void imitators() {
        for (const auto& one : imitators_told(services))
            warn(one.text + ": it shakes like a bad mount; look there first", one.source);
    }

    void lifting() {
        const auto statements = lift_statements(services);
        for (const auto& answer : lift_points(instructions_of(statements))) {
            const std::string point = answer.instructions.front().point;
            if (answer.permission == LiftPermission::forbidden)
                warn("do not lift at the " + point, source_at(point, statements));
            if (answer.permission == LiftPermission::cannot_tell)
                warn("sources disagree about lifting at the " + point + ": cannot tell, find the maker's",
                     source_at(point, statements));
        }
        if (statements.empty())
            warn("where to lift the engine is not recorded: find it out, do not assume the oil pan", practice());
    }
};

}  // namespace

Examination examine(const Candidate& candidate, const Services& services) {
    const auto position = position_of_role(candidate.role);
    if (position == Position::unknown || services.vehicle == nullptr) return {};
    MountExaminer examiner{{candidate, services}, position};
    if (const auto record = mount_of_group(services.facts, candidate.group)) {
        examiner.record = *record;
        examiner.by_position();
        examiner.by_kind();
        if (carries_engine(position)) examiner.by_looks();
    } else {
        examiner.warn("kind and connection of " + candidate.group +
                          " are not recorded: compare hose or plug, bracket and stud with the old mount",
                      practice());
    }
    examiner.by_rows();
    examiner.imitators();
    examiner.lifting();
    return std::move(examiner.result);
}

}  // namespace casebound::mounts
