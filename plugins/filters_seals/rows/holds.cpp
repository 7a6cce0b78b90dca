// Steel or lining in the pan: whether the gearbox is worth any part at all is open again, so every cure waits, and every
// order of this domain. Debris points; it never condemns a gearbox, so deciding again lifts the hold. And what imitates a
// leak: until it is ruled out, no job that is about a seal or gasket is ordered for; nor is one about a
// place that was told to be dry.
#include <algorithm>
#include <array>

#include "core/contract/answer_lines.h"
#include "core/contract/false_leads.h"
#include "rows/hooks.h"
#include "rows/pack_words.h"
#include "rows/reading.h"

namespace casebound::filters_seals {
namespace {

std::vector<std::string> own_roles() {
    std::vector<std::string> names;
    for (const auto& role : known_words<vocabulary>().roles) names.push_back(role.name);
    return names;
}

Hold hold_for(const StopFinding& found) {
    const std::string next(found.row.look_next);
    return {own_roles(),
            {},
            "in the pan: " + std::string(found.row.found) + ", which reads as " + std::string(found.row.reads_as) +
                "; whether a small repair is enough is open again",
            found.source,
            (next.empty() ? "decide" : next + ", then decide") +
                " again between fix, unit and passing on; once the cause is mended and the pan is clean, tell what "
                "lies in it",
            {"pan_debris"},
            true,
            found.row.steps};
}

// A gasket that is seen to be damaged is renewed, whatever drips.
std::vector<std::string> condemned(const Services& services) {
    const auto gasket = told_of(services.vehicle, "old_gasket_state");
    const bool damaged = gasket && gasket->text == "damaged" && !is_hearsay(gasket->evidence);
    return damaged ? std::vector<std::string>{"pan-gasket"} : std::vector<std::string>{};
}

struct Leak {
    const char *role, *place;  // the place as it is told
};
constexpr std::array<Leak, 4> leaks{{{"selector-shaft-seal", "selector_shaft"},
                                     {"output-shaft-seal", "output_shaft"},
                                     {"case-connector-seal", "case_connector"},
                                     {"cooler-line-seal", "cooler_line"}}};

// Wet places were told, and not this one: for a job that is about its seal nothing is ordered. Told as alternatives it
// may be this one. The gasket of the pan is renewed whenever the pan is off, and does not wait.
std::vector<Hold> holds_of_dry_places(const Services& services) {
    const auto told = told_of(services.vehicle, "leak_at");
    if (!told || told->alternatives().size() > 1) return {};
    const auto wet = told->seen();
    std::vector<Hold> holds;
    for (const auto& leak : leaks) {
        auto jobs = jobs_about(services.facts, leak.role);
        if (jobs.empty() || std::find(wet.begin(), wet.end(), leak.place) != wet.end()) continue;
        holds.push_back({{leak.role},
                         std::move(jobs),
                         told->text == "dry" ? "it was looked at, and no place is wet"
                                             : "what is told to be wet is another place than this",
                         with_told(practice(), *told),
                         "clean, drive, look from the highest wet place down, and tell where it is wet",
                         {"leak_at"}});
    }
    return holds;
}

}  // namespace

std::vector<StopFinding> stop_findings(const Services& services) {
    const auto told = told_of(services.vehicle, "pan_debris");
    if (!told) return {};
    const auto recorded = debris_rows(services.facts.rows("filters_seals_debris"));
    std::vector<StopFinding> found;
    for (const auto& seen : told->seen()) {
        const auto debris = debris_from(seen);
        if (!debris || !debris_as_recorded(*debris, recorded).stop_and_decide) continue;
        const DebrisRow& row = debris_as_recorded(*debris, recorded);
        found.push_back({row, with_told(note(row.reading_source), *told)});
    }
    return found;
}

std::vector<Hold> holds(const Services& services) {
    std::vector<Hold> holds;
    for (const auto& found : stop_findings(services)) holds.push_back(hold_for(found));
    for (auto& hold : lead_holds(services, false_leads(services, known_words<vocabulary>()), condemned(services)))
        holds.push_back(std::move(hold));
    for (auto& hold : holds_of_dry_places(services)) holds.push_back(std::move(hold));
    return holds;
}

}  // namespace casebound::filters_seals
