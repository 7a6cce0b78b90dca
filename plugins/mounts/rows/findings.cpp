#include "rows/findings.h"

#include <algorithm>

#include "core/contract/answer_lines.h"
#include "core/contract/false_leads.h"
#include "core/contract/told_trouble.h"
#include "rows/vocabulary.h"
#include "science/vibration.h"

namespace casebound::mounts {
namespace {

const std::vector<TroubleWords>& trouble_words() {
    static const std::vector<TroubleWords> words{
        {"mount_leak", {"left", "right", "both"}, "fluid at an engine mount"},
        {"idle_shake", {"in_gear", "in_neutral", "always"}, "shake at idle"},
        {"misfire", {"yes"}, "misfire"},
        {"idle_against_maker", {"low"}, "idle against the maker's figure"},
        {"exhaust_touches", {"yes"}, "exhaust touches the body"},
        {"driveline_play", {"yes"}, "play in a drive shaft or its joint"},
        {"shift_clunk", {"yes"}, "clunk from drive to reverse"},
        {"mount_rubber", {"cracked", "separated", "split"}, "mount rubber"},
    };
    return words;
}

bool told_bad(const Services& services, std::string_view attribute) {
    const auto troubles = told_trouble(services, trouble_words());
    return std::any_of(troubles.begin(), troubles.end(),
                       [&](const Trouble& one) { return one.attribute == attribute; });
}

// The lowest idle of the rows that may hold; nothing when none is recorded.
std::optional<double> least_idle_rpm(const Services& services) {
    std::optional<double> least;
    for (const auto& row : rows_here(services, "mounts_loads"))
        if (const auto rpm = row->number("idle_rpm")) least = std::min(least.value_or(*rpm), *rpm);
    return least;
}

// As far below the maker's idle a reading may still be the same: the tolerance of its attribute, common practice.
constexpr double idle_tolerance_rpm = 20;

// A measured idle against the recorded one. Between right and low the person says it by the maker's own window.
std::optional<LeadStanding> idle_standing(const Services& services, const Row& row) {
    if (row.text("rival_condition") != "idle_against_maker=low") return std::nullopt;
    const auto idle = told_of(services.vehicle, "idle_speed");
    const auto least_rpm = least_idle_rpm(services);
    if (!idle || !idle->number || !least_rpm) return std::nullopt;
    if (idle_is_low(*idle->number, *least_rpm)) return LeadStanding::shown;
    const bool right = *idle->number >= *least_rpm - idle_tolerance_rpm && !is_hearsay(idle->evidence);
    return right ? std::optional(LeadStanding::ruled_out) : std::nullopt;
}

const std::vector<std::string>& engine_mounts() {
    static const std::vector<std::string> roles{"engine-mount-left", "engine-mount-right", "engine-mount-front",
                                                "engine-mount-rear"};
    return roles;
}

// Rubber that is sound, and no fluid seen at a mount: what was looked at speaks against every mount of the engine.
std::optional<Hold> hold_for_sound_ones(const Services& services) {
    const auto rubber = told_of(services.vehicle, "mount_rubber"), leak = told_of(services.vehicle, "mount_leak");
    if (!rubber || rubber->text != "sound") return std::nullopt;
    Hold hold{engine_mounts(),
              {},
              leak ? "the rubber of the mounts is sound and no fluid is seen at one"
                   : "the rubber of the mounts is sound, and nobody has looked for fluid at them",
              leak ? fed_with(rubber->source(), leak->source()) : rubber->source(),
              leak ? "lever each mount gently once more, watch for a gap, and look elsewhere first"
                   : "look for black wet streaks under each mount",
              {"mount_leak"}};
    if (leak) hold.attributes.insert(hold.attributes.begin(), "mount_rubber");
    return hold;
}

}  // namespace

std::vector<FalseLead> leads_told(const Services& services) {
    return false_leads(services, known_words<vocabulary>(), idle_standing);
}

Findings findings(const Services& services) {
    return {told_trouble(services, trouble_words()), lead_cautions(leads_told(services))};
}

std::vector<Imitator> imitators_told(const Services& services) {
    std::vector<Imitator> all;
    if (const auto misfire = told_of(services.vehicle, "misfire"); misfire && misfire->text == "yes")
        all.push_back({"misfire", "a misfire is told", misfire->source()});
    const auto idle = told_of(services.vehicle, "idle_speed");
    const auto least_rpm = least_idle_rpm(services);
    if (idle && idle->number && least_rpm && idle_is_low(*idle->number, *least_rpm))
        all.push_back(
            {"idle_speed",
             "an idle of " + fixed(*idle->number, 0) + " rpm is told, the maker's is " + fixed(*least_rpm, 0) + " rpm",
             weaker(idle->source(), {Evidence::memory, "50 rpm below the maker's is low, from memory"})});
    return all;
}

std::vector<Hold> holds(const Services& services) {
    if (told_bad(services, "mount_rubber")) return {};  // of which mount is not said
    if (told_bad(services, "mount_leak")) return lead_holds(services, leads_told(services), engine_mounts());
    std::vector<Hold> holds;
    for (const auto& imitator : imitators_told(services))
        holds.push_back({engine_mounts(),
                         {},
                         imitator.text + ": it shakes like a bad mount, and nothing seen speaks for a mount",
                         imitator.source,
                         "correct it first, or look for wet streaks and torn rubber at the mounts",
                         {imitator.attribute, "mount_leak", "mount_rubber"}});
    if (holds.empty()) holds = lead_holds(services, leads_told(services));
    if (auto sound = hold_for_sound_ones(services)) holds.push_back(std::move(*sound));
    return holds;
}

}  // namespace casebound::mounts
