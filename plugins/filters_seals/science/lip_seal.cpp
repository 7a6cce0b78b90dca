#include "science/lip_seal.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace casebound::filters_seals {
namespace {

constexpr Range kTableMm{0.0, 500.0};
constexpr Range kDiameterMm{0.3, 500.0};
constexpr Range kWidthMm{1.0, 50.0};
constexpr Source kMeasured{Evidence::measured, "diameters measured here"};
constexpr Source kNobody{Evidence::memory, "nobody has said"};

struct PressFitRow {
    double to_mm;
    Range metal;
    Range rubber;
    double roundness;
};

// ISO 6194-1, press-fit allowance of the seal outside diameter.
constexpr std::array<PressFitRow, 6> kPressFit{{
    {50, {0.10, 0.20}, {0.15, 0.30}, 0.25},
    {80, {0.13, 0.23}, {0.20, 0.35}, 0.35},
    {120, {0.15, 0.25}, {0.20, 0.35}, 0.50},
    {180, {0.18, 0.28}, {0.25, 0.45}, 0.65},
    {300, {0.20, 0.30}, {0.25, 0.45}, 0.80},
    {500, {0.23, 0.35}, {0.30, 0.55}, 1.00},
}};

struct DeviationRow {
    double to_mm;
    double h8_upper;  // 0 = not recorded
    double h11_lower;
};

// ISO 286-2, H8 and h11.
constexpr std::array<DeviationRow, 13> kDeviations{{
    {3, 0, -0.06},
    {6, 0, -0.075},
    {10, 0.022, -0.09},
    {18, 0.027, -0.11},
    {30, 0.033, -0.13},
    {50, 0.039, -0.16},
    {80, 0.046, -0.19},
    {120, 0.054, -0.22},
    {180, 0.063, -0.25},
    {250, 0.072, -0.29},
    {315, 0.081, -0.32},
    {400, 0.089, -0.36},
    {500, 0.097, -0.40},
}};

// ISO 6194-1 / DIN 3760, housing depths as printed (12 mm breaks t1 = 0.85 b).
constexpr std::array<HousingDepth, 6> kHousing{
    {{7, 5.95, 7.3}, {8, 6.8, 8.3}, {10, 8.5, 10.3}, {12, 10.3, 12.3}, {15, 12.75, 15.3}, {20, 17.0, 20.3}}};

// First row whose upper end holds the size. Requires: size within the table.
template <typename Rows> const auto& row_for(const Rows& rows, double size_mm) {
    return *std::find_if(rows.begin(), rows.end(), [&](const auto& row) { return size_mm <= row.to_mm; });
}

std::string mm_text(Stacked v) { return shown(v.nominal) + " mm (" + shown(v.min) + " to " + shown(v.max) + ")"; }

Finding judge_interference(const char* what, const char* loose, Stacked value, const Window& window) {
    const std::string is = std::string(what) + " " + mm_text(value);
    if (value.max <= 0.0) return {Judgement::does_not_fit, is + ": " + loose, kMeasured};
    if (value.min <= 0.0)
        return {Judgement::check_first, is + ": may be loose at the edge of the tolerances", kMeasured};
    return {judge(value, window),
            is + ": wanted " + shown(window.allowed.low) + " to " + shown(window.allowed.high) + " mm",
            weakest(kMeasured, window.source)};
}

void require_physical(const HatSeal& s) {
    if (s.seal_od_mm) in_range("seal outside diameter", *s.seal_od_mm, kDiameterMm, "mm");
    if (s.bore_mm) in_range("bore diameter", *s.bore_mm, kDiameterMm, "mm");
    if (s.neck_mm) in_range("filter neck diameter", *s.neck_mm, kDiameterMm, "mm");
    if (s.lip_id_mm) in_range("seal lip inside diameter", *s.lip_id_mm, kDiameterMm, "mm");
}

void name_missing(const HatSeal& s, std::vector<std::string>& out) {
    if (!s.seal_od_mm) out.emplace_back("measure the seal outside diameter");
    if (!s.neck_mm) out.emplace_back("measure the filter neck diameter");
    if (!s.lip_id_mm) out.emplace_back("measure the seal lip inside diameter");
    if (!s.bore_mm) out.emplace_back("measure the bore diameter");
}

// What a sound part of that nominal may measure.
struct Allowed {
    Range sure;   // wholly inside: agrees
    Range maybe;  // touches: cannot be ruled out
};

Allowed allowed_shaft(const LipSealSize& row) {
    const Range band{row.shaft_mm + shaft_h11_lower_mm(row.shaft_mm), row.shaft_mm};
    return {band, band};
}

// A bore to 6 mm has no recorded H8: only the nominal itself agrees, and the
// first recorded deviation is what cannot be ruled out.
Allowed allowed_bore(const LipSealSize& row) {
    const std::optional<double> upper = bore_h8_upper_mm(row.bore_mm);
    return {{row.bore_mm, row.bore_mm + upper.value_or(0.0)}, {row.bore_mm, row.bore_mm + upper.value_or(0.022)}};
}

Allowed allowed_width(const LipSealSize& row) {
    const double t = width_tolerance_mm(row.width_mm);
    return {{row.width_mm - t, row.width_mm + t}, {row.width_mm - t, row.width_mm + t}};
}

bool may_be(const std::optional<Toleranced>& m, const Allowed& a) { return !m || m->band().overlaps(a.maybe); }

bool surely(const std::optional<Toleranced>& m, const Allowed& a) { return m && a.sure.contains(m->band()); }

double off(const std::optional<Toleranced>& m, double nominal) { return m ? std::abs(m->nominal - nominal) : 0.0; }

bool possible(const LipSealSize& row, const LipSealMeasured& m) {
    return may_be(m.shaft_mm, allowed_shaft(row)) && may_be(m.bore_mm, allowed_bore(row)) &&
           may_be(m.width_mm, allowed_width(row));
}

bool certain(const LipSealSize& row, const LipSealMeasured& m) {
    return surely(m.shaft_mm, allowed_shaft(row)) && surely(m.bore_mm, allowed_bore(row)) &&
           surely(m.width_mm, allowed_width(row));
}

bool nearer(const LipSealMatch& a, const LipSealMatch& b) {
    return a.off_mm != b.off_mm ? a.off_mm < b.off_mm : a.size->name < b.size->name;
}

}  // namespace

Range press_fit_allowance_mm(double bore_mm, LipCasing casing) {
    const PressFitRow& row = row_for(kPressFit, in_range("bore", bore_mm, kTableMm, "mm"));
    return casing == LipCasing::metal ? row.metal : row.rubber;
}

double roundness_max_mm(double bore_mm) {
    return row_for(kPressFit, in_range("bore", bore_mm, kTableMm, "mm")).roundness;
}

Range seal_od_mm(double bore_mm, LipCasing casing) {
    const Range over = press_fit_allowance_mm(bore_mm, casing);
    return {bore_mm + over.low, bore_mm + over.high};
}

std::optional<double> bore_h8_upper_mm(double bore_mm) {
    const double upper = row_for(kDeviations, in_range("bore", bore_mm, kTableMm, "mm")).h8_upper;
    return upper > 0.0 ? std::optional(upper) : std::nullopt;
}

double shaft_h11_lower_mm(double shaft_mm) {
    return row_for(kDeviations, in_range("shaft", shaft_mm, kTableMm, "mm")).h11_lower;
}

std::optional<double> nominal_bore_mm(double measured_mm, double off_by_mm) {
    in_range("bore diameter", measured_mm, kDiameterMm, "mm");
    constexpr double rounding_mm = 1e-9;
    const double nominal = std::floor(measured_mm + off_by_mm + rounding_mm);
    if (nominal < 1) return std::nullopt;
    const double upper = bore_h8_upper_mm(nominal).value_or(0.0);
    return measured_mm - off_by_mm <= nominal + upper + rounding_mm ? std::optional(nominal) : std::nullopt;
}

double width_tolerance_mm(double width_mm) {
    return in_range("seal width", width_mm, kWidthMm, "mm") <= 10.0 ? 0.20 : 0.30;
}

std::optional<HousingDepth> housing_depth(double width_mm) {
    in_range("seal width", width_mm, kWidthMm, "mm");
    for (const HousingDepth& row : kHousing)
        if (row.width_mm == width_mm) return row;
    return std::nullopt;
}

Stacked interference_mm(const Toleranced& seal_od_mm, const Toleranced& bore_mm) {
    return stack_up<2>({seal_od_mm, bore_mm}, [](const auto& v) { return v[0] - v[1]; });
}

Window default_hat_press_window() { return {{0.1, 0.4}, {Evidence::memory, "hat seal press fit 0.1 to 0.4 mm"}}; }

Window default_hat_lip_window() { return {{0.5, 1.5}, {Evidence::memory, "neck over lip 0.5 to 1.5 mm"}}; }

HatSealAnswer examine_hat_seal(const HatSeal& seal, const Window& press, const Window& lip) {
    require_physical(seal);
    HatSealAnswer out{{},
                      {},
                      {Judgement::check_first, "press fit unknown: seal or bore not measured", kNobody},
                      {Judgement::check_first, "lip unknown: neck or lip not measured", kNobody},
                      Judgement::check_first,
                      {}};
    name_missing(seal, out.measure_next);
    if (seal.seal_od_mm && seal.bore_mm) {
        out.press_mm = interference_mm(*seal.seal_od_mm, *seal.bore_mm);
        out.press = judge_interference("press fit", "loose in the bore, it will drop out", *out.press_mm, press);
    }
    if (seal.neck_mm && seal.lip_id_mm) {
        out.lip_mm = interference_mm(*seal.neck_mm, *seal.lip_id_mm);
        out.lip = judge_interference("neck over lip", "leak path, the lip does not touch the neck", *out.lip_mm, lip);
    }
    out.overall = worse(out.press.judgement, out.lip.judgement);
    return out;
}

std::vector<LipSealMatch> lip_seals_like(std::span<const LipSealSize> rows, const LipSealMeasured& m) {
    if (m.shaft_mm) in_range("shaft diameter", *m.shaft_mm, kDiameterMm, "mm");
    if (m.bore_mm) in_range("bore diameter", *m.bore_mm, kDiameterMm, "mm");
    if (m.width_mm) in_range("seal width", *m.width_mm, kWidthMm, "mm");
    std::vector<LipSealMatch> out;
    for (const LipSealSize& row : rows)
        if (possible(row, m))
            out.push_back(
                {&row, Judgement::check_first,
                 off(m.shaft_mm, row.shaft_mm) + off(m.bore_mm, row.bore_mm) + off(m.width_mm, row.width_mm)});
    std::sort(out.begin(), out.end(), nearer);
    if (out.size() == 1 && certain(*out[0].size, m)) out[0].judgement = Judgement::fits;
    return out;
}

}  // namespace casebound::filters_seals
