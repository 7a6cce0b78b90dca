#include "rows/findings.h"

#include <algorithm>

#include "core/contract/answer_lines.h"
#include "core/contract/false_leads.h"
#include "core/contract/told_trouble.h"
#include "rows/vocabulary.h"

namespace casebound::service_fluids {
namespace {

// Seen for sure, or one of what it may be.
bool may_show(const std::optional<Told>& told, std::string_view value) {
    if (!told) return false;
    for (const auto& one : told->alternatives())
        for (const auto& seen : split_at(one, '+'))
            if (seen == value) return true;
    return false;
}

// Tested by the person at the vehicle, not before the finding was told.
bool sound_since(const std::optional<Told>& test, const std::optional<Told>& finding) {
    const bool good = test && (test->text == "tight" || test->text == "mended");
    return good && !is_hearsay(test->evidence) && (!finding || test->date >= finding->date);
}

Hold hold_on(std::vector<std::string> roles, std::string reason, const std::optional<Told>& told, std::string until,
             std::vector<std::string> attributes) {
    Hold hold;
    hold.roles = std::move(roles);
    hold.reason = std::move(reason);
    hold.source = told ? fed_with(practice(), told->source()) : practice();
    hold.until = std::move(until);
    hold.attributes = std::move(attributes);
    return hold;
}

constexpr const char* test_it =
    "put pressure on the cold circuit, find where it goes, mend it, and tell the pressure "
    "test";

}  // namespace

Findings findings(const Services& services) {
    return {told_trouble(services, {{"engine_oil_look", {"milky", "fuel_smell", "metal_glitter"}, "engine oil"},
                                    {"engine_oil_level", {"low", "high"}, "engine oil level"},
                                    {"coolant_look", {"rusty", "oily", "gel", "cloudy"}, "coolant"},
                                    {"coolant_level", {"low"}, "coolant level"},
                                    {"cooling_pressure_test", {"leaks"}, "cooling circuit"}}),
            lead_cautions(false_leads(services, known_words<vocabulary>()))};
}

std::vector<Hold> holds(const Services& services) {
    std::vector<Hold> all;
    const auto oil = told_of(services.vehicle, "engine_oil_look"), coolant = told_of(services.vehicle, "coolant_look");
    const auto level = told_of(services.vehicle, "coolant_level");
    const auto test = told_of(services.vehicle, "cooling_pressure_test");
    const auto drip = told_of(services.vehicle, "drip_fluid");  // a word of another domain
    if (may_show(oil, "milky") && !sound_since(test, oil))
        all.push_back(hold_on({"engine-oil", "engine-oil-filter"},
                              "the engine oil is milky, and coolant in it would spoil fresh oil too", oil, test_it,
                              {"cooling_pressure_test", "engine_oil_look"}));
    if (may_show(coolant, "oily") && !sound_since(test, coolant))
        all.push_back(hold_on({"coolant"}, "there is oil in the coolant, and it would spoil fresh coolant too", coolant,
                              test_it, {"cooling_pressure_test", "coolant_look"}));
    if (may_show(test, "leaks"))
        all.push_back(hold_on({"coolant"}, "the circuit loses pressure, and fresh coolant would go the same way", test,
                              test_it, {"cooling_pressure_test"}));
    else if (may_show(level, "low") && !sound_since(test, level))
        all.push_back(hold_on({"coolant"}, "coolant is missing, and nobody has said where it went", level, test_it,
                              {"cooling_pressure_test", "coolant_level"}));
    else if (may_show(drip, "coolant") && !sound_since(test, drip))
        all.push_back(hold_on({"coolant"}, "coolant drips, and fresh coolant would go the same way", drip, test_it,
                              {"cooling_pressure_test"}));
    return all;
}

}  // namespace casebound::service_fluids
