#include "rows/vocabulary.h"

#include "core/contract/attribute_rows.h"
#include "core/contract/domain_words.h"

namespace casebound::transmission_fluids {
namespace {

// What a measure can be, here and below: common practice, no source.

std::vector<Attribute> identities() {
    return {
        choice_of({"dipstick", "overflow_plug", "side_plug", "sight_glass"}, "level_point",
                  "where the fluid level is read",
                  "Look for a dipstick tube at the back of the engine bay; if there is none, a plug in the pan or on "
                  "the case.",
                  4),
        choice_of({}, "fluid_label", "fluid spec as printed",
                  "Read the spec on the dipstick, the filler cap, the handbook or the gearbox tag.", 5),
        choice_of(
            {"planetary_automatic", "belt_cvt", "chain_cvt", "dual_clutch_wet", "dual_clutch_dry", "manual"},
            "gearbox_kind", "kind of gearbox",
            "Read the gearbox tag or the handbook: planetary automatic, belt or chain CVT, dual clutch wet or dry, "
            "manual.",
            5),
        when_raised(yes_or_no("converter_plug", "converter has a drain plug",
                              "Turn the engine by hand and look through the hole in the bell housing for a plug.", 15)),
    };
}

std::vector<Attribute> looks() {
    return {
        choice_of({"red", "amber", "brown", "black", "milky"}, "fluid_colour", "colour of the fluid",
                  "Put a drop on white paper in daylight.", 2),
        choice_of({"none", "varnish", "burnt"}, "fluid_smell", "smell of the fluid", "Smell the drop on the paper.", 1),
        choice_of({"clear", "cloudy", "metallic_sheen"}, "fluid_clarity", "clarity of the fluid",
                  "Hold a drop on glass against the light.", 2),
        choice_of({"smooth", "gritty"}, "fluid_feel", "feel of the fluid", "Rub a cooled drop between gloved fingers.",
                  1),
        choice_of({"low", "right", "high"}, "fluid_level", "level at the maker's temperature",
                  "Check the level as the maker says: temperature, lever and engine, vehicle level.", 15),
        when_taken_off(choice_of(
            {"tight", "leaks", "renewed"}, "cooler_test", "fluid cooler against the coolant",
            "Blank one pipe of the cooler, put a little air pressure on the other, watch the coolant for bubbles.",
            30)),
    };
}

std::vector<Attribute> measures() {
    return {
        usually(-40, 150,
                within(-60, 200,
                       number_of("degC", 3, "fluid_temp", "fluid temperature",
                                 "Read the sensor with a code reader, or a thermometer at the pan.", 3))),
        usually(0, 16,
                within(0, 60,
                       when_opened(number_of("L", 0.2, "fluid_drained", "fluid drained",
                                             "Catch it in a clean measuring jug and note its temperature.", 20)))),
    };
}

// What the service-due computation needs.
std::vector<Attribute> history() {
    return {
        distance_of("odometer", "distance covered", "Read the odometer.", 1),
        distance_of("fluid_changed_at", "distance at the last fluid change", "Read the service book or the invoice.",
                    5),
        attribute_of(ValueKind::month, "fluid_changed", "month of the last fluid change",
                     "Read the service book or the invoice.", 5),
        yes_or_no("severe_use", "hard use", "Ask about towing, short trips, hills and deliveries.", 2),
    };
}

}  // namespace

Vocabulary vocabulary() {
    constexpr auto may = StandIns::may_be_offered;
    // The spec is the group: equal figures of two specs do not make them one fluid.
    const DecidedBy spec{"transmission_fluids_specs", {{"group_key", "spec"}}};
    auto words = vocabulary_of(together({identities(), as_findings(together({looks(), measures(), history()}))}),
                               {{"transmission-fluid",
                                 "transmission fluid",
                                 may,
                                 {{"gearbox-fluid", "gearbox fluid"}, {"transfer-case-fluid", "transfer-case fluid"}},
                                 "L",
                                 spec}});
    for (auto& role : words.roles) role.upkeep = role.name != "gearbox-fluid";  // fresh fluid is tried as a cure
    return words;
}

}  // namespace casebound::transmission_fluids
