// A pan, its gasket and its bolts against rail, hole count and tightening of this vehicle.
#include "rows/examine.h"
#include "rows/pack_words.h"
#include "science/fastener.h"
#include "science/gasket.h"

namespace casebound::filters_seals {
namespace {

constexpr double kPanDepthToleranceMm = 3;  // the tolerance of the attribute pan_depth

// Another depth asks for another filter and another fill: the three go together.
void examine_depth(Case& one, const Row& pan) {
    const auto depth = pan.number("depth_mm");
    if (!depth) return;
    for (const auto& here : one.vehicle().possible("pan_depth"))
        if (here.number &&
            (*here.number > *depth + kPanDepthToleranceMm || *here.number < *depth - kPanDepthToleranceMm))
            one.object(
                condition_for("pan_depth", here), Verdict::check_first,
                "pan " + shown(*depth) + " mm deep, this vehicle has " + here.text + ": filter and fill change with it",
                row_note(pan));
}

// Both the attribute of the line and the recorded flanges count the same bolts.
void examine_holes(Case& one, const Row& part, std::string_view what) {
    const auto holes = part.number("bolt_count");
    one.object_to_other_number("pan_bolts", holes, what, part);
    if (!holes || !one.vehicle().possible("pan_bolts").empty()) return;
    for (const auto& flange : rows_of_line(one.services, "filters_seals_flanges"))
        if (const auto bolts = flange.number("bolt_count"); bolts && *bolts != *holes)
            one.object(std::string(flange.text("condition")), Verdict::does_not_fit,
                       std::string(what) + " " + shown(*holes) + ", the rail has " + shown(*bolts),
                       weaker(row_note(part), row_note(flange)));
}

void object_to_flange(Case& one, const Row& gasket, std::string_view flange, std::string condition, SourceNote from) {
    const auto& rows = one.services.facts.rows("filters_seals_gasket_flanges");
    const auto recorded_listings = gasket_listings(rows);
    // The candidate is one that an application names for this line: "specified" is answered by that.
    const Finding finding = judge_flange(gasket_material_from(gasket.text("material")), flange_form_from(flange), true,
                                         recorded_listings);
    if (finding.judgement != Judgement::fits)
        one.object(std::move(condition), Verdict::check_first, finding.reason,
                   weaker(weaker(row_note(gasket), from), note(finding.source)));
}

void examine_flange(Case& one, const Row& gasket) {
    const auto possible = one.vehicle().possible("pan_flange");
    for (const auto& flange : possible)
        if (flange_form_from(flange.text))
            object_to_flange(one, gasket, flange.text, condition_for("pan_flange", flange), row_note(gasket));
    if (!possible.empty()) return;
    for (const auto& row : rows_of_line(one.services, "filters_seals_flanges"))
        object_to_flange(one, gasket, row.text("flange"), std::string(row.text("condition")), row_note(row));
}

void say_about_reuse_and_sealant(Case& one, const Row& gasket) {
    const auto material = gasket_material_from(gasket.text("material"));
    if (!material) return;
    const GasketDesign design{*material,
                              reuse_from(gasket.text("reusable")).value_or(Reuse::not_recorded),
                              sealant_from(gasket.text("sealant")).value_or(Sealant::not_recorded),
                              {gasket.origin.evidence, gasket.origin.source}};
    const std::string state = one.told("old_gasket_state");
    const auto undamaged = state.empty() ? std::nullopt : std::optional(state == "sound");
    if (design.reuse == Reuse::reusable_if_undamaged)
        one.caution("The old one, if of this kind: " + judge_reuse(design, undamaged).reason + ".");
    if (design.sealant == Sealant::none) one.caution("No sealant: it does harm here.");
    else if (design.sealant != Sealant::not_recorded) one.caution(sentence(std::string(text(design.sealant))));
}

}  // namespace

void examine_pan(Case& one) {
    const auto pan = one.row("filters_seals_pans");
    if (!pan) return;
    examine_depth(one, *pan);
    examine_holes(one, *pan, "bolt holes in the rail:");
    const auto magnets = pan->number("magnets");
    if (magnets && *magnets > 0)
        one.caution("Magnets that belong in it: " + shown(*magnets) + ". They are on the floor of the old pan.");
    if (pan->text("filter_in_pan") == "yes") one.caution("Filter and pan are one part.");
    const auto flange = pan->text("flange");
    for (const auto& here : one.vehicle().possible("pan_flange"))
        if (!flange.empty() && here.text != flange)
            one.object(condition_for("pan_flange", here), Verdict::check_first,
                       "rail of this pan: " + std::string(flange) + ", of this vehicle's: " + here.text +
                           "; the gasket changes with it",
                       row_note(*pan));
}

void examine_gasket(Case& one) {
    const auto gasket = one.row("filters_seals_gaskets");
    for (const auto& leak : one.told_seen("leak_at"))
        if (!leak.empty() && leak != "pan_rail" && leak != "dry")
            one.caution("It was wet at " + leak + ": a new pan gasket will not stop that.");
    if (!gasket) return;
    examine_holes(one, *gasket, "holes in the gasket:");
    examine_flange(one, *gasket);
    say_about_reuse_and_sealant(one, *gasket);
}

void examine_pan_bolts(Case& one) {
    for (const auto& row : rows_of_line(one.services, "filters_seals_flanges")) {
        const auto stages = stages_from_text(row.text("tightening"));
        const BoltAnswer advice = examine_bolt(stages, true, std::nullopt);
        if (advice.advice == BoltAdvice::new_bolt)
            one.caution(sentence(advice.say + where_text(row, one.services.vehicle)));
    }
}

}  // namespace casebound::filters_seals
