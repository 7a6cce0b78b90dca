#include "science/ratio.h"

#include "core/contract/valid_range.h"

#include <cmath>
#include <limits>

namespace casebound::solenoids {
namespace {

constexpr double slip_least = 0.02;
constexpr double slip_most = 0.10;
constexpr double rounding = 1e-9;  // 1.04 is within 4 % of 1.00

struct Window {
    double low;
    double high;
};

Window window_for(Converter converter, double share_allowed) {
    if (converter == Converter::none_or_locked) return {-share_allowed - rounding, share_allowed + rounding};
    const bool surely_slips = converter == Converter::unlocked;
    return {(surely_slips ? slip_least : 0.0) - share_allowed - rounding, slip_most + share_allowed + rounding};
}

double checked_ratio(const char* what, double ratio) { return in_range(what, ratio, 0.1, 20.0); }

}  // namespace

double ratio_from_speeds(double input_rpm, double output_rpm) {
    return in_range("input_rpm", input_rpm, 1.0, 20000.0) / in_range("output_rpm", output_rpm, 1.0, 20000.0);
}

double ratio_from_road(const RoadReading& reading) {
    const double metres_per_hour = in_range("engine_rpm", reading.engine_rpm, 100.0, 12000.0) * 60.0 *
                                   in_range("tyre_rolling_m", reading.tyre_rolling_m, 0.5, 5.0);
    return metres_per_hour / (1000.0 * in_range("speed_km_h", reading.speed_km_h, 1.0, 400.0) *
                              in_range("final_drive", reading.final_drive, 0.5, 20.0));
}

RatioMatch match_ratio(const std::vector<GearRatio>& table, double measured, Converter converter,
                       double share_allowed) {
    in_range("number of gear ratios", static_cast<double>(table.size()), 1.0, 100.0);
    in_range("measured ratio", measured, 0.001, 100.0);
    in_range("share_allowed", share_allowed, 0.001, 0.2);
    const Window window = window_for(converter, share_allowed);
    RatioMatch match{{}, {}, std::numeric_limits<double>::infinity(), converter != Converter::none_or_locked};
    for (const GearRatio& gear : table) {
        const double difference = measured / checked_ratio("gear ratio", gear.ratio) - 1.0;
        if (difference >= window.low && difference <= window.high) match.gears.push_back(gear.gear);
        if (std::abs(difference) >= std::abs(match.nearest_difference)) continue;
        match.nearest = gear.gear;
        match.nearest_difference = difference;
    }
    return match;
}

double slip_share(double gear_ratio, double measured) {
    return 1.0 - checked_ratio("gear_ratio", gear_ratio) / in_range("measured ratio", measured, 0.001, 100.0);
}

}  // namespace casebound::solenoids
