#include "vocabulary.h"

#include "core/attribute_rows.h"

namespace casebound::filters_seals {
namespace {

using Kind = ValueKind;

// The three yes-or-no columns of an attribute, by name.
constexpr bool raised = true, on_wheels = false;
constexpr bool opened = true, closed = false;
constexpr bool finding = true, identity = false;

// What a measure can be, here and below: common practice, no source.

std::vector<Attribute> pan() {
    return {
        within(5, 400, {"pan_depth", "pan depth, rail to floor", Kind::number, "mm", 3,
         "Measure with a ruler from the pan rail down to the pan floor, away from the plug.",
         3, raised, closed, identity, {}}),
        counted(2, 60, {"pan_bolts", "bolts in the pan rail", Kind::number, "", 0,
         "Hold a phone under the pan and count the bolts on the photo.", 2, on_wheels, closed, identity, {}}),
        {"pan_outline", "outline of the pan", Kind::choice, "", 0,
         "Photograph the pan from straight below.", 3, raised, closed, identity, {}},
        {"pan_flange", "form of the pan rail", Kind::choice, "", 0,
         "Look along the rail: flat, ribbed between the holes, one rib all round, or with a lip.",
         5, raised, opened, identity, {"flat", "ribs_between_holes", "continuous_rib", "lipped"}},
        {"pan_plug", "drain plug in the pan", Kind::yes_no, "", 0,
         "Look for a plug in the pan floor.", 1, raised, closed, identity, {}},
        {"pan_gasket_kind", "gasket that is fitted", Kind::choice, "", 0,
         "Look at its edge: steel or plastic core with sleeves in the holes, rubber, cork, or sealant alone.",
         3, raised, closed, identity,
         {"rigid_carrier", "nitrile", "neoprene", "moulded_lip", "coated_cork_rubber", "cork_rubber", "cork", "silicone_adhesive"}},
    };
}

std::vector<Attribute> filter_and_neck() {
    return {
        {"neck_seal_form", "seal at the filter neck", Kind::choice, "", 0,
         "Drop the pan and the filter: look at the neck and, with a mirror, up the bore.",
         40, raised, opened, identity,
         {"oring_on_neck", "ribbed_band_on_neck", "hat_in_bore", "moulded_to_filter"}},
        within(5, 100, {"neck_od", "outside diameter of the filter neck", Kind::number, "mm", 0.3,
         "Measure the old filter's neck with a calliper.", 35, raised, opened, identity, {}}),
        within(5, 300, {"filter_height", "height of the filter", Kind::number, "mm", 2,
         "Measure the old filter from the rail's level to its lowest point.", 35, raised, opened, identity, {}}),
        counted(0, 20, {"filter_bolts", "bolts that hold the filter", Kind::number, "", 0,
         "Count them with the pan off.", 30, raised, opened, identity, {}}),
        {"in_line_filter", "filter in the cooler line", Kind::yes_no, "", 0,
         "Follow the cooler pipes from the gearbox to the radiator.", 5, raised, closed, identity, {}},
    };
}

std::vector<Attribute> findings() {
    return {
        several("", {"pan_debris", "what lies in the pan", Kind::choice, "", 0,
         "Drop the pan; wipe the magnet on white cloth and look in daylight.", 30, raised, opened, finding,
         {"grey_paste_thin", "grey_paste_thick", "brass_flakes", "steel_pieces", "black_flakes", "aluminium_glitter",
          "varnish_film", "plastic_bits", "loose_plug_with_oring", "sealant_strings"}}),
        usually(0, 3, counted(0, 10, {"seals_in_bore", "seals found up the bore", Kind::number, "", 0,
         "Look up the bore with torch and mirror before fitting anything; count what comes out.",
         5, raised, opened, finding, {}})),
        several("dry", {"leak_at", "where it is wet", Kind::choice, "", 0,
         "Clean, drive, then look from the highest wet place down.", 30, raised, closed, finding,
         {"dry", "pan_rail", "drain_plug", "selector_shaft", "case_connector", "cooler_line", "dipstick_tube",
          "output_shaft"}}),
        {"pan_off_before", "pan has been off before", Kind::yes_no, "", 0,
         "Look for sealant, odd bolts, a missing magnet; ask the seller.", 5, raised, closed, finding, {}},
        {"old_gasket_state", "state of the old gasket", Kind::choice, "", 0,
         "Wipe it and look: flat bead, no cut, no hard edge.", 3, raised, opened, finding, {"sound", "damaged"}},
    };
}

std::vector<ItemKind> item_kinds() {
    return {
        {"pan-filter", "gearbox filter in the pan", "each"},
        {"in-line-filter", "filter in the cooler line", "each"},
        {"neck-seal", "filter-neck seal", "each"},
        {"pan-gasket", "pan gasket", "each"},
        {"pan", "gearbox pan", "each"},
        {"pan-bolt", "pan bolt", "each"},
        {"pan-magnet", "pan magnet", "each"},
        {"drain-plug", "drain plug", "each"},
        {"plug-washer", "plug washer", "each"},
        {"shaft-seal", "shaft seal", "each"},
        {"connector-seal", "case connector seal", "each"},
        {"tube-seal", "tube seal", "each"},
        {"line-clip", "cooler-line clip", "each"},
    };
}

std::vector<Role> roles() {
    return {
        {"pan-filter", "pan filter", "pan-filter", false},
        {"in-line-filter", "in-line filter", "in-line-filter", false},
        {"filter-neck-seal", "filter-neck seal", "neck-seal", false},
        {"pan-gasket", "pan gasket", "pan-gasket", false},
        {"pan", "pan", "pan", false},
        {"pan-bolts", "pan bolts", "pan-bolt", false},
        {"pan-magnet", "pan magnet", "pan-magnet", false},
        {"drain-plug", "drain plug", "drain-plug", false},
        {"drain-plug-washer", "drain-plug washer", "plug-washer", false},
        {"level-plug-washer", "level-plug washer", "plug-washer", false},
        {"selector-shaft-seal", "selector-shaft seal", "shaft-seal", false},
        {"output-shaft-seal", "output-shaft seal", "shaft-seal", false},
        {"case-connector-seal", "case-connector seal", "connector-seal", false},
        {"cooler-line-seal", "cooler-line seal", "tube-seal", false},
        {"cooler-line-clip", "cooler-line clip", "line-clip", false},
        {"dipstick-tube-seal", "dipstick-tube seal", "tube-seal", false},
    };
}

}  // namespace

Vocabulary vocabulary() {
    Vocabulary words{{}, item_kinds(), roles()};
    for (const auto& part : {pan(), filter_and_neck(), findings()})
        words.attributes.insert(words.attributes.end(), part.begin(), part.end());
    return words;
}

}  // namespace casebound::filters_seals
