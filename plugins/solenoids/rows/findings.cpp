#include "rows/findings.h"

#include <algorithm>

#include "core/contract/false_leads.h"
#include "core/contract/told_trouble.h"
#include "rows/vocabulary.h"

namespace casebound::solenoids {
namespace {

// 1 2 3 ... one after the other, as far as there are gears, and then reverse, is what a sound gearbox gives.
bool in_order(std::string gears) {
    if (gears.size() > 2 && gears.compare(gears.size() - 2, 2, "-R") == 0) gears.resize(gears.size() - 2);
    int expected = 1, gear = 0;
    for (const char c : gears + "-") {
        if (c >= '0' && c <= '9') gear = gear * 10 + (c - '0');
        else if (c != '-' && c != ' ') return false;
        else if (gear != expected++) return false;
        else gear = 0;
    }
    return true;
}

bool is_coil(std::string_view attribute) { return attribute.rfind("coil_", 0) == 0; }

bool speaks_of_trouble(const Told& told) {
    return (told.attribute == "codes" && told.text != "none") ||
           (told.attribute == "slips_in" && told.text != "none") || (is_coil(told.attribute) && told.text == "open") ||
           (told.attribute == "gears_obtained" && !in_order(told.text));
}

std::string words_of(const std::string& attribute) {
    if (is_coil(attribute)) {
        auto words = attribute;
        std::replace(words.begin(), words.end(), '_', ' ');
        return words + ", an open circuit";
    }
    return attribute == "codes"      ? "codes stored"
           : attribute == "slips_in" ? "slips in gear"
                                     : "gears obtained for 1, 2, 3 ...";
}

std::vector<Caution> about_codes(const VehicleView& vehicle) {
    const auto codes = told_of(&vehicle, "codes"), before = told_of(&vehicle, "codes_before_clearing");
    const auto source = before ? before->source() : codes ? codes->source() : SourceNote{};
    std::vector<Caution> cautions;
    for (auto& text : code_cautions(codes.has_value(), codes && codes->text == "none",
                                    before ? std::optional(before->text == "yes") : std::nullopt))
        cautions.push_back({std::move(text), source});
    return cautions;
}

}  // namespace

Findings findings(const Services& services) {
    if (services.vehicle == nullptr) return {};
    Findings found{told_trouble(services,
                                {
                                    {"connector_state", {"wet", "oily", "corroded", "pins_spread"}, "case connector"},
                                    {"feed_fuse", {"blown"}, "fuse of the gearbox controller"},
                                    {"gearbox_noise",
                                     {"whine_with_engine", "whine_with_speed", "rumble", "grind", "buzz"},
                                     "noise of the gearbox"},
                                    {"swap_result", {"moves_with_part"}, "swap of two like solenoids"},
                                    {"fluid_foam", {"yes"}, "bubbles in the fluid"},
                                }),
                   about_codes(*services.vehicle)};
    for (auto& caution : lead_cautions(false_leads(services, known_words<vocabulary>())))
        found.cautions.push_back(std::move(caution));
    for (const auto& told : services.vehicle->told())
        if (speaks_of_trouble(told))
            found.troubles.push_back({told.attribute, words_of(told.attribute), told.text, told.source()});
    return found;
}

std::vector<std::string> code_cautions(bool told, bool none, std::optional<bool> before_clearing) {
    if (before_clearing == false) {
        std::vector<std::string> cautions{
            "codes were cleared before they were read: what they would have said is gone until the fault comes back"};
        if (told && none)
            cautions.emplace_back(
                "no codes after clearing clears nothing: drive until the fault shows, then read again");
        return cautions;
    }
    if (told && !before_clearing)
        return {
            "nobody has said whether the codes were read before clearing: until then they are half a finding "
            "(tell codes before clearing: yes or no)"};
    return {};
}

}  // namespace casebound::solenoids
