#pragma once
// Cross-checks a claimed fluid temperature against the gearbox's own sensor,
// whose resistance falls as it warms. The points come from the caller: they
// differ between families, and nothing is extrapolated beyond them.

#include <optional>
#include <vector>

namespace casebound::solenoids {

struct SensorPoint {
    double temp_c;    // -60 to 250, rising from point to point
    double low_ohm;   // 1 to 1e7, both falling from point to point
    double high_ohm;  // not below low_ohm
};

struct SensorSpan {
    double low;
    double high;
};

// Resistance the sensor may have. Between points the logarithm of resistance
// runs straight over 1/T. Nothing outside the points. Throws std::domain_error
// on fewer than two points or on points out of order.
std::optional<SensorSpan> sensor_ohm(const std::vector<SensorPoint>& points, double temp_c);

// Temperature at which the sensor may read this. Nothing when either end lies
// outside the points. ohm 1 to 1e7.
std::optional<SensorSpan> sensor_temp_c(const std::vector<SensorPoint>& points, double ohm);

enum class SensorCheck { agrees, disagrees, cannot_tell };

// Does the reading fit the claimed temperature within allowed_c (0 to 50)?
SensorCheck check_temperature(const std::vector<SensorPoint>& points, double ohm, double claimed_temp_c,
                              double allowed_c);

}  // namespace casebound::solenoids
