#pragma once
// How much fluid to have ready, and the cheapest whole containers that hold it.
// Exact: volumes count in nanolitres and money in hundredths of the currency
// unit. Says when the containers leave no reserve; never rounds a need down.
#include <cstdint>
#include <optional>
#include <vector>

namespace casebound::transmission_fluids {

// What a stated capacity means. A dry fill is that of an empty unit and is
// refused for a drain-and-fill.
enum class CapacityKind { measured_drain, service_refill, dry_fill };

struct DrainAndFill {
    CapacityKind kind;
    double drained_l;
    int changes;
    double allowance = 0.03;         // 3 to 5 % (common practice, no source)
    double spill_l = 0.3;            // 0.2 to 0.5 L (common practice, no source)
    double filter_and_cooler_l = 0;  // what a new filter and an emptied cooler take
};

// changes * drained * (1 + allowance) + spill + filter and cooler.
double have_ready_l(const DrainAndFill& job);

// For a replacement unit: dry fill and cooler, and 5 % (common practice, no source).
double have_ready_for_unit_l(double dry_fill_l, double cooler_l);

struct Container {
    double size_l;                  // 0.1 to 250 L
    std::int64_t price_hundredths;  // 0 to 1 000 000
    std::optional<int> at_most{};   // how many there are; own stock costs 0 and has an end
};

// What is left over has a worth only if the same fluid is used again within its
// shelf life, and only as much of it as will be used.
struct LeftoverWorth {
    std::int64_t hundredths_per_l = 0;
    double usable_l = 0;
};

struct ContainerChoice {
    std::vector<int> counts;  // in the order of the containers offered
    double bought_l;
    double leftover_l;  // bought less needed
    std::int64_t price_hundredths;
    double leftover_worth_hundredths;
};

struct ContainerAdvice {
    ContainerChoice cheapest;
    bool reserve_too_small;  // cheapest leaves less than the reserve asked for
    // The cheapest that keeps the reserve; nullopt if `cheapest` does, or if the
    // containers cannot.
    std::optional<ContainerChoice> with_reserve;
};

// 0.25 L: a cupful lost at the funnel must not end the job (common practice, no source).
inline constexpr double usual_reserve_l = 0.25;

// Least price less leftover worth; then least leftover; then fewest containers; then
// most of the containers offered first. nullopt: the containers there are do not hold the
// need. Refuses a need above 100 L, more than 12 containers, and offers that combine
// in too many ways to be solved exactly.
std::optional<ContainerAdvice> choose_containers(double need_l, const std::vector<Container>& containers,
                                                 double reserve_l = usual_reserve_l, LeftoverWorth worth = {});

}  // namespace casebound::transmission_fluids
