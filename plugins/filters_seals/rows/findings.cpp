#include "core/contract/false_leads.h"
#include "core/contract/told_trouble.h"
#include "rows/hooks.h"

namespace casebound::filters_seals {

Findings findings(const Services& services) {
    Findings findings{
        told_trouble(services, {{"pan_debris",
                                 {"grey_paste_thick", "brass_flakes", "steel_pieces", "black_flakes",
                                  "aluminium_glitter", "varnish_film", "plastic_bits", "sealant_strings"},
                                 "what lies in the pan"},
                                {"leak_at",
                                 {"pan_rail", "drain_plug", "selector_shaft", "case_connector", "cooler_line",
                                  "dipstick_tube", "output_shaft"},
                                 "wet at"},
                                {"drip_fluid", {"gearbox_fluid", "engine_oil", "coolant"}, "what drips"},
                                {"wet_after_wash", {"from_above", "same_place"}, "wet again after washing"},
                                {"old_gasket_state", {"damaged"}, "old gasket"}}),
        lead_cautions(false_leads(services, known_words<vocabulary>()))};
    if (const auto told = told_of(services.vehicle, "seals_in_bore"); told && told->number.value_or(0) > 1)
        findings.troubles.push_back({told->attribute, "seals found up the bore",
                                     told->text + ", stacked: an old one was left in", told->source()});
    return findings;
}

}  // namespace casebound::filters_seals
