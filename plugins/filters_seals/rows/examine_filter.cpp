// A filter is valid only for a pan depth and a form of seal: height, neck and bolts against what the vehicle has.
#include <cmath>

#include "core/contract/answer_lines.h"
#include "rows/examine.h"
#include "rows/pack_words.h"
#include "rows/triple.h"
#include "science/left_behind.h"
#include "science/stack.h"

namespace casebound::filters_seals {
namespace {

// How far a length of the part that came off may differ from the new one's: the tolerances of the two attributes.
constexpr double kOldNeckMm = 0.3, kOldHeightMm = 2;

void examine_under_pan(Case& one, const Row& filter, double height_mm, const PossibleValue& depth) {
    const UnderPan under = filter_under_pan(*depth.number, height_mm, filter.number("pan_depth_mm"));
    if (under.will_not_close)
        one.object_where("pan_depth", depth, Verdict::does_not_fit, under.finding.reason, row_source(filter));
    else if (under.much_room || *depth.number <= height_mm)
        one.object_where("pan_depth", depth, Verdict::check_first, under.finding.reason,
                         weaker(row_source(filter), note(under.finding.source)));
    else if (under.close)
        one.caution("With a pan of " + depth.text + ": " + under.finding.reason + ".",
                    weaker(row_source(filter), note(under.finding.source)));
}

// An objection where the pan cannot close or the pick-up hangs high; a caution where it stands close to the floor.
// Inside the window nothing is said: the window itself is mostly from memory.
void examine_height(Case& one, const Row& filter) {
    const auto height = filter.number("height_mm");
    if (!height) return;
    const auto depths = one.vehicle().possible("pan_depth");
    for (const auto& depth : depths)
        if (depth.number) examine_under_pan(one, filter, *height, depth);
    if (!depths.empty()) return;
    one.result.questions.push_back("pan_depth");
    const auto said = one.told("pan_depth");
    if (!said) return;
    const std::string is = "filter " + shown(*height) + " mm high, pan " + said->text;
    one.object_if("pan_depth", "pan_depth<=" + shown(*height - kRulerMm), Verdict::does_not_fit,
                  is + ": the pan will not close", row_source(filter));
    one.object_if("pan_depth", "pan_depth<=" + shown(*height), Verdict::check_first,
                  is + ": the filter may stand on the pan floor", row_source(filter));
}

void examine_form(Case& one, const Row& filter) {
    const auto made_for = filter.text("neck_seal_form");
    if (made_for.empty()) return;
    const auto wanted = neck_seal_form_from(made_for);
    for (const auto& form : one.vehicle().possible("neck_seal_form")) {
        if (form.text == made_for) continue;
        const auto here = neck_seal_form_from(form.text);
        one.object_where("neck_seal_form", form,
                         opposite_forms(made_for, form.text) ? Verdict::does_not_fit : Verdict::check_first,
                         "made for: " + std::string(wanted ? text(*wanted) : made_for) +
                             "; this gearbox has: " + std::string(here ? text(*here) : form.text),
                         row_source(filter));
    }
}

// The filter that came off is no proof of what belongs there, but another length asks.
void compare_with_old(Case& one, const Row& filter, std::string_view column, std::string_view attribute,
                      double tolerance_mm, const std::string& what) {
    const auto own = filter.number(column);
    if (!own) return;
    for (const auto& here : one.vehicle().possible(attribute))
        if (here.number && std::abs(*here.number - *own) > tolerance_mm)
            one.object_where(
                attribute, here, Verdict::check_first,
                what + " " + shown(*own) + " mm, this vehicle's filter has " + here.text + ": lay both side by side",
                row_source(filter));
}

// The neck must enter the bore, and reach the seal.
void examine_neck(Case& one, const Row& filter) {
    const auto neck = filter.number("neck_od_mm"), length = filter.number("neck_length_mm");
    for (const auto& bore : rows_here(one.services, "filters_seals_bores")) {
        if (bore->text("role") != "filter-neck-seal") continue;
        const SourceNote source = weaker(row_source(filter), row_source(*bore));
        const auto width = bore->number("bore_mm"), depth = bore->number("depth_to_seal_mm");
        if (neck && width && *neck >= *width)
            one.object(std::string(bore->text("condition")), Verdict::does_not_fit,
                       "neck " + shown(*neck) + " mm does not enter the bore of " + shown(*width) + " mm", source);
        if (!length || !depth) continue;
        const Stacked reach = engagement_mm(about(*length, kRulerMm), exactly(*depth), 0);
        if (reach.min > 0) continue;
        one.object(std::string(bore->text("condition")), reach.max <= 0 ? Verdict::does_not_fit : Verdict::check_first,
                   "neck " + shown(*length) + " mm - " + shown(*depth) +
                       " mm up to the seal = " + shown(reach.nominal) + " mm: it does not surely reach",
                   source);
    }
}

std::string form_of_seal(const Facts& facts, std::string_view group) {
    const Row* seal = row_of_group(facts, "filters_seals_seals", group);
    return seal ? std::string(neck_form(seal->text("form"))) : "";
}

std::string title_of_group(const Facts& facts, std::string_view group) {
    const auto& rows = facts.rows("groups", "group_key", group);
    return std::string(rows.empty() ? group : rows.front().text("title"));
}

// A kit may hold this filter together with a seal of another form.
void examine_kits(Case& one, const Row& filter) {
    const auto made_for = filter.text("neck_seal_form");
    for (const auto& holds : one.services.facts.rows("kit_contents", "group_key", one.candidate.group))
        for (const auto& other : one.services.facts.rows("kit_contents", "kit", holds.text("kit"))) {
            const std::string form = form_of_seal(one.services.facts, other.text("group_key"));
            if (opposite_forms(made_for, form))
                one.caution("Kit " + std::string(holds.text("kit")) +
                                " holds this filter with a seal of another form: " +
                                title_of_group(one.services.facts, other.text("group_key")) + ".",
                            row_source(other));
        }
}

void add_companion(Case& one, const Row& filter) {
    const auto form = neck_seal_form_from(filter.text("neck_seal_form"));
    if (!form || *form == NeckSealForm::moulded_to_filter) return;
    one.result.companions.push_back(
        {"filter-neck-seal",
         "the neck seal is a part of its own (" + std::string(text(*form)) + "): seals out, seals in",
         row_source(filter)});
    const FitMethod method = fit_method(*form);
    if (one.candidate.role == "pan-filter" && method.may_stay_in_case)
        one.caution("The old neck seal may stay up the bore: all old ones out before the new one goes in.",
                    note(method.source));
}

}  // namespace

void examine_filter(Case& one) {
    const Row* filter = one.row("filters_seals_filters");
    if (!filter) return;
    examine_height(one, *filter);
    examine_form(one, *filter);
    examine_neck(one, *filter);
    compare_with_old(one, *filter, "neck_od_mm", "neck_od", kOldNeckMm, "neck");
    compare_with_old(one, *filter, "height_mm", "filter_height", kOldHeightMm, "height");
    one.object_to_other_count("filter_bolts", filter->number("bolt_count"), "bolts that hold it:", *filter);
    examine_kits(one, *filter);
    if (filter->stated("captive_above"))
        one.caution("Above it may lie and drop out: " + std::string(filter->text("captive_above")) + ".",
                    row_source(*filter));
    add_companion(one, *filter);
}

void examine_in_line_filter(Case& one) {
    for (const auto& here : one.vehicle().possible("in_line_filter"))
        if (here.text == "no")
            one.object_where("in_line_filter", here, Verdict::does_not_fit,
                             "there is no filter in the cooler line of this vehicle", practice());
}

}  // namespace casebound::filters_seals
