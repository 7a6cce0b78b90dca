#include "science/temp_sensor.h"

#include "core/contract/valid_range.h"

#include <cmath>
#include <cstddef>

namespace casebound::solenoids {
namespace {

using Points = std::vector<SensorPoint>;
using Edge = double SensorPoint::*;

constexpr double zero_c_in_kelvin = 273.15;

double reciprocal_kelvin(double temp_c) { return 1.0 / (temp_c + zero_c_in_kelvin); }

void check_point(const SensorPoint& point) {
    in_range("sensor point temp_c", point.temp_c, -60.0, 250.0);
    in_range("sensor point low_ohm", point.low_ohm, 1.0, 1e7);
    in_range("sensor point high_ohm", point.high_ohm, point.low_ohm, 1e7);
}

void check_order(const SensorPoint& colder, const SensorPoint& warmer) {
    in_range("sensor point temp_c", warmer.temp_c, std::nextafter(colder.temp_c, 1e3), 250.0);
    in_range("sensor point low_ohm", warmer.low_ohm, 1.0, std::nextafter(colder.low_ohm, 0.0));
    in_range("sensor point high_ohm", warmer.high_ohm, 1.0, std::nextafter(colder.high_ohm, 0.0));
}

void check_points(const Points& points) {
    in_range("number of sensor points", static_cast<double>(points.size()), 2.0, 1000.0);
    for (const SensorPoint& point : points) check_point(point);
    for (std::size_t i = 1; i < points.size(); ++i) check_order(points[i - 1], points[i]);
}

double ohm_between(const SensorPoint& a, const SensorPoint& b, Edge edge, double temp_c) {
    const double share = (reciprocal_kelvin(temp_c) - reciprocal_kelvin(a.temp_c)) /
                         (reciprocal_kelvin(b.temp_c) - reciprocal_kelvin(a.temp_c));
    return a.*edge * std::pow(b.*edge / (a.*edge), share);
}

double temp_between(const SensorPoint& a, const SensorPoint& b, Edge edge, double ohm) {
    const double share = std::log(ohm / (a.*edge)) / std::log(b.*edge / (a.*edge));
    const double from = reciprocal_kelvin(a.temp_c);
    return 1.0 / (from + share * (reciprocal_kelvin(b.temp_c) - from)) - zero_c_in_kelvin;
}

std::optional<double> temp_on(const Points& points, Edge edge, double ohm) {
    for (std::size_t i = 1; i < points.size(); ++i)
        if (ohm <= points[i - 1].*edge && ohm >= points[i].*edge)
            return temp_between(points[i - 1], points[i], edge, ohm);
    return std::nullopt;
}

}  // namespace

std::optional<SensorSpan> sensor_ohm(const Points& points, double temp_c) {
    check_points(points);
    in_range("temp_c", temp_c, -60.0, 250.0);
    for (std::size_t i = 1; i < points.size(); ++i)
        if (temp_c >= points[i - 1].temp_c && temp_c <= points[i].temp_c)
            return SensorSpan{ohm_between(points[i - 1], points[i], &SensorPoint::low_ohm, temp_c),
                              ohm_between(points[i - 1], points[i], &SensorPoint::high_ohm, temp_c)};
    return std::nullopt;
}

std::optional<SensorSpan> sensor_temp_c(const Points& points, double ohm) {
    check_points(points);
    in_range("ohm", ohm, 1.0, 1e7);
    const auto coldest = temp_on(points, &SensorPoint::low_ohm, ohm);
    const auto warmest = temp_on(points, &SensorPoint::high_ohm, ohm);
    if (!coldest || !warmest) return std::nullopt;
    return SensorSpan{*coldest, *warmest};
}

SensorCheck check_temperature(const Points& points, double ohm, double claimed_temp_c, double allowed_c) {
    in_range("claimed_temp_c", claimed_temp_c, -60.0, 250.0);
    in_range("allowed_c", allowed_c, 0.0, 50.0);
    const auto span = sensor_temp_c(points, ohm);
    if (!span) return SensorCheck::cannot_tell;
    const bool within = claimed_temp_c >= span->low - allowed_c && claimed_temp_c <= span->high + allowed_c;
    return within ? SensorCheck::agrees : SensorCheck::disagrees;
}

}  // namespace casebound::solenoids
