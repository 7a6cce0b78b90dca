// A pan, its gasket and its bolts against rail, hole count and tightening of this vehicle.
#include "rows/examine.h"
#include "rows/pack_words.h"
#include "rows/reading.h"
#include "science/fastener.h"
#include "science/gasket.h"

namespace casebound::filters_seals {
namespace {

constexpr double kPanDepthToleranceMm = 3;  // the tolerance of the attribute pan_depth

bool known_somehow(const Case& one, std::string_view attribute) {
    return !one.vehicle().possible(attribute).empty() || one.told(attribute);
}

// Another depth asks for another filter and another fill: the three go together.
void examine_depth(Case& one, const Row& pan) {
    const auto depth = pan.number("depth_mm");
    if (!depth) return;
    const auto reason = [&](const std::string& here) {
        return "pan " + shown(*depth) + " mm deep, this vehicle has " + here + ": filter and fill change with it";
    };
    const double least = *depth - kPanDepthToleranceMm, most = *depth + kPanDepthToleranceMm;
    for (const auto& here : one.vehicle().possible("pan_depth"))
        if (here.number && (*here.number > most || *here.number < least))
            one.object_where("pan_depth", here, Verdict::check_first, reason(here.text), row_source(pan));
    if (const auto said = one.told_as_range("pan_depth"))
        one.object_if("pan_depth", "not pan_depth=" + shown(least) + ".." + shown(most), Verdict::check_first,
                      reason(said->text), row_source(pan));
}

// What is known of the vehicle counts first; the recorded flanges where nothing is.
void examine_holes(Case& one, const Row& part, std::string_view what) {
    const auto holes = part.number("bolt_count");
    one.object_to_other_count("pan_bolts", holes, what, part);
    if (!holes || known_somehow(one, "pan_bolts")) return;
    for (const auto& flange : rows_here(one.services, "filters_seals_flanges"))
        if (const auto bolts = flange->number("bolt_count"); bolts && *bolts != *holes)
            one.object(std::string(flange->text("condition")), Verdict::does_not_fit,
                       std::string(what) + " " + shown(*holes) + ", the rail has " + shown(*bolts),
                       weaker(row_source(part), row_source(*flange)));
}

// What the material is listed for, as packs say it. The candidate is one that an application names for this line:
// "specified" is answered by that. Nothing when the pair is listed.
std::optional<Finding> flange_against(const Case& one, const Row& gasket, std::string_view flange) {
    const auto listings = gasket_listings(one.services.facts.rows("filters_seals_gasket_flanges"));
    Finding finding = judge_flange(gasket_material_from(gasket.text("material")), flange_form_from(flange), true,
                                   listings);
    return finding.judgement == Judgement::fits ? std::nullopt : std::optional(std::move(finding));
}

void examine_flange(Case& one, const Row& gasket) {
    for (const auto& flange : one.vehicle().possible("pan_flange")) {
        if (!flange_form_from(flange.text)) continue;
        if (const auto against = flange_against(one, gasket, flange.text))
            one.object_where("pan_flange", flange, Verdict::check_first, against->reason,
                             weaker(row_source(gasket), note(against->source)));
    }
    if (known_somehow(one, "pan_flange")) return;
    for (const auto& row : rows_here(one.services, "filters_seals_flanges"))
        if (const auto against = flange_against(one, gasket, row->text("flange")))
            one.object(std::string(row->text("condition")), Verdict::check_first, against->reason,
                       weaker(weaker(row_source(gasket), row_source(*row)), note(against->source)));
}

// What the gasket's own record says outranks what a job says of gaskets.
void say_about_reuse(Case& one, const Row& gasket, const GasketDesign& design) {
    const auto state = one.told("old_gasket_state");
    const auto undamaged = state ? std::optional(state->text == "sound") : std::nullopt;
    const std::string verdict = judge_reuse(design, undamaged).reason;
    if (design.reuse == Reuse::reusable_if_undamaged)
        one.caution("The old one, if of this kind: " + verdict + ".", row_source(gasket));
    if (design.reuse == Reuse::single_use) one.result.never_again = row_source(gasket);
    if (design.reuse == Reuse::single_use)
        one.caution(
            "The old one, if of this kind, never goes back, however sound it looks and whatever the job says: " +
                verdict + ".",
            row_source(gasket));
}

void say_about_reuse_and_sealant(Case& one, const Row& gasket) {
    const auto material = gasket_material_from(gasket.text("material"));
    if (!material) return;
    const GasketDesign design = design_of(gasket, *material);
    say_about_reuse(one, gasket, design);
    if (design.sealant == Sealant::none) one.caution("No sealant: it does harm here.", row_source(gasket));
    else if (design.sealant != Sealant::not_recorded) one.caution(sentence(text(design.sealant)), row_source(gasket));
}

}  // namespace

void examine_pan(Case& one) {
    const Row* pan = one.row("filters_seals_pans");
    if (!pan) return;
    examine_depth(one, *pan);
    examine_holes(one, *pan, "bolt holes in the rail:");
    const auto magnets = pan->number("magnets");
    if (magnets && *magnets > 0)
        one.caution("Magnets that belong in it: " + shown(*magnets) + ". They are on the floor of the old pan.",
                    row_source(*pan));
    if (pan->yes("filter_in_pan")) one.caution("Filter and pan are one part.", row_source(*pan));
    const std::string flange(pan->text("flange"));
    for (const auto& here : one.vehicle().possible("pan_flange"))
        if (!flange.empty() && here.text != flange)
            one.object_where(
                "pan_flange", here, Verdict::check_first,
                "rail of this pan: " + flange + ", of this vehicle's: " + here.text + "; the gasket changes with it",
                row_source(*pan));
}

void examine_gasket(Case& one) {
    const Row* gasket = one.row("filters_seals_gaskets");
    for (const auto& leak : one.told_seen("leak_at"))
        if (leak != "pan_rail" && leak != "dry")
            one.caution("It was wet at " + leak + ": a new pan gasket will not stop that.",
                        one.told("leak_at")->source());
    if (!gasket) return;
    examine_holes(one, *gasket, "holes in the gasket:");
    examine_flange(one, *gasket);
    say_about_reuse_and_sealant(one, *gasket);
}

void examine_pan_bolts(Case& one) {
    for (const auto& row : rows_here(one.services, "filters_seals_flanges")) {
        const auto stages = stages_from_text(row->text("tightening"));
        const BoltAnswer advice = examine_bolt(stages, true, std::nullopt);
        if (advice.advice == BoltAdvice::new_bolt) one.caution(sentence(advice.say + row.where()), row_source(*row));
    }
}

}  // namespace casebound::filters_seals
