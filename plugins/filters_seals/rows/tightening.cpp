// `torques`: how the fasteners of one role are tightened on this vehicle, or that it is not recorded.
#include <algorithm>
#include <string>

#include "inquiries/inquiries.h"
#include "rows/reading.h"

namespace casebound::filters_seals {
namespace {

// Roles that are screwed; all others of this domain are pressed, clipped or laid in.
constexpr std::string_view screwed[] = {"pan-bolts", "drain-plug", "pan-filter"};

std::string stated(const Row& row, std::string_view column, const std::string& otherwise) {
    return row.text(column).empty() ? otherwise : std::string(row.text(column));
}

void add_pan_bolts(Answer& answer, const Services& services) {
    for (const auto& row : rows_of_line(services, "filters_seals_flanges"))
        answer.lines.push_back({stated(row, "bolt_count", "?") + " x " + stated(row, "bolt", "thread not stated"),
                                stated(row, "tightening", "tightening not stated") +
                                    (row.text("sequence").empty() ? "" : ", " + std::string(row.text("sequence"))) +
                                    where_text(row, services.vehicle),
                                row_note(row)});
}

Answer answer_torques(const Given& given, const Services& services) {
    Answer answer;
    const auto& role = given.text("role");
    if (std::find(std::begin(screwed), std::end(screwed), role) == std::end(screwed)) {
        answer.verdict = Verdict::none_needed;
        answer.headline = "Nothing to tighten.";
        return answer;
    }
    if (role == "pan-bolts") add_pan_bolts(answer, services);
    answer.verdict = answer.lines.empty() ? Verdict::not_recorded : Verdict::fits;
    answer.headline = answer.lines.empty() ? "Not recorded: see the maker's; do not take a usual one."
                                           : "As recorded for this line.";
    return answer;
}

Input role_input() {
    Input input;
    input.kind = Input::Kind::text;
    input.name = "role";
    input.title = "role of a parts list";
    input.required = true;
    return input;
}

}  // namespace

std::vector<Inquiry> torque_inquiries() {
    return {{"torques", "How the fasteners of one role are tightened on this vehicle", {role_input()}, answer_torques}};
}

}  // namespace casebound::filters_seals
