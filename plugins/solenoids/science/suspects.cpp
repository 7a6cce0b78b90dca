#include "science/suspects.h"

#include <algorithm>

#include "core/contract/valid_range.h"

namespace casebound::solenoids {
namespace {

constexpr std::array<std::string_view, 3> words{"unlikely", "possible", "likely"};

// Order of all_causes: coil, feed, plate, valve, clutch, controller, fluid.
constexpr std::array<double, all_causes.size()> priors{.30, .15, .10, .15, .15, .10, .05};
constexpr std::array<CodeChances, all_causes.size()> code_chances{{{.80, .05, .08, .05, .02},
                                                                   {.12, .80, .02, .02, .04},
                                                                   {.12, .80, .02, .02, .04},
                                                                   {.02, .03, .60, .25, .10},
                                                                   {.02, .05, .18, .65, .10},
                                                                   {.25, .30, .10, .20, .15},
                                                                   {.02, .03, .30, .35, .30}}};
constexpr double wire_share = 0.11;     // of plate faults: one wire or track, not several at once
constexpr double in_part_share = 0.40;  // of held valves: in the solenoid itself

double prior(Cause cause) { return priors.at(static_cast<std::size_t>(cause)); }

struct Builder {
    const GearboxFamily& family;
    std::vector<Suspect> all{};

    bool selects_gears(const std::string& element) const {
        const auto& elements = family.table.elements;
        return std::find(elements.begin(), elements.end(), element) != elements.end();
    }
    bool friction() const { return family.table.kind == TableKind::friction_elements; }

    // What the gearbox does with an element that has no current.
    std::optional<Fault> without_current(const std::string& name) const {
        if (!selects_gears(name)) return std::nullopt;
        const auto* element = family.element(name);
        const bool applied_at_rest = friction() && element != nullptr && element->rest == "high_pressure";
        return Fault{applied_at_rest ? FaultKind::stuck_on : FaultKind::stuck_off, name};
    }
    std::optional<Fault> held(FaultKind kind, const std::string& name) const {
        return selects_gears(name) ? std::optional(Fault{kind, name}) : std::nullopt;
    }
    std::string in_words(FaultKind kind, const std::string& name) const {
        return fault_text(family.table, {kind, name});
    }

    void add(Cause cause, std::string element, std::optional<Fault> fault, double weight, std::string label) {
        all.push_back({cause, std::move(element), std::move(fault), false, false, weight, std::move(label)});
    }

    void add_electrical(const std::vector<std::string>& names) {
        const double share = 1.0 / static_cast<double>(names.size());
        for (const auto& name : names) {
            add(Cause::coil, name, without_current(name), prior(Cause::coil) * share, "coil of " + name);
            all.back().in_part = true;
            add(Cause::internal_plate, name, without_current(name), prior(Cause::internal_plate) * wire_share * share,
                "internal wire or track of " + name);
        }
        add(Cause::internal_plate, "", all_off(), prior(Cause::internal_plate) * (1 - wire_share),
            "internal harness or plate");
        all.back().several = true;
    }

    // A node that takes every gear-selecting element away, when there is one; then the plate does the same.
    std::optional<Fault> all_off() const {
        for (const auto& node : family.table.nodes)
            if (node.elements.size() == family.table.elements.size()) return Fault{FaultKind::node_lost, node.name};
        return std::nullopt;
    }

    void add_nodes() {
        const double share = prior(Cause::shared_feed) /
                             static_cast<double>(std::max<std::size_t>(1, family.nodes.size()));
        for (const auto& node : family.nodes) {
            const bool known = std::any_of(
                family.table.nodes.begin(), family.table.nodes.end(),
                [&](const SharedNode& one) { return one.name == node.name && !one.elements.empty(); });
            add(Cause::shared_feed, node.name,
                known ? std::optional(Fault{FaultKind::node_lost, node.name}) : std::nullopt, share,
                node.title.empty() ? node.name : node.title);
            all.back().several = node.elements.size() > 1;
        }
        if (!family.nodes.empty()) return;
        add(Cause::shared_feed, common_feed, std::nullopt, share, "shared feed, ground or case connector");
        all.back().several = true;
    }

    void add_held(const std::vector<std::string>& names) {
        const double share = prior(Cause::valve_or_debris) / (2.0 * static_cast<double>(names.size()));
        for (const auto& name : names)
            for (const auto kind : {FaultKind::stuck_off, FaultKind::stuck_on}) {
                const std::string how = in_words(kind, name);
                add(Cause::valve_or_debris, name, held(kind, name), share * in_part_share, how + ": in the solenoid");
                all.back().in_part = true;
                add(Cause::valve_or_debris, name, held(kind, name), share * (1 - in_part_share),
                    how + ": its valve, or debris");
            }
    }

    void add_clutches() {
        if (!friction() || family.table.elements.empty())
            return add(Cause::clutch_or_seal, "", std::nullopt, prior(Cause::clutch_or_seal), "a clutch or its seal");
        const double share = prior(Cause::clutch_or_seal) / static_cast<double>(family.table.elements.size());
        for (const auto& name : family.table.elements)
            add(Cause::clutch_or_seal, name, Fault{FaultKind::stuck_off, name}, share,
                "clutch " + name + " or its seal");
    }
};

}  // namespace

Word word_for(double share) {
    if (in_range("share", share, 0.0, 1.0) >= 0.5) return Word::likely;
    return share >= 0.1 ? Word::possible : Word::unlikely;
}

std::string_view word(Word word) { return words.at(static_cast<std::size_t>(word)); }

const std::array<double, all_causes.size()>& assumed_priors() { return priors; }
const std::array<CodeChances, all_causes.size()>& assumed_code_chances() { return code_chances; }

std::vector<Suspect> suspects(const GearboxFamily& family) {
    Builder builder{family};
    const auto names = family.element_names();
    if (!names.empty()) {
        builder.add_electrical(names);
        builder.add_held(names);
    }
    builder.add_nodes();
    builder.add_clutches();
    builder.add(Cause::controller, "", std::nullopt, prior(Cause::controller), "controller, or a sensor it believes");
    builder.add(Cause::fluid, "", std::nullopt, prior(Cause::fluid), "fluid level or condition, or a blocked filter");
    return std::move(builder.all);
}

}  // namespace casebound::solenoids
