// Go / no-go on one vehicle: fix first, unit now, pass on, look first, or walk away before buying.
// Only cash to come decides; money already spent is shown and never moves the recommendation. Amounts are in the
// shop's currency unit, sales net of fees. Every figure is low, likely, high and where it comes from. Knows no
// vehicle; gives no advice on safety or law.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/deal/deal_draws.h"

namespace casebound {

struct PathResult {
    Path path{};
    double to_come{};      // all cash from now on
    double whole{};        // to come less spent
    double hours_value{};  // own hours, not in the results
};

// The chance from which on fixing first is as good as the other path.
struct BreakEven {
    std::optional<double> chance;  // below 0: fix first whatever it is; above 1: never; none: it does not matter
    std::string words;
};

struct Looking {
    double good_sign{};  // chance of it
    double works_if_good{}, works_if_bad{};
    Path then_if_good{}, then_if_bad{};
    double value{};  // most that looking may cost
};

// Everything that follows from one set of figures.
struct Assessment {
    std::vector<PathResult> paths;  // as in Path
    Path best{};
    BreakEven against_unit, against_pass_on;  // words are empty once the fix has failed
    Path after_failure{};                     // unit now or pass on
    double worst{};                           // whole result if the cheap fix is tried and fails
    std::optional<double> bid_ceiling;        // most to pay for purchase and transport; none once bought
    std::optional<Looking> looking;
    const PathResult& result(Path path) const;  // Requires: it is one of `paths`
};

struct Swing {
    std::string input, origin;
    double low_result{}, high_result{};  // whole result of Decision::weighed with the input at its low and high
    Path best_at_low{}, best_at_high{};
    double width() const { return high_result > low_result ? high_result - low_result : low_result - high_result; }
};

struct FloorPrice {
    std::string outcome;
    double cash_out{};    // all of it, from the beginning
    double price{};       // asking price that gives it back
    double with_hours{};  // and pays the own hours
    double asked{};       // asking price that gives the likely sale
};

struct Decision {
    Assessment likely;    // at the likely figures
    Assessment expected;  // at the means of the ranges
    std::vector<Spread> spreads;
    std::vector<Swing> swings;  // the three that matter most
    std::vector<FloorPrice> floors;
    std::string floors_explained;
    Path recommended{};  // by the expected figures, and so are the bid ceiling and what looking is worth
    Path weighed{};      // whose swings they are: the recommended one, or the best beside walking away
    double worst{};      // at the worst figures, if the cheap fix fails; once it has failed, of the recommended path
    std::string reason;
    double spent{};
    double chance_low{}, chance_high{};  // of the cheap fix: 5 % and 95 % points
};

// Throws Error(bad_data) for figures that cannot be.
Decision decide(const Deal& deal, const DrawPlan& plan = {});

}  // namespace casebound
