#include "rows/holds.h"

#include <optional>
#include <string>
#include <utility>

#include "rows/findings.h"

namespace casebound::transmission_fluids {

namespace {

Hold of_gearbox_fluid(std::string reason, SourceNote source, std::string until, std::string attribute) {
    return {{"gearbox-fluid"}, {}, std::move(reason), std::move(source), std::move(until), {std::move(attribute)}};
}

// Looked at by the person at the vehicle, not before the finding was told. What a seller says settles nothing.
bool settles(const std::optional<Told>& look, const std::optional<Told>& finding) {
    return look && !is_hearsay(look->evidence) && (!finding || look->date >= finding->date);
}

// A tight or a renewed cooler, or none at all, lets the fresh fluid stay clean.
bool sound(const Told& cooler) { return cooler.text == "tight" || cooler.text == "renewed" || cooler.text == "none"; }

void hold_for_coolant(const ToldFluid& fluid, const VehicleView& vehicle, std::vector<Hold>& holds) {
    const auto cooler = told_of(&vehicle, "cooler_test");
    const bool leaks = cooler && cooler->text == "leaks";
    if (!leaks && fluid.at_worst.colour != FluidColour::milky) return;
    if (settles(cooler, told_of(&vehicle, "fluid_colour")) && sound(*cooler)) return;
    if (leaks)
        holds.push_back(of_gearbox_fluid("the fluid cooler leaks into the coolant, and fresh fluid would be spoilt too",
                                         practice_on(vehicle, {"cooler_test"}),
                                         "fit another cooler, or test it again, and tell cooler_test", "cooler_test"));
    else
        holds.push_back(of_gearbox_fluid(
            std::string(fluid.as_told.colour ? "the fluid is milky" : "the fluid may be milky") +
                ", and coolant or water in it would spoil fresh fluid too",
            practice_on(vehicle, {"fluid_colour"}),
            "test the fluid cooler against the coolant, look for fluid in the coolant, and tell cooler_test",
            "cooler_test"));
}

// What lies in the pan tells whether fresh fluid is worth its price; judging it is another domain's.
void hold_for_metal(const ToldFluid& fluid, const VehicleView& vehicle, std::vector<Hold>& holds) {
    if (!burnt_with_metal(fluid.at_worst)) return;
    if (settles(told_of(&vehicle, "pan_debris"), told_of(&vehicle, "fluid_smell"))) return;
    holds.push_back(of_gearbox_fluid(
        "the fluid is burnt, with metal or lost friction material in it, and fresh fluid does not mend that",
        practice_on(vehicle, fluid_looks()),
        "drop the pan, look at what lies in it and on the magnet, and tell pan_debris", "pan_debris"));
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
