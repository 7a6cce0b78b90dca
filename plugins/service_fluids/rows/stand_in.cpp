#include "rows/stand_in.h"

#include <algorithm>
#include <cmath>

#include "core/contract/answer_words.h"
#include "rows/records.h"
#include "science/viscosity.h"

namespace casebound::service_fluids {
namespace {

struct Pair {
    const Row &wanted, &offered;
    const Facts& facts;
    Opinion opinion{};

    Pair(const Row& wanted_, const Row& offered_, const Facts& facts_)
        : wanted(wanted_), offered(offered_), facts(facts_) {
        opinion.source = weaker(row_source(wanted), row_source(offered));
    }

    void lower(Verdict at_most, std::string reason, std::string condition = {}) {
        opinion.at_most = std::max(opinion.at_most, at_most);
        opinion.reasons.push_back(std::move(reason));
        if (!condition.empty()) opinion.conditions.push_back(std::move(condition));
    }
    void rests_on(const SourceNote& source) { opinion.source = weaker(opinion.source, source); }

    // A size apart by more than `apart` lowers it to `at_most`; one that is not stated of both is compared by hand.
    void size(const char* column, const char* what, double apart, Verdict at_most) {
        const auto here = wanted.number(column), there = offered.number(column);
        if (!here && !there) return;
        if (!here || !there)
            return lower(Verdict::check_first, std::string(what) + " is not recorded of both",
                         std::string("compare at the bench: ") + what);
        if (std::abs(*here - *there) > apart)
            lower(at_most, std::string(what) + ": " + with_unit(*there, "mm") + " offered, " + with_unit(*here, "mm") +
                               " wanted");
    }
    void word(const char* column, const char* what, Verdict at_most) {
        if (wanted.text(column) != offered.text(column))
            lower(at_most,
                  std::string(what) + ": " + cell(offered, column) + " offered, " + cell(wanted, column) + " wanted");
    }
};

void by_viscosity(Pair& pair) {
    const auto offered = viscosity_grade(pair.offered.need("viscosity"));
    const auto difference = against(offered, viscosity_grade(pair.wanted.need("viscosity")));
    const auto both = cell(pair.offered, "viscosity") + " offered, " + cell(pair.wanted, "viscosity") + " wanted";
    if (difference.hot == Against::less) pair.lower(Verdict::does_not_fit, "thinner when hot: " + both);
    if (difference.hot == Against::more)
        pair.lower(Verdict::check_first, "thicker when hot: " + both, "the maker names that viscosity too");
    if (difference.cold == Against::less)
        pair.lower(Verdict::check_first, "made for less cold: " + both, "it never gets as cold as the class says");
}

void by_category(Pair& pair) {
    if (!pair.wanted.stated("category")) return;
    const auto answer = category_against(pair.facts, pair.offered.text("category"), pair.wanted.text("category"));
    const auto both = cell(pair.offered, "category") + " offered, " + cell(pair.wanted, "category") + " wanted";
    if (answer.offered == Category::earlier) pair.lower(Verdict::does_not_fit, "an earlier service class: " + both);
    if (answer.offered == Category::not_recorded)
        pair.lower(Verdict::check_first, "nothing is recorded between the service classes: " + both,
                   "the maker of the engine permits it in its own text");
    pair.rests_on(answer.source);
}

Opinion of_oils(Pair pair) {
    by_viscosity(pair);
    by_category(pair);
    return std::move(pair.opinion);
}

Opinion of_coolants(Pair pair) {
    const auto mixing = mixing_of(pair.facts, pair.offered.text("family"), pair.wanted.text("family"));
    if (!mixing.may) {
        pair.lower(Verdict::check_first,
                   family_said(pair.offered.text("family")) + " offered, " + family_said(pair.wanted.text("family")) +
                       " wanted: " + mixing.words,
                   "the whole circuit is flushed out first, and the maker names that family");
        pair.rests_on(mixing.source);
    }
    if (pair.wanted.text("base") != pair.offered.text("base"))
        pair.lower(
            Verdict::check_first,
            base_said(pair.offered.text("base")) + " offered, " + base_said(pair.wanted.text("base")) + " wanted",
            "the whole circuit is flushed out first: a refractometer reads mixed glycols wrong");
    if (pair.wanted.number("glycol_pct") != pair.offered.number("glycol_pct"))
        pair.opinion.conditions.push_back("sold at " + cell(pair.offered, "glycol_pct") + " %, not at " +
                                          cell(pair.wanted, "glycol_pct") + " %: another quantity, other water");
    return std::move(pair.opinion);
}

Opinion of_filters(Pair pair) {
    pair.word("form", "form", Verdict::does_not_fit);
    pair.size("thread_mm", "thread", 0.3, Verdict::does_not_fit);
    pair.size("pitch_mm", "pitch", 0.1, Verdict::does_not_fit);
    pair.size("seal_outside_mm", "seal ring", 1, Verdict::does_not_fit);
    pair.size("height_mm", "height", 2, Verdict::check_first);
    return std::move(pair.opinion);
}

Opinion of_washers(Pair pair) {
    pair.size("inside_mm", "hole", 0.5, Verdict::does_not_fit);
    pair.word("form", "form", Verdict::check_first);
    pair.size("outside_mm", "rim", 2, Verdict::check_first);
    return std::move(pair.opinion);
}

// Exact grade only; where the bases of both are recorded and differ, that is said too.
Opinion of_brakes(const Facts& facts, const Substitution& substitution) {
    Opinion opinion;
    opinion.at_most = Verdict::does_not_fit;
    opinion.reasons = {"brake fluid: exact grade only, no stand-in is offered"};
    opinion.source = practice("brakes take the exact grade");
    const auto* wanted = row_of_group(facts, brake_fluids, substitution.wanted_group);
    const auto* offered = row_of_group(facts, brake_fluids, substitution.offered_group);
    if (!wanted || !offered || wanted->text("base") == offered->text("base")) return opinion;
    opinion.reasons.push_back(substitution.offered_group + " is " + cell(*offered, "base") + ", " +
                              substitution.wanted_group + " is " + cell(*wanted, "base") + ": a base is never crossed");
    opinion.source = weaker(row_source(*wanted), row_source(*offered));
    return opinion;
}

}  // namespace

Opinion may_stand_in(const Substitution& substitution, const Services& services) {
    if (substitution.wanted_group == substitution.offered_group) return {};
    if (is_brake_fluid(services.facts, substitution.wanted_group) ||
        is_brake_fluid(services.facts, substitution.offered_group))
        return of_brakes(services.facts, substitution);
    const std::pair<const char*, Opinion (*)(Pair)> kinds[]{
        {oils, of_oils}, {coolants, of_coolants}, {oil_filters, of_filters}, {washers, of_washers}};
    for (const auto& [table, opinion] : kinds) {
        const auto* wanted = row_of_group(services.facts, table, substitution.wanted_group);
        const auto* offered = row_of_group(services.facts, table, substitution.offered_group);
        if (wanted && offered) return opinion(Pair(*wanted, *offered, services.facts));
        if (!wanted && !offered) continue;
        Opinion unknown;
        unknown.at_most = Verdict::check_first;
        unknown.reasons = {"nothing is recorded of " +
                           (wanted ? substitution.offered_group : substitution.wanted_group)};
        unknown.conditions = {"class, family or size are read off both, and agree"};
        return unknown;
    }
    return {};
}

}  // namespace casebound::service_fluids
