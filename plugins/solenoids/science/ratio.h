#pragma once
// Which gear is really engaged, from speeds. It matches a measured ratio
// against the ratios the caller gives; it never invents a gear, and several
// matches stay several. std::domain_error outside the ranges given.

#include <optional>
#include <string>
#include <vector>

namespace casebound::solenoids {

// input_rpm 1 to 20000, output_rpm 1 to 20000.
double ratio_from_speeds(double input_rpm, double output_rpm);

struct RoadReading {
    double engine_rpm;      // 100 to 12000
    double tyre_rolling_m;  // circumference, 0.5 to 5
    double speed_km_h;      // 1 to 400
    double final_drive;     // 0.5 to 20
};

// Without sensors, converter locked (or no converter).
double ratio_from_road(const RoadReading& reading);

struct GearRatio {
    std::string gear;
    double ratio;  // magnitude, 0.1 to 20
};

// What the engine or input speed was taken through.
enum class Converter { none_or_locked, unlocked, not_told };

struct RatioMatch {
    std::vector<std::string> gears;  // that fit, in table order
    std::string nearest;             // the gear of least relative difference
    double nearest_difference;       // measured / its ratio - 1
    bool converter_slip_possible;    // repeat with the converter locked
};

// A gear fits within share_allowed (0.001 to 0.2) of its own ratio; one maker's
// monitor uses 4 %. An unlocked converter makes the reading 2 to 10 % high
// (from memory), so then the window is shifted up by that much; when it is not
// told, both windows are allowed. Throws on an empty table.
RatioMatch match_ratio(const std::vector<GearRatio>& table, double measured,
                       Converter converter = Converter::none_or_locked, double share_allowed = 0.04);

// Share of the input speed lost between a gear that should be engaged and the
// measured ratio: 0 = none. Negative when the measured ratio is below.
double slip_share(double gear_ratio, double measured);

}  // namespace casebound::solenoids
