#include "science/oring.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace casebound::filters_seals {
namespace {

constexpr Range kDiameterMm{0.3, 2000.0};
constexpr Range kSectionMm{0.3, 100.0};
constexpr Source kMeasured{Evidence::measured, "lengths measured here"};
constexpr Source kNobody{Evidence::memory, "nobody has said"};

// Two-sided ranges and ceilings as published; they disagree, so all are shown.
constexpr std::array<SqueezeGuidance, 11> kSqueeze{{
    {GlandUse::static_radial,
     {15, 25},
     false,
     {Evidence::common_practice, "O-ring design guide, static radial 15-25 %"}},
    {GlandUse::static_radial,
     {15, 22},
     false,
     {Evidence::common_practice, "second O-ring design guide, static 15-22 %"}},
    {GlandUse::static_radial,
     {10, 40},
     false,
     {Evidence::common_practice, "general seal-design guides, static about 10-40 %"}},
    {GlandUse::static_radial,
     {0, 30},
     true,
     {Evidence::common_practice, "engineering handbook chapter on O-rings, static at most 30 %"}},
    {GlandUse::static_face, {20, 30}, false, {Evidence::common_practice, "O-ring design guide, static face 20-30 %"}},
    {GlandUse::static_face, {20, 28}, false, {Evidence::common_practice, "second O-ring design guide, face 20-28 %"}},
    {GlandUse::reciprocating, {8, 20}, false, {Evidence::common_practice, "O-ring design guide, reciprocating 8-20 %"}},
    {GlandUse::reciprocating,
     {10, 15},
     false,
     {Evidence::common_practice, "second O-ring design guide, dynamic 10-15 %"}},
    {GlandUse::reciprocating,
     {0, 16},
     true,
     {Evidence::common_practice, "engineering handbook chapter on O-rings, dynamic at most 16 %"}},
    {GlandUse::rotary, {0, 8}, false, {Evidence::common_practice, "O-ring design guide, rotary 0-8 %"}},
    {GlandUse::rotary,
     {0, 16},
     true,
     {Evidence::common_practice, "engineering handbook chapter on O-rings, dynamic at most 16 %"}},
}};

constexpr Window kStretch{{1.0, 5.0}, {Evidence::common_practice, "O-ring design guide, stretch 1-5 %, 2 % ideal"}};
constexpr Window kFill{{60.0, 85.0}, {Evidence::common_practice, "two O-ring handbooks, fill 60-85 %, at most 90 %"}};

constexpr std::array<GlandDepth, 5> kGlandDepths{{
    {about(0.070, 0.003), {0.050, 0.052}, {0.055, 0.057}},
    {about(0.103, 0.003), {0.081, 0.083}, {0.088, 0.090}},
    {about(0.139, 0.004), {0.111, 0.113}, {0.121, 0.123}},
    {about(0.210, 0.005), {0.170, 0.173}, {0.185, 0.188}},
    {about(0.275, 0.006), {0.226, 0.229}, {0.237, 0.240}},
}};

// Newton on (inner + s) s^2 = (id + section) section^2; convex and increasing
// for s > 0, so from s = section it falls to the root without overshoot.
double torus_section(double id, double section, double inner) {
    const double kept = (id + section) * section * section;
    double s = section;
    for (int step = 0; step < 20; ++step) s -= ((inner + s) * s * s - kept) / ((2 * inner + 3 * s) * s);
    return s;
}

double squeeze_of(double section, double height) { return 100.0 * (section - height) / section; }

std::string tenths(double value) { return shown(std::round(10 * value) / 10); }

std::string percent_text(Stacked p) {
    if (p.min == p.max) return tenths(p.nominal) + " %";
    return tenths(p.nominal) + " % (" + tenths(p.min) + " to " + tenths(p.max) + ")";
}

Finding open_question(std::string reason) { return {Judgement::check_first, std::move(reason), kNobody}; }

void require_physical(const Ring& ring, const Gland& gland) {
    if (ring.id_mm) in_range("O-ring inside diameter", *ring.id_mm, kDiameterMm, "mm");
    if (ring.section_mm) in_range("O-ring section", *ring.section_mm, kSectionMm, "mm");
    if (gland.outer_mm) in_range("gland outer diameter", *gland.outer_mm, kDiameterMm, "mm");
    if (gland.inner_mm) in_range("gland inner diameter", *gland.inner_mm, kDiameterMm, "mm");
    if (gland.width_mm) in_range("gland width", *gland.width_mm, kSectionMm, "mm");
}

void name_missing(const Ring& ring, const Gland& gland, std::vector<std::string>& out) {
    if (!ring.section_mm) out.emplace_back("measure the O-ring section");
    if (!ring.id_mm) out.emplace_back("measure the O-ring inside diameter");
    if (!gland.inner_mm) out.emplace_back("measure the neck, rod or groove diameter");
    if (!gland.outer_mm) out.emplace_back("measure the bore diameter");
    if (!gland.width_mm) out.emplace_back("measure the groove width");
}

// A no from one range is only that range's opinion: an objection asks, it does
// not refuse. A yes needs one whole range and no ceiling broken.
Judgement judge_by_guidance(const std::vector<GuidanceReading>& readings) {
    bool approved = false;
    for (const GuidanceReading& r : readings) {
        if (r.guidance->at_most && r.place != Place::inside) return Judgement::check_first;
        if (!r.guidance->at_most && r.place == Place::inside) approved = true;
    }
    return approved ? Judgement::fits : Judgement::check_first;
}

std::string agreement(const std::vector<GuidanceReading>& readings) {
    std::string inside, outside;
    for (const GuidanceReading& r : readings)
        (r.place == Place::inside ? inside : outside) += "; " + std::string(r.guidance->source.work);
    return (inside.empty() ? "" : "; agrees: " + inside.substr(2)) +
           (outside.empty() ? "" : "; objects: " + outside.substr(2));
}

std::vector<GuidanceReading> read_guidance(Stacked squeeze, GlandUse use) {
    std::vector<GuidanceReading> out;
    for (const SqueezeGuidance& g : kSqueeze)
        if (g.use == use) out.push_back({&g, place_in(squeeze, Window{g.percent, g.source})});
    return out;
}

SqueezeState state_of(Stacked squeeze) {
    if (squeeze.max <= 0.0) return SqueezeState::leak_path;
    return squeeze.min <= 0.0 ? SqueezeState::leak_path_possible : SqueezeState::sealed;
}

Finding judge_squeeze(Stacked squeeze, const std::vector<GuidanceReading>& readings) {
    const std::string is = "squeeze " + percent_text(squeeze);
    switch (state_of(squeeze)) {
        case SqueezeState::leak_path:
            return {Judgement::does_not_fit, is + ": leak path, the ring does not touch both walls", kMeasured};
        case SqueezeState::leak_path_possible:
            return {Judgement::check_first, is + ": leak path at the edge of the tolerances", kMeasured};
        default: break;
    }
    return {
        judge_by_guidance(readings), is + agreement(readings), {Evidence::common_practice, "published squeeze ranges"}};
}

Finding judge_stretch(Stacked stretch) {
    const std::string is = "stretch " + percent_text(stretch);
    if (stretch.max <= 0.0)
        return {Judgement::check_first, is + ": the ring is loose on its seat and can roll out", kMeasured};
    const bool inside = place_in(stretch, kStretch) == Place::inside;
    std::string why = inside ? ": inside 1-5 %" : ": not wholly inside 1-5 %";
    if (stretch.max > 5.0) why += ", over 5 % is not recommended";
    if (stretch.min < 2.0) why += ", SAE MAP3440 asks for 2 % at least";
    return {inside ? Judgement::fits : Judgement::check_first, is + why, kStretch.source};
}

Finding judge_fill(Stacked fill) {
    const std::string is = "fill " + percent_text(fill);
    if (fill.min > 100.0)
        return {Judgement::does_not_fit, is + ": more rubber than groove, rubber does not compress", kMeasured};
    const bool inside = place_in(fill, kFill) == Place::inside;
    return {inside ? Judgement::fits : Judgement::check_first,
            is + (inside ? ": inside 60-85 %" : ": not wholly inside 60-85 %"), kFill.source};
}

// How far the neck is from entering the bore decides before any squeeze.
bool room_between(const Gland& gland, OringAnswer& out) {
    const Stacked height = *out.height_mm;
    if (height.min > 0.0) return true;
    const Judgement j = height.max <= 0.0 ? Judgement::does_not_fit : Judgement::check_first;
    out.state = height.max <= 0.0 ? SqueezeState::does_not_enter : SqueezeState::unknown;
    out.squeeze = {j,
                   "inner " + shown(gland.inner_mm->nominal) + " mm in outer " + shown(gland.outer_mm->nominal) +
                       " mm: no room between them",
                   kMeasured};
    return false;
}

// Without its inside diameter a ring may be stretched, and is then thinner: the squeeze is at most that of the free
// section, so that only a leak path is settled.
void answer_squeeze(const Ring& ring, const Gland& gland, GlandUse use, OringAnswer& out) {
    const Toleranced id = ring.id_mm ? *ring.id_mm : exactly(gland.inner_mm->max());
    const std::array<Toleranced, 4> inputs{id, *ring.section_mm, *gland.outer_mm, *gland.inner_mm};
    out.squeeze_percent = stack_up<4>(inputs, [&](const auto& v) {
        return squeeze_of(stretched_section_mm(v[0], v[1], v[3], out.method), (v[2] - v[3]) / 2);
    });
    out.state = state_of(*out.squeeze_percent);
    out.guidance = read_guidance(*out.squeeze_percent, use);
    out.squeeze = judge_squeeze(*out.squeeze_percent, out.guidance);
    if (ring.id_mm) return;
    out.squeeze.judgement = worse(out.squeeze.judgement, Judgement::check_first);
    out.squeeze.reason += "; at most: a ring that is stretched is thinner";
}

void answer_fill(const Ring& ring, const Gland& gland, OringAnswer& out) {
    const std::array<Toleranced, 5> inputs{*ring.id_mm, *ring.section_mm, *gland.outer_mm, *gland.inner_mm,
                                           *gland.width_mm};
    out.fill_percent = stack_up<5>(inputs, [&](const auto& v) {
        return fill_percent(stretched_section_mm(v[0], v[1], v[3], out.method), (v[2] - v[3]) / 2, v[4]);
    });
    out.fill = judge_fill(*out.fill_percent);
}

void answer_stretch(const Ring& ring, const Gland& gland, OringAnswer& out) {
    out.stretch_percent = stack_up<2>({*ring.id_mm, *gland.inner_mm},
                                      [](const auto& v) { return stretch_percent(v[0], v[1]); });
    out.stretch = judge_stretch(*out.stretch_percent);
    if (!ring.section_mm) return;
    out.section_mm = stack_up<3>({*ring.id_mm, *ring.section_mm, *gland.inner_mm},
                                 [&](const auto& v) { return stretched_section_mm(v[0], v[1], v[2], out.method); });
}

}  // namespace

std::string_view text(SectionLoss method) {
    switch (method) {
        case SectionLoss::none: return "section loss by stretch left out";
        case SectionLoss::torus_volume: return "torus volume kept";
        case SectionLoss::square_root: return "section times sqrt(ID / inner)";
        case SectionLoss::two_thirds_power: return "section times (ID / inner)^(2/3)";
    }
    return "section loss by stretch left out";
}

std::span<const SqueezeGuidance> squeeze_guidance() { return kSqueeze; }

double squeeze_percent(double section_mm, double height_mm) {
    return squeeze_of(in_range("O-ring section", section_mm, kSectionMm, "mm"), height_mm);
}

Stacked squeeze_percent(const Toleranced& section_mm, const Toleranced& height_mm) {
    in_range("O-ring section", section_mm, kSectionMm, "mm");
    return stack_up<2>({section_mm, height_mm}, [](const auto& v) { return squeeze_of(v[0], v[1]); });
}

Finding read_squeeze(Stacked squeeze_percent, GlandUse use) {
    return judge_squeeze(squeeze_percent, read_guidance(squeeze_percent, use));
}

SqueezeReading squeeze_reading(Stacked squeeze_percent, GlandUse use) {
    const auto readings = read_guidance(squeeze_percent, use);
    if (judge_by_guidance(readings) == Judgement::fits) return SqueezeReading::settled;
    if (use != GlandUse::rotary && squeeze_percent.min < may_leak_under_percent) return SqueezeReading::may_leak;
    const auto* ceiling = squeeze_ceiling(use);
    return ceiling && squeeze_percent.max > ceiling->percent.high ? SqueezeReading::over_limit
                                                                  : SqueezeReading::unsettled;
}

const SqueezeGuidance* squeeze_ceiling(GlandUse use) {
    const SqueezeGuidance* lowest = nullptr;
    for (const SqueezeGuidance& one : kSqueeze)
        if (one.use == use && one.at_most && (!lowest || one.percent.high < lowest->percent.high)) lowest = &one;
    return lowest;
}

double stretch_percent(double id_mm, double inner_mm) {
    in_range("O-ring inside diameter", id_mm, kDiameterMm, "mm");
    return 100.0 * (inner_mm - id_mm) / id_mm;
}

double stretched_section_mm(double id_mm, double section_mm, double inner_mm, SectionLoss method) {
    if (inner_mm <= id_mm) return section_mm;
    switch (method) {
        case SectionLoss::none: break;
        case SectionLoss::torus_volume: return torus_section(id_mm, section_mm, inner_mm);
        case SectionLoss::square_root: return section_mm * std::sqrt(id_mm / inner_mm);
        case SectionLoss::two_thirds_power: return section_mm * std::pow(id_mm / inner_mm, 2.0 / 3.0);
    }
    return section_mm;
}

double fill_percent(double section_mm, double height_mm, double width_mm) {
    return 100.0 * std::numbers::pi / 4.0 * section_mm * section_mm / (height_mm * width_mm);
}

OringAnswer examine_gland(const Ring& ring, const Gland& gland, GlandUse use, SectionLoss method) {
    require_physical(ring, gland);
    OringAnswer out{{},
                    {},
                    {},
                    {},
                    {},
                    method,
                    SqueezeState::unknown,
                    open_question("squeeze unknown: a diameter is not measured"),
                    open_question("stretch unknown: a diameter is not measured"),
                    open_question("fill unknown: groove width is not measured"),
                    Judgement::check_first,
                    {},
                    {}};
    name_missing(ring, gland, out.measure_next);
    if (ring.id_mm && gland.inner_mm) answer_stretch(ring, gland, out);
    if (gland.outer_mm && gland.inner_mm)
        out.height_mm = stack_up<2>({*gland.outer_mm, *gland.inner_mm},
                                    [](const auto& v) { return (v[0] - v[1]) / 2; });
    if (out.height_mm && room_between(gland, out) && ring.section_mm) {
        answer_squeeze(ring, gland, use, out);
        if (gland.width_mm && ring.id_mm) answer_fill(ring, gland, out);
    }
    out.overall = worse(out.squeeze.judgement, worse(out.stretch.judgement, out.fill.judgement));
    return out;
}

std::span<const GlandDepth> gland_depths() { return kGlandDepths; }

Source gland_depths_source() { return {Evidence::memory, "usual radial gland depths for the five standard sections"}; }

}  // namespace casebound::filters_seals
