// A domain of plain rows for the chain test: it objects, holds, forbids and names companions where a row of the pack
// says so, and computes nothing. Every way in which a domain can lower what core finds stands in it once.
#include <string>

#include "core/contract/attribute_rows.h"
#include "core/contract/domain_words.h"
#include "core/contract/plugin.h"
#include "schema_sql.h"

namespace casebound::bench_rig {
namespace {

Examination examine_group(const Candidate& candidate, const Services& services) {
    Examination result;
    for (const auto& row : services.facts.rows("bench_rig_objections", "group_key", candidate.group)) {
        const bool veto = row.text("at_most") == "does_not_fit";
        result.objections.push_back(
            {std::string(row.text("condition")), veto ? Verdict::does_not_fit : Verdict::check_first,
             veto ? "it touches the bracket there" : "look at the bracket there first", row_source(row)});
    }
    for (const auto& row : services.facts.rows("bench_rig_single_use", "group_key", candidate.group))
        result.never_again = row_source(row);
    for (const auto& row : services.facts.rows("bench_rig_companions", "group_key", candidate.group))
        result.companions.push_back({std::string(row.text("role")), "it needs a new one beside it", row_source(row)});
    return result;
}

Opinion opinion_on(const Substitution& asked, const Services& services) {
    Opinion opinion;
    for (const auto& row : services.facts.rows("bench_rig_opinions", "offered", asked.offered_group)) {
        if (row.text("wanted") != asked.wanted_group) continue;
        opinion.source = row_source(row);
        opinion.at_most = row.text("says") == "veto" ? Verdict::does_not_fit : Verdict::check_first;
        opinion.reasons = {"the two differ in the bore"};
        if (row.text("says") == "ask") opinion.conditions = {"the bore is measured first"};
    }
    return opinion;
}

std::vector<Hold> holds_told(const Services& services) {
    std::vector<Hold> holds;
    const auto noise = told_of(services.vehicle, "rig_noise");
    if (!noise) return holds;
    for (const auto& row : services.facts.rows("bench_rig_holds", "line", services.vehicle->line())) {
        if (row.text("noise") != noise->text) continue;
        Hold hold;
        if (row.stated("role")) hold.roles = {std::string(row.text("role"))};
        hold.reason = "it grinds";
        hold.source = row_source(row);
        hold.until = "find out what grinds";
        hold.attributes = {"rig_noise"};
        holds.push_back(hold);
    }
    return holds;
}

class BenchRig final : public Domain {
public:
    std::string_view title() const override { return "bench rig"; }
    std::string_view schema() const override { return schema_sql; }

    Vocabulary vocabulary() const override {
        return {{choice_of({"f1", "f2", "f3"}, "rig_frame", "frame", "Read the plate.", 2),
                 attribute_of(ValueKind::month, "rig_made", "month made", "Read the plate.", 3),
                 within(0, 200, number_of("mm", 3, "rig_depth", "depth", "Measure from rail to floor.", 4)),
                 choice_of({"red", "blue"}, "rig_colour", "colour", "Look at the cover.", 1),
                 as_finding(choice_of({"grinds", "quiet"}, "rig_noise", "noise", "Listen at the cover.", 1))},
                {{"ring", "ring", "each"}, {"cover", "cover", "each"}, {"valve", "valve", "each"}, {"oil", "oil", "L"}},
                {{"ring-left", "ring, left", "ring", StandIns::may_be_offered},
                 {"ring-right", "ring, right", "ring", StandIns::may_be_offered},
                 {"cover-place", "cover", "cover", StandIns::may_be_offered},
                 {"valve-place", "valve", "valve", StandIns::exact_part_only},
                 {"oil-fill", "oil", "oil", StandIns::may_be_offered}}};
    }

    Examination examine(const Candidate& candidate, const Services& services) const override {
        return examine_group(candidate, services);
    }
    Opinion may_stand_in(const Substitution& asked, const Services& services) const override {
        return opinion_on(asked, services);
    }
    std::vector<Hold> holds(const Services& services) const override { return holds_told(services); }
};

const Domain& instance() {
    static const BenchRig domain;
    return domain;
}

}  // namespace
}  // namespace casebound::bench_rig

CASEBOUND_MANIFEST("bench_rig", casebound::bench_rig::instance)
