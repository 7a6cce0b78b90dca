// Gap under the filter and reach of its neck, from lengths at the bench or in packs; and the three parts as one.
#include "science/stack.h"
#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/pack_words.h"
#include "rows/triple.h"
#include "science/oring.h"
#include "science/stack.h"

namespace casebound::filters_seals {
namespace {

FilterStack lengths_of(const Given& given) {
    const double off_by = given.number("off_by");
    return {within(given, "pan_depth", off_by), within(given, "filter_height", off_by),
            within(given, "neck_length", off_by), within(given, "depth_to_seal", off_by),
            given.maybe_number("old_seal")};
}

// The old pair as measured; else the pair the filter is made for, where a row says; else from memory.
Window gap_window(const Given& given, const Row* filter) {
    if (!given.has("old_pan_depth") || !given.has("old_filter_height")) {
        const auto made_for = filter ? filter->number("pan_depth_mm") : std::nullopt,
                   height = filter ? filter->number("height_mm") : std::nullopt;
        return made_for && height
                   ? window_made_for(*height, *made_for, {filter->origin.evidence, "gap the filter is made for"})
                   : default_gap_window();
    }
    const double off_by = given.number("off_by");
    return window_from_old_pair(about(given.number("old_pan_depth"), off_by),
                                about(given.number("old_filter_height"), off_by), given.maybe_number("margin"));
}

// The least reach that is wanted: as measured on the old neck, else none that anybody has said.
std::optional<Window> reach_window(const Given& given) {
    constexpr double kAnyMoreMm = 400;
    const auto reach = given.maybe_number("needed_reach");
    if (!reach) return std::nullopt;
    return Window{{*reach, kAnyMoreMm}, {Evidence::measured, "reach asked for"}};
}

std::string stack_headline(const StackAnswer& answer, double old_seal) {
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

void add_results(Answer& answer, const StackAnswer& stack, const Given& given, const Window& window) {
    const SourceNote for_gap = weakest_of(given, {"pan_depth", "filter_height", "old_seal"});
    const SourceNote for_reach = weakest_of(given, {"neck_length", "depth_to_seal", "old_seal"});
    if (stack.gap_mm) answer.lines.push_back(mm_line("gap under the filter", stack.gap_mm->nominal, for_gap, 1));
    answer.lines.push_back(text_line("gap wanted", span_text(window.allowed, "mm"), note(window.source)));
    answer.lines.push_back(finding_line("gap, judged", stack.gap, stack.gap_mm ? for_gap : nothing_used()));
    if (stack.engagement_mm)
        answer.lines.push_back(mm_line("reach into the seal", stack.engagement_mm->nominal, for_reach, 1));
    answer.lines.push_back(
        finding_line("reach, judged", stack.engagement, stack.engagement_mm ? for_reach : nothing_used()));
}

Answer answer_stack(const Given& given, const Services& services) {
    const FilterStack lengths = lengths_of(given);
    const Window window = gap_window(given, named_row(given, services, "filter", "filters_seals_filters"));
    const StackAnswer stack = examine_stack(lengths, window, reach_window(given));
    Answer answer = judged(stack.overall, given,
                           {{"pan_depth", "pan depth"},
                            {"filter_height", "filter height"},
                            {"neck_length", "neck length"},
                            {"depth_to_seal", "depth to the seal"}});
    answer.headline = stack_headline(stack, lengths.old_seal_left_mm.value_or(0.0));
    for (const auto& [name, label] :
         {std::pair{"pan_depth", "pan depth"}, std::pair{"filter_height", "filter height"},
          std::pair{"neck_length", "neck length"}, std::pair{"depth_to_seal", "depth to the seal"},
          std::pair{"old_seal", "old seal left in"}})
        add_given_mm(answer, given, name, label, 1);
    add_results(answer, stack, given, window);
    answer.assumptions.push_back("Every length may be off by " + shown(given.number("off_by")) + " mm either way.");
    if (window.source.kind == Evidence::memory)
        answer.assumptions.push_back(
            "The gap wanted is from memory: measure the pair that came off, and it decides instead.");
    for (const auto& text : sentences(stack.measure_next)) answer.next.push_back(text);
    answer.cautions = sentences(stack.cautions);
    answer.pictures.push_back(section_picture(lengths, stack, given.maybe_number("seal_height")));
    return answer;
}

Input filter_input() {
    return key_of(text_input("filter", "filter in the catalog, group or item"), "filters_seals_filters");
}
Input pan_input() { return key_of(text_input("pan", "pan in the catalog, group or item"), "filters_seals_pans"); }
Input seal_input() {
    return key_of(text_input("seal", "neck seal in the catalog, group or item"), "filters_seals_seals");
}

std::vector<Input> stack_inputs() {
    const Input pan = told(number_input("pan_depth", "pan depth, rail to pan floor", "mm", 1, 300), "pan_depth");
    const Input height = told(number_input("filter_height", "filter height, from the rail's level down", "mm", 1, 300),
                              "filter_height");
    return {recorded(pan, "filters_seals_pans", "depth_mm"),
            recorded(height, "filters_seals_filters", "height_mm"),
            recorded(number_input("neck_length", "free length of the filter neck", "mm", 0, 200),
                     "filters_seals_filters", "neck_length_mm"),
            bore_input(number_input("depth_to_seal", "from the mouth of the bore to the seal", "mm", 0, 200),
                       "depth_to_seal_mm", "measure from the mouth of the bore up to the seal."),
            number_input("old_seal", "height of an old seal left in the bore; 0: looked, nothing there", "mm", 0, 50),
            recorded(number_input("seal_height", "height of the new seal", "mm", 0.3, 50), "filters_seals_seals",
                     "height_mm"),
            number_input("needed_reach", "least reach into the seal, as on the old neck", "mm", 0, 200),
            number_input("old_pan_depth", "depth of the pan that came off", "mm", 1, 300),
            number_input("old_filter_height", "height of the filter that came off", "mm", 1, 300),
            number_input("margin", "how far the gap may differ from the old pair's", "mm", 0, 50),
            assumed(number_input("off_by", "how far a length may be off, either way", "mm", 0, 20), "1 mm"),
            filter_input(),
            pan_input(),
            seal_input(),
            bore_role_input("filter-neck-seal")};
}

Answer answer_triple(const Given& given, const Services& services) {
    const Triple triple{named_row(given, services, "filter", "filters_seals_filters"),
                        named_row(given, services, "pan", "filters_seals_pans"),
                        named_row(given, services, "seal", "filters_seals_seals"), given.maybe_number("bore"),
                        given.source("bore")};
    const auto pairings = examine_triple(triple);
    Judgement worst = Judgement::fits;
    for (const auto& pairing : pairings) worst = worse(worst, pairing.finding.judgement);
    Answer answer = judged(worst, given, {{"bore", "bore"}});
    for (const auto& [label, finding, source] : pairings) answer.lines.push_back(finding_line(label, finding, source));
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
    return {{"filter-stack", "Gap under the filter, and reach of its neck into the seal", stack_inputs(), answer_stack,
             "pan-depth=38mm filter-height=33mm"},
            {"pan-filter-seal",
             "Whether a pan, a filter and a neck seal of the catalog go together",
             {required(filter_input()), pan_input(), seal_input(),
              bore_input(number_input("bore", "bore the seal goes into, inside diameter", "mm", 0.3, 500), "bore_mm",
                         "measure the bore across three places."),
              bore_role_input("filter-neck-seal")},
             answer_triple,
             "filter=filter-t4-61-hat pan=pan-t4-61 seal=seal-neck-hat"}};
}

}  // namespace casebound::filters_seals
