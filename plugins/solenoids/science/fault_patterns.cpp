#include "science/fault_patterns.h"

#include <algorithm>
#include <utility>

namespace casebound::solenoids {
namespace {

bool same_pattern(const Pattern& a, const Pattern& b) {
    return std::equal(a.obtained.begin(), a.obtained.end(), b.obtained.begin(), b.obtained.end(), same_outcome);
}

bool is_open(Obtained obtained) { return obtained == Obtained::not_recorded || obtained == Obtained::cannot_tell; }

// Nobody knows what states that belong to no gear will do.
Agreement without_a_gear(Obtained predicted, Obtained seen) {
    if (predicted == Obtained::between_gears && seen == Obtained::gear) return Agreement::cannot_tell;
    if (seen == Obtained::gear || predicted == Obtained::gear) return Agreement::contradicts;
    const bool loose = predicted == Obtained::between_gears || seen == Obtained::between_gears;
    return loose || predicted == seen ? Agreement::agrees : Agreement::contradicts;
}

}  // namespace

std::vector<Fault> single_faults(const ApplyTable& table) {
    std::vector<Fault> faults;
    for (const std::string& element : table.elements) {
        faults.push_back({FaultKind::stuck_off, element});
        faults.push_back({FaultKind::stuck_on, element});
    }
    for (const SharedNode& node : table.nodes) faults.push_back({FaultKind::node_lost, node.name});
    return faults;
}

std::vector<Pattern> patterns(const ApplyTable& table, const std::vector<Fault>& faults,
                              const std::vector<std::string>& commanded, const GearboxState& gearbox) {
    std::vector<Pattern> all;
    for (const Fault& fault : faults) {
        Pattern pattern{fault, {}};
        for (const std::string& gear : commanded) pattern.obtained.push_back(predict(table, fault, gear, gearbox));
        all.push_back(std::move(pattern));
    }
    return all;
}

std::vector<std::vector<Fault>> look_alikes(const std::vector<Pattern>& patterns) {
    std::vector<std::pair<const Pattern*, std::vector<Fault>>> groups;
    for (const Pattern& pattern : patterns) {
        const auto at = std::find_if(groups.begin(), groups.end(),
                                     [&](const auto& group) { return same_pattern(*group.first, pattern); });
        if (at == groups.end()) groups.push_back({&pattern, {pattern.fault}});
        else at->second.push_back(pattern.fault);
    }
    std::vector<std::vector<Fault>> faults;
    for (auto& group : groups) faults.push_back(std::move(group.second));
    return faults;
}

Agreement agreement(const ApplyTable& table, const Fault& fault, const Observation& observation) {
    const Prediction predicted = predict(table, fault, observation.commanded, observation.gearbox);
    if (is_open(predicted.obtained) || is_open(observation.obtained)) return Agreement::cannot_tell;
    if (predicted.obtained == Obtained::gear && observation.obtained == Obtained::gear)
        return predicted.gear == observation.gear ? Agreement::agrees : Agreement::contradicts;
    return without_a_gear(predicted.obtained, observation.obtained);
}

Agreement agreement(const ApplyTable& table, const Fault& fault, const std::vector<Observation>& observations) {
    const auto worst_if_untold_in = [&](Phase phase) {
        Agreement worst = Agreement::agrees;
        for (Observation one : observations) {
            if (one.gearbox.phase == Phase::not_told) one.gearbox.phase = phase;
            worst = std::max(worst, agreement(table, fault, one));
        }
        return worst;
    };
    return std::min(worst_if_untold_in(Phase::before_fail_safe), worst_if_untold_in(Phase::in_fail_safe));
}

std::vector<Explanation> explain(const ApplyTable& table, const std::vector<Observation>& observations) {
    std::vector<Fault> faults = single_faults(table);
    faults.push_back({FaultKind::none, ""});
    std::vector<Explanation> explanations;
    for (const Fault& fault : faults) { explanations.push_back({fault, agreement(table, fault, observations)}); }
    std::stable_sort(explanations.begin(), explanations.end(),
                     [](const Explanation& a, const Explanation& b) { return a.agreement < b.agreement; });
    return explanations;
}

}  // namespace casebound::solenoids
