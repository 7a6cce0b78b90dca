#pragma once
// One gearbox family as packs record it: apply table, fail-safe, elements by function, what they share, ratios,
// how they are sold. It reads rows and keeps each row's origin; a cell that is not stated stays unknown, and it
// judges nothing (check.h does).

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "science/apply_table.h"
#include "core/contract/plugin.h"
#include "science/fail_safe.h"
#include "science/ratio.h"
#include "science/resistance.h"
#include "science/temp_sensor.h"

namespace casebound::solenoids {

// The words of a text between any of the separators.
std::vector<std::string> split_words(std::string_view text, std::string_view separators);

struct Element {
    std::string name, function, role, kind, rest, pin, group;
    std::optional<OhmLimits> ohm_20 = {};
    std::optional<int> wires = {};
    std::optional<double> max_current_a = {};
    Origin origin{};
};

struct Node {
    std::string name, title, check_by;
    std::vector<std::string> elements;
    Origin origin{};
};

struct Service {
    std::string element, serviced_as, order_role, calibration, calibration_words, access;
    Origin origin{};
};

struct GearboxFamily {
    std::string name, title;
    ApplyTable table;
    FailSafe fail_safe;
    std::vector<Element> elements;
    std::vector<Node> nodes;
    std::vector<Service> services;
    std::vector<GearRatio> ratios;
    std::optional<double> ratio_window = {};
    std::vector<SensorPoint> sensor;
    SourceNote source{};

    const Element* element(std::string_view name) const;
    const Element* element_of_role(std::string_view role) const;
    std::vector<Service> services_of(std::string_view element) const;
    std::vector<std::string> element_names() const;  // those with a solenoid; of the apply table when none is recorded
};

// Nothing when no pack records the family.
std::optional<GearboxFamily> read_family(const Facts& facts, std::string_view gearbox);

// Words of the tables.
std::optional<FaultKind> fault_kind_from(std::string_view text);
std::optional<CodeClass> code_class_from(std::string_view text);

// "A=off;B=on" of a fail-safe row; nothing when it is not such a list.
std::optional<std::vector<std::pair<std::string, bool>>> read_commands(std::string_view text);

// An apply table typed by hand, "1:A+B 2:B 3:- 4:A"; a gear R is reached by the lever R. `shared` names what
// several elements have in common, "feed:A+B". std::domain_error with an example when it cannot be read.
GearboxFamily family_by_hand(std::string_view apply, std::string_view shared, TableKind kind);

}  // namespace casebound::solenoids
