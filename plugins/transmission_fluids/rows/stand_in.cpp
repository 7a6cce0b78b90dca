#include "rows/stand_in.h"

#include <algorithm>
#include <optional>

#include "core/contract/answer_words.h"
#include "rows/spec_record.h"
#include "science/gear_grade.h"
#include "science/grades.h"
#include "science/viscosity.h"

namespace casebound::transmission_fluids {

namespace {

// Gathers what speaks against it. The source is that of what weighs most.
class Weighing {
public:
    void lower(Verdict at_most, std::string reason, SourceNote source) {
        opinion_.reasons.push_back(std::move(reason));
        if (at_most <= opinion_.at_most) return;
        opinion_.at_most = at_most;
        opinion_.source = std::move(source);
    }
    void on_condition(std::string condition) { opinion_.conditions.push_back(std::move(condition)); }
    void caution(std::string text, SourceNote source) {
        opinion_.cautions.push_back({std::move(text), std::move(source)});
    }
    bool vetoed() const { return opinion_.at_most == Verdict::does_not_fit; }
    Opinion opinion() && { return std::move(opinion_); }

private:
    Opinion opinion_;
};

struct Pair {
    const Substitution& swap;
    const Facts& facts;
    std::optional<SpecRecord> wanted, offered;
};

// Both specs are on record.
SourceNote both_rows(const Pair& pair) { return weaker(pair.wanted->source, pair.offered->source); }

SourceNote not_recorded() { return {Evidence::common_practice, "nothing is on record"}; }

// "QF-4 is made for a planetary automatic, VBF-2 for a belt CVT"
std::string both_kinds(const SpecRecord& offered, const SpecRecord& wanted) {
    return offered.group + " is made for " + kind_words(offered.gearbox_kind) + ", " + wanted.group + " for " +
           kind_words(wanted.gearbox_kind);
}

void weigh_kinds(const Pair& pair, Weighing& weighing) {
    if (!pair.wanted || !pair.offered) {
        const std::string& group = pair.wanted ? pair.swap.offered_group : pair.swap.wanted_group;
        weighing.lower(Verdict::check_first, "what kind of gearbox " + group + " is made for is not recorded",
                       not_recorded());
        weighing.on_condition("both are made for the same kind of gearbox");
        return;
    }
    const auto source = both_rows(pair);
    switch (kind_match(pair.offered->gearbox_kind, pair.wanted->gearbox_kind)) {
        case KindMatch::same: return;
        case KindMatch::never:
            weighing.lower(Verdict::does_not_fit, both_kinds(*pair.offered, *pair.wanted) + ": kinds are never crossed",
                           source);
            return;
        case KindMatch::maker_may_permit:
            weighing.lower(Verdict::check_first, both_kinds(*pair.offered, *pair.wanted), source);
            weighing.on_condition("the maker of the unit permits it in its own text");
    }
}

void weigh_base(const Pair& pair, Weighing& weighing) {
    if (!pair.wanted || !pair.offered || pair.wanted->base.empty() || pair.wanted->base == pair.offered->base) return;
    const auto source = both_rows(pair);
    if (pair.offered->base.empty())
        weighing.lower(Verdict::check_first,
                       pair.wanted->group + " asks for a " + pair.wanted->base + " base; the base of " +
                           pair.offered->group + " is not recorded",
                       source);
    else
        weighing.lower(Verdict::does_not_fit,
                       pair.offered->group + " is " + pair.offered->base + ", " + pair.wanted->group + " is " +
                           pair.wanted->base + ": a base is never crossed",
                       source);
}

// A class that the wanted spec states must be met by one that is on record.
void weigh_jaso(const Pair& pair, Weighing& weighing) {
    if (!pair.wanted || !pair.offered || pair.wanted->jaso_class.empty() ||
        pair.wanted->jaso_class == pair.offered->jaso_class)
        return;
    const std::string has = pair.offered->jaso_class.empty() ? "none on record" : pair.offered->jaso_class;
    weighing.lower(Verdict::check_first,
                   "JASO M315 class " + pair.wanted->jaso_class + " is called for, " + pair.offered->group + " has " +
                       has + "; " + std::string(jaso_m315_limits) + ", so only the names can be compared",
                   fed_with(standard("JASO M315, class names only"), both_rows(pair)));
}

void weigh_grade(const Pair& pair, Weighing& weighing) {
    if (!pair.wanted || !pair.offered || pair.wanted->j306_grade.empty()) return;
    const auto source = fed_with(standard("SAE J306, 2005 and February 2019"), both_rows(pair));
    if (pair.offered->j306_grade.empty()) {
        weighing.lower(
            Verdict::check_first,
            "SAE J306 " + pair.wanted->j306_grade + " is called for; no grade is on record for " + pair.offered->group,
            source);
        return;
    }
    if (pair.offered->j306_grade == pair.wanted->j306_grade) return;
    const auto shortfall = gear_grade_shortfall(pair.offered->j306_grade, pair.wanted->j306_grade);
    if (!shortfall.empty()) weighing.lower(Verdict::check_first, shortfall, source);
}

struct HotViscosity {
    double kv100_mm2_s;
    SourceNote source;
};

// Of the product's own data sheet, else typical of the spec.
std::optional<HotViscosity> hot_viscosity(const Facts& facts, const std::string& item,
                                          const std::optional<SpecRecord>& spec) {
    if (!item.empty())
        if (const auto figures = fluid_figures(facts, item); figures && !figures->typical && figures->kv100_mm2_s)
            return HotViscosity{*figures->kv100_mm2_s, figures->source};
    if (spec && spec->kv100_mm2_s) return HotViscosity{*spec->kv100_mm2_s, spec->source};
    return std::nullopt;
}

void weigh_viscosity(const Pair& pair, Weighing& weighing) {
    const auto wanted = hot_viscosity(pair.facts, pair.swap.wanted_item, pair.wanted);
    const auto offered = hot_viscosity(pair.facts, pair.swap.offered_item, pair.offered);
    if (wanted && offered) {
        const auto difference = viscosity_difference(wanted->kv100_mm2_s, offered->kv100_mm2_s);
        if (difference.too_large)
            weighing.lower(Verdict::check_first, difference.text + ", more than 15 %",
                           fed_with(from_memory(viscosity_limit_words), weaker(wanted->source, offered->source)));
    } else if (pair.swap.wanted_group != pair.swap.offered_group) {
        weighing.lower(Verdict::check_first,
                       "the viscosity at 100 °C of " + (wanted ? pair.swap.offered_group : pair.swap.wanted_group) +
                           " is not recorded",
                       not_recorded());
        weighing.on_condition("the data sheets show about the same viscosity at 100 °C");
    }
}

void weigh_claims(const Pair& pair, Weighing& weighing) {
    if (pair.swap.claimed_only)
        weighing.lower(Verdict::check_first,
                       pair.swap.offered_item + " is in " + pair.swap.offered_group + " by its seller's claim only",
                       practice("a claim never makes it firmer"));
    if (pair.swap.offered_item.empty()) return;
    for (const auto& claim : claims_of_item(pair.facts, pair.swap.offered_item))
        if (claim.group == pair.swap.wanted_group || claim.group == pair.swap.offered_group)
            weighing.caution(
                "on " + claim.group + " its label says " + claim_text(claim) + "; a claim never makes it firmer",
                claim.source);
}

}  // namespace

Opinion may_stand_in(const Substitution& swap, const Services& services) {
    const Pair pair{swap, services.facts, spec_record(services.facts, swap.wanted_group),
                    spec_record(services.facts, swap.offered_group)};
    Weighing weighing;
    if (swap.wanted_group != swap.offered_group)
        for (const auto weigh : {weigh_kinds, weigh_base, weigh_jaso, weigh_grade}) weigh(pair, weighing);
    if (!weighing.vetoed()) weigh_viscosity(pair, weighing);
    weigh_claims(pair, weighing);
    return std::move(weighing).opinion();
}

}  // namespace casebound::transmission_fluids
