#pragma once
// The gears obtained under every single fault of an apply table, and which
// faults agree with what was driven. It names elements; it never says why an
// element is held, and in fail-safe it admits that faults look alike.

#include "science/apply_table.h"

#include <string>
#include <vector>

namespace casebound::solenoids {

// Each element held off, then on, then each node lost, in table order.
std::vector<Fault> single_faults(const ApplyTable& table);

struct Pattern {
    Fault fault;
    std::vector<Prediction> obtained;  // one per commanded gear
};

std::vector<Pattern> patterns(const ApplyTable& table, const std::vector<Fault>& faults,
                              const std::vector<std::string>& commanded, const GearboxState& gearbox = {});

// Groups of faults that give the same gears: a group of more than one cannot be
// told apart by driving. In order of first member.
std::vector<std::vector<Fault>> look_alikes(const std::vector<Pattern>& patterns);

struct Observation {
    std::string commanded;
    Obtained obtained = Obtained::gear;  // gear, slips, binds or between_gears
    std::string gear;
    GearboxState gearbox;
};

enum class Agreement { agrees, cannot_tell, contradicts };

Agreement agreement(const ApplyTable& table, const Fault& fault, const Observation& observation);

// The worst over all observations. Where nobody said whether they were made before or in fail-safe, they were all
// made in the same state: the better of the two counts.
Agreement agreement(const ApplyTable& table, const Fault& fault, const std::vector<Observation>& observations);

struct Explanation {
    Fault fault;
    Agreement agreement;
};

// Every single fault and "no element held", those that agree first, then those
// that cannot be told, then those contradicted; in table order within each.
std::vector<Explanation> explain(const ApplyTable& table, const std::vector<Observation>& observations);

}  // namespace casebound::solenoids
