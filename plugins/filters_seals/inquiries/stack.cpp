// Gap under the filter and reach of its neck, from lengths at the bench or in packs; and the three parts as one.
#include "science/stack.h"
#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/pack_words.h"
#include "rows/triple.h"
#include "science/oring.h"
#include "science/section_picture.h"

namespace casebound::filters_seals {
namespace {

struct Lengths {
    std::optional<Row> filter_row;
    Quantity pan, filter, neck, depth, old_seal, seal, reach;
    FilterStack stack;
};

Lengths lengths_of(const Asked& asked) {
    const auto filter = asked.row("filter", "filters_seals_filters", "filter");
    const auto pan = asked.row("pan", "filters_seals_pans", "pan");
    const auto seal = asked.row("seal", "filters_seals_seals", "seal");
    const auto bore = bore_of_line(asked.services, "filter-neck-seal");
    Lengths all{filter,
                asked.quantity("pan_depth", pan, "depth_mm"),
                asked.quantity("filter_height", filter, "height_mm"),
                asked.quantity("neck_length", filter, "neck_length_mm"),
                asked.quantity("depth_to_seal", bore, "depth_to_seal_mm"),
                asked.quantity("old_seal"),
                asked.quantity("seal_height", seal, "height_mm"),
                asked.quantity("needed_reach"),
                {}};
    const double off_by = asked.given.number("off_by");
    all.stack = {all.pan.within(off_by), all.filter.within(off_by), all.neck.within(off_by), all.depth.within(off_by),
                 all.old_seal.value};
    return all;
}

// The old pair as measured; else the pair the filter is made for, where a row says; else from memory.
Window gap_window(const Asked& asked, const std::optional<Row>& filter) {
    if (!asked.given.has("old_pan_depth") || !asked.given.has("old_filter_height")) {
        const auto made_for = filter ? filter->number("pan_depth_mm") : std::nullopt,
                   height = filter ? filter->number("height_mm") : std::nullopt;
        return made_for && height
                   ? window_made_for(*height, *made_for, {filter->origin.evidence, "gap the filter is made for"})
                   : default_gap_window();
    }
    const double off_by = asked.given.number("off_by");
    return window_from_old_pair(about(asked.given.number("old_pan_depth"), off_by),
                                about(asked.given.number("old_filter_height"), off_by),
                                asked.given.maybe_number("margin"));
}

// The least reach that is wanted: as measured on the old neck, else none that anybody has said.
std::optional<Window> reach_window(const Lengths& lengths) {
    constexpr double kAnyMoreMm = 400;
    if (!lengths.reach.value) return std::nullopt;
    return Window{{*lengths.reach.value, kAnyMoreMm}, {Evidence::measured, "reach asked for"}};
}

std::string stack_headline(const StackAnswer& answer, const Lengths& lengths) {
    const double old_seal = lengths.old_seal.value.value_or(0.0);
    if (old_seal > 0) return "Take the old seal out first: it takes " + shown(old_seal) + " mm from gap and reach.";
    if (answer.place == GapPlace::will_not_close) return "Not this filter under this pan: the pan will not close.";
    if (answer.gap_mm && answer.gap_mm->nominal <= 0)
        return "Not as measured: the filter stands on the pan floor and its pick-up starves; measure pan depth and "
               "filter height again.";
    if (answer.engagement_mm && answer.engagement_mm->max <= 0)
        return "Not this filter: its neck does not reach the seal.";
    if (!answer.gap_mm && !answer.engagement_mm) return "Cannot tell yet: too few lengths are known.";
    if (answer.gap_mm && answer.gap_mm->min <= 0)
        return "Measure closer: as far off as a length may be, the filter may stand on the pan floor and starve.";
    if (answer.place == GapPlace::above_window)
        return "Compare with the old filter: this one leaves much room under it.";
    if (answer.place == GapPlace::below_window)
        return "Compare with the old filter: this one stands close to the pan floor.";
    if (answer.overall == Judgement::fits) return "Filter, pan and neck go together.";
    return "Nothing speaks against it so far; what is open stands below.";
}

void add_length(Answer& answer, const char* label, const Quantity& length) {
    if (length.value) answer.lines.push_back(mm_line(label, *length.value, length.source, 1));
}

SourceNote weakest_of(std::initializer_list<const Quantity*> used) {
    SourceNote out{Evidence::law, ""};
    for (const Quantity* one : used)
        if (one->value) out = weaker(out, one->source);
    return out;
}

void add_results(Answer& answer, const StackAnswer& stack, const Lengths& all, const Window& window) {
    const SourceNote for_gap = weakest_of({&all.pan, &all.filter, &all.old_seal});
    const SourceNote for_reach = weakest_of({&all.neck, &all.depth, &all.old_seal});
    if (stack.gap_mm) answer.lines.push_back(mm_line("gap under the filter", stack.gap_mm->nominal, for_gap, 1));
    answer.lines.push_back(text_line("gap wanted", span_text(window.allowed, "mm"), note(window.source)));
    answer.lines.push_back(
        finding_line("gap, judged", stack.gap, stack.gap_mm ? for_gap : SourceNote{Evidence::law, ""}));
    if (stack.engagement_mm)
        answer.lines.push_back(mm_line("reach into the seal", stack.engagement_mm->nominal, for_reach, 1));
    answer.lines.push_back(finding_line("reach, judged", stack.engagement,
                                        stack.engagement_mm ? for_reach : SourceNote{Evidence::law, ""}));
}

Answer answer_stack(const Given& given, const Services& services) {
    const Asked asked{given, services};
    const Lengths all = lengths_of(asked);
    const Window window = gap_window(asked, all.filter_row);
    const StackAnswer stack = examine_stack(all.stack, window, reach_window(all));
    Answer answer;
    settle(answer, stack.overall,
           {{"pan depth", all.pan},
            {"filter height", all.filter},
            {"neck length", all.neck},
            {"depth to the seal", all.depth}});
    answer.headline = stack_headline(stack, all);
    add_length(answer, "pan depth", all.pan);
    add_length(answer, "filter height", all.filter);
    add_length(answer, "neck length", all.neck);
    add_length(answer, "depth to the seal", all.depth);
    add_length(answer, "old seal left in", all.old_seal);
    add_results(answer, stack, all, window);
    answer.assumptions.push_back("Every length may be off by " + shown(given.number("off_by")) + " mm either way.");
    if (window.source.kind == Evidence::memory)
        answer.assumptions.push_back(
            "The gap wanted is from memory: measure the pair that came off, and it decides instead.");
    for (const auto& text : sentences(stack.measure_next)) answer.next.push_back(text);
    answer.cautions = sentences(stack.cautions);
    answer.pictures.push_back(section_picture(all.stack, stack, all.seal.value));
    return answer;
}

std::vector<Input> stack_inputs() {
    return {from_vehicle(number_input("pan_depth", "pan depth, rail to pan floor", "mm", 1, 300), "pan_depth"),
            from_vehicle(number_input("filter_height", "filter height, from the rail's level down", "mm", 1, 300),
                         "filter_height"),
            number_input("neck_length", "free length of the filter neck", "mm", 0, 200),
            number_input("depth_to_seal", "from the mouth of the bore to the seal", "mm", 0, 200),
            number_input("old_seal", "height of an old seal left in the bore; 0: looked, nothing there", "mm", 0, 50),
            number_input("seal_height", "height of the new seal", "mm", 0.3, 50),
            number_input("needed_reach", "least reach into the seal, as on the old neck", "mm", 0, 200),
            number_input("old_pan_depth", "depth of the pan that came off", "mm", 1, 300),
            number_input("old_filter_height", "height of the filter that came off", "mm", 1, 300),
            number_input("margin", "how far the gap may differ from the old pair's", "mm", 0, 50),
            or_else(number_input("off_by", "how far a length may be off, either way", "mm", 0, 20), "1 mm"),
            text_input("filter", "filter in the catalog, group or item"),
            text_input("pan", "pan in the catalog, group or item"),
            text_input("seal", "seal in the catalog, group or item")};
}

Answer answer_triple(const Given& given, const Services& services) {
    const Asked asked{given, services};
    const Triple triple{asked.row("filter", "filters_seals_filters", "filter"),
                        asked.row("pan", "filters_seals_pans", "pan"), asked.row("seal", "filters_seals_seals", "seal"),
                        asked.quantity("bore", bore_of_line(services, "filter-neck-seal"), "bore_mm")};
    Answer answer;
    Judgement worst = Judgement::fits;
    for (const auto& [label, finding, source] : examine_triple(triple)) {
        worst = worse(worst, finding.judgement);
        answer.lines.push_back({label, finding.reason, weaker(note(finding.source), source)});
    }
    settle(answer, worst, {{"bore", triple.bore}});
    answer.headline = worst == Judgement::fits ? "Pan, filter and neck seal go together as recorded."
                      : worst == Judgement::check_first
                          ? "Not settled: see what is open, and lay the parts side by side."
                          : "These three do not go together.";
    answer.assumptions.push_back("As recorded, without tolerances; a part on the bench decides.");
    answer.next.push_back("Measure pan depth and filter height here: filter-stack takes both with their tolerance.");
    return answer;
}

}  // namespace

std::vector<Inquiry> stack_inquiries() {
    Input filter = text_input("filter", "filter in the catalog, group or item");
    filter.required = true;
    return {{"filter-stack", "Gap under the filter, and reach of its neck into the seal", stack_inputs(), answer_stack},
            {"pan-filter-seal",
             "Whether a pan, a filter and a neck seal of the catalog go together",
             {filter, text_input("pan", "pan in the catalog, group or item"),
              text_input("seal", "neck seal in the catalog, group or item"),
              number_input("bore", "bore the seal goes into, inside diameter", "mm", 0.3, 500)},
             answer_triple}};
}

}  // namespace casebound::filters_seals
