#include "science/apply_table.h"

#include "core/contract/valid_range.h"

#include <algorithm>
#include <array>
#include <cstddef>
#include <stdexcept>

namespace casebound::solenoids {
namespace {

using States = std::vector<bool>;

constexpr std::array<std::string_view, 6> obtained_words{"gear",  "between gears", "slips or no drive",
                                                         "binds", "not recorded",  "cannot tell"};
constexpr std::array<std::string_view, 4> layer_words{"apply table", "fail-safe", "lever", "published chart"};

bool has_element(const ApplyTable& table, std::string_view name) {
    return std::find(table.elements.begin(), table.elements.end(), name) != table.elements.end();
}

std::size_t element_index(const ApplyTable& table, std::string_view name) {
    const auto at = std::find(table.elements.begin(), table.elements.end(), name);
    if (at == table.elements.end()) refuse("element", name, "the elements of the apply table");
    return static_cast<std::size_t>(at - table.elements.begin());
}

const Gear* find_gear(const ApplyTable& table, std::string_view name) {
    const auto at = std::find_if(table.gears.begin(), table.gears.end(),
                                 [name](const Gear& gear) { return gear.name == name; });
    return at == table.gears.end() ? nullptr : &*at;
}

const Gear& gear_named(const ApplyTable& table, std::string_view name) {
    const Gear* gear = find_gear(table, name);
    if (gear == nullptr) refuse("gear", name, "the gears of the apply table");
    return *gear;
}

const SharedNode* find_node(const ApplyTable& table, std::string_view name) {
    const auto at = std::find_if(table.nodes.begin(), table.nodes.end(),
                                 [name](const SharedNode& node) { return node.name == name; });
    return at == table.nodes.end() ? nullptr : &*at;
}

bool is_known(const ApplyTable& table, const Fault& fault) {
    if (fault.kind == FaultKind::none) return fault.subject.empty();
    if (fault.kind == FaultKind::node_lost) return find_node(table, fault.subject) != nullptr;
    return has_element(table, fault.subject);
}

void force(const ApplyTable& table, const Fault& fault, States& states) {
    if (fault.kind == FaultKind::none) return;
    if (fault.kind != FaultKind::node_lost) {
        states[element_index(table, fault.subject)] = fault.kind == FaultKind::stuck_on;
        return;
    }
    const SharedNode& node = *find_node(table, fault.subject);
    for (const std::string& element : node.elements) states[element_index(table, element)] = node.state_when_lost;
}

// Every element of `few` is in `many` as well.
bool within(const States& few, const States& many) {
    for (std::size_t i = 0; i < few.size(); ++i)
        if (few[i] && !many[i]) return false;
    return true;
}

Obtained without_a_gear(const ApplyTable& table, const States& forced, const Gear& commanded) {
    if (table.kind == TableKind::solenoid_states) return Obtained::between_gears;
    return within(forced, commanded.required) ? Obtained::slips : Obtained::binds;
}

Prediction decode(const ApplyTable& table, const States& forced, const Gear& commanded, Layer layer,
                  const std::string& source) {
    if (forced == commanded.required) return {Obtained::gear, commanded.name, layer, source};
    for (const Gear& gear : table.gears)
        if (gear.range == commanded.range && gear.required == forced) return {Obtained::gear, gear.name, layer, source};
    return {without_a_gear(table, forced, commanded), "", layer, source};
}

const Reaction* reaction_to(const ApplyTable& table, const Fault& fault, const std::optional<CodeClass>& detected) {
    for (const Reaction& reaction : table.reactions) {
        const bool about_fault = !reaction.fault || *reaction.fault == fault;
        const bool about_class = !reaction.detected || reaction.detected == detected;
        if (about_fault && about_class) return &reaction;
    }
    return nullptr;
}

Prediction by_states(const ApplyTable& table, const Fault& fault, const Gear& commanded) {
    States states = commanded.required;
    force(table, fault, states);
    return decode(table, states, commanded, Layer::algebra, "");
}

// A held element stays held whatever the controller substitutes.
Prediction by_reaction(const ApplyTable& table, const Fault& fault, const Gear& commanded,
                       const std::optional<CodeClass>& detected) {
    const Reaction* reaction = reaction_to(table, fault, detected);
    if (reaction == nullptr) return {Obtained::not_recorded, "", Layer::fail_safe, ""};
    States states = commanded.required;
    for (const auto& [element, on] : reaction->substituted) states[element_index(table, element)] = on;
    force(table, fault, states);
    return decode(table, states, commanded, Layer::fail_safe, reaction->source);
}

const ChartRow* chart_row(const ApplyTable& table, const Fault& fault, std::string_view commanded,
                          const GearboxState& gearbox) {
    for (const ChartRow& row : table.chart)
        if (row.fault == fault && row.commanded == commanded && row.phase == gearbox.phase &&
            row.lever == gearbox.lever)
            return &row;
    return nullptr;
}

const LeverRule* lever_rule(const ApplyTable& table, std::string_view commanded, const std::string& lever) {
    for (const LeverRule& rule : table.lever_rules)
        if (rule.lever == lever && (!rule.commanded || *rule.commanded == commanded)) return &rule;
    return nullptr;
}

Prediction predict_told(const ApplyTable& table, const Fault& fault, const Gear& commanded,
                        const GearboxState& gearbox) {
    if (const ChartRow* row = chart_row(table, fault, commanded.name, gearbox))
        return {Obtained::gear, row->obtained, Layer::chart, row->source};
    if (const LeverRule* rule = lever_rule(table, commanded.name, gearbox.lever))
        return {Obtained::gear, rule->obtained, Layer::lever, rule->source};
    if (gearbox.phase == Phase::in_fail_safe) return by_reaction(table, fault, commanded, gearbox.detected);
    return by_states(table, fault, commanded);
}

void check_gears(const ApplyTable& table, std::vector<std::string>& faults) {
    for (std::size_t i = 0; i < table.gears.size(); ++i) {
        const Gear& gear = table.gears[i];
        if (gear.required.size() != table.elements.size())
            faults.push_back("gear " + gear.name + ": got " + std::to_string(gear.required.size()) +
                             " states: the table has " + std::to_string(table.elements.size()) + " elements");
        for (std::size_t j = 0; j < i; ++j) {
            const Gear& other = table.gears[j];
            if (gear.name == other.name) faults.push_back("gear " + gear.name + ": given twice");
            if (gear.range == other.range && gear.required == other.required)
                faults.push_back("gears " + other.name + " and " + gear.name + ": same states in one range");
        }
    }
}

void check_element(const ApplyTable& table, const std::string& where, const std::string& element,
                   std::vector<std::string>& faults) {
    if (!has_element(table, element)) faults.push_back(where + ": unknown element " + element);
}

void check_gear(const ApplyTable& table, const std::string& where, const std::string& gear,
                std::vector<std::string>& faults) {
    if (find_gear(table, gear) == nullptr) faults.push_back(where + ": unknown gear " + gear);
}

void check_elements(const ApplyTable& table, std::vector<std::string>& faults) {
    for (auto at = table.elements.begin(); at != table.elements.end(); ++at)
        if (std::find(table.elements.begin(), at, *at) != at) faults.push_back("element " + *at + ": given twice");
    for (const SharedNode& node : table.nodes)
        for (const std::string& element : node.elements) check_element(table, "node " + node.name, element, faults);
}

void check_rows(const ApplyTable& table, std::vector<std::string>& faults) {
    for (const Reaction& reaction : table.reactions) {
        if (reaction.fault && !is_known(table, *reaction.fault))
            faults.push_back("fail-safe reaction: unknown subject " + reaction.fault->subject);
        for (const auto& substituted : reaction.substituted)
            check_element(table, "fail-safe reaction", substituted.first, faults);
    }
    for (const LeverRule& rule : table.lever_rules) {
        if (rule.lever.empty()) faults.emplace_back("lever rule: no lever given");
        check_gear(table, "lever " + rule.lever, rule.obtained, faults);
        if (rule.commanded) check_gear(table, "lever " + rule.lever, *rule.commanded, faults);
    }
    for (const ChartRow& row : table.chart) {
        if (row.phase == Phase::not_told) faults.emplace_back("failure chart: say before or in fail-safe");
        if (!is_known(table, row.fault)) faults.push_back("failure chart: unknown subject " + row.fault.subject);
        check_gear(table, "failure chart", row.commanded, faults);
        check_gear(table, "failure chart", row.obtained, faults);
    }
}

void require_sound(const ApplyTable& table) {
    const auto faults = table_faults(table);
    if (!faults.empty()) refuse("apply table " + table.family, faults.front(), "a sound table");
}

}  // namespace

std::vector<std::string> table_faults(const ApplyTable& table) {
    std::vector<std::string> faults;
    if (table.elements.empty()) faults.emplace_back("no element given");
    if (table.gears.empty()) faults.emplace_back("no gear given");
    check_elements(table, faults);
    check_gears(table, faults);
    check_rows(table, faults);
    return faults;
}

std::string_view word(Obtained obtained) { return obtained_words.at(static_cast<std::size_t>(obtained)); }

std::string_view word(Layer layer) { return layer_words.at(static_cast<std::size_t>(layer)); }

bool same_outcome(const Prediction& a, const Prediction& b) { return a.obtained == b.obtained && a.gear == b.gear; }

std::string outcome_text(const Prediction& prediction) {
    if (prediction.obtained == Obtained::gear) return prediction.gear;
    return std::string(word(prediction.obtained));
}

Prediction predict(const ApplyTable& table, const Fault& fault, std::string_view commanded,
                   const GearboxState& gearbox) {
    require_sound(table);
    if (!is_known(table, fault)) refuse("fault subject", fault.subject, "the elements and nodes of the apply table");
    const Gear& gear = gear_named(table, commanded);
    if (gearbox.phase != Phase::not_told) return predict_told(table, fault, gear, gearbox);
    GearboxState told = gearbox;
    told.phase = Phase::before_fail_safe;
    const Prediction before = predict_told(table, fault, gear, told);
    told.phase = Phase::in_fail_safe;
    const Prediction in = predict_told(table, fault, gear, told);
    if (same_outcome(before, in)) return before;
    return {Obtained::cannot_tell, "", Layer::fail_safe, in.source};
}

std::string fault_text(const ApplyTable& table, const Fault& fault) {
    const bool friction = table.kind == TableKind::friction_elements;
    switch (fault.kind) {
        case FaultKind::stuck_off: return fault.subject + (friction ? " cannot apply" : " held off");
        case FaultKind::stuck_on: return fault.subject + (friction ? " cannot release" : " held on");
        case FaultKind::node_lost: return fault.subject + " lost";
        case FaultKind::none: break;
    }
    return "no element held";
}

std::vector<std::string> gears_left(const ApplyTable& table, std::string_view element) {
    require_sound(table);
    const std::size_t index = element_index(table, element);
    std::vector<std::string> left;
    for (const Gear& gear : table.gears)
        if (!gear.required[index]) left.push_back(gear.name);
    return left;
}

std::vector<std::string> shared_by_exactly(const ApplyTable& table, const std::vector<std::string>& slipping_gears) {
    require_sound(table);
    for (const std::string& name : slipping_gears) gear_named(table, name);
    if (slipping_gears.empty()) return {};
    const auto slips = [&](const Gear& gear) {
        return std::find(slipping_gears.begin(), slipping_gears.end(), gear.name) != slipping_gears.end();
    };
    std::vector<std::string> shared;
    for (std::size_t i = 0; i < table.elements.size(); ++i)
        if (std::all_of(table.gears.begin(), table.gears.end(),
                        [&](const Gear& gear) { return gear.required[i] == slips(gear); }))
            shared.push_back(table.elements[i]);
    return shared;
}

}  // namespace casebound::solenoids
