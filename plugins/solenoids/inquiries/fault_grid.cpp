#include "inquiries/fault_grid.h"

namespace casebound::solenoids {
namespace {

std::vector<std::string> gear_names(const ApplyTable& table) {
    std::vector<std::string> names;
    for (const auto& gear : table.gears) names.push_back(gear.name);
    return names;
}

std::string title_of(const GearboxFamily& family, const GearboxState& gearbox) {
    const bool friction = family.table.kind == TableKind::friction_elements;
    return family.title + ": elements that are on, and the gears each single fault gives" +
           (friction ? " (slips: or no drive)" : "") + ", " + phase_words(gearbox.phase) +
           (gearbox.lever.empty() ? "" : ", lever " + gearbox.lever);
}

// Short enough for seven gears on a page.
std::string cell_text(const Prediction& prediction) {
    const auto text = outcome_text(prediction);
    return text.rfind("slips", 0) == 0 ? "slips" : text == "between gears" ? "between" : text;
}

std::vector<std::string> in_words(const GearboxFamily& family, const std::vector<Observation>& observations,
                                  Agreement wanted) {
    std::vector<std::string> texts;
    for (const auto& one : explain(family.table, observations))
        if (one.agreement == wanted) texts.push_back(fault_text(family.table, one.fault));
    return texts;
}

}  // namespace

const char* phase_words(Phase phase) {
    switch (phase) {
        case Phase::before_fail_safe: return "before fail-safe";
        case Phase::in_fail_safe: return "in fail-safe";
        case Phase::not_told: break;
    }
    return "before or in fail-safe, not told";
}

std::vector<std::string> agreeing_faults(const GearboxFamily& family, const std::vector<Observation>& observations) {
    return in_words(family, observations, Agreement::agrees);
}

std::vector<std::string> open_faults(const GearboxFamily& family, const std::vector<Observation>& observations) {
    return in_words(family, observations, Agreement::cannot_tell);
}

Grid fault_grid(const GearboxFamily& family, const GearboxState& gearbox,
                const std::vector<Observation>& observations) {
    const auto& table = family.table;
    Grid grid{title_of(family, gearbox), {"commanded"}, {}, {}};
    const auto gears = gear_names(table);
    auto seen = observations;  // met with what the grid shows
    for (auto& one : seen) one.gearbox = gearbox;
    grid.columns.insert(grid.columns.end(), gears.begin(), gears.end());
    for (std::size_t e = 0; e < table.elements.size(); ++e) {
        std::vector<std::string> row{table.elements[e]};
        for (const auto& gear : table.gears) row.emplace_back(gear.required[e] ? "on" : "off");
        grid.rows.push_back(std::move(row));
    }
    for (const auto& pattern : patterns(table, single_faults(table), gears, gearbox)) {
        std::vector<std::string> row{fault_text(table, pattern.fault)};
        for (const auto& one : pattern.obtained) row.push_back(cell_text(one));
        if (!seen.empty() && agreement(table, pattern.fault, seen) == Agreement::agrees)
            grid.marked_rows.push_back(grid.rows.size());
        grid.rows.push_back(std::move(row));
    }
    return grid;
}

}  // namespace casebound::solenoids
