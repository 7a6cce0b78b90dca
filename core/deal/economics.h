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

namespace casebound {

struct Estimate {
    double low{}, likely{}, high{};
    std::string origin;  // "own closed jobs", "offer on file", "typed in", "demo default"
    double mean() const { return (low + likely + high) / 3; }  // of a triangular distribution
};

Estimate exactly(double amount, std::string origin);

// Beta(alpha, beta) when both are given, else triangular in low, likely, high.
struct Chance {
    Estimate share;
    double alpha{}, beta{};
    double mean() const { return alpha > 0 ? alpha / (alpha + beta) : share.mean(); }
};

Chance chance_exactly(double share, std::string origin);
Chance chance_beta(double alpha, double beta, std::string origin);
Chance chance_from_jobs(int worked, int failed);  // own closed jobs: Beta(worked + 1, failed + 1)

// Something to look at before deciding, such as what is in the pan.
struct Look {
    std::string what;
    double good_if_works{}, good_if_not{};  // chance of a good sign if the cheap fix would work, and if not
    Estimate cost;
    bool opens{};  // passing on afterwards brings sale_opened
};

struct Deal {
    Estimate purchase;                               // still to pay: purchase and transport
    Estimate diagnosis;                              // still to pay
    Estimate cheap_fix;                              // parts, fluid, paid hours
    Estimate unit;                                   // replacement unit, installed, net of the returned core
    Estimate sale_running;                           // the fault gone
    Estimate sale_as_is;                             // as it is, or in parts
    std::optional<Estimate> sale_opened;             // the same once it has been opened, if that is less
    Chance works;                                    // the cheap fix works
    double reusable_share{};                         // of the cheap fix, if a unit follows
    double spent{};                                  // gone already: purchase, diagnosis, failed fixes
    bool bought{};                                   // false: walking away is still possible
    bool fix_failed{};                               // the cheap fix was tried; its cost is in `spent`
    double fixed_sale_cost{}, sale_fee_rate{};       // between asking price and net sale
    double margin{};                                 // wanted, for the bid ceiling
    double fix_hours{}, unit_hours{}, hour_value{};  // own, not in the estimates; valued and shown apart
    std::optional<Look> look;
};

enum class Path : std::uint8_t { fix_first, unit_now, pass_on, look_first, walk_away };
std::string_view path_words(Path path);

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
    bool has(Path path) const;
    const PathResult& result(Path path) const;  // Requires: has(path)
};

struct Spread {
    Path path{};
    double mean{}, standard_error{}, low_5{}, high_95{};  // of the whole result
    double chance_of_loss{};
    double worst{};  // every figure at its bad end
};

struct Swing {
    std::string input, origin;
    double low_result{}, high_result{};  // whole result of the recommended path with the input at its low and high
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
    Path recommended{};
    std::string reason;
    double spent{};
    double chance_low{}, chance_high{};  // of the cheap fix: 5 % and 95 % points
};

struct DrawPlan {
    std::uint64_t seed = 7;
    int draws = 20'000;
};

// Throws Error(bad_data) for figures that cannot be.
Decision decide(const Deal& deal, const DrawPlan& plan = {});

}  // namespace casebound
