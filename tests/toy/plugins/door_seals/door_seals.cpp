// Door seals: a whole domain in one file, to show what a domain is and that core needs no change for it.
// A hollow bulb is squeezed between door and frame; too little leaks, too much keeps the door from closing.
// The limits are common practice, no source. Never measures anything itself.
#include <cstdio>
#include <stdexcept>
#include <string>

#include "core/contract/plugin.h"
#include "schema_sql.h"

namespace casebound::door_seals {
namespace {

constexpr double least_squeeze_percent = 20, most_squeeze_percent = 50;  // common practice, no source
const char* const limits_text = "a hollow bulb seals when squeezed by 20 to 50 % of its height";

double squeeze_percent(double bulb_mm, double gap_mm) { return 100 * (bulb_mm - gap_mm) / bulb_mm; }

bool within_limits(double squeeze) { return squeeze >= least_squeeze_percent && squeeze <= most_squeeze_percent; }

std::string shown(double value) {
    char text[32];
    std::snprintf(text, sizeof text, "%.1f", value);
    return text;
}

// The gaps a bulb serves, as the right side of a condition: "8..12.8".
std::string gaps_served(double bulb_mm) {
    return shown(bulb_mm * (1 - most_squeeze_percent / 100)) + ".." +
           shown(bulb_mm * (1 - least_squeeze_percent / 100));
}

Answer answer_squeeze(const Given& given, const Services&) {
    const double bulb_mm = given.number("bulb"), gap_mm = given.number("gap");
    if (gap_mm > 2 * bulb_mm)
        throw std::domain_error("gap: got " + shown(gap_mm) + ": valid range is 0 to " + shown(2 * bulb_mm) +
                                ", twice the bulb");
    const double squeeze = squeeze_percent(bulb_mm, gap_mm);
    Answer answer;
    answer.verdict = within_limits(squeeze) ? Verdict::fits : Verdict::does_not_fit;
    answer.headline = squeeze < least_squeeze_percent  ? "Take a higher bulb: this one is hardly squeezed."
                      : squeeze > most_squeeze_percent ? "Take a lower bulb: this one keeps the door from closing."
                                                       : "This bulb seals the gap.";
    answer.lines = {{"squeeze", Measure{squeeze, "%", 0}, {}}, {"limits", limits_text, {}}};
    answer.next = {"Close the door on a strip of paper all round; it must be held everywhere."};
    return answer;
}

class DoorSeals final : public Domain {
public:
    Vocabulary vocabulary() const override {
        Attribute gap{"door_gap",
                      "gap at the door frame",
                      ValueKind::number,
                      "mm",
                      0.5,
                      "Press putty on the frame, close the door gently, measure the putty.",
                      4};
        return {{gap}, {{"door-seal", "door seal", "each"}}, {{"door-seal-front", "door seal, front", "door-seal"}}};
    }

    std::string_view schema() const override { return schema_sql; }

    std::vector<Fault> check(const Facts& facts, std::string_view pack) const override {
        std::vector<Fault> faults;
        for (const auto& row : facts.rows("door_seals_bulbs"))
            if (row.origin.pack == pack && row.number("bulb_mm").value_or(0) > 40)
                faults.push_back({row.origin, "bulb_mm", "no door seal is that high: is it the length of the strip?"});
        return faults;
    }

    Examination examine(const Candidate& candidate, const Services& services) const override {
        Examination result;
        for (const auto& row : services.facts.rows("door_seals_bulbs", "group_key", candidate.group)) {
            const double bulb_mm = row.number("bulb_mm").value_or(0);
            if (!services.vehicle || services.vehicle->possible("door_gap").empty()) {
                result.questions.push_back("door_gap");
                continue;
            }
            result.objections.push_back(
                {"not door_gap=" + gaps_served(bulb_mm),
                 Verdict::does_not_fit,
                 "a bulb of " + shown(bulb_mm) + " mm serves gaps of " + gaps_served(bulb_mm) + " mm",
                 {}});
        }
        return result;
    }

    std::vector<Inquiry> inquiries() const override {
        Input bulb{Input::Kind::number, "bulb", "height of the free bulb", "mm", 1, 60};
        Input gap{Input::Kind::number, "gap", "gap at the door frame", "mm", 0, 60};
        bulb.required = gap.required = true;
        gap.attribute = "door_gap";
        return {{"squeeze", "How much a door seal is squeezed", {bulb, gap}, answer_squeeze}};
    }
};

const Domain& instance() {
    static const DoorSeals domain;
    return domain;
}

}  // namespace
}  // namespace casebound::door_seals

CASEBOUND_MANIFEST("door_seals", casebound::door_seals::instance)
