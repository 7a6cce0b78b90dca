// An invented shelf of fluids and a line of vehicles, and a short way to ask the domain about them.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "tests/fakes.h"
#include "tests/linked_domain.h"

namespace casebound::tests {

using Inputs = std::vector<std::pair<std::string, std::string>>;

inline FakeFacts shelf() {
    FakeFacts facts;
    facts.table("transmission_fluids_specs",
                "group_key,gearbox_kind,owner,issued,kv40_mm2_s,kv100_mm2_s,jaso_class,sae_j306_grade,base\n"
                "PL-1,planetary_automatic,Owner A,2001,34,7.1,1-A13,,\n"
                "PL-LV,planetary_automatic,Owner A,2008,29.6,5.9,1-A-LV13,,\n"
                "CV-1,belt_cvt,Owner B,2010,34,7.1,,,\n",
                Evidence::maker);
    facts.table("items",
                "item,kind,pack_quantity,withdrawn\nP-1,transmission-fluid,1,\nP-4,transmission-fluid,4,\nP-9,"
                "transmission-fluid,9,no longer made\nALL-1,transmission-fluid,1,\n");
    facts.table("group_members",
                "group_key,item,basis\nPL-1,P-1,same\nPL-1,P-4,same\nPL-1,P-9,same\nPL-LV,ALL-1,claimed\n");
    facts.table("transmission_fluids_claims",
                "item,group_key,wording,words,claimed_by,seen\n"
                "P-1,PL-1,approved,Approved under PL-1,Owner A,2026-05-01\n"
                "ALL-1,PL-1,suitable_for,Suitable for use in place of PL-1,Seller C,2026-05-02\n");
    facts.table("transmission_fluids_products", "item,kv40_mm2_s,kv100_mm2_s,density_15c_kg_m3\nP-1,33,7.0,870\n");
    facts.table("transmission_fluids_fills",
                "line,condition,service_refill_l,pan_filter_refill_l,total_l,dry_fill_l,cooler_l,reuse_clean\n"
                "test-line,pan_depth=38mm,4.7,5.0,10.2,9.4,0.8,no\n"
                "test-line,pan_depth=58mm,5.6,6.0,11.4,10.2,1.2,yes\n");
    facts.table("transmission_fluids_levels",
                "line,condition,method,low_temp_c,high_temp_c,engine_running,attitude,free_area_m2,off_centre_mm\n"
                "test-line,,dipstick_hot,70,80,yes,level,0.105,200\n");
    facts.table("transmission_fluids_intervals",
                "line,condition,interval_km,interval_months,severe_factor,words\ntest-line,,60000,60,0.6,every 60 "
                "thousand km or five years\n");
    facts.table("transmission_fluids_published",
                "quantity,low,high,unit\ndrained_share_of_total,0.3,0.5,share\ndrained_share_of_total,0.4,0.6,share\n",
                Evidence::common_practice);
    return facts;
}

inline Answer asked(const std::string& inquiry, const Inputs& inputs, const VehicleView* vehicle = nullptr) {
    static const auto facts = shelf();
    return ask(instance(), inquiry, inputs, facts, vehicle);
}

inline FakeVehicle shallow() { return FakeVehicle().may_be("pan_depth", {"38 mm"}); }
inline FakeVehicle either_pan() { return FakeVehicle().may_be("pan_depth", {"38 mm", "58 mm"}); }

}  // namespace casebound::tests
