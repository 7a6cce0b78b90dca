#include "science/fastener.h"

#include <array>
#include <cctype>
#include <charconv>
#include <cmath>
#include <numbers>

#include "core/contract/text.h"

namespace casebound::filters_seals {
namespace {

constexpr Range kTorqueNm{0.0, 5000.0};
constexpr Range kAngleDeg{0.0, 720.0};
constexpr Range kNutFactor{0.05, 0.6};
constexpr Range kPreloadKn{0.0, 2000.0};
constexpr Range kDiameterMm{1.0, 100.0};

constexpr double kPoundForceN = 0.45359237 * 9.80665;
constexpr double kInchM = 0.0254;

constexpr std::array kUnits{TorqueUnit::newton_metre, TorqueUnit::inch_pound, TorqueUnit::foot_pound};

constexpr double newton_metres_in(TorqueUnit unit) {
    switch (unit) {
        case TorqueUnit::newton_metre: return 1.0;
        case TorqueUnit::inch_pound: return kPoundForceN * kInchM;
        case TorqueUnit::foot_pound: return kPoundForceN * kInchM * 12.0;
    }
    return 1.0;
}

// "in·lb", "in-lb", "IN LB" all become "inlb"; empty when anything but letters
// and multiplying separators is in it ("N/m" is no torque).
std::string letters_of(std::string_view label) {
    constexpr std::string_view separators = " .-*\xC2\xB7";
    std::string out;
    for (const char c : label) {
        const auto u = static_cast<unsigned char>(c);
        if (std::isalpha(u)) out += static_cast<char>(std::tolower(u));
        else if (separators.find(c) == std::string_view::npos) return {};
    }
    return out;
}

struct UnitLabel {
    std::string_view letters;
    TorqueUnit unit;
};

constexpr std::array<UnitLabel, 19> kLabels{{
    {"nm", TorqueUnit::newton_metre},       {"inlb", TorqueUnit::inch_pound},   {"inlbs", TorqueUnit::inch_pound},
    {"inlbf", TorqueUnit::inch_pound},      {"lbin", TorqueUnit::inch_pound},   {"lbsin", TorqueUnit::inch_pound},
    {"lbfin", TorqueUnit::inch_pound},      {"inchlb", TorqueUnit::inch_pound}, {"inchlbs", TorqueUnit::inch_pound},
    {"inchpounds", TorqueUnit::inch_pound}, {"ftlb", TorqueUnit::foot_pound},   {"ftlbs", TorqueUnit::foot_pound},
    {"ftlbf", TorqueUnit::foot_pound},      {"lbft", TorqueUnit::foot_pound},   {"lbsft", TorqueUnit::foot_pound},
    {"lbfft", TorqueUnit::foot_pound},      {"footlb", TorqueUnit::foot_pound}, {"footlbs", TorqueUnit::foot_pound},
    {"footpounds", TorqueUnit::foot_pound},
}};

// Class 8.8 at 70 % of proof (580 MPa), K 0.20, taken as the middle; gasketed
// joints go far below, class 12.9 goes to about twice that. From memory.
double usual_nm(Thread thread) {
    return torque_nm(kNutFactorAsReceived, 0.70 * 580.0 * stress_area_mm2(thread) / 1000.0, thread.diameter_mm);
}

std::string tenths(double value) { return shown(std::round(10 * value) / 10); }

std::string sense_text(const TorqueSense& s, double torque, TorqueUnit unit) {
    std::string out = shown(torque) + " " + std::string(text(unit));
    if (unit != TorqueUnit::newton_metre) out += " is " + tenths(s.as_labelled_nm) + " N·m";
    if (s.sensible) return out + ": sensible for this thread";
    out += ": usual for this thread is " + tenths(s.sensible_nm.low) + " to " + tenths(s.sensible_nm.high) + " N·m";
    for (const TorqueUnit p : s.perhaps) out += "; was it " + std::string(text(p)) + "?";
    return out + (s.perhaps.empty() ? ": read the data again" : " Read the data again");
}

bool is_degree(std::string_view label) {
    const std::string letters = letters_of(label);
    return label == "\xC2\xB0" || letters == "deg" || letters == "degree" || letters == "degrees";
}

std::optional<Stage> stage_from_text(std::string_view s) {
    s = trimmed(s);
    double value = 0.0;
    const auto [end, error] = std::from_chars(s.data(), s.data() + s.size(), value);
    if (error != std::errc{}) return std::nullopt;
    const std::string_view label = trimmed(s.substr(static_cast<std::size_t>(end - s.data())));
    if (is_degree(label)) return Stage{Stage::Kind::angle_deg, in_range("tightening angle", value, kAngleDeg, "deg")};
    const std::optional<TorqueUnit> unit = torque_unit(label);
    if (!unit) return std::nullopt;
    return Stage{Stage::Kind::torque_nm, to_newton_metre(value, *unit)};
}

bool has_angle(const std::vector<Stage>& stages) {
    for (const Stage& s : stages)
        if (s.kind == Stage::Kind::angle_deg) return true;
    return false;
}

constexpr Source kStretch{Evidence::common_practice, "trade and study texts on bolts taken into plastic stretch"};
constexpr Source kData{Evidence::maker, "the service data's own word"};
constexpr Source kPractice{Evidence::common_practice, "common practice, no source"};
constexpr Source kNobody{Evidence::memory, "nobody has said"};

}  // namespace

std::string_view text(TorqueUnit unit) {
    switch (unit) {
        case TorqueUnit::newton_metre: return "N·m";
        case TorqueUnit::inch_pound: return "in·lb";
        case TorqueUnit::foot_pound: return "ft·lb";
    }
    return "N·m";
}

std::optional<TorqueUnit> torque_unit(std::string_view label) {
    const std::string letters = letters_of(label);
    for (const UnitLabel& known : kLabels)
        if (known.letters == letters) return known.unit;
    return std::nullopt;
}

double to_newton_metre(double torque, TorqueUnit unit) {
    return in_range("torque", torque * newton_metres_in(unit), kTorqueNm, "N m");
}

double from_newton_metre(double torque_nm, TorqueUnit unit) {
    return in_range("torque", torque_nm, kTorqueNm, "N m") / newton_metres_in(unit);
}

double torque_nm(double nut_factor, double preload_kn, double diameter_mm) {
    return in_range("nut factor K", nut_factor, kNutFactor) * in_range("preload", preload_kn, kPreloadKn, "kN") *
           in_range("bolt diameter", diameter_mm, kDiameterMm, "mm");
}

double preload_kn(double nut_factor, double torque_nm, double diameter_mm) {
    return in_range("torque", torque_nm, kTorqueNm, "N m") /
           (in_range("nut factor K", nut_factor, kNutFactor) *
            in_range("bolt diameter", diameter_mm, kDiameterMm, "mm"));
}

Stacked preload_with_scatter_kn(double nut_factor, double torque_nm, double diameter_mm) {
    const double f = preload_kn(nut_factor, torque_nm, diameter_mm);
    return {f * (1.0 - kTorqueScatter), f, f * (1.0 + kTorqueScatter)};
}

double stress_area_mm2(Thread thread) {
    const double d = in_range("thread diameter", thread.diameter_mm, kDiameterMm, "mm");
    const double across = d - 0.9382 * in_range("thread pitch", thread.pitch_mm, {0.2, d / 2}, "mm");
    return std::numbers::pi / 4.0 * across * across;
}

TorqueSense torque_sense(double torque, TorqueUnit unit, Thread thread) {
    const double usual = usual_nm(thread);
    TorqueSense out{false, {0.15 * usual, 2.0 * usual}, usual, to_newton_metre(torque, unit), {}, {}};
    out.sensible = out.sensible_nm.contains(out.as_labelled_nm);
    for (const TorqueUnit other : kUnits)
        if (!out.sensible && other != unit && out.sensible_nm.contains(torque * newton_metres_in(other)))
            out.perhaps.push_back(other);
    out.say = sense_text(out, torque, unit);
    return out;
}

std::optional<LabelledTorque> torque_from_text(std::string_view text) {
    text = trimmed(text);
    double value = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{}) return std::nullopt;
    const auto unit = torque_unit(text.substr(static_cast<std::size_t>(end - text.data())));
    return unit ? std::optional(LabelledTorque{value, *unit}) : std::nullopt;
}

std::optional<std::vector<Stage>> stages_from_text(std::string_view text) {
    std::vector<Stage> out;
    while (true) {
        const std::size_t plus = text.find('+');
        const std::optional<Stage> stage = stage_from_text(text.substr(0, plus));
        if (!stage) return std::nullopt;
        out.push_back(*stage);
        if (plus == std::string_view::npos) return out;
        text.remove_prefix(plus + 1);
    }
}

std::string text(const std::vector<Stage>& stages) {
    std::string out;
    for (const Stage& s : stages)
        out += (out.empty() ? "" : " + ") + shown(s.value) + (s.kind == Stage::Kind::torque_nm ? " N·m" : "°");
    return out;
}

bool same_stages(const std::vector<Stage>& a, const std::vector<Stage>& b) {
    if (a.size() != b.size()) return false;
    for (std::size_t i = 0; i < a.size(); ++i)
        if (a[i].kind != b[i].kind || a[i].value != b[i].value) return false;
    return true;
}

BoltAnswer examine_bolt(const std::optional<std::vector<Stage>>& stages, bool was_loosened,
                        std::optional<bool> data_allow_reuse) {
    if (!was_loosened) return {BoltAdvice::may_go_back, "not loosened: leave it", kPractice};
    if (data_allow_reuse)
        return {*data_allow_reuse ? BoltAdvice::may_go_back : BoltAdvice::new_bolt,
                *data_allow_reuse ? "the service data allow reuse: look for stretch first"
                                  : "the service data ask for a new bolt",
                kData};
    if (!stages || stages->empty())
        return {BoltAdvice::look_first, "tightening not recorded: find out whether it is torque and angle", kNobody};
    if (has_angle(*stages))
        return {BoltAdvice::new_bolt, text(*stages) + ": torque and angle, new bolt unless the data say reuse",
                kStretch};
    return {BoltAdvice::look_first, text(*stages) + ": torque only, reusable unless stretched or damaged", kPractice};
}

}  // namespace casebound::filters_seals
