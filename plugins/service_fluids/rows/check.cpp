#include "rows/check.h"

#include <optional>
#include <stdexcept>
#include <string>
#include <utility>

#include "core/contract/answer_words.h"
#include "core/contract/domain_words.h"
#include "core/contract/false_leads.h"
#include "core/contract/row_checker.h"
#include "rows/findings.h"
#include "rows/records.h"
#include "rows/vocabulary.h"
#include "science/brake_fluid.h"
#include "science/viscosity.h"

namespace casebound::service_fluids {
namespace {

// What a type of ASTM D3306 is: I and V ethylene glycol concentrate, II propylene; III, VI and IV the same ready to use.
bool is_propylene(std::string_view type) { return type == "II" || type == "IV"; }
bool is_ready_to_use(std::string_view type) { return type == "III" || type == "IV" || type == "VI"; }

struct Checker : RowChecker {
    using RowChecker::RowChecker;

    void viscosity(const Row& row) {
        try {
            viscosity_grade(row.need("viscosity"));
        } catch (const std::domain_error& refusal) { fault(row, "viscosity", refusal.what()); }
    }

    void viscosity_class(const Row& row) {
        viscosity(row);
        const bool winter = row.text("viscosity").find('W') != std::string_view::npos;
        if (winter != row.yes("winter")) fault(row, "winter", "a class with W is for cold starts, one without is not");
        if (row.number("kv100_below_mm2_s") && row.number("kv100_min_mm2_s") >= row.number("kv100_below_mm2_s"))
            fault(row, "kv100_min_mm2_s", "the least is not below the most: one of them is mistyped");
    }

    void coolant(const Row& row) {
        const auto type = row.text("d3306_type");
        if (type.empty()) return;
        if (is_propylene(type) != (row.text("base") == "propylene_glycol"))
            fault(row, "base", "type " + cell(row, "d3306_type") + " of ASTM D3306 has another glycol");
        const double glycol_pct = row.need_number("glycol_pct");
        if (is_ready_to_use(type) != (glycol_pct < 100) || glycol_pct < 50)
            fault(row, "glycol_pct",
                  "type " + cell(row, "d3306_type") + " of ASTM D3306 is sold " +
                      (is_ready_to_use(type) ? "with water, 50 % or more in it" : "as concentrate, 100 %"));
    }

    void filter(const Row& row) {
        const bool can = row.text("form") == "spin_on";
        if (!can && row.stated("thread_mm"))
            fault(row, "thread_mm", "a paper element has no thread: clear it, or write spin_on");
        if (row.stated("pitch_mm") && !row.stated("thread_mm"))
            fault(row, "pitch_mm", "a pitch without a thread: state the thread, 20 for M20");
    }

    // A row may state the limits of its grade, and then those of the law.
    void brake_fluid(const Row& row) {
        if (!row.stated("grade")) return;
        const auto& law = brake_fluid_grade(row.text("grade"));
        if ((row.text("base") == "silicone") != (law.base == FluidBase::silicone) ||
            (row.text("base") == "mineral") != (law.base == FluidBase::mineral_oil))
            fault(row, "base",
                  cell(row, "grade") + " is " + std::string(base_name(law.base)) +
                      " by 49 CFR 571.116: correct the base");
        const std::pair<const char*, std::optional<double>> limits[]{
            {"dry_boiling_min_c", law.dry_boiling_min_c},
            {"wet_boiling_min_c", law.wet_boiling_min_c},
            {"kv_minus_40_max_mm2_s", law.kv_minus_40_max_mm2_s},
            {"kv_100_min_mm2_s", law.kv_100_min_mm2_s}};
        for (const auto& [column, limit] : limits)
            if (row.number(column) && row.number(column) != limit)
                fault(row, column, "49 CFR 571.116 has another figure for " + cell(row, "grade"));
    }

    void interval(const Row& row) {
        if (!row.stated("interval_km") && !row.stated("interval_months") && !row.stated("words"))
            fault(row, "interval_km", "the row says nothing: state distance, time or the source's words");
        if (row.stated("severe_factor") && !row.stated("interval_km") && !row.stated("interval_months"))
            fault(row, "severe_factor", "a factor of no interval: state distance or time, or clear it");
    }

    void one_answer_a_mix(const std::vector<Row>& rows) {
        each_at_odds(rows, "may", "the same source has another answer for these two in line ", "",
                     [](const Row& a, const Row& b) {
                         return alike_in(a, b, {"offered", "present", "source"}) && a.text("may") != b.text("may");
                     });
    }

    // A thinner oil is never a full stand-in by its class alone; two glycols are two coolants.
    void stand_in(const Row& edge) {
        if (edge.text("relation") != "supersedes" || !edge.text("withdrawn").empty()) return;
        const auto* wanted = row_of_group(facts_, coolants, edge.text("wanted"));
        const auto* offered = row_of_group(facts_, coolants, edge.text("offered"));
        if (wanted && offered && wanted->text("base") != offered->text("base"))
            fault(edge, "relation",
                  cell(edge, "offered") + " has another glycol than " + cell(edge, "wanted") +
                      ": write stands_in_if with what it needs, or excludes");
    }
};

}  // namespace

std::vector<RowFault> check(const Facts& facts, std::string_view pack) {
    return faults_by<Checker>(facts, pack,
                              {{oils, &Checker::viscosity},
                               {"service_fluids_viscosities", &Checker::viscosity_class},
                               {coolants, &Checker::coolant},
                               {oil_filters, &Checker::filter},
                               {brake_fluids, &Checker::brake_fluid},
                               {"service_fluids_brake_limits", &Checker::brake_fluid},
                               {"service_fluids_oil_changes", &Checker::interval},
                               {"service_fluids_coolant_changes", &Checker::interval},
                               {"stand_ins", &Checker::stand_in}},
                              {{"service_fluids_mixes", &Checker::one_answer_a_mix}});
}

}  // namespace casebound::service_fluids
