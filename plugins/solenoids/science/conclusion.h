#pragma once
// What the evidence comes to for each solenoid: may it be ordered, or what comes first. The one judge of `fault` and of
// orders, so that they cannot differ. A solenoid is released only by evidence for it that somebody here has measured or
// read, and never where the diagnosis says otherwise.

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "science/diagnosis.h"

namespace casebound::solenoids {

enum class Standing : std::uint8_t {
    released,
    stop,              // the gearbox itself breaks up, or water is in it
    shared,            // several circuits at once, or their supply
    feed,              // it falls under load, or its fuse is blown
    connector_bad,     // what was read through it says nothing
    stayed,            // the fault did not move with the part
    harness,           // the coil reads otherwise at its own pins
    disagree,          // gears and readings name different elements
    fluid,             // its level is wrong
    elsewhere,         // nothing seen points at it
    connector_unseen,  // nobody has looked into it
    feed_unseen,       // nobody has loaded it
    undecided,         // nothing seen speaks for the part
    fluid_unseen       // a valve speaks, and nobody knows the level
};

// Where a solenoid stands, in words: why, and what lifts it, imperative.
struct Judgement {
    Standing standing = Standing::undecided;
    std::string reason, until;
    std::vector<std::string> attributes{};  // to find out
    SourceNote source{};
    bool hearsay = false;  // released but for what is only assumed, or told by a seller
    bool released() const { return standing == Standing::released; }
};

// The elements that gears and readings name. Typed: no word of theirs is read.
struct Named {
    std::vector<std::string> by_gears;     // of the single faults that give the gears told
    std::vector<std::string> by_readings;  // codes, and coils out of limits
    bool disagree() const;                 // both name some, and none in common
    bool at(const std::string& element) const;
};
Named named_by(const GearboxFamily& family, const Seen& seen);

class Conclusion {
public:
    // The references are kept.
    Conclusion(const GearboxFamily& family, const Seen& seen, const Diagnosis& diagnosis);

    Standing standing(const std::string& element) const;
    Judgement judgement(const std::string& element) const;
    const Named& named() const { return named_; }

    std::optional<std::string> element() const {
        return likely_in(diagnosis_.by_element);
    }  // where the fault is likely
    // The solenoid to have ready: released, or all but the level of the fluid.
    std::optional<std::string> part() const;
    bool connector_first(const std::string& element) const;
    SourceNote what_speaks() const;  // what a fault is looked for on
    bool harness_speaks() const;     // a coil reads otherwise at its own pins, or the diagnosis says so

private:
    bool proven(const std::string& element) const;      // at its own pins, or by the swap
    bool swappable(const std::string& element) const;   // it was, or could be, one of those exchanged
    bool spoken_for(const std::string& element) const;  // something seen speaks for coil or valve
    Standing first_obstacle(const std::string& element) const;
    std::vector<std::pair<std::string, std::string>> shared_untested() const;
    std::vector<std::string> coils_to_measure() const;
    std::vector<std::string> shared_to_find_out() const;
    std::vector<std::string> to_point_at(const std::string& element) const;
    std::string nothing_points_at(const std::string& element) const;
    std::string test_what_is_shared() const;
    std::string reason(Standing stands, const std::string& element) const;
    std::string until(Standing stands, const std::string& element) const;
    std::vector<std::string> to_find_out(Standing stands, const std::string& element) const;
    SourceNote rests_on(Standing stands, const std::string& element) const;

    const GearboxFamily& family_;
    const Seen& seen_;
    const Diagnosis& diagnosis_;
    Named named_;
};

// Judged with all that was seen, and again without hearsay: the second decides where the first releases.
Judgement judge_order(const std::string& element, const Conclusion& all, const Conclusion& firm);

// "the case connector is wet", "its pins are spread"
std::string connector_words(const Seen& seen);
// "the feed falls to 9 V under load, the battery is at 12.6 V", or that the fuse is blown. Requires: seen.feed_fails().
std::string feed_words(const Seen& seen);
// What `fault` and `codes` say before anything of codes; "" where nothing comes before them.
std::string stop_headline(const Seen& seen);
std::string connector_headline(const Seen& seen);  // Requires: a bad connector
std::string feed_headline(const Seen& seen);       // Requires: a feed that fails
// Where several circuits fail at once: the places that they share, the one that is reached first in front.
std::string shared_headline(const GearboxFamily& family, const Seen& seen, const Diagnosis& diagnosis);

}  // namespace casebound::solenoids
