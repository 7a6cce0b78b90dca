#include "science/stack.h"

#include <algorithm>

namespace casebound::filters_seals {
namespace {

constexpr Range kPanAndFilterMm{1.0, 300.0};
constexpr Range kNeckMm{0.0, 200.0};
constexpr Range kOldSealMm{0.0, 50.0};
constexpr Range kMarginMm{0.0, 50.0};
constexpr Source kMeasured{Evidence::measured, "lengths measured here"};
constexpr Source kNobody{Evidence::memory, "nobody has said"};

std::string text_mm(Stacked value) {
    if (value.min == value.max) return shown(value.nominal) + " mm";
    return shown(value.nominal) + " mm (" + shown(value.min) + " to " + shown(value.max) + ")";
}

std::string text_mm(Range value) { return shown(value.low) + " to " + shown(value.high) + " mm"; }

Stacked difference(const Toleranced& from, const Toleranced& less, double also_less) {
    return stack_up<2>({from, less}, [&](const auto& v) { return v[0] - v[1] - also_less; });
}

void name_missing(const FilterStack& s, std::vector<std::string>& out) {
    if (!s.old_seal_left_mm) out.emplace_back("look up the bore with a torch and a mirror for an old seal");
    if (!s.filter_height_mm) out.emplace_back("measure the filter height");
    if (!s.neck_length_mm) out.emplace_back("measure the filter neck length");
    if (!s.pan_depth_mm) out.emplace_back("measure the pan depth, rail to pan floor");
    if (!s.depth_to_seal_mm) out.emplace_back("measure the depth from the bore mouth to the seal");
}

GapPlace gap_place(Stacked gap, const Window& window) {
    if (gap.max <= 0.0) return GapPlace::will_not_close;
    if (gap.min <= 0.0) return GapPlace::straddles;
    switch (place_in(gap, window)) {
        case Place::inside: return GapPlace::inside_window;
        case Place::below: return GapPlace::below_window;
        case Place::above: return GapPlace::above_window;
        case Place::straddles: break;
    }
    return GapPlace::straddles;
}

std::string gap_reason(GapPlace place, Stacked gap, const Window& window) {
    const std::string is = "gap " + text_mm(gap);
    const std::string of = " window " + text_mm(window.allowed);
    if (gap.min <= 0.0 && place != GapPlace::will_not_close)
        return is +
               (gap.nominal <= 0.0 ? ": the filter stands on the pan floor, the pick-up starves"
                                   : ": the filter may stand on the pan floor") +
               ", measure closer";
    switch (place) {
        case GapPlace::will_not_close: return is + ": the pan will not close";
        case GapPlace::below_window: return is + ": under the" + of + ", the pan floor may starve the pick-up";
        case GapPlace::above_window:
            return is + ": over the" + of + ", the pick-up may uncover when braking or cornering";
        case GapPlace::inside_window: return is + ": inside the" + of;
        default: return is + ": crosses an edge of the" + of + ", measure closer";
    }
}

Finding judge_gap(Stacked gap, GapPlace place, const Window& window) {
    if (place == GapPlace::will_not_close) return {Judgement::does_not_fit, gap_reason(place, gap, window), kMeasured};
    const Judgement by_window = gap.min <= 0.0 ? Judgement::check_first : judge(gap, window);
    return {by_window, gap_reason(place, gap, window), weakest(kMeasured, window.source)};
}

Finding judge_engagement(Stacked reach, const std::optional<Window>& window) {
    const std::string is = "neck engages " + text_mm(reach);
    if (reach.max <= 0.0) return {Judgement::does_not_fit, is + ": the neck does not reach the seal", kMeasured};
    if (!window)
        return {Judgement::check_first, is + ": nobody has said how much is enough, compare the old neck", kNobody};
    const Judgement by_window = reach.min <= 0.0 ? Judgement::check_first : judge(reach, *window);
    return {by_window, is + ": wanted " + text_mm(window->allowed), weakest(kMeasured, window->source)};
}

// A seal that nobody has looked for would only lessen the length: a no because
// it is too small stands, everything else becomes an open question.
void doubt_unseen_bore(Finding& finding, const std::optional<Stacked>& length, double lower_edge_mm) {
    if (finding.judgement == Judgement::check_first || !length) return;
    if (finding.judgement == Judgement::does_not_fit && length->max <= lower_edge_mm) return;
    finding.judgement = Judgement::check_first;
    finding.reason += "; with an empty bore, and nobody has looked";
}

// The cause is named where the length is: an old seal left in takes its height from gap and reach alike.
void blame_old_seal(Finding& finding, Stacked length, double old_seal_mm) {
    if (old_seal_mm <= 0.0) return;
    finding.reason += "; the old seal of " + shown(old_seal_mm) + " mm left in is the cause of " + shown(old_seal_mm) +
                      " mm less, without it " + shown(length.nominal + old_seal_mm) + " mm";
}

Finding missing(const char* what) { return {Judgement::check_first, what, kNobody}; }

void require_physical(const FilterStack& s) {
    if (s.pan_depth_mm) in_range("pan depth", *s.pan_depth_mm, kPanAndFilterMm, "mm");
    if (s.filter_height_mm) in_range("filter height", *s.filter_height_mm, kPanAndFilterMm, "mm");
    if (s.neck_length_mm) in_range("neck length", *s.neck_length_mm, kNeckMm, "mm");
    if (s.depth_to_seal_mm) in_range("depth to seal", *s.depth_to_seal_mm, kNeckMm, "mm");
    if (s.old_seal_left_mm) in_range("old seal height", *s.old_seal_left_mm, kOldSealMm, "mm");
}

void answer_gap(const FilterStack& s, const Window& window, double old_seal, StackAnswer& out) {
    if (!s.pan_depth_mm || !s.filter_height_mm) return;
    out.gap_mm = gap_mm(*s.pan_depth_mm, *s.filter_height_mm, old_seal);
    out.place = gap_place(*out.gap_mm, window);
    out.gap = judge_gap(*out.gap_mm, out.place, window);
    blame_old_seal(out.gap, *out.gap_mm, old_seal);
}

void answer_engagement(const FilterStack& s, const std::optional<Window>& window, double old_seal, StackAnswer& out) {
    if (!s.neck_length_mm || !s.depth_to_seal_mm) return;
    out.engagement_mm = engagement_mm(*s.neck_length_mm, *s.depth_to_seal_mm, old_seal);
    out.engagement = judge_engagement(*out.engagement_mm, window);
    blame_old_seal(out.engagement, *out.engagement_mm, old_seal);
}

}  // namespace

Window default_gap_window() { return {{3.0, 10.0}, {Evidence::memory, "filter to pan floor 3 to 10 mm"}}; }

Window window_from_old_pair(const Toleranced& old_pan_depth_mm, const Toleranced& old_filter_height_mm,
                            std::optional<double> margin_mm) {
    in_range("old pan depth", old_pan_depth_mm, kPanAndFilterMm, "mm");
    in_range("old filter height", old_filter_height_mm, kPanAndFilterMm, "mm");
    const Range standard = default_gap_window().allowed;
    const double margin = in_range("margin", margin_mm.value_or((standard.high - standard.low) / 2), kMarginMm, "mm");
    const Stacked old_gap = difference(old_pan_depth_mm, old_filter_height_mm, 0.0);
    const double unsure = std::max(old_gap.nominal - old_gap.min, old_gap.max - old_gap.nominal);
    const Source source = margin_mm ? Source{Evidence::measured, "gap of the old pair, measured here"}
                                    : Source{Evidence::memory, "gap of the old pair, margin from memory"};
    return {{std::max(0.0, old_gap.nominal - margin), std::max(0.0, old_gap.nominal + margin)}, source, unsure};
}

Stacked gap_mm(const Toleranced& pan_depth_mm, const Toleranced& filter_height_mm, double old_seal_left_mm) {
    return difference(pan_depth_mm, filter_height_mm, old_seal_left_mm);
}

Stacked engagement_mm(const Toleranced& neck_length_mm, const Toleranced& depth_to_seal_mm, double old_seal_left_mm) {
    return difference(neck_length_mm, depth_to_seal_mm, old_seal_left_mm);
}

StackAnswer examine_stack(const FilterStack& stack, const Window& gap_window,
                          const std::optional<Window>& engagement_window) {
    require_physical(stack);
    StackAnswer out{{},
                    {},
                    GapPlace::unknown,
                    missing("gap unknown: pan depth or filter height not measured"),
                    missing("engagement unknown: neck length or depth to seal not measured"),
                    Judgement::check_first,
                    {},
                    {}};
    name_missing(stack, out.measure_next);
    const double old_seal = stack.old_seal_left_mm.value_or(0.0);
    answer_gap(stack, gap_window, old_seal, out);
    answer_engagement(stack, engagement_window, old_seal, out);
    if (!stack.old_seal_left_mm) {
        doubt_unseen_bore(out.gap, out.gap_mm, gap_window.allowed.low);
        doubt_unseen_bore(out.engagement, out.engagement_mm, engagement_window ? engagement_window->allowed.low : 0.0);
    }
    out.overall = worse(out.gap.judgement, out.engagement.judgement);
    if (old_seal > 0.0) {
        out.overall = worse(out.overall, Judgement::check_first);
        out.cautions.emplace_back("an old seal is still in the bore: take it out, never press a new one on an old one");
    }
    return out;
}

}  // namespace casebound::filters_seals
