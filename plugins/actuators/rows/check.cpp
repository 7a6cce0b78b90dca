#include "rows/check.h"

#include <cmath>
#include <string>
#include <utility>

#include "core/contract/answer_words.h"
#include "core/contract/comparison.h"
#include "core/contract/domain_words.h"
#include "core/contract/false_leads.h"
#include "core/contract/row_checker.h"
#include "rows/findings.h"
#include "rows/records.h"
#include "rows/telling.h"
#include "rows/vocabulary.h"
#include "science/motor.h"
#include "science/supply.h"

namespace casebound::actuators {
namespace {

struct Checker : RowChecker {
    using RowChecker::RowChecker;

    void failure_type(const Row& row) {
        if (!is_failure_type(row.text("failure_type")))
            fault(row, "failure_type", "no two hexadecimal digits in capitals: write 1C, not 0x1c");
    }

    // A side that this function has nowhere.
    void place(const Row& row) {
        const Place here{value_of<Function>(row.text("function"), function_words),
                         value_of<Side>(row.text("side"), side_words)};
        if (key_of_place(here).empty() || place_of_key(key_of_place(here)) != here)
            fault(row, "side",
                  "no vehicle has a " + place_said(here) + ": write `only` where there is one of that function");
    }

    void motor(const Row& row) {
        const auto actuator = actuator_of_row(row);
        const bool vacuum = actuator.drive == "vacuum";
        if (vacuum && actuator.cavities.value_or(0) > 0 && actuator.feedback == "none")
            fault(row, "cavities", "a vacuum drive without feedback has no plug: write 0, or correct the drive");
        if (actuator.drive == "stepper" && actuator.cavities && *actuator.cavities < 4)
            fault(row, "cavities", "a stepper needs four wires at least: count again, or correct the drive");
        if (actuator.drive == "dc" && actuator.feedback == "potentiometer" && actuator.cavities &&
            *actuator.cavities < 5)
            fault(row, "cavities", "two wires drive it and three read its track: five cavities at least");
        if (!actuator.turns.empty() && actuator.drive != "dc")
            fault(row, "turns", "only of a brushed motor on two wires: clear it, or correct the drive");
        for (const auto& application : facts_.rows("applications", "group_key", row.text("group_key")))
            at_its_place(application, row, actuator);
    }

    void at_its_place(const Row& application, const Row& row, const Actuator& actuator) {
        const auto place = place_of_role(application.text("role"));
        const bool counts = application.text("says") == "fits" && application.text("withdrawn").empty();
        if (!counts || place.function == Function::unknown) return;
        const bool either = actuator.place.side == Side::either &&
                            (place.side == Side::left || place.side == Side::right);
        if (place.function != actuator.place.function || (!either && place.side != actuator.place.side))
            fault(application, "role",
                  cell(row, "group_key") + " is recorded as " + said(row.text("function")) + ", " + cell(row, "side") +
                      ", and here fills " + cell(application, "role") + ": correct one of them");
    }

    void stops(const Row& row) {
        if (std::abs(row.need_number("first_pct") - row.need_number("last_pct")) < 5)
            fault(row, "last_pct", "both stops at nearly the same share: one of the two is mistyped");
    }

    // Held still, the winding alone limits the current. Within a third: brushes, leads and temperature.
    void winding(const Row& row) {
        const auto stall = row.number("stall_a"), volts = row.number("running_v"), running = row.number("running_a");
        if ((stall || running) && !volts) {
            fault(row, "running_v", "a current without its volts: state the volts at the plug");
            return;
        }
        if (stall && running && *running >= *stall)
            fault(row, "running_a", "it cannot draw more moving than held still: the two are exchanged");
        if (!stall) return;
        const double most_a = stall_a(*volts, row.need_number("low_ohm"));
        const double least_a = stall_a(*volts, row.need_number("high_ohm"));
        if (*stall > most_a * 4 / 3 || *stall < least_a * 2 / 3)
            fault(row, "stall_a",
                  "volts and ohms give " + fixed(least_a, 2) + " to " + fixed(most_a, 2) +
                      " A: one of the three is mistyped");
    }

    // Strands are twisted and not quite round: up to a quarter more than the section says.
    void wire(const Row& row) {
        const double copper = copper_mohm_per_m(row.need_number("area_mm2"));
        const double more = row.need_number("mohm_per_m") / copper;
        if (more < 0.98 || more > 1.25)
            fault(row, "mohm_per_m",
                  "copper of that section has " + fixed(copper, 2) + " mohm a metre: one of the two is mistyped");
    }

    void stand_in(const Row& edge) {
        const auto differ = [](const Row& wanted, const Row& offered) {
            return differences(actuator_of_row(wanted), actuator_of_row(offered));
        };
        for (auto& text : faults_of_stand_in(facts_, motors_table, edge, differ))
            fault(edge, "relation", std::move(text));
    }

    void no_step_twice(const std::vector<Row>& rows) {
        each_at_odds(rows, "step", "line ", " has this step too: number them 1, 2, 3", [](const Row& a, const Row& b) {
            return alike_in(a, b, {"line", "condition", "function", "side", "step", "source"});
        });
    }
    void one_wait_a_source(const std::vector<Row>& rows) {
        each_at_odds(rows, "minutes", "the same source has a waiting time in line ", " too: keep one of them",
                     [](const Row& a, const Row& b) {
                         return alike_in(a, b, {"line", "condition", "source"});
                     });
    }
};

}  // namespace

std::vector<RowFault> check(const Facts& facts, std::string_view pack) {
    return faults_by<Checker>(
        facts, pack,
        {{motors_table, &Checker::motor},
         {"actuators_end_stops", &Checker::stops},
         {"actuators_windings", &Checker::winding},
         {"actuators_failure_types", &Checker::failure_type},
         {"actuators_ways_in", &Checker::place},
         {"actuators_end_stops", &Checker::place},
         {"stand_ins", &Checker::stand_in},
         {"actuators_wires", &Checker::wire}},
        {{"actuators_ways_in", &Checker::no_step_twice}, {"actuators_airbag_waits", &Checker::one_wait_a_source}});
}

}  // namespace casebound::actuators
