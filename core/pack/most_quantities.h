#pragma once

namespace casebound {

// More than any vehicle or job on record takes (common practice, no source): a cell above it has lost its point.
inline constexpr double most_litres = 250, most_each = 1000;

}  // namespace casebound
