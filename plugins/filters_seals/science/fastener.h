// Bolts of pan, filter and mounts: torque and preload, torque units that get
// mixed up, tightening in stages, and whether a removed bolt may go back.
// Never converts a torque whose unit is not labelled, and never adds two angle
// stages into one.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "science/judgement.h"

namespace casebound::filters_seals {

enum class TorqueUnit { newton_metre, inch_pound, foot_pound };

std::string_view text(TorqueUnit unit);

// "N·m", "in·lb", "lbf-ft" and the like, case and separators ignored; nullopt
// for a bare "lb" or anything else: ask, do not guess.
std::optional<TorqueUnit> torque_unit(std::string_view label);

// Exact: inch 25.4 mm, pound 0.45359237 kg, g 9.80665 m/s2.
// Throw std::domain_error outside 0 to 5000 N·m.
double to_newton_metre(double torque, TorqueUnit unit);
double from_newton_metre(double torque_nm, TorqueUnit unit);

// T = K F d; kN and mm give N·m.
// Throws std::domain_error outside: K 0.05 to 0.6, F 0 to 2000 kN, d 1 to 100 mm.
double torque_nm(double nut_factor, double preload_kn, double diameter_mm);
double preload_kn(double nut_factor, double torque_nm, double diameter_mm);

// Usual nut factors: 0.20 as received steel, 0.15 lubricated, 0.30 dry or rusty.
// Preload scatter of tightening by torque alone: plus or minus 25 %.
inline constexpr double kNutFactorAsReceived = 0.20;
inline constexpr double kNutFactorLubricated = 0.15;
inline constexpr double kNutFactorDry = 0.30;
inline constexpr double kTorqueScatter = 0.25;
Stacked preload_with_scatter_kn(double nut_factor, double torque_nm, double diameter_mm);

struct Thread {
    double diameter_mm;
    double pitch_mm;
};

// Stress area of an ISO metric thread, pi/4 (d - 0.9382 P)^2 (ISO 898-1).
// Throws std::domain_error outside: d 1 to 100 mm, P 0.2 mm to d/2.
double stress_area_mm2(Thread thread);

// Is a torque sensible for that thread as labelled, and if not, which other
// unit would make it so? in·lb read as ft·lb is a factor of 12: the bolt breaks.
// The sensible range is from memory; it asks, it never answers.
struct TorqueSense {
    bool sensible;
    Range sensible_nm;
    double usual_nm;  // the middle it is taken from
    double as_labelled_nm;
    std::vector<TorqueUnit> perhaps;  // units that would make sense of the number
    std::string say;
};
TorqueSense torque_sense(double torque, TorqueUnit unit, Thread thread);

struct Stage {
    enum class Kind { torque_nm, angle_deg };
    Kind kind;
    double value;
};

struct LabelledTorque {
    double value;
    TorqueUnit unit;
};

// "89 lbf ft": a number and its unit. nullopt for a bare number, "lb" or anything else.
std::optional<LabelledTorque> torque_from_text(std::string_view text);

// "27 N·m + 60° + 30°": stages in order. nullopt when a stage cannot be read or
// its unit is not labelled. Throws std::domain_error for a torque outside 0 to
// 5000 N·m or an angle outside 0 to 720 degrees.
std::optional<std::vector<Stage>> stages_from_text(std::string_view text);

std::string text(const std::vector<Stage>& stages);

// Stage by stage: 60° + 30° is not 90°.
bool same_stages(const std::vector<Stage>& a, const std::vector<Stage>& b);

enum class BoltAdvice { look_first, new_bolt, may_go_back };

struct BoltAnswer {
    BoltAdvice advice;
    std::string say;
    Source source;
};

// `stages` absent: tightening not recorded. `data_allow_reuse`: the service
// data's own word, absent when they say nothing.
BoltAnswer examine_bolt(const std::optional<std::vector<Stage>>& stages, bool was_loosened,
                        std::optional<bool> data_allow_reuse);

}  // namespace casebound::filters_seals
