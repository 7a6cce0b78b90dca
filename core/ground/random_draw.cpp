#include "core/ground/random_draw.h"

#include <cmath>

namespace casebound {

double Draws::uniform() { return (static_cast<double>(engine_() >> 12) + 0.5) * 0x1p-52; }

// Polar method: G. Marsaglia, T. A. Bray, SIAM Review 6 (1964) 260-264, as known from memory.
double Draws::normal() {
    while (true) {
        const double x = 2 * uniform() - 1, y = 2 * uniform() - 1;
        const double s = x * x + y * y;
        if (s > 0 && s < 1) return x * std::sqrt(-2 * series_log(s) / s);
    }
}

// G. Marsaglia, W. W. Tsang, "A simple method for generating gamma variables", ACM Trans. Math. Softw. 26 (2000)
// 363-372, as known from memory; for shapes from 1 on.
double Draws::gamma(double shape) {
    const double d = shape - 1.0 / 3, c = 1 / std::sqrt(9 * d);
    while (true) {
        const double x = normal(), root = 1 + c * x;
        if (root <= 0) continue;
        const double v = root * root * root, u = uniform();
        if (series_log(u) < 0.5 * x * x + d * (1 - v + series_log(v))) return d * v;
    }
}

double Draws::beta(double alpha, double beta) {
    const double a = gamma(alpha);
    return a / (a + gamma(beta));
}

double triangular(double low, double likely, double high, double share) {
    if (high <= low) return low;
    const double rising = (likely - low) / (high - low);
    if (share <= rising) return low + std::sqrt(share * (high - low) * (likely - low));
    return high - std::sqrt((1 - share) * (high - low) * (high - likely));
}

double series_log(double x) {
    constexpr double ln_2 = 0.693147180559945309417;
    int exponent = 0;
    double mantissa = std::frexp(x, &exponent);
    if (mantissa < 0.707106781186547524) mantissa *= 2, --exponent;
    const double s = (mantissa - 1) / (mantissa + 1), square = s * s;
    double sum = 0;
    for (int k = 25; k >= 1; k -= 2) sum = sum * square + 1.0 / k;
    return exponent * ln_2 + 2 * s * sum;
}

}  // namespace casebound
