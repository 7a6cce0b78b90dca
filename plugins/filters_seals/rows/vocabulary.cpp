#include "core/contract/attribute_rows.h"
#include "core/contract/domain_words.h"
#include "rows/hooks.h"

namespace casebound::filters_seals {
namespace {

// What a measure can be, here and below: common practice, no source.

std::vector<Attribute> pan() {
    return {
        when_raised(within(5, 400,
                           number_of("mm", 3, "pan_depth", "pan depth, rail to floor",
                                     "Measure with a ruler from the pan rail down to the pan floor, away from the "
                                     "plug.",
                                     3))),
        counted(2, 60,
                number_of("", 0, "pan_bolts", "bolts in the pan rail",
                          "Hold a phone under the pan and count the bolts on the photo.", 2)),
        when_raised(choice_of({}, "pan_outline", "outline of the pan", "Photograph the pan from straight below.", 3)),
        when_opened(
            choice_of({"flat", "ribs_between_holes", "continuous_rib", "lipped"}, "pan_flange", "form of the pan rail",
                      "Look along the rail: flat, ribbed between the holes, one rib all round, or with a lip.", 5)),
        when_raised(yes_or_no("pan_plug", "drain plug in the pan", "Look for a plug in the pan floor.", 1)),
        when_raised(choice_of({"rigid_carrier", "nitrile", "neoprene", "moulded_lip", "coated_cork_rubber",
                               "cork_rubber", "cork", "silicone_adhesive"},
                              "pan_gasket_kind", "gasket that is fitted",
                              "Look at its edge: steel or plastic core with sleeves in the holes, rubber, cork, or "
                              "sealant alone.",
                              3)),
    };
}

std::vector<Attribute> filter_and_neck() {
    return {
        when_opened(choice_of({"oring_on_neck", "ribbed_band_on_neck", "hat_in_bore", "moulded_to_filter"},
                              "neck_seal_form", "seal at the filter neck",
                              "Drop the pan and the filter: look at the neck and, with a mirror, up the bore.", 40)),
        when_opened(within(5, 100,
                           number_of("mm", 0.3, "neck_od", "outside diameter of the filter neck",
                                     "Measure the old filter's neck with a calliper.", 35))),
        when_opened(counted(
            0, 20, number_of("", 0, "filter_bolts", "bolts that hold the filter", "Count them with the pan off.", 30))),
        when_opened(within(5, 300,
                           number_of("mm", 2, "filter_height", "height of the filter",
                                     "Measure the old filter from the rail's level to its lowest point.", 35))),
        when_raised(yes_or_no("in_line_filter", "filter in the cooler line",
                              "Follow the cooler pipes from the gearbox to the radiator.", 5)),
    };
}

Attribute in_the_pan() {
    return choice_of({"grey_paste_thin", "grey_paste_thick", "brass_flakes", "steel_pieces", "black_flakes",
                      "aluminium_glitter", "varnish_film", "plastic_bits", "loose_plug_with_oring", "sealant_strings"},
                     "pan_debris", "what lies in the pan",
                     "Drop the pan; wipe the magnet on white cloth and look in daylight.", 30);
}

Attribute wet_at() {
    return choice_of({"dry", "pan_rail", "drain_plug", "selector_shaft", "case_connector", "cooler_line",
                      "dipstick_tube", "output_shaft"},
                     "leak_at", "where it is wet", "Clean, drive, then look from the highest wet place down.", 30);
}

std::vector<Attribute> of_a_drip() {
    return {
        choice_of(
            {"gearbox_fluid", "engine_oil", "coolant", "washer_water", "clear_water"}, "drip_fluid", "what drips",
            "Catch a drop on white paper beside a drop off each dipstick; look and smell, never taste: coolant is "
            "slippery and sweet, washer water smells of spirit, clear water dries without a rim.",
            10),
        when_raised(choice_of({"stays_dry", "from_above", "same_place"}, "wet_after_wash",
                              "where it is wet again after washing",
                              "Wash and dry it, dust it with powder, lay paper below, drive ten minutes, and look from "
                              "the highest wet place down.",
                              40)),
    };
}

std::vector<Attribute> observations() {
    return {
        when_opened(several("", in_the_pan())),
        when_opened(usually(0, 3,
                            counted(0, 10,
                                    number_of("", 0, "seals_in_bore", "seals found up the bore",
                                              "Look up the bore with torch and mirror before fitting anything; count "
                                              "what comes out.",
                                              5)))),
        when_raised(several("dry", wet_at())),
        when_raised(yes_or_no("pan_off_before", "pan has been off before",
                              "Look for sealant, odd bolts, a missing magnet; ask the seller.", 5)),
        when_opened(choice_of({"sound", "damaged"}, "old_gasket_state", "state of the old gasket",
                              "Wipe it and look: flat bead, no cut, no hard edge.", 3)),
    };
}

// What a length may differ by as its attribute may; of seals about the ISO 3601-1 class A tolerance; of a washer under a
// head, common practice.
constexpr double kHeightMm = 2, kNeckMm = 0.3, kDepthMm = 3, kSealMm = 0.3, kSectionMm = 0.1, kWasherMm = 2;

// A filter goes with one depth of pan and one form of neck seal.
DecidedBy filter_decided() {
    return {"filters_seals_filters",
            {{"type", "how it sits"},
             {"height_mm", "height, mm", kHeightMm},
             {"neck_od_mm", "neck, mm", kNeckMm},
             {"neck_length_mm", "length of the neck, mm", kHeightMm},
             {"neck_seal_form", "form of the neck seal"},
             {"pan_depth_mm", "depth of the pan it is made for, mm", kDepthMm},
             {"bolt_count", "bolts that hold it"}}};
}

DecidedBy pan_decided() {
    return {"filters_seals_pans",
            {{"depth_mm", "depth, mm", kDepthMm},
             {"bolt_count", "bolts in the rail"},
             {"flange", "form of the rail"},
             {"filter_in_pan", "filter and pan in one"}}};
}

// Of a seal in a bore: its form, and all three lengths.
DecidedBy seal_decided() {
    return {"filters_seals_seals",
            {{"form", "form"},
             {"id_mm", "inside, mm", kSealMm},
             {"od_mm", "outside, mm", kSealMm},
             {"height_mm", "height, mm", kSealMm},
             {"elastomer", "rubber"}}};
}

DecidedBy ring_decided() {
    return {"filters_seals_seals",
            {{"form", "form"},
             {"id_mm", "inside, mm", kSealMm},
             {"section_mm", "section, mm", kSectionMm},
             {"elastomer", "rubber"}}};
}

// Whatever make of washer it is: the head must cover it.
DecidedBy washer_decided() {
    return {"filters_seals_seals", {{"id_mm", "inside, mm", kWasherMm}, {"od_mm", "outside, mm", kWasherMm}}};
}

// Nothing here tells two gaskets of one pan apart or alike: cork and rubber both seal it, and its outline is in no column.
std::vector<KindInPlaces> kinds() {
    constexpr auto may = StandIns::may_be_offered;
    return {
        {"pan-filter", "gearbox filter in the pan", may, {{"pan-filter", "pan filter"}}, "each", filter_decided()},
        {"in-line-filter", "filter in the cooler line", may, {{"in-line-filter", "in-line filter"}}},
        {"neck-seal", "filter-neck seal", may, {{"filter-neck-seal", "filter-neck seal"}}, "each", seal_decided()},
        {"pan-gasket", "pan gasket", may, {{"pan-gasket", "pan gasket"}}},
        {"pan", "gearbox pan", may, {{"pan", "pan"}}, "each", pan_decided()},
        {"pan-bolt", "pan bolt", may, {{"pan-bolts", "pan bolts"}}},
        {"pan-magnet", "pan magnet", may, {{"pan-magnet", "pan magnet"}}},
        {"drain-plug", "drain plug", may, {{"drain-plug", "drain plug"}}},
        {"plug-washer",
         "plug washer",
         may,
         {{"drain-plug-washer", "drain-plug washer"}, {"level-plug-washer", "level-plug washer"}},
         "each",
         washer_decided()},
        {"shaft-seal",
         "shaft seal",
         may,
         {{"selector-shaft-seal", "selector-shaft seal"}, {"output-shaft-seal", "output-shaft seal"}},
         "each",
         seal_decided()},
        {"connector-seal",
         "case connector seal",
         may,
         {{"case-connector-seal", "case-connector seal"}},
         "each",
         ring_decided()},
        {"tube-seal",
         "tube seal",
         may,
         {{"cooler-line-seal", "cooler-line seal"}, {"dipstick-tube-seal", "dipstick-tube seal"}},
         "each",
         ring_decided()},
        {"line-clip", "cooler-line clip", may, {{"cooler-line-clip", "cooler-line clip"}}},
    };
}

}  // namespace

Vocabulary vocabulary() {
    return vocabulary_of(together({pan(), filter_and_neck(), as_findings(observations()), as_findings(of_a_drip())}),
                         kinds());
}

}  // namespace casebound::filters_seals
