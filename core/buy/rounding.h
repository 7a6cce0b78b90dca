#pragma once

namespace casebound {

inline constexpr double rounding = 1e-6;  // of sums of what came and went: litres, pieces, money

}  // namespace casebound
