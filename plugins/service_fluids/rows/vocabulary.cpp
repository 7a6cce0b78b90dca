#include "rows/vocabulary.h"

#include "core/contract/attribute_rows.h"
#include "core/contract/domain_words.h"
#include "rows/records.h"

namespace casebound::service_fluids {
namespace {

// What a measure can be, here and below: common practice, no source.

std::vector<Attribute> identities() {
    return {
        choice_of({"0W-16", "0W-20", "0W-30", "0W-40", "5W-20", "5W-30", "5W-40", "5W-50", "10W-30", "10W-40", "10W-60",
                   "15W-40", "20W-50"},
                  "oil_viscosity_printed", "engine oil viscosity as the maker prints it",
                  "Read the filler cap, or the page of the handbook on fluids.", 4),
        when_raised(bolt_thread_of(6, 40, "oil_plug_thread", "thread of the oil drain plug, 14 for M14",
                                   "Measure the thread of the plug with a calliper when the oil is out.", 3)),
        when_raised(bolt_thread_of(8, 50, "oil_filter_thread", "thread that the oil filter is screwed to",
                                   "Measure the stub on the block with a calliper when the filter is off.", 3)),
        when_raised(within(20, 150,
                           number_of("mm", 1, "oil_filter_seal", "seal ring of the oil filter, outside",
                                     "Measure over the seal ring of the old filter.", 3))),
        choice_of(family_names(), "coolant_family", "inhibitor family of the coolant in the circuit",
                  "Read the label of the pack it was filled from, or the maker's name for it on the tank; the colour "
                  "tells nothing.",
                  5),
    };
}

std::vector<Attribute> looks() {
    return {
        several("sound",
                choice_of({"sound", "milky", "fuel_smell", "metal_glitter"}, "engine_oil_look",
                          "look and smell of the engine oil",
                          "Wipe the stick on white paper in daylight, smell it, look into the filler cap.", 2)),
        choice_of({"low", "right", "high"}, "engine_oil_level", "engine oil level",
                  "Vehicle level, engine off for five minutes: wipe the stick, push it home, read it.", 6),
        several("clean", choice_of({"clean", "rusty", "oily", "gel", "cloudy"}, "coolant_look", "look of the coolant",
                                   "Engine cold: draw some into a clean glass and hold it against the light.", 4)),
        choice_of({"low", "right"}, "coolant_level", "coolant level, cold",
                  "Engine cold: read the level at the marks of the tank.", 1),
        choice_of({"tight", "leaks", "mended"}, "cooling_pressure_test", "cooling circuit under pressure",
                  "Engine cold: put the maker's pressure on the circuit with a hand pump and watch it for ten minutes.",
                  25),
        within(-80, 0,
               number_of("degC", 2, "coolant_freeze_point", "freezing point of the coolant",
                         "Engine cold: put a drop on a refractometer for the glycol that it is, and read it.", 4)),
    };
}

// What the due dates need; the odometer and hard use are words of another domain.
std::vector<Attribute> history() {
    return {
        distance_of("engine_oil_changed_at", "distance at the last oil change",
                    "Read the service book, the tag under the bonnet or the invoice.", 5),
        attribute_of(ValueKind::month, "engine_oil_changed", "month of the last oil change",
                     "Read the service book, the tag under the bonnet or the invoice.", 5),
        distance_of("coolant_changed_at", "distance at the last coolant change",
                    "Read the service book or the invoice.", 5),
        attribute_of(ValueKind::month, "coolant_changed", "month of the last coolant change",
                     "Read the service book or the invoice.", 5),
    };
}

// The spec is the group: equal figures of two specs do not make them one fluid.
DecidedBy spec(const char* table) { return {table, {{"group_key", "spec"}}}; }

DecidedBy filter_decided() {
    return {oil_filters,
            {{"form", "form"},
             {"thread_mm", "thread, mm", 0.3, true},
             {"pitch_mm", "pitch, mm", 0.1, true},
             {"seal_outside_mm", "seal ring, outside, mm", 1},
             {"height_mm", "height, mm", 2}}};
}

DecidedBy washer_decided() {
    return {washers, {{"inside_mm", "hole, mm", 0.3}, {"form", "form"}, {"thick_mm", "thickness, mm", 0.3}}};
}

}  // namespace

Vocabulary vocabulary() {
    constexpr auto may = StandIns::may_be_offered;
    auto words = vocabulary_of(together({identities(), as_findings(together({looks(), history()}))}),
                               {{"engine-oil", "engine oil", may, {{"engine-oil", "engine oil"}}, "L", spec(oils)},
                                {"engine-oil-filter",
                                 "oil filter of an engine",
                                 may,
                                 {{"engine-oil-filter", "engine oil filter"}},
                                 "each",
                                 filter_decided()},
                                {"service-plug-washer",
                                 "washer of a drain plug",
                                 may,
                                 {{"oil-plug-washer", "washer of the oil drain plug"},
                                  {"coolant-plug-washer", "washer of the coolant drain plug"}},
                                 "each",
                                 washer_decided()},
                                {"coolant", "coolant", may, {{"coolant", "coolant"}}, "L", spec(coolants)},
                                {"brake-fluid",
                                 "brake fluid",
                                 StandIns::exact_part_only,
                                 {{"brake-fluid", "brake fluid"}},
                                 "L",
                                 spec(brake_fluids)}});
    for (auto& role : words.roles) role.upkeep = true;
    return words;
}

}  // namespace casebound::service_fluids
