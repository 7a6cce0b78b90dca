// How far the engine must go up against the room there is, and what sources say about where to lift it.
#include "rows/lifting.h"

#include <cstdlib>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"

namespace casebound::mounts {
namespace {

constexpr const char* never_under = "never under an engine that only a jack holds; vehicle on stands, wheels chocked";

// "fan to shroud=18" -> name and text after the sign.
std::pair<std::string, std::string> named_value(const std::string& item, const char* input, const char* example) {
    const auto at = item.find('=');
    if (at == std::string::npos || at == 0 || at + 1 == item.size())
        refuse(input, item, std::string("entries such as ") + example);
    return {std::string(trimmed(item.substr(0, at))), std::string(trimmed(item.substr(at + 1)))};
}

double millimetres(const std::string& text) {
    char* end = nullptr;
    const double value = std::strtod(text.c_str(), &end);
    const std::string rest(end);
    if (end == text.c_str() || (!rest.empty() && rest != "mm" && rest != " mm"))
        refuse("room", text, "a number of mm, 0 to 1000 mm");
    return in_range("room", value, 0, 1000, "mm");
}

// ---------------------------------------------------------------- lift

// What is in the way on this line, or usually; the figures recorded are hints, the room is measured on the vehicle.
std::vector<std::string> things_in_the_way(const Services& services, Answer& answer) {
    std::vector<std::string> hints;
    for (const auto& row : rows_here(services, "mounts_clearances")) {
        const auto room = row->number("room_mm");
        hints.emplace_back(row->text("what"));
        answer.lines.push_back(
            text_line("in the way: " + hints.back(),
                      (room ? number_text(*room) + " mm usual; measure it" : "measure it") +
                          (row->stated("release") ? "; undo: " + std::string(row->text("release")) : "") + row.where(),
                      row_source(*row)));
    }
    if (hints.empty())
        for (const auto& clearance : clearances_to_measure()) hints.push_back(clearance.what);
    return hints;
}

std::vector<Clearance> measured(const Given& given, const std::vector<std::string>& hints) {
    std::vector<Clearance> clearances;
    if (given.has("room"))
        for (const auto& item : given.items("room")) {
            const auto [what, text] = named_value(item, "room", "\"fan to shroud=18\", room in mm");
            clearances.push_back({what, millimetres(text)});
        }
    const auto given_count = clearances.size();
    for (const auto& hint : hints) {
        bool known = false;
        for (std::size_t i = 0; i < given_count; ++i) known |= clearances[i].what == hint;
        if (!known) clearances.push_back({hint, std::nullopt});
    }
    return clearances;
}

Grid room_grid(const std::vector<Clearance>& clearances, const LiftNeed& need) {
    Grid grid{
        "room against a lift of " + number_text(need.least_mm) + " to " + number_text(need.comfortable_mm) + " mm",
        {"between", "room, mm", ""},
        {},
        {}};
    for (const auto& one : clearances) {
        const bool small = one.room_mm && *one.room_mm < need.least_mm;
        if (small) grid.marked_rows.push_back(grid.rows.size());
        grid.rows.push_back({one.what, one.room_mm ? number_text(*one.room_mm) : "not measured",
                             !one.room_mm                         ? ""
                             : small                              ? "release it first"
                             : *one.room_mm < need.comfortable_mm ? "tight"
                                                                  : "enough"});
    }
    return grid;
}

Verdict verdict_of(LiftVerdict verdict) {
    switch (verdict) {
        case LiftVerdict::enough: return Verdict::fits;
        case LiftVerdict::not_enough: return Verdict::does_not_fit;
        case LiftVerdict::tight:
        case LiftVerdict::cannot_tell: break;
    }
    return Verdict::check_first;
}

std::string headline_of(const LiftAnswer& lift) {
    const std::string open = std::to_string(lift.not_measured.size());
    switch (lift.verdict) {
        case LiftVerdict::enough:
            return "There is room: the smallest clearance is " + number_text(*lift.smallest->room_mm) + " mm, at " +
                   lift.smallest->what + ".";
        case LiftVerdict::tight:
            return "Tight: watch " + lift.smallest->what + ", " + number_text(*lift.smallest->room_mm) +
                   " mm, on every stroke of the jack.";
        case LiftVerdict::not_enough:
            return "Not enough room: release " + listed(lift.release, " and ") + " before lifting." +
                   (lift.not_measured.empty() ? "" : " " + open + " more are not measured.");
        case LiftVerdict::cannot_tell: break;
    }
    return "Cannot tell yet: " + open + " clearances are not measured.";
}

Answer answer_lift(const Given& given, const Services& services) {
    auto answer = Answer::judging(Verdict::fits);
    const auto clearances = measured(given, things_in_the_way(services, answer));
    const auto lift = lift_answer(given.number("stud-engagement"), clearances);
    answer.lower(verdict_of(lift.verdict));
    answer.headline = headline_of(lift);
    const SourceNote rule{Evidence::common_practice, "stud engagement plus 5 to 10 mm, common practice, no source"};
    answer.lines.insert(
        answer.lines.begin(),
        {measure_line("stud engagement", given.number("stud-engagement"), "mm", 1, given.source("stud-engagement")),
         measure_line("lift needed, least", lift.need.least_mm, "mm", 1, rule),
         measure_line("lift needed, comfortable", lift.need.comfortable_mm, "mm", 1, rule)});
    if (lift.smallest)
        answer.lines.push_back(measure_line("smallest room measured: " + lift.smallest->what, *lift.smallest->room_mm,
                                            "mm", 0, given.source("room")));
    answer.grids = {room_grid(clearances, lift.need)};
    for (const auto& what : lift.not_measured) answer.next.push_back("Measure the room: " + what + ".");
    answer.cautions = {never_under,
                       "even for one mount, the nut on the other side may need releasing to let the engine rise"};
    return answer;
}

std::vector<Input> lift_asked() {
    return {required(number_input("stud-engagement", "how far the stud sits in its hole", "mm", 0, 200)),
            helped(word_input(Input::Kind::text_list, "room", "measured clearances in mm"),
                   "\"fan to shroud=18, upper hose=40\"")};
}

}  // namespace

Inquiry lift_inquiry() {
    return {"lift", "How far the engine must be raised to free a mount, against the smallest clearance", lift_asked(),
            answer_lift, "stud-engagement=20mm room=\"fan to shroud=40, upper hose=60\""};
}

// ---------------------------------------------------------------- where to lift

namespace {

std::vector<LiftStatement> statements(const Given& given, const Services& services) {
    auto all = lift_statements(services);
    if (!given.has("says")) return all;
    for (const auto& item : given.items("says")) {
        const auto [point, says] = named_value(item, "says", "\"oil pan=forbidden\"");
        if (says != "allowed" && says != "forbidden") refuse("says", says, "allowed or forbidden");
        all.push_back({{point, says == "allowed", "", "given"}, given.source("says"), ""});
    }
    return all;
}

const char* permission_words(LiftPermission permission) {
    switch (permission) {
        case LiftPermission::allowed: return "allowed";
        case LiftPermission::forbidden: return "forbidden";
        case LiftPermission::cannot_tell: return "cannot tell: find the maker's";
        case LiftPermission::not_recorded: break;
    }
    return "not recorded: find it out, do not assume";
}

Verdict verdict_of(LiftPermission permission) {
    switch (permission) {
        case LiftPermission::allowed: return Verdict::fits;
        case LiftPermission::forbidden: return Verdict::does_not_fit;
        case LiftPermission::cannot_tell: return Verdict::sources_disagree;
        case LiftPermission::not_recorded: break;
    }
    return Verdict::not_recorded;
}

void add_point(Answer& answer, const LiftPointAnswer& point, const std::vector<LiftStatement>& all) {
    const auto& name = point.instructions.front().point;
    answer.lines.push_back(text_line(name, permission_words(point.permission), source_at(name, all)));
    for (const auto& one : all) {
        if (one.instruction.point != name) continue;
        answer.lines.push_back(text_line(
            std::string("  says ") + (one.instruction.allowed ? "allowed" : "forbidden"),
            (one.instruction.text.empty() ? one.instruction.source : one.instruction.text) + one.where, one.source));
    }
}

std::string points_text(const std::vector<LiftPointAnswer>& points) {
    std::string text;
    for (const auto& [wanted, words] : {std::pair(LiftPermission::forbidden, "Never at: "),
                                        std::pair(LiftPermission::cannot_tell, "Sources disagree on: "),
                                        std::pair(LiftPermission::allowed, "Allowed at: ")}) {
        std::vector<std::string> names;
        for (const auto& point : points)
            if (point.permission == wanted) names.push_back(point.instructions.front().point);
        if (!names.empty()) text += words + listed(names) + ". ";
    }
    return text;
}

// With no point asked for: a conflict about one point is what the person must see first.
Verdict over_all(const std::vector<LiftPointAnswer>& points) {
    Verdict verdict = Verdict::not_recorded;
    for (const auto wanted : {LiftPermission::forbidden, LiftPermission::allowed, LiftPermission::cannot_tell})
        for (const auto& point : points)
            if (point.permission == wanted) verdict = verdict_of(wanted);
    return verdict;
}

// A statement that holds on some of the configurations left is no firm permission. Of one point, or of all ("").
bool any_open(const std::vector<LiftStatement>& all, const std::string& point) {
    for (const auto& one : all)
        if (!one.where.empty() && (point.empty() || one.instruction.point == point)) return true;
    return false;
}

Answer at_one_point(const std::string& point, const LiftPointAnswer& found) {
    auto answer = Answer::judging(verdict_of(found.permission));
    answer.headline = "Lifting at the " + point + ": " + permission_words(found.permission) + ".";
    return answer;
}

Answer at_every_point(const std::vector<LiftPointAnswer>& points) {
    auto answer = Answer::judging(over_all(points));
    answer.headline = points.empty() ? "Where to lift is not recorded: find it out, do not assume the oil pan."
                                     : points_text(points) + "Each source by itself; nothing is merged.";
    return answer;
}

Answer answer_lifting_point(const Given& given, const Services& services) {
    const auto all = statements(given, services);
    const auto instructions = instructions_of(all);
    const auto points = lift_points(instructions);
    const auto wanted = given.text_or("point");
    auto answer = wanted.empty() ? at_every_point(points) : at_one_point(wanted, lift_at(wanted, instructions));
    for (const auto& point : points)
        if (wanted.empty() || point.instructions.front().point == wanted) add_point(answer, point, all);
    if (answer.verdict == Verdict::fits && any_open(all, wanted)) answer.lower(Verdict::check_first);
    if (answer.verdict != Verdict::fits) answer.next = {"Find the maker's own instruction for this engine and body."};
    answer.cautions = {never_under, "an instruction for another engine or body is no permission here"};
    return answer;
}

}  // namespace

Inquiry lifting_point_inquiry() {
    return {"lifting-point",
            "What sources say about lifting the engine at a point; conflicting ones side by side",
            {text_input("point", "where: oil pan, lifting eye, crank pulley, gearbox pan"),
             helped(word_input(Input::Kind::text_list, "says", "instructions found by hand"),
                    "\"oil pan=forbidden, lifting eye=allowed\"")},
            answer_lifting_point,
            "--for bookvan"};
}

}  // namespace casebound::mounts
