#include "rows/holds.h"

#include <algorithm>
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

// From memory: such fluid halves the odds of a small repair twice.
void stop_every_cure(Hold& hold, std::string attribute) {
    hold.every_cure = true;
    hold.odds_steps = -2;
    hold.attributes.push_back(std::move(attribute));
}

// A tight or a renewed cooler, or none at all, lets the fresh fluid stay clean.
bool sound(const Told& cooler) { return cooler.text == "tight" || cooler.text == "renewed" || cooler.text == "none"; }

// Milky fluid stops every cure; a cooler that leaks is mended first, and only the fluid waits for it.
void hold_for_coolant(const ToldFluid& fluid, const VehicleView& vehicle, std::vector<Hold>& holds) {
    const auto cooler = told_of(&vehicle, "cooler_test");
    const bool leaks = cooler && cooler->text == "leaks", milky = fluid.at_worst.colour == FluidColour::milky;
    if (!leaks && !milky) return;
    if (settles(cooler, told_of(&vehicle, "fluid_colour")) && sound(*cooler)) return;
    Hold hold =
        leaks
            ? of_gearbox_fluid("the fluid cooler leaks into the coolant, and fresh fluid would be spoilt too",
                               practice_on(vehicle, {"cooler_test"}),
                               "fit another cooler, or test it again, and tell the cooler test", "cooler_test")
            : of_gearbox_fluid(
                  std::string(fluid.as_told.colour ? "the fluid is milky" : "the fluid may be milky") +
                      ", and coolant or water in it would spoil fresh fluid too",
                  practice_on(vehicle, {"fluid_colour"}),
                  "test the fluid cooler against the coolant, look for fluid in the coolant, and tell the cooler test",
                  "cooler_test");
    if (milky) stop_every_cure(hold, "fluid_colour");
    holds.push_back(std::move(hold));
}

// Lining or metal off the friction elements, bushes and gears, as words of what lies in the pan.
bool metal_in_pan(const VehicleView& vehicle) {
    const auto told = told_of(&vehicle, "pan_debris");
    if (!told) return false;
    const auto seen = told->seen();
    return std::any_of(seen.begin(), seen.end(), [](const std::string& one) {
        return one == "steel_pieces" || one == "black_flakes" || one == "brass_flakes" || one == "aluminium_glitter";
    });
}

// Burnt fluid with metal or lining in it, or in the pan: what is worn is found out before any cure. A pan that was
// looked at, and held none, lifts it.
void hold_for_metal(const ToldFluid& fluid, const VehicleView& vehicle, std::vector<Hold>& holds) {
    const bool burnt = fluid.at_worst.smell == FluidSmell::burnt, in_pan = metal_in_pan(vehicle);
    if (!burnt_with_metal(fluid.at_worst) && !(burnt && in_pan)) return;
    if (!in_pan && settles(told_of(&vehicle, "pan_debris"), told_of(&vehicle, "fluid_smell"))) return;
    auto looks = fluid_looks();
    if (in_pan) looks.push_back("pan_debris");
    Hold hold = of_gearbox_fluid(
        "the fluid is burnt, with metal or lost friction material in it, and fresh fluid does not mend that",
        practice_on(vehicle, looks),
        in_pan
            ? "find out what is worn, and decide again; once that is mended, tell the pan debris and fluid_smell anew"
            : "drop the pan, look at what lies in it and on the magnet, and tell the pan debris",
        "pan_debris");
    stop_every_cure(hold, "fluid_smell");
    holds.push_back(std::move(hold));
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
