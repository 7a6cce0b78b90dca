// A filter is valid only for a pan depth and a form of seal: height, neck and bolts against what the vehicle has.
#include "rows/examine.h"
#include "rows/pack_words.h"
#include "rows/triple.h"
#include "science/left_behind.h"
#include "science/stack.h"

namespace casebound::filters_seals {
namespace {

// An objection where the pan cannot close or the pick-up hangs high; a caution where it stands close to the floor.
// Inside the window nothing is said: the window itself is mostly from memory.
void examine_height(Case& one, const Row& filter) {
    const auto height = filter.number("height_mm");
    if (!height) return;
    const auto depths = one.vehicle().possible("pan_depth");
    if (depths.empty()) one.result.questions.push_back("pan_depth");
    for (const auto& depth : depths) {
        if (!depth.number) continue;
        const UnderPan under = filter_under_pan(*depth.number, *height, filter.number("pan_depth_mm"));
        const SourceNote source = weaker(row_note(filter), note(under.finding.source));
        if (under.will_not_close)
            one.object(condition_for("pan_depth", depth), Verdict::does_not_fit, under.finding.reason,
                       row_note(filter));
        else if (under.much_room || *depth.number <= *height)
            one.object(condition_for("pan_depth", depth), Verdict::check_first, under.finding.reason, source);
        else if (under.close) one.caution("With a pan of " + depth.text + ": " + under.finding.reason + ".");
    }
}

void examine_form(Case& one, const Row& filter) {
    const auto made_for = filter.text("neck_seal_form");
    if (made_for.empty()) return;
    const auto wanted = neck_seal_form_from(made_for);
    for (const auto& form : one.vehicle().possible("neck_seal_form")) {
        if (form.text == made_for) continue;
        const auto here = neck_seal_form_from(form.text);
        const std::string reason = "made for: " + std::string(wanted ? text(*wanted) : made_for) +
                                   "; this gearbox has: " + std::string(here ? text(*here) : form.text);
        one.object(condition_for("neck_seal_form", form),
                   opposite_forms(made_for, form.text) ? Verdict::does_not_fit : Verdict::check_first, reason,
                   row_note(filter));
    }
}

// The neck must enter the bore, and reach the seal.
void examine_neck(Case& one, const Row& filter) {
    const auto neck = filter.number("neck_od_mm"), length = filter.number("neck_length_mm");
    for (const auto& bore : rows_of_line(one.services, "filters_seals_bores")) {
        if (bore.text("role") != "filter-neck-seal") continue;
        const SourceNote source = weaker(row_note(filter), row_note(bore));
        const auto width = bore.number("bore_mm"), depth = bore.number("depth_to_seal_mm");
        if (neck && width && *neck >= *width)
            one.object(std::string(bore.text("condition")), Verdict::does_not_fit,
                       "neck " + shown(*neck) + " mm does not enter the bore of " + shown(*width) + " mm", source);
        if (!length || !depth) continue;
        const Stacked reach = engagement_mm(about(*length, kRulerMm), exactly(*depth), 0);
        if (reach.min > 0) continue;
        one.object(std::string(bore.text("condition")), reach.max <= 0 ? Verdict::does_not_fit : Verdict::check_first,
                   "neck " + shown(*length) + " mm - " + shown(*depth) +
                       " mm up to the seal = " + shown(reach.nominal) + " mm: it does not surely reach",
                   source);
    }
}

std::string form_of_seal(const Facts& facts, std::string_view group) {
    const auto seal = recorded(facts, "filters_seals_seals", group);
    return seal ? std::string(neck_form(seal->text("form"))) : "";
}

// A kit may hold this filter together with a seal of another form.
void examine_kits(Case& one, const Row& filter) {
    const auto made_for = filter.text("neck_seal_form");
    for (const auto& holds : one.services.facts.rows("kit_contents", "group_key", one.candidate.group))
        for (const auto& other : one.services.facts.rows("kit_contents", "kit", holds.text("kit"))) {
            const std::string form = form_of_seal(one.services.facts, other.text("group_key"));
            if (opposite_forms(made_for, form))
                one.caution("Kit " + std::string(holds.text("kit")) +
                            " holds this filter with a seal of another form: " + std::string(other.text("group_key")) +
                            ".");
        }
}

void add_companion(Case& one, const Row& filter) {
    const auto form = neck_seal_form_from(filter.text("neck_seal_form"));
    if (!form || *form == NeckSealForm::moulded_to_filter) return;
    one.result.companions.push_back(
        {"filter-neck-seal",
         "the neck seal is a part of its own (" + std::string(text(*form)) + "): seals out, seals in",
         row_note(filter)});
    if (one.candidate.role == "pan-filter" && fit_method(*form).may_stay_in_case)
        one.caution("The old neck seal may stay up the bore: all old ones out before the new one goes in.");
}

}  // namespace

void examine_filter(Case& one) {
    const auto filter = one.row("filters_seals_filters");
    if (!filter) return;
    examine_height(one, *filter);
    examine_form(one, *filter);
    examine_neck(one, *filter);
    one.object_to_other_number("filter_bolts", filter->number("bolt_count"), "bolts that hold it:", *filter);
    examine_kits(one, *filter);
    if (!filter->text("captive_above").empty())
        one.caution("Above it may lie and drop out: " + std::string(filter->text("captive_above")) + ".");
    add_companion(one, *filter);
}

}  // namespace casebound::filters_seals
