// Over every inquiry of transmission fluids: what is left out never makes an answer firm. Fluids and prices are invented.
#include <catch2/catch.hpp>

#include "tests/firmness.h"
#include "tests/linked_domain.h"

using namespace casebound;
using namespace casebound::tests;

TEST_CASE("in every inquiry on fluids, leaving an input out never makes a firm answer that it would decide") {
    FakeFacts facts;
    facts.table("transmission_fluids_specs",
                "group_key,gearbox_kind,owner,issued,kv40_mm2_s,kv100_mm2_s,jaso_class,sae_j306_grade,base\n"
                "PL-1,planetary_automatic,Owner A,2001,34,7.1,,,\n",
                Evidence::maker);
    facts.table("items", "item,kind,pack_quantity,withdrawn\nP-1,transmission-fluid,1,\n");
    facts.table("group_members", "group_key,item,basis\nPL-1,P-1,same\n");
    facts.table(
        "transmission_fluids_claims",
        "item,group_key,wording,words,claimed_by,seen\nP-1,PL-1,approved,Approved under PL-1,Owner A,2026-05-01\n");
    FirmnessOf test{instance(), facts};
    test.figures_too = true;
    test.run(
        {{"viscosity-index", {{"kv40", "73.30"}, {"kv100", "8.86"}}},
         {"viscosity",
          {{"kv_cold", "32"},
           {"kv_hot", "5.4"},
           {"offered_kv_cold", "34"},
           {"offered_kv_hot", "5.8"},
           {"temp_cold", "40"},
           {"temp_hot", "100"},
           {"at", "80"}}},
         {"blend", {{"base_kv", "32"}, {"added_kv", "100"}, {"share", "40"}}},
         {"old-fluid", {{"total", "10.2"}, {"drained", "4.7"}, {"changes", "2"}, {"target", "30"}}},
         {"exchange", {{"total", "9"}, {"exchanged", "9"}, {"target", "40"}}},
         {"have-ready",
          {{"job", "drain"},
           {"drained", "4.7"},
           {"changes", "1"},
           {"allowance", "3"},
           {"spill", "0.3"},
           {"attitude", "level"},
           {"sizes", "1, 5"},
           {"prices", "9.5, 38"}}},
         {"have-ready", {{"job", "new_unit"}, {"dry_fill", "9"}, {"cooler", "0.8"}}},
         {"packs", {{"need", "5.14"}, {"sizes", "1, 4, 5, 20"}, {"prices", "9.5, 32, 38, 130"}, {"reserve", "0.25"}}},
         {"level-rise", {{"from", "20"}, {"check_temp", "80"}, {"volume", "9"}, {"area", "0.105"}, {"density", "850"}}},
         {"density", {{"at", "80"}, {"density", "870"}, {"volume", "9"}, {"from", "20"}}},
         {"overfill",
          {{"reading", "5"},
           {"temp", "80"},
           {"check_temp", "80"},
           {"engine_running", "yes"},
           {"vehicle_level", "yes"},
           {"volume", "9"},
           {"area", "0.105"},
           {"density", "850"}}},
         {"tilt-error", {{"ramp", "165"}, {"wheelbase", "2700"}, {"off_centre", "200"}, {"area", "0.105"}}},
         {"service-due",
          {{"interval", "60000"},
           {"interval_age", "60"},
           {"odometer", "100000"},
           {"last_at", "92400"},
           {"last_changed", "2025-03"},
           {"today", "2026-11-25"},
           {"km_per_year", "14000"},
           {"severe", "no"},
           {"severe_factor", "0.6"}}},
         {"service-due",
          {{"interval", "60000"},
           {"interval_age", "60"},
           {"odometer", "131800"},
           {"last_at", "92400"},
           {"last_changed", "2021-03-15"},
           {"today", "2026-11-25"},
           {"km_per_year", "14000"},
           {"severe", "yes"},
           {"severe_factor", "0.6"}}},
         {"fluid-condition", {{"colour", "red"}, {"smell", "none"}, {"clarity", "clear"}, {"feel", "smooth"}}},
         {"claims", {{"fluid", "PL-1"}}},
         {"oil-grade", {{"scale", "j306-2019"}, {"wanted", "75W-90"}, {"kv100", "14.5"}}},
         {"oil-grade", {{"scale", "j300-2015"}, {"kv100", "10"}}}});
    CHECK(test.faults == std::vector<std::string>{});
    CHECK(test.too_wide == std::set<std::string>{});
    CHECK(test.not_asked() == std::set<std::string>{});
    CHECK(test.never_firm() ==
          std::set<std::string>{"blend", "viscosity"});  // an estimate; viscosity is never sufficient
    CHECK(test.hinged == std::set<std::string>{});
}
