#pragma once
// Which gear a gearbox gives when one element does not do what is commanded.
// The family's apply table, fail-safe reactions, lever rules and published
// failure chart are data of the caller; no family is known here. The algebra is
// a first model: it names the element, never whether coil, wire, controller or
// valve holds it there.

#include "science/codes.h"

#include <compare>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace casebound::solenoids {

enum class TableKind {
    solenoid_states,    // elements are solenoids, on or off
    friction_elements,  // elements are clutches and brakes, applied or released
};

struct Gear {
    std::string name;
    std::vector<bool> required;  // one per element, in element order
    std::string range;           // lever range the manual valve selects; "" = forward
};

enum class FaultKind { none, stuck_off, stuck_on, node_lost };

struct Fault {
    FaultKind kind = FaultKind::none;
    std::string subject;  // element or node; empty for none
    friend auto operator<=>(const Fault&, const Fault&) = default;
};

// A feed, ground or connector that several elements share.
struct SharedNode {
    std::string name;
    std::vector<std::string> elements;
    bool state_when_lost = false;
};

// When it matters: once the controller is in its fail-safe, the gears obtained
// no longer tell the faults apart.
enum class Phase { before_fail_safe, in_fail_safe, not_told };

// What the controller commands instead. The first row that matches counts.
struct Reaction {
    std::optional<Fault> fault = {};         // nothing = any fault
    std::optional<CodeClass> detected = {};  // nothing = however it was detected
    std::vector<std::pair<std::string, bool>> substituted;
    std::string source;
};

// A lever position in which the manual valve overrides the elements.
struct LeverRule {
    std::string lever;
    std::optional<std::string> commanded = {};  // nothing = any gear
    std::string obtained;
    std::string source;
};

// A row of a maker's published failure chart. It overrides the algebra.
struct ChartRow {
    Fault fault;
    std::string commanded;
    std::string obtained;
    Phase phase = Phase::before_fail_safe;
    std::string lever;  // "" = as commanded
    std::string source;
};

struct ApplyTable {
    std::string family;
    TableKind kind = TableKind::solenoid_states;
    std::vector<std::string> elements;
    std::vector<Gear> gears;
    std::vector<SharedNode> nodes;
    std::vector<Reaction> reactions;
    std::vector<LeverRule> lever_rules;
    std::vector<ChartRow> chart;
};

// Every fault of the table itself, in words; empty when it is sound.
std::vector<std::string> table_faults(const ApplyTable& table);

enum class Obtained {
    gear,
    between_gears,  // solenoid states that belong to no gear
    slips,          // a needed friction element is missing: slip or no drive
    binds,          // one friction element too many
    not_recorded,   // no reaction recorded for this fault
    cannot_tell,    // before and in fail-safe differ, and nobody said which
};
enum class Layer { algebra, fail_safe, lever, chart };

std::string_view word(Obtained obtained);
std::string_view word(Layer layer);

struct Prediction {
    Obtained obtained = Obtained::not_recorded;
    std::string gear;  // for Obtained::gear
    Layer layer = Layer::algebra;
    std::string source;  // of the row that decided; empty for the algebra
};
bool same_outcome(const Prediction& a, const Prediction& b);
std::string outcome_text(const Prediction& prediction);

struct GearboxState {
    Phase phase = Phase::before_fail_safe;
    std::string lever;                       // "" = as commanded
    std::optional<CodeClass> detected = {};  // how the controller noticed
};

// Chart over lever rule over fail-safe over algebra. Throws std::domain_error
// when the table is faulty or the gear or the fault's subject is not in it.
Prediction predict(const ApplyTable& table, const Fault& fault, std::string_view commanded,
                   const GearboxState& gearbox = {});

// "A held off", "feed lost"; for friction elements "C cannot apply".
std::string fault_text(const ApplyTable& table, const Fault& fault);

// Gears whose vector leaves the element released: what is left when a friction
// element cannot apply. Throws on an unknown element.
std::vector<std::string> gears_left(const ApplyTable& table, std::string_view element);

// Elements applied in every one of these gears and in no other gear: slip in
// exactly these, with a sound circuit, is the sign of that clutch, its seal or
// its valve. Throws on an unknown gear.
std::vector<std::string> shared_by_exactly(const ApplyTable& table, const std::vector<std::string>& slipping_gears);

}  // namespace casebound::solenoids
