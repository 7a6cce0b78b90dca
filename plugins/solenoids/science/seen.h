#pragma once
// What was seen of a trouble: codes, gears, readings, each with how it is known. It draws no conclusion (conclusion.h
// does) and never fills a gap.

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/facts.h"
#include "science/codes.h"
#include "science/family.h"
#include "science/fault_patterns.h"
#include "science/resistance.h"

namespace casebound::solenoids {

// A code as stored, and what it is about in this family: by number, never by text.
struct SeenCode {
    Code code;
    std::optional<CodeClass> kind = {};
    std::string element;  // "" when it names none, or the family has no such element
    std::string words;
    SourceNote source{};
    std::optional<Function> function = {};  // of a generic code
    bool electrical() const;
    bool stuck() const { return kind == CodeClass::stuck_off || kind == CodeClass::stuck_on; }
    bool of_controller_or_sensor() const;  // it speaks of no solenoid
};

// Where a code points, most telling first. Empty for one that points nowhere by itself.
std::vector<Cause> where_to_look(const SeenCode& code);

struct SeenCoil {
    std::string element;
    double ohm;  // infinity for "open"
    std::optional<double> temp_c = {};
    std::optional<double> at_part_ohm = {};
    std::optional<OhmLimits> ohm_20 = {};
    SourceNote source{}, limits_source{};
    bool hearsay = false;  // assumed, or told by a seller
    bool at_part_hearsay = false;
    bool open() const;
    std::optional<CoilAnswer> answer() const;  // nothing without temperature or limits, which an open circuit needs not
    bool out() const;                          // judged, and neither in limits nor borderline
    bool differs() const;                      // it reads otherwise at its own pins
};

// Everything but the coils, each of which carries its own.
enum class SeenWhat : std::uint8_t {
    codes,
    gears,
    phase,
    lever,
    slips,
    feed,
    fuse,
    connector,
    fluid_level,
    swap,
    ignition,
    debris,
    fluid_colour,
    fluid_smell
};

struct HowSeen {
    SourceNote source{};
    bool hearsay = false;
};

struct Seen {
    std::vector<SeenCode> codes;
    bool no_codes{};  // read, and none was stored
    std::optional<bool> read_before_clearing = {};
    std::vector<std::string> commanded, obtained;  // gear names, "slips", "binds" or "?"
    Phase phase = Phase::not_told;
    std::string lever;
    std::vector<std::string> slipping,
        holding;  // told by `slips`: those that do, and the forward ones that then do not
    std::vector<SeenCoil> coils;
    std::optional<double> feed_v = {}, battery_v = {};
    std::optional<std::string> fuse = {}, connector = {}, fluid_level = {}, swap = {};
    std::optional<bool> gears_back = {};
    std::vector<std::string> debris;  // in the pan
    std::string fluid_colour, fluid_smell;
    std::map<SeenWhat, HowSeen> how;

    SourceNote source(SeenWhat what) const;  // given by hand where nothing else is said
    bool any_hearsay() const;
    Seen firm() const;  // without what nobody here has measured or read

    bool anything() const;
    bool trouble() const;            // something that is not as it should be, or a fault looked for
    bool speaks_against() const;     // gears, codes or a coil that are as they should be: nothing names a solenoid
    bool told(SeenWhat what) const;  // by somebody here: no hearsay
    std::vector<Observation> observations() const;  // one per gear that is told
    bool as_commanded() const;                      // gears were told, and each is the one commanded
    GearboxState gearbox_state() const;
    std::vector<std::string> failed_circuits() const;  // elements, or circuit names, with an electrical kind of code
    bool supply_reported() const;
    bool electrical() const { return supply_reported() || !failed_circuits().empty(); }
    bool shared_suspected() const { return supply_reported() || failed_circuits().size() > 1; }
    double battery() const { return battery_v.value_or(12.6); }
    bool feed_falls() const;
    bool feed_fails() const { return feed_falls() || fuse == "blown"; }
    bool connector_bad() const { return connector && *connector != "clean"; }  // looked at, and not clean
    bool fluid_wrong() const { return fluid_level && *fluid_level != "right"; }
    bool swap_moved() const { return swap == "moves_with_part"; }
    bool swap_stayed() const { return swap && !swap_moved(); }
    const SeenCoil* coil(std::string_view element) const;  // nullptr when it was not measured
    bool coil_out(std::string_view element) const;
    bool coil_passes(std::string_view element) const;
    bool fails_at_part(std::string_view element) const;  // out of limits at its own pins too: no connector in between
    bool stuck_code(std::string_view element) const;
};

inline constexpr double feed_drop_allowed_v = 0.5;  // below the battery, under load: common practice, no source

// What says that the gearbox itself breaks up or that water is in it: before any cure that has to be found out. From
// memory. "" when nothing does.
struct StopFinding {
    std::string words, find_out;
    SeenWhat what = SeenWhat::debris;
    std::vector<std::string> attributes;
};
std::optional<StopFinding> stop_finding(const Seen& seen);

// Several circuits at once, or their supply: what they share comes first. "" where neither is reported.
std::string shared_words(const Seen& seen);

// One gear throughout, and nobody said that it was noted before fail-safe: then the gears may say nothing.
bool may_be_fail_safe(const Seen& seen);

std::vector<std::string> forward_gears(const ApplyTable& table);

}  // namespace casebound::solenoids
