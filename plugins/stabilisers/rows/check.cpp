#include "rows/check.h"

#include <cmath>
#include <stdexcept>
#include <string>
#include <utility>

#include "core/contract/answer_words.h"
#include "core/contract/comparison.h"
#include "core/contract/row_checker.h"
#include "rows/records.h"
#include "science/fastening.h"

namespace casebound::stabilisers {
namespace {

struct Checker : RowChecker {
    using RowChecker::RowChecker;

    // A thread that no metric bolt has: a pitch in the wrong unit, or the hole instead of the thread.
    void thread(const Row& row) {
        const auto thread_mm = row.number("thread_mm"), pitch_mm = row.number("pitch_mm");
        if (pitch_mm && !thread_mm) fault(row, "pitch_mm", "a pitch without a thread: state the thread, 10 for M10");
        if (!thread_mm || !pitch_mm) return;
        try {
            stress_area_of({*thread_mm, *pitch_mm});
        } catch (const std::domain_error& refusal) {
            fault(row, "pitch_mm", std::string(refusal.what()) + ": measure thread and pitch again");
        }
    }

    void link(const Row& row) {
        thread(row);
        const auto link = link_of_row(row);
        if (link.ends != Ends::two_studs && link.angle_deg)
            fault(row, "angle_deg",
                  "an angle between studs, and " + ends_said(link.ends) + ": clear it, or correct the ends");
        for (const auto& application : facts_.rows("applications", "group_key", row.text("group_key"))) {
            const auto place = place_of_link(application.text("role"));
            const bool counts = application.text("says") == "fits" && application.text("withdrawn").empty();
            if (!counts || place.axle == Axle::unknown) continue;
            const bool side = link.place.side == Side::either || link.place.side == place.side;
            if (place.axle != link.place.axle || !side)
                fault(application, "role",
                      cell(row, "group_key") + " is recorded as " + cell(row, "axle") + ", " + cell(row, "side") +
                          ", and here fills " + cell(application, "role") + ": correct one of them");
        }
    }

    void fastener(const Row& row) {
        thread(row);
        if (row.number("angle_deg") && !row.number("torque_nm"))
            fault(row, "angle_deg", "an angle after no torque: state the torque that comes first");
    }

    // What is printed has three figures.
    void printed_area(const Row& row) {
        thread(row);
        try {
            const double area_mm2 = stress_area_of({row.need_number("thread_mm"), row.need_number("pitch_mm")});
            if (std::abs(row.need_number("stress_area_mm2") / area_mm2 - 1) > 0.005)
                fault(row, "stress_area_mm2",
                      "thread and pitch give " + fixed(area_mm2, 1) + " mm2: one of the three is mistyped");
        } catch (const std::domain_error&) {}  // reported with the thread
    }

    void stand_in(const Row& edge) {
        const auto differ = [](const Row& wanted, const Row& offered) {
            return differences(link_of_row(wanted), link_of_row(offered));
        };
        for (auto& text : faults_of_stand_in(facts_, "stabilisers_links", edge, differ))
            fault(edge, "relation", std::move(text));
    }

    void one_figure_a_class(const std::vector<Row>& rows) {
        each_at_odds(rows, "proof_mpa", "the same source has another figure for the same threads in line ", "",
                     [](const Row& a, const Row& b) {
                         const bool apart = a.need_number("over_mm") >= b.need_number("up_to_mm") ||
                                            b.need_number("over_mm") >= a.need_number("up_to_mm");
                         return alike_in(a, b, {"property_class", "source"}) && !apart &&
                                a.number("proof_mpa") != b.number("proof_mpa");
                     });
    }

    void one_rule_a_pair(const std::vector<Row>& rows) {
        each_at_odds(
            rows, "rule", "the same source has another rule for this axle in line ", "",
            [](const Row& a, const Row& b) {
                return alike_in(a, b, {"line", "condition", "axle", "source"}) && a.text("rule") != b.text("rule");
            });
    }
};

}  // namespace

std::vector<RowFault> check(const Facts& facts, std::string_view pack) {
    return faults_by<Checker>(
        facts, pack,
        {{"stabilisers_links", &Checker::link},
         {"stabilisers_joints", &Checker::fastener},
         {"stabilisers_threads", &Checker::printed_area},
         {"stand_ins", &Checker::stand_in}},
        {{"stabilisers_classes", &Checker::one_figure_a_class}, {"stabilisers_both_sides", &Checker::one_rule_a_pair}});
}

}  // namespace casebound::stabilisers
