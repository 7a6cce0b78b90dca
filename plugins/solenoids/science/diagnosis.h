#pragma once
// The causes of a trouble ranked by core's possibilities engine, summed by cause and by element, with the next test
// by information per minute and what would change each word. It says where to look; it orders and condemns nothing.

#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/contract/services.h"
#include "science/cause_tests.h"

namespace casebound::solenoids {

struct Place {
    std::string label;
    Cause cause;
    double share;
};

// "becomes unlikely if the feed voltage under load holds"
struct Change {
    std::string test, outcome;
    Word word;
};

struct Diagnosis {
    std::vector<Place> places;  // largest share first
    std::map<Cause, double> by_cause;
    std::set<Cause> spoken_for;                    // by something seen; shares from memory alone never say "likely"
    std::map<std::string, double> by_element;      // faults at the element: coil, valve, its own wire or clutch
    std::map<std::string, double> at_solenoid;     // of those: coil and valve
    std::map<std::string, double> in_part;         // of those: what leaves with the solenoid
    std::vector<Ranking::Question> questions;      // best information per minute first
    std::map<Cause, std::vector<Change>> changes;  // for causes that are likely or possible
    std::string contradiction;
    Word said(Cause cause) const;
};

Diagnosis diagnose(const GearboxFamily& family, const Seen& seen, const Reasoner& reasoner, const Vocabulary& words);
// The same without the tests that can still be done.
Diagnosis diagnose_places(const GearboxFamily& family, const Seen& seen, const Reasoner& reasoner,
                          const Vocabulary& words);

// The one name that is likely; nothing when none is.
std::optional<std::string> likely_in(const std::map<std::string, double>& shares);

}  // namespace casebound::solenoids
