#include "rows/triple.h"

#include <cmath>

#include "rows/pack_words.h"
#include "science/lip_seal.h"
#include "science/oring.h"
#include "science/stack.h"

namespace casebound::filters_seals {
namespace {

constexpr Source kRows{Evidence::law, ""};  // the rows carry their own source
constexpr Source kNobody{Evidence::memory, "nobody has said"};

Finding open(std::string reason) { return {Judgement::check_first, std::move(reason), kNobody}; }

Finding oring_touches_bore(const Row& seal, double bore_mm) {
    const double od = *seal.number("id_mm") + 2 * *seal.number("section_mm");
    const std::string is = "O-ring " + shown(od) + " mm outside, free, in a bore of " + shown(bore_mm) + " mm";
    if (od > bore_mm) return {Judgement::fits, is + ": it touches", kRows};
    return {Judgement::check_first, is + ": it only touches when stretched on its seat", kRows};
}

Finding pressed(const Row& seal, double bore_mm) {
    HatSeal hat;
    hat.seal_od_mm = exactly(*seal.number("od_mm"));
    hat.bore_mm = exactly(bore_mm);
    Finding press = examine_hat_seal(hat).press;
    if (press.judgement == Judgement::does_not_fit) press.source = kRows;
    return press;
}

// A lip seal is named after its bore: its outside differs from it by the press fit and no more (ISO 6194-1).
Finding lip_in_bore(const Row& seal, double bore_mm) {
    const double od = *seal.number("od_mm");
    const std::string is = "seal " + shown(od) + " mm in a bore of " + shown(bore_mm) + " mm";
    if (std::abs(od - bore_mm) <= kRulerMm) return {Judgement::fits, is, kRows};
    return {Judgement::does_not_fit, is + ": another size", kRows};
}

Finding oring_on_neck(const Row& seal, double neck_mm, double bore_mm) {
    Ring ring;
    ring.id_mm = exactly(*seal.number("id_mm"));
    ring.section_mm = exactly(*seal.number("section_mm"));
    Gland gland;
    gland.inner_mm = exactly(neck_mm);
    gland.outer_mm = exactly(bore_mm);
    Finding squeeze = examine_gland(ring, gland, GlandUse::static_radial).squeeze;
    squeeze.reason = "on a neck of " + shown(neck_mm) + " mm in a bore of " + shown(bore_mm) + " mm: " + squeeze.reason;
    if (squeeze.judgement == Judgement::does_not_fit) squeeze.source = kRows;
    return squeeze;
}

Finding lip_on_neck(const Row& seal, double neck_mm) {
    HatSeal hat;
    hat.neck_mm = exactly(neck_mm);
    hat.lip_id_mm = exactly(*seal.number("id_mm"));
    Finding lip = examine_hat_seal(hat).lip;
    if (lip.judgement == Judgement::does_not_fit) lip.source = kRows;
    return lip;
}

SourceNote notes(const Row* a, const Row* b) {
    const SourceNote none{Evidence::law, "", {}};
    return weaker(a ? row_source(*a) : none, b ? row_source(*b) : none);
}

Finding filter_and_pan(const Triple& t) {
    const auto height = t.filter ? t.filter->number("height_mm") : std::nullopt;
    const auto depth = t.pan ? t.pan->number("depth_mm") : std::nullopt;
    if (!height || !depth) return open("height of the filter or depth of the pan is not recorded: measure both");
    return filter_under_pan(*depth, *height, t.filter->number("pan_depth_mm")).finding;
}

Finding filter_and_seal_form(const Triple& t) {
    const auto wanted = t.filter ? t.filter->text("neck_seal_form") : std::string_view{};
    const auto form = t.seal ? neck_form(t.seal->text("form")) : std::string_view{};
    if (wanted.empty() || form.empty()) return open("form of the neck seal is not recorded: look at the old one");
    const auto a = neck_seal_form_from(wanted), b = neck_seal_form_from(form);
    const std::string pair = "filter made for: " + std::string(a ? text(*a) : wanted) +
                             "; seal: " + std::string(b ? text(*b) : form);
    if (wanted == form) return {Judgement::fits, pair, kRows};
    return {opposite_forms(wanted, form) ? Judgement::does_not_fit : Judgement::check_first,
            pair + (opposite_forms(wanted, form) ? ": fitted in opposite ways" : ": look at the old one"), kRows};
}

}  // namespace

Window window_made_for(double filter_height_mm, double made_for_mm, Source source) {
    if (made_for_mm <= filter_height_mm) return default_gap_window();
    constexpr double kPanDepthToleranceMm = 3;  // of the attribute pan_depth
    Window window = window_from_old_pair(exactly(made_for_mm), exactly(filter_height_mm), kPanDepthToleranceMm);
    window.source = source;
    return window;
}

UnderPan filter_under_pan(double pan_depth_mm, double filter_height_mm, std::optional<double> made_for_mm) {
    FilterStack stack;
    stack.pan_depth_mm = exactly(pan_depth_mm);
    stack.filter_height_mm = about(filter_height_mm, kRulerMm);
    stack.old_seal_left_mm = 0.0;
    const Window window = made_for_mm ? window_made_for(filter_height_mm, *made_for_mm, kRows) : default_gap_window();
    const StackAnswer answer = examine_stack(stack, window);
    const double gap = pan_depth_mm - filter_height_mm;
    const bool outside = !window.allowed.contains(gap);
    UnderPan out{answer.place == GapPlace::will_not_close, gap > window.allowed.high, false, answer.gap};
    out.close = !out.will_not_close && gap < window.allowed.low;
    out.finding.reason = "pan " + shown(pan_depth_mm) + " mm - filter " + shown(filter_height_mm) +
                         " mm = " + answer.gap.reason;
    if (made_for_mm) out.finding.reason += "; made for a pan of " + shown(*made_for_mm) + " mm";
    if (!out.will_not_close)
        out.finding.judgement = outside || window.source.kind == Evidence::memory || gap <= kRulerMm
                                    ? Judgement::check_first
                                    : Judgement::fits;
    out.finding.source = out.will_not_close ? kRows : window.source;
    return out;
}

std::string_view neck_form(std::string_view form) { return form == "oring" ? "oring_on_neck" : form; }

bool opposite_forms(std::string_view a, std::string_view b) {
    const auto separate = [](std::string_view form) {
        return form == "oring_on_neck" || form == "ribbed_band_on_neck" || form == "hat_in_bore";
    };
    return separate(a) && separate(b) && a != b;
}

std::optional<Finding> seal_in_bore(const Row& seal, double bore_mm) {
    const auto form = seal.text("form");
    if ((form == "oring" || form == "oring_on_neck") && seal.number("id_mm") && seal.number("section_mm"))
        return oring_touches_bore(seal, bore_mm);
    if (!seal.number("od_mm")) return std::nullopt;
    if (form == "hat_in_bore" || form == "ribbed_band_on_neck") return pressed(seal, bore_mm);
    return form == "lip" ? std::optional(lip_in_bore(seal, bore_mm)) : std::nullopt;
}

std::optional<Finding> seal_on_neck(const Row& seal, double neck_mm, std::optional<double> bore_mm) {
    if (!seal.number("id_mm")) return std::nullopt;
    const auto form = neck_form(seal.text("form"));
    if (form == "oring_on_neck")
        return bore_mm && seal.number("section_mm") ? std::optional(oring_on_neck(seal, neck_mm, *bore_mm))
                                                    : std::nullopt;
    if (form == "hat_in_bore" || form == "ribbed_band_on_neck") return lip_on_neck(seal, neck_mm);
    return std::nullopt;
}

std::vector<Pairing> examine_triple(const Triple& t) {
    std::vector<Pairing> out{{"filter under the pan", filter_and_pan(t), notes(t.filter, t.pan)},
                             {"filter and seal, form", filter_and_seal_form(t), notes(t.filter, t.seal)}};
    const auto neck = t.filter ? t.filter->number("neck_od_mm") : std::nullopt;
    if (t.seal && neck)
        if (auto on_neck = seal_on_neck(*t.seal, *neck, t.bore_mm))
            out.push_back({"seal on the neck", *on_neck,
                           t.bore_mm ? weaker(notes(t.filter, t.seal), t.bore_source) : notes(t.filter, t.seal)});
    if (t.seal && t.bore_mm)
        if (auto in_bore = seal_in_bore(*t.seal, *t.bore_mm))
            out.push_back({"seal in the bore", *in_bore, weaker(row_source(*t.seal), t.bore_source)});
    if (out.size() == 2)
        out.push_back({"seal, neck and bore",
                       open("neck, seal or bore is not recorded: measure the three"),
                       {Evidence::memory, "nobody has said", {}}});
    return out;
}

}  // namespace casebound::filters_seals
