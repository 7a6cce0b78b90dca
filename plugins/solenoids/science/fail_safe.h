#pragma once
// What a gearbox does once its controller has given up shifting, and how to
// tell that state from a hydraulic fault by asking three questions. The default
// gear is a property of the design: it is recorded, never assumed.

#include "science/apply_table.h"

#include <optional>
#include <string>
#include <vector>

namespace casebound::solenoids {

enum class DefaultReason { not_recorded, hydraulic_rest, controller_choice };

struct FailSafe {
    std::string default_gear;  // empty = not recorded
    DefaultReason reason = DefaultReason::not_recorded;
    std::optional<bool> reverse_available = {};
    std::optional<bool> manual_low_available = {};
    std::optional<bool> converter_lock_off = {};
    std::optional<bool> pressure_at_maximum = {};  // then harsh engagement is normal
    std::string source;
};

// Faults of the record, in words: an unknown gear, or a "hydraulic rest" gear
// that is not the one the apply table gives with every solenoid off.
std::vector<std::string> fail_safe_faults(const ApplyTable& table, const FailSafe& fail_safe);

struct Signs {
    std::optional<bool> pulls_away_in_high_gear = {};
    std::optional<bool> low_lever_changes_gear = {};
    std::optional<bool> ignition_restores_gears = {};  // until the fault repeats
};

enum class FailSafeReading {
    in_fail_safe,           // noticed by the controller: read its codes
    hydraulic_or_constant,  // held hydraulically, or a fault noticed at every start
    no_sign_of_it,
    cannot_tell,
};

struct FailSafeAnswer {
    FailSafeReading reading;
    std::string reason;
    std::vector<std::string> ask;  // questions still open that would help
    Phase phase;                   // to use with gears seen in this state
};

FailSafeAnswer read_signs(const Signs& signs);

}  // namespace casebound::solenoids
