// A seal against the form, the bore and the neck of this vehicle, and against the fluid it will sit in.
#include "rows/examine.h"
#include "rows/pack_words.h"
#include "rows/reading.h"
#include "rows/triple.h"
#include "science/elastomer.h"
#include "science/left_behind.h"
#include "science/seal_count.h"

namespace casebound::filters_seals {
namespace {

void examine_seal_form(Case& one, const Row& seal) {
    const auto form = neck_form(seal.text("form"));
    const auto own = neck_seal_form_from(form);
    if (!own) return;
    for (const auto& here : one.vehicle().possible("neck_seal_form")) {
        const auto wanted = neck_seal_form_from(here.text);
        if (here.text == form || !wanted) continue;
        one.object_where("neck_seal_form", here, Verdict::does_not_fit,
                         std::string(text(*own)) + ", this gearbox has: " + std::string(text(*wanted)) +
                             "; they are fitted in opposite ways",
                         row_source(seal));
    }
}

void object_to(Case& one, const Finding& finding, const std::string& condition, const SourceNote& source, Verdict no) {
    if (finding.judgement == Judgement::does_not_fit) one.object(condition, no, finding.reason, source);
}

// On the recorded necks that may be fitted here: a leak on every one of them is a no, on some a question.
void examine_on_necks(Case& one, const Row& seal, const Row& bore, double bore_mm) {
    const auto necks = necks_on_line(one.services, neck_form(seal.text("form")));
    std::vector<Finding> leaks;
    for (const double neck : necks) {
        auto finding = seal_on_neck(seal, neck, bore_mm);
        if (finding && finding->judgement == Judgement::does_not_fit) leaks.push_back(std::move(*finding));
    }
    for (const auto& leak : leaks)
        object_to(one, leak, std::string(bore.text("condition")), weaker(row_source(seal), row_source(bore)),
                  leaks.size() == necks.size() ? Verdict::does_not_fit : Verdict::check_first);
}

void examine_bores(Case& one, const Row& seal) {
    for (const auto& bore : rows_here(one.services, "filters_seals_bores")) {
        const auto width = bore->number("bore_mm");
        if (bore->text("role") != one.candidate.role || !width) continue;
        if (const auto finding = seal_in_bore(seal, *width))
            object_to(one, *finding, std::string(bore->text("condition")), weaker(row_source(seal), row_source(*bore)),
                      Verdict::does_not_fit);
        if (one.candidate.role == "filter-neck-seal") examine_on_necks(one, seal, *bore, *width);
    }
}

// Law against it is a no; anything else the seal's maker may know better, so it is said and not decided here.
void examine_rubber(Case& one, const Row& seal) {
    const auto elastomer = elastomer_from_code(seal.text("elastomer"));
    if (!elastomer) return;
    const auto& rows = one.services.facts.rows("filters_seals_elastomers");
    const auto cells = fluid_cells(rows, elastomer);
    const Finding finding = judge_fluid(elastomer, Fluid::mineral_oil_atf, cells);
    if (finding.judgement == Judgement::does_not_fit)
        one.object("", Verdict::does_not_fit, finding.reason, weaker(note(finding.source), row_source(seal)));
    else if (finding.judgement == Judgement::check_first)
        one.caution(sentence(finding.reason), weaker(note(finding.source), row_source(seal)));
}

void say_how_it_is_fitted(Case& one, const Row& seal) {
    const auto form = neck_seal_form_from(neck_form(seal.text("form")));
    if (one.candidate.role != "filter-neck-seal" || !form || *form == NeckSealForm::moulded_to_filter) return;
    const FitMethod method = fit_method(*form);
    one.caution(sentence("Goes " + std::string(method.goes)), note(method.source));
    if (method.may_stay_in_case)
        one.caution("Take every old one out first, one new one in for each bore: never press one on another.",
                    note(method.source));
    if (const auto off = one.told("pan_off_before"); off && off->text == "yes")
        one.caution("The pan has been off before: two seals may be stacked up the bore.", off->source());
}

void count_what_was_found(Case& one) {
    if (one.candidate.role != "filter-neck-seal") return;
    if (const auto found = one.told("seals_in_bore"); found && found->number.value_or(0) > 1)
        one.caution(shown(*found->number) + " seals were found up the bore: all of them come out, one goes in.",
                    found->source());
}

}  // namespace

void examine_seal(Case& one) {
    const Row* seal = one.row("filters_seals_seals");
    count_what_was_found(one);
    if (!seal) return;
    if (one.candidate.role == "filter-neck-seal") examine_seal_form(one, *seal);
    examine_bores(one, *seal);
    examine_rubber(one, *seal);
    say_how_it_is_fitted(one, *seal);
    const auto wet = seal->text("lubricate");
    if (!wet.empty() && wet != "dry")
        one.caution("Wet it with " + std::string(wet) + " before it goes in.", row_source(*seal));
}

}  // namespace casebound::filters_seals
