// `torques`: how the fasteners of one role are tightened on this vehicle, or that it is not recorded.
#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/where.h"

namespace casebound::mounts {
namespace {

struct Place {
    std::string_view role, position;
};  // position "": every one

constexpr Place places[] = {
    {"engine-mount-left", "left"}, {"engine-mount-right", "right"},   {"engine-mount-front", "front"},
    {"engine-mount-rear", "rear"}, {"gearbox-mount", "transmission"}, {"torque-mount", "torque"},
};

std::string tightening_text(const Row& row, const VehicleView* vehicle) {
    std::string text{row.text("tightening").empty() ? std::string_view("not stated") : row.text("tightening")};
    if (row.text("reuse") == "never") text += "; new each time";
    if (row.text("settle_first") == "yes") text += "; loose until the engine has settled";
    const auto where = where_text(row, vehicle);
    return text + (where.empty() ? "" : " (" + where + ")");
}

Answer answer_torques(const Given& given, const Services& services) {
    Answer answer;
    std::string position;
    for (const auto& place : places)
        if (place.role == given.text("role")) position = place.position;
    if (position.empty()) {
        answer.verdict = Verdict::none_needed;
        answer.headline = "Listed with its mount.";
        return answer;
    }
    for (const auto& row : rows_of_line(services, "mounts_fasteners"))
        if (row.text("position") == position)
            answer.lines.push_back(text_line(std::string(row.text("count")) + " x " + std::string(row.text("fastener")),
                                             tightening_text(row, services.vehicle), row_source(row.origin)));
    answer.verdict = answer.lines.empty() ? Verdict::not_recorded : Verdict::fits;
    answer.headline = answer.lines.empty() ? "Not recorded: see the maker's; do not take a usual one."
                                           : "As recorded for this line.";
    return answer;
}

}  // namespace

std::vector<Inquiry> torque_inquiries() {
    return {{"torques",
             "How the fasteners of one role are tightened on this vehicle",
             {required(word_input(Input::Kind::text, "role", "role of a parts list"))},
             answer_torques}};
}

}  // namespace casebound::mounts
