#include "rows/vocabulary.h"

#include "core/contract/attribute_rows.h"

namespace casebound::transmission_fluids {
namespace {

using Kind = ValueKind;

// The three yes-or-no columns of an attribute, by name.
constexpr bool raised = true, on_wheels = false;
constexpr bool opened = true, closed = false;
constexpr bool finding = true, identity = false;

// What a measure can be, here and below: common practice, no source.

std::vector<Attribute> identities() {
    return {
        {"level_point",
         "where the fluid level is read",
         Kind::choice,
         "",
         0,
         "Look for a dipstick tube at the back of the engine bay; if there is none, a plug in the pan or on the case.",
         4,
         on_wheels,
         closed,
         identity,
         {"dipstick", "overflow_plug", "side_plug", "sight_glass"}},
        {"fluid_label",
         "fluid spec as printed",
         Kind::choice,
         "",
         0,
         "Read the spec on the dipstick, the filler cap, the handbook or the gearbox tag.",
         5,
         on_wheels,
         closed,
         identity,
         {}},
        {"gearbox_kind",
         "kind of gearbox",
         Kind::choice,
         "",
         0,
         "Read the gearbox tag or the handbook: planetary automatic, belt or chain CVT, dual clutch wet or dry, "
         "manual.",
         5,
         on_wheels,
         closed,
         identity,
         {"planetary_automatic", "belt_cvt", "chain_cvt", "dual_clutch_wet", "dual_clutch_dry", "manual"}},
        {"converter_plug",
         "converter has a drain plug",
         Kind::yes_no,
         "",
         0,
         "Turn the engine by hand and look through the hole in the bell housing for a plug.",
         15,
         raised,
         closed,
         identity,
         {}},
    };
}

std::vector<Attribute> findings() {
    return {
        {"fluid_colour",
         "colour of the fluid",
         Kind::choice,
         "",
         0,
         "Put a drop on white paper in daylight.",
         2,
         on_wheels,
         closed,
         finding,
         {"red", "amber", "brown", "black", "milky"}},
        {"fluid_smell",
         "smell of the fluid",
         Kind::choice,
         "",
         0,
         "Smell the drop on the paper.",
         1,
         on_wheels,
         closed,
         finding,
         {"none", "varnish", "burnt"}},
        {"fluid_clarity",
         "clarity of the fluid",
         Kind::choice,
         "",
         0,
         "Hold a drop on glass against the light.",
         2,
         on_wheels,
         closed,
         finding,
         {"clear", "cloudy", "metallic_sheen"}},
        {"fluid_feel",
         "feel of the fluid",
         Kind::choice,
         "",
         0,
         "Rub a cooled drop between gloved fingers.",
         1,
         on_wheels,
         closed,
         finding,
         {"smooth", "gritty"}},
        {"fluid_level",
         "level at the maker's temperature",
         Kind::choice,
         "",
         0,
         "Check the level as the maker says: temperature, lever and engine, vehicle level.",
         15,
         on_wheels,
         closed,
         finding,
         {"low", "right", "high"}},
        usually(-40, 150,
                within(-60, 200,
                       {"fluid_temp",
                        "fluid temperature",
                        Kind::number,
                        "degC",
                        3,
                        "Read the sensor with a code reader, or a thermometer at the pan.",
                        3,
                        on_wheels,
                        closed,
                        finding,
                        {}})),
        usually(0, 16,
                within(0, 60,
                       {"fluid_drained",
                        "fluid drained",
                        Kind::number,
                        "L",
                        0.2,
                        "Catch it in a clean measuring jug and note its temperature.",
                        20,
                        raised,
                        opened,
                        finding,
                        {}})),
    };
}

// What the service-due computation needs.
std::vector<Attribute> history() {
    return {
        usually(0, 1500000,
                within(0, 5000000,
                       {"odometer",
                        "distance covered",
                        Kind::number,
                        "km",
                        0,
                        "Read the odometer.",
                        1,
                        on_wheels,
                        closed,
                        finding,
                        {}})),
        usually(0, 1500000,
                within(0, 5000000,
                       {"fluid_changed_at",
                        "distance at the last fluid change",
                        Kind::number,
                        "km",
                        0,
                        "Read the service book or the invoice.",
                        5,
                        on_wheels,
                        closed,
                        finding,
                        {}})),
        {"fluid_changed",
         "month of the last fluid change",
         Kind::month,
         "",
         0,
         "Read the service book or the invoice.",
         5,
         on_wheels,
         closed,
         finding,
         {}},
        {"severe_use",
         "hard use",
         Kind::yes_no,
         "",
         0,
         "Ask about towing, short trips, hills and deliveries.",
         2,
         on_wheels,
         closed,
         finding,
         {}},
    };
}

}  // namespace

Vocabulary vocabulary() {
    Vocabulary words;
    for (const auto& part : {identities(), findings(), history()})
        words.attributes.insert(words.attributes.end(), part.begin(), part.end());
    words.item_kinds = {
        {"transmission-fluid", "transmission fluid", "L"},
        {"brake-fluid", "brake fluid", "L"},
    };
    words.roles = {
        {"gearbox-fluid", "gearbox fluid", "transmission-fluid", false},
        {"transfer-case-fluid", "transfer-case fluid", "transmission-fluid", false},
        {"brake-fluid", "brake fluid", "brake-fluid", true},
    };
    return words;
}

}  // namespace casebound::transmission_fluids
