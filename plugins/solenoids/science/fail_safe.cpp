#include "science/fail_safe.h"

#include <algorithm>

namespace casebound::solenoids {
namespace {

const Gear* gear_at_rest(const ApplyTable& table) {
    const auto at = std::find_if(table.gears.begin(), table.gears.end(), [](const Gear& gear) {
        return gear.range.empty() &&
               std::none_of(gear.required.begin(), gear.required.end(), [](bool on) { return on; });
    });
    return at == table.gears.end() ? nullptr : &*at;
}

bool has_gear(const ApplyTable& table, const std::string& name) {
    return std::any_of(table.gears.begin(), table.gears.end(), [&](const Gear& gear) { return gear.name == name; });
}

std::vector<std::string> open_questions(const Signs& signs) {
    std::vector<std::string> ask;
    if (!signs.ignition_restores_gears)
        ask.emplace_back("does cycling the ignition restore the gears until the fault repeats?");
    if (!signs.pulls_away_in_high_gear) ask.emplace_back("does it pull away in a high gear?");
    if (!signs.low_lever_changes_gear) ask.emplace_back("does the lever in 1 or 2 change anything?");
    return ask;
}

}  // namespace

std::vector<std::string> fail_safe_faults(const ApplyTable& table, const FailSafe& fail_safe) {
    if (fail_safe.default_gear.empty()) return {};
    if (!has_gear(table, fail_safe.default_gear)) return {"default gear: unknown gear " + fail_safe.default_gear};
    if (fail_safe.reason != DefaultReason::hydraulic_rest || table.kind != TableKind::solenoid_states) return {};
    const Gear* rest = gear_at_rest(table);
    if (rest == nullptr) return {"default gear: no gear has every solenoid off"};
    if (rest->name == fail_safe.default_gear) return {};
    return {"default gear: " + fail_safe.default_gear + " recorded as hydraulic rest, but gear " + rest->name +
            " has every solenoid off"};
}

FailSafeAnswer read_signs(const Signs& signs) {
    const auto ask = open_questions(signs);
    if (signs.ignition_restores_gears.value_or(false))
        return {FailSafeReading::in_fail_safe, "gears return with the ignition: the controller gave up", ask,
                Phase::in_fail_safe};
    if (signs.pulls_away_in_high_gear.has_value() && !*signs.pulls_away_in_high_gear)
        return {FailSafeReading::no_sign_of_it, "it still starts in a low gear", ask, Phase::before_fail_safe};
    if (signs.pulls_away_in_high_gear && signs.ignition_restores_gears)
        return {FailSafeReading::hydraulic_or_constant,
                "a high gear that the ignition does not clear: held hydraulically, or noticed "
                "again at every start",
                ask, Phase::not_told};
    return {FailSafeReading::cannot_tell, "too little is told", ask, Phase::not_told};
}

}  // namespace casebound::solenoids
