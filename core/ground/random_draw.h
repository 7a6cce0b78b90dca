// Random draws that are the same on every machine: std::mt19937_64, whose numbers the C++ standard fixes, and
// distributions of our own made of + - * / and square roots. Never seeded from the clock.
#pragma once

#include <cstdint>
#include <random>

namespace casebound {

class Draws {
public:
    explicit Draws(std::uint64_t seed) : engine_(seed) {}

    double uniform();                        // above 0 and below 1
    double beta(double alpha, double beta);  // both at least 1

private:
    double normal();
    double gamma(double shape);
    std::mt19937_64 engine_;
};

// The value below which `share` of a triangular distribution lies. Requires: low <= likely <= high.
double triangular(double low, double likely, double high, double share);

// Natural logarithm by series, within 1e-15 relative; libraries differ in the last digit of theirs.
double series_log(double x);

}  // namespace casebound
