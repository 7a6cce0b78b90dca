#include <algorithm>
#include <cmath>

#include "core/contract/answer_lines.h"
#include "rows/hooks.h"
#include "rows/pack_words.h"
#include "rows/reading.h"
#include "rows/triple.h"
#include "science/elastomer.h"
#include "science/gasket.h"

namespace casebound::filters_seals {
namespace {

// Two rows of one table, and the opinion that grows from their differences.
struct Pair {
    const Row& wanted;
    const Row& offered;
    const Services& services;
    Opinion opinion{};

    void lower(Verdict at_most, std::string reason) {
        opinion.at_most = std::max(opinion.at_most, at_most);
        opinion.reasons.push_back(std::move(reason));
        opinion.source = source();
        if (opinion.source.evidence == Evidence::memory)
            opinion.at_most = std::min(opinion.at_most, Verdict::check_first);
    }
    SourceNote source() const { return weaker(row_source(wanted), row_source(offered)); }
    void condition(std::string text) { opinion.conditions.push_back(std::move(text)); }
    void caution(std::string text) { opinion.cautions.push_back({std::move(text), source()}); }

    bool both_state(std::string_view column) const { return wanted.stated(column) && offered.stated(column); }
    // "neck 22 mm against 26 mm"
    std::string against(std::string_view what, std::string_view column, std::string_view unit = {}) const {
        const std::string end = unit.empty() ? "" : " " + std::string(unit);
        return std::string(what) + " " + std::string(offered.text(column)) + end + " against " +
               std::string(wanted.text(column)) + end;
    }
    bool same_word(std::string_view column) const { return wanted.text(column) == offered.text(column); }
    bool differ_by_more(std::string_view column, double tolerance) const {
        const auto a = wanted.number(column), b = offered.number(column);
        return a && b && std::abs(*a - *b) > tolerance;
    }
    // What must be known of both, and is known of one only, is looked at on the bench.
    void look_if_one_sided(std::string_view column, std::string_view what) {
        if (wanted.stated(column) != offered.stated(column))
            condition("lay both side by side: " + std::string(what) + " is recorded for one of them only");
    }
};

constexpr double kHeightsApartMm = 2, kNecksApartMm = 0.3;  // the tolerances of filter_height and neck_od
constexpr double kSealMm = 0.3;                             // about the ISO 3601-1 class A tolerance of neck-seal sizes

// Where the vehicle's pan depth is known, the gap under the offered filter is worth more than the difference in height.
void weigh_gap(Pair& pair) {
    const auto height = pair.offered.number("height_mm");
    if (!height || !pair.services.vehicle) return;
    bool any = false, all_closed = true;
    std::string reason;
    for (const auto& depth : pair.services.vehicle->possible("pan_depth")) {
        if (!depth.number) continue;
        any = true;
        const UnderPan under = filter_under_pan(*depth.number, *height, pair.offered.number("pan_depth_mm"));
        all_closed = all_closed && under.will_not_close;
        if (under.will_not_close || under.much_room) reason += (reason.empty() ? "" : "; ") + under.finding.reason;
    }
    if (any && !reason.empty()) pair.lower(all_closed ? Verdict::does_not_fit : Verdict::check_first, reason);
}

void compare_filters(Pair& pair) {
    if (pair.differ_by_more("height_mm", kHeightsApartMm)) {
        pair.lower(Verdict::check_first, pair.against("height", "height_mm", "mm"));
        pair.condition("the pan's depth goes with it: pan depth - filter height as on the old pair");
    }
    if (pair.differ_by_more("neck_od_mm", kNecksApartMm))
        pair.lower(Verdict::check_first, pair.against("neck", "neck_od_mm", "mm"));
    if (pair.differ_by_more("neck_length_mm", kRulerMm))
        pair.lower(Verdict::check_first, pair.against("length of the neck", "neck_length_mm", "mm"));
    if (pair.both_state("neck_seal_form") && !pair.same_word("neck_seal_form"))
        pair.lower(Verdict::check_first, pair.against("made for a seal of another form:", "neck_seal_form"));
    if (pair.both_state("type") && !pair.same_word("type"))
        pair.lower(Verdict::check_first, pair.against("it sits otherwise:", "type"));
    if (pair.differ_by_more("bolt_count", 0))
        pair.lower(Verdict::does_not_fit, pair.against("bolts that hold it:", "bolt_count"));
    pair.look_if_one_sided("height_mm", "the height");
    pair.look_if_one_sided("neck_seal_form", "the form of the neck seal");
    weigh_gap(pair);
}

// By the letters of ASTM D2000: at least as much heat, and no more swell in oil.
bool ranks_no_lower(const D2000Rank& offered, const D2000Rank& wanted) {
    if (offered.heat_c.low < wanted.heat_c.high || !offered.always_limited || !offered.swell_percent) return false;
    return !wanted.swell_percent || offered.swell_percent->high <= wanted.swell_percent->high;
}

void compare_rubbers(Pair& pair) {
    const auto wanted = elastomer_from_code(pair.wanted.text("elastomer")),
               offered = elastomer_from_code(pair.offered.text("elastomer"));
    if (!offered) return;
    const auto& rows = pair.services.facts.rows("filters_seals_elastomers");
    const auto cells = fluid_cells(rows);
    const Finding in_fluid = judge_fluid(offered, Fluid::mineral_oil_atf, cells);
    if (in_fluid.judgement == Judgement::does_not_fit) pair.lower(Verdict::does_not_fit, in_fluid.reason);
    if (!wanted || *wanted == *offered) return;
    std::string text = pair.against("rubber", "elastomer");
    const auto a = d2000_rank(*offered), b = d2000_rank(*wanted);
    if (a && b)
        text += "; heat test " + span_text(a->heat_c, "degC") + " against " + span_text(b->heat_c, "degC") +
                " (ASTM D2000)";
    if (a && b && ranks_no_lower(*a, *b) && in_fluid.judgement == Judgement::fits) pair.caution(sentence(text));
    else pair.condition("the offered rubber stands this fluid and its heat: " + text);
}

bool is_washer(std::string_view form) { return form == "flat_washer" || form == "bonded_washer"; }

void compare_sizes(Pair& pair) {
    for (const auto& [column, what] : {std::pair{"id_mm", "inside"}, std::pair{"od_mm", "outside"},
                                       std::pair{"section_mm", "section"}, std::pair{"height_mm", "height"}})
        if (pair.differ_by_more(column, kSealMm)) pair.lower(Verdict::check_first, pair.against(what, column, "mm"));
}

// Washers lie under a head, of whatever make they are: the head must cover them.
void compare_washers(Pair& pair) {
    if (!pair.same_word("form")) pair.caution(sentence(pair.against("form", "form")));
    for (const auto& [column, what] : {std::pair{"id_mm", "inside"}, std::pair{"od_mm", "outside"}})
        if (pair.differ_by_more(column, kSealMm))
            pair.condition("plug and face suit it: " + pair.against(what, column, "mm"));
}

void compare_seals(Pair& pair) {
    const auto wanted = neck_form(pair.wanted.text("form")), offered = neck_form(pair.offered.text("form"));
    const bool washers = is_washer(wanted) && is_washer(offered);
    if (!wanted.empty() && !offered.empty() && wanted != offered && !washers)
        pair.lower(Verdict::does_not_fit, pair.against("another form:", "form"));
    pair.look_if_one_sided("form", "the form");
    if (washers) compare_washers(pair);
    else compare_sizes(pair);
    compare_rubbers(pair);
}

std::string rails_for(GasketMaterial material) {
    std::vector<std::string> rails;
    for (const auto& word : flange_form_words())
        if (listing(material, *flange_form_from(word)) != Listing::not_listed)
            rails.emplace_back(text(*flange_form_from(word)));
    return listed(rails, " or ");
}

// A rail the offered material is not listed for asks; which rail, only the vehicle tells.
void weigh_rail(Pair& pair) {
    const auto material = gasket_material_from(pair.offered.text("material"));
    if (!material || pair.same_word("material")) return;
    pair.condition("the rail is one this material is listed for: " + rails_for(*material));
    if (!pair.services.vehicle) return;
    const auto& rows = pair.services.facts.rows("filters_seals_gasket_flanges");
    const auto recorded_listings = gasket_listings(rows);
    for (const auto& flange : pair.services.vehicle->possible("pan_flange")) {
        const Finding finding = judge_flange(material, flange_form_from(flange.text), std::nullopt, recorded_listings);
        if (finding.judgement == Judgement::check_first) pair.lower(Verdict::check_first, finding.reason);
    }
}

void compare_gaskets(Pair& pair) {
    if (pair.differ_by_more("bolt_count", 0)) pair.lower(Verdict::does_not_fit, pair.against("holes", "bolt_count"));
    if (pair.both_state("material") && !pair.same_word("material"))
        pair.caution(pair.against("Material", "material") + ".");
    weigh_rail(pair);
    if (pair.both_state("torque_limiters") && !pair.same_word("torque_limiters"))
        pair.condition("tightened as its own paper says: one of them has sleeves in the holes, the other has not");
    if (pair.both_state("sealant") && !pair.same_word("sealant"))
        pair.caution(pair.against("Sealant", "sealant") + ".");
    if (pair.differ_by_more("thickness_mm", 0.5))
        pair.caution(pair.against("Thickness", "thickness_mm", "mm") + ": it shifts the pan by as much.");
}

void compare_pans(Pair& pair) {
    if (pair.differ_by_more("bolt_count", 0))
        pair.lower(Verdict::does_not_fit, pair.against("bolt holes", "bolt_count"));
    if (pair.differ_by_more("depth_mm", 3)) {
        pair.lower(Verdict::check_first, pair.against("depth", "depth_mm", "mm"));
        pair.condition("filter and fill change with the depth: pan, filter and neck seal are chosen together");
    }
    if (pair.both_state("flange") && !pair.same_word("flange"))
        pair.condition("the gasket suits its rail: " + pair.against("rail", "flange"));
    if (pair.both_state("filter_in_pan") && !pair.same_word("filter_in_pan"))
        pair.lower(Verdict::check_first, "one of them has the filter in it");
}

Opinion compare(const Substitution& swap, const Services& services, std::string_view table, void (*with)(Pair&)) {
    const Row* wanted = row_of_group(services.facts, table, swap.wanted_group);
    const Row* offered = row_of_group(services.facts, table, swap.offered_group);
    if (!wanted || !offered) return {};
    Pair pair{*wanted, *offered, services};
    with(pair);
    return std::move(pair.opinion);
}

}  // namespace

Opinion may_stand_in(const Substitution& swap, const Services& services) {
    if (swap.wanted_group == swap.offered_group) return {};
    constexpr std::pair<std::string_view, void (*)(Pair&)> tables[] = {{"filters_seals_filters", compare_filters},
                                                                       {"filters_seals_seals", compare_seals},
                                                                       {"filters_seals_gaskets", compare_gaskets},
                                                                       {"filters_seals_pans", compare_pans}};
    for (const auto& [table, with] : tables)
        if (row_of_group(services.facts, table, swap.wanted_group)) return compare(swap, services, table, with);
    return {};
}

}  // namespace casebound::filters_seals
