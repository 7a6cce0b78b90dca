// Over every inquiry of filters_seals: what is left out never makes an answer firm. Parts and numbers are invented.
#include <catch2/catch.hpp>

#include "tests/filters_seals/parts.h"
#include "tests/firmness.h"
#include "tests/linked_domain.h"

using namespace casebound;
using namespace casebound::tests;

TEST_CASE(
    "in every inquiry on filters and seals, leaving an input out never makes a firm answer that it would decide") {
    const auto facts = parts();
    FirmnessOf test{instance(), facts};
    test.own_question = {
        {"press-fit nominal",
         "the whole millimetre whose H8 holds the bore is taken, and said; where none does it asks"},
        {"rubber-and-fluid volume_change", "found on the old seal: nobody has to measure it"},
        {"gasket-reuse reusable", "a rigid carrier is reusable by design, by a trade bulletin"},
        {"gasket-reuse sealant_meant", "nobody has to mean any"},
        {"pan-bolt diameter", "whether the torque is sensible is a question of its own"},
        {"pan-bolt data_allow_reuse", "the rule is a new bolt until the data say otherwise, and says so"}};
    test.run(
        {{"filter-stack",
          {{"pan_depth", "38"},
           {"filter_height", "33"},
           {"neck_length", "38"},
           {"depth_to_seal", "12"},
           {"old_seal", "0"},
           {"needed_reach", "20"},
           {"old_pan_depth", "38"},
           {"old_filter_height", "33"},
           {"margin", "5"},
           {"off_by", "0.5"}}},
         {"filter-stack",
          {{"pan_depth", "38"},
           {"filter_height", "52"},
           {"neck_length", "38"},
           {"depth_to_seal", "12"},
           {"old_seal", "0"}}},
         {"pan-filter-seal", {{"filter", "filter-33"}, {"pan", "pan-38"}, {"seal", "seal-hat"}, {"bore", "30"}}},
         {"seal-count",
          {{"bores", "1"}, {"on_old_filter", "0"}, {"found_in_bore", "1"}, {"taken_from_bore", "1"}, {"put_in", "1"}}},
         {"neck-seal", {{"form", "hat_in_bore"}}},
         {"stays-behind", {{"role", "filter-neck-seal"}}},
         {"seal-in-hand", {{"id", "25"}, {"od", "32"}, {"height", "7"}, {"form", "lip"}}},
         {"oring-size", {{"number", "214"}}},
         {"oring-gland",
          {{"id", "24.99"},
           {"id_off_by", "0.1"},
           {"section", "3.53"},
           {"section_off_by", "0.05"},
           {"inner", "25.6"},
           {"outer", "31.4"},
           {"width", "4.8"},
           {"off_by", "0.02"},
           {"use", "static_radial"},
           {"section_loss", "none"}}},
         {"oring-gland",
          {{"id", "24.99"}, {"section", "3.53"}, {"inner", "25"}, {"outer", "32.2"}, {"section_loss", "none"}}},
         {"press-fit",
          {{"bore", "50"},
           {"nominal", "50"},
           {"seal_od", "50.22"},
           {"cased", "rubber"},
           {"width", "8"},
           {"shaft", "30"},
           {"off_by", "0.02"}}},
         {"hat-seal", {{"seal_od", "30.25"}, {"bore", "30"}, {"neck", "22"}, {"lip_id", "21.2"}, {"off_by", "0.02"}}},
         {"hat-seal", {{"seal_od", "29.5"}, {"bore", "30"}, {"neck", "22"}, {"lip_id", "21.2"}}},
         {"rubber-and-fluid",
          {{"rubber", "NBR"},
           {"fluid", "mineral_oil_atf"},
           {"coldest", "-10"},
           {"hottest", "90"},
           {"volume_change", "2"}}},
         {"rubber-and-fluid",
          {{"rubber", "EPDM"}, {"fluid", "mineral_oil_atf"}, {"coldest", "-10"}, {"hottest", "90"}}},
         {"rubber-ranking", {{"fluid", "mineral_oil_atf"}}},
         {"gasket-and-flange", {{"material", "cork_rubber"}, {"flange", "flat"}, {"named_for_this_pan", "yes"}}},
         {"gasket-reuse",
          {{"material", "rigid_carrier"},
           {"reusable", "by_design"},
           {"old_state", "sound"},
           {"design_sealant", "none"},
           {"sealant_meant", "none"}}},
         {"pan-debris", {{"found", "steel_pieces"}, {"prior", "50"}}},
         {"pan-bolt",
          {{"torque", "9.6 N m"},
           {"diameter", "6"},
           {"pitch", "1"},
           {"tightening", "5 N m + 60 deg"},
           {"loosened", "yes"},
           {"data_allow_reuse", "yes"},
           {"nut_factor", "0.2"}}}});
    CHECK(test.faults == std::vector<std::string>{});
    CHECK(test.too_wide == std::set<std::string>{});
    CHECK(test.not_asked() == std::set<std::string>{});
    // neck-seal, oring-size and rubber-ranking compute and judge nothing.
    CHECK(test.never_firm() == std::set<std::string>{"neck-seal", "oring-size", "pan-debris", "pan-filter-seal",
                                                     "rubber-ranking", "seal-in-hand", "stays-behind"});
    CHECK(test.hinged.size() == test.own_question.size());
}
