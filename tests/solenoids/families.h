#pragma once
// Invented gearbox families for the tests. No real gearbox has these tables.

#include "plugins/solenoids/science/apply_table.h"

namespace casebound::tests {

// Two on/off solenoids; A on in 1 and 4, B on in 1 and 2; no power gives 3.
inline solenoids::ApplyTable ash_4() {
    solenoids::ApplyTable table;
    table.family = "Ash-4";
    table.elements = {"A", "B"};
    table.gears = {
        {"1", {true, true}, ""}, {"2", {false, true}, ""}, {"3", {false, false}, ""}, {"4", {true, false}, ""}};
    table.nodes = {{"feed", {"A", "B"}, false}};
    table.reactions = {{{}, {}, {{"A", false}, {"B", false}}, "invented"}};
    return table;
}

// On/off solenoids 1 and 2; top gear with both off. On losing the first, the
// controller switches the second on.
inline solenoids::ApplyTable birch_4() {
    solenoids::ApplyTable table;
    table.family = "Birch-4";
    table.elements = {"No.1", "No.2"};
    table.gears = {
        {"1", {true, false}, ""}, {"2", {true, true}, ""}, {"3", {false, true}, ""}, {"4", {false, false}, ""}};
    table.nodes = {{"feed", {"No.1", "No.2"}, false}};
    table.reactions = {{solenoids::Fault{solenoids::FaultKind::stuck_off, "No.1"}, {}, {{"No.2", true}}, "invented"}};
    return table;
}

// Clutch to clutch, two of five elements in each gear.
inline solenoids::ApplyTable birch_6() {
    solenoids::ApplyTable table;
    table.family = "Birch-6";
    table.kind = solenoids::TableKind::friction_elements;
    table.elements = {"A", "B", "C", "D", "E"};
    table.gears = {{"1", {true, false, false, true, false}, ""}, {"2", {true, false, true, false, false}, ""},
                   {"3", {true, false, false, false, true}, ""}, {"4", {true, true, false, false, false}, ""},
                   {"5", {false, true, false, false, true}, ""}, {"6", {false, true, true, false, false}, ""},
                   {"R", {false, false, false, true, true}, "R"}};
    return table;
}

}  // namespace casebound::tests
