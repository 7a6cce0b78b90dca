#include "rows/examine.h"

#include "core/contract/answer_words.h"
#include "core/contract/examiner.h"
#include "rows/findings.h"
#include "rows/records.h"
#include "rows/vocabulary.h"

namespace casebound::actuators {
namespace {

struct ActuatorExaminer : Examiner {
    Place place;

    void by_place(const Row& row, const Actuator& actuator) {
        if (actuator.place.function != place.function)
            object("", Verdict::does_not_fit, candidate.group + " moves another door", row);
        const bool either = actuator.place.side == Side::either &&
                            (place.side == Side::left || place.side == Side::right);
        if (!either && actuator.place.side != place.side)
            object("", Verdict::does_not_fit,
                   candidate.group + " is for another side: a mirrored one turns its door the other way", row);
    }
    void by_word(const Row& row, const char* column, const char* what) {
        const auto name = at_place(place, what);
        if (row.stated(column) && can_tell(name))
            object("not " + name + "=" + cell(row, column), Verdict::does_not_fit,
                   candidate.group + " has " + said(row.text(column)) + ", the vehicle's has not", row);
    }
    void by_cavities(const Row& row) {
        const auto cavities = row.number("cavities");
        const auto name = at_place(place, "cavities");
        if (cavities && can_tell(name))
            object("not " + name + "=" + number_text(*cavities), Verdict::does_not_fit,
                   "the plug of " + candidate.group + " has " + number_text(*cavities) +
                       " cavities, the vehicle's has not",
                   row);
    }
    void by_travel(const Row& row) {
        const auto travel = row.number("travel_deg");
        const auto name = at_place(place, "travel");
        if (!travel || !can_tell(name)) return;
        const Apart apart;
        for (const auto& [within, at_most] : {std::pair{apart.travel_deg, Verdict::check_first},
                                              std::pair{apart.other_travel_deg, Verdict::does_not_fit}}) {
            const auto reason = candidate.group + " travels " + with_unit(*travel, "deg");
            object(name + "<" + fixed(*travel - within, 1), at_most, reason + ", the vehicle's less", row);
            object(name + ">" + fixed(*travel + within, 1), at_most, reason + ", the vehicle's more", row);
        }
    }

    void by_teaching() {
        for (const auto& row : rows_at(services, "actuators_teachings", place)) {
            if (row->text("method") == "none") continue;
            const auto words = row->stated("words") ? cell(*row, "words") : said(row->text("method"));
            warn("teach the stops after fitting: " + words + row.where(), row_source(*row));
        }
    }
    void by_maker() {
        for (const auto& row : rows_at(services, "actuators_makers_rules", place))
            if (row->text("rule") == "exact_part_only")
                warn("exact part only, the source says" + row.where(), row_source(*row));
    }
    // Looked at, and not here.
    void by_finding() {
        const auto told = trouble_told(services.vehicle);
        if (told.place && *told.place != place)
            warn("what was looked at is the " + place_said(*told.place) + ", not this one", told.source);
    }

    void run() {
        if (const auto* row = row_of_group(services.facts, motors_table, candidate.group)) {
            by_place(*row, actuator_of_row(*row));
            by_cavities(*row);
            by_word(*row, "shaft", "shaft");
            by_word(*row, "plug_code", "plug_code");
            by_word(*row, "drive", "drive");
            by_word(*row, "feedback", "feedback");
            by_travel(*row);
        } else
            warn("plug, shaft and travel of " + candidate.group +
                     " are not recorded: hold it beside the old one before that is thrown away",
                 practice());
        if (const auto wait = airbag_wait(services, place)) warn(wait->text, wait->source);
        by_teaching();
        by_maker();
        by_finding();
    }
};

}  // namespace

Examination examine(const Candidate& candidate, const Services& services) {
    const auto place = place_of_role(candidate.role);
    if (place.function == Function::unknown || services.vehicle == nullptr) return {};
    ActuatorExaminer examiner{{candidate, services}, place};
    examiner.run();
    return std::move(examiner.result);
}

}  // namespace casebound::actuators
