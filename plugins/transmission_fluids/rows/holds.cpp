#include "rows/holds.h"

#include <algorithm>
#include <string>
#include <utility>

#include "rows/findings.h"

namespace casebound::transmission_fluids {

namespace {

Hold of_gearbox_fluid(std::string reason, SourceNote source, std::string until, std::string attribute) {
    return {{"gearbox-fluid"}, {}, std::move(reason), std::move(source), std::move(until), {std::move(attribute)}};
}

// Seen by the person at the vehicle; what a seller says of it settles nothing.
bool seen_as(const std::optional<Told>& told, std::string_view value) {
    return told && !is_hearsay(told->evidence) && told->text == value;
}

// A tight or a renewed cooler, or none at all, lets the fresh fluid stay clean.
void hold_for_coolant(const ToldFluid& fluid, const VehicleView& vehicle, std::vector<Hold>& holds) {
    const auto cooler = told_of(&vehicle, "cooler_test");
    const bool leaks = cooler && cooler->text == "leaks";
    for (const auto* sound : {"tight", "renewed", "none"})
        if (seen_as(cooler, sound)) return;
    if (!leaks && fluid.at_worst.colour != FluidColour::milky) return;
    if (leaks)
        holds.push_back(of_gearbox_fluid("the fluid cooler leaks into the coolant: fresh fluid would be spoilt too",
                                         practice_on(vehicle, {"cooler_test"}),
                                         "Fit another cooler, or rinse and test it again; then tell cooler_test.",
                                         "cooler_test"));
    else
        holds.push_back(of_gearbox_fluid(
            "the fluid is milky: coolant or water is in it, and would spoil fresh fluid too",
            practice_on(vehicle, {"fluid_colour"}),
            "Test the fluid cooler against the coolant and look for fluid in the coolant; then tell cooler_test.",
            "cooler_test"));
}

// What lies in the pan tells whether fresh fluid is worth its price; judging it is another domain's.
void hold_for_metal(const ToldFluid& fluid, const VehicleView& vehicle, std::vector<Hold>& holds) {
    const auto debris = told_of(&vehicle, "pan_debris");
    if (!burnt_with_metal(fluid.at_worst) || (debris && !is_hearsay(debris->evidence))) return;
    holds.push_back(of_gearbox_fluid(
        "the fluid is burnt, with metal or lost friction material in it: fresh fluid does not mend that",
        practice_on(vehicle, fluid_looks()),
        "Drop the pan and look at what lies in it and on the magnet before buying anything; then tell pan_debris.",
        "pan_debris"));
}

}  // namespace

std::vector<Hold> holds(const Services& services) {
    std::vector<Hold> all;
    if (!services.vehicle) return all;
    const auto fluid = told_fluid(*services.vehicle);
    hold_for_coolant(fluid, *services.vehicle, all);
    hold_for_metal(fluid, *services.vehicle, all);
    return all;
}

}  // namespace casebound::transmission_fluids
