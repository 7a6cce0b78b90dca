#pragma once
// One gearbox family: apply table, fail-safe, elements by function, what they share, ratios, how they are sold. What is
// not stated stays unknown; it judges nothing.

#include <algorithm>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/facts.h"
#include "science/apply_table.h"
#include "science/fail_safe.h"
#include "science/ratio.h"
#include "science/resistance.h"
#include "science/temp_sensor.h"

namespace casebound::solenoids {

// The words of a text between any of the separators.
std::vector<std::string> split_words(std::string_view text, std::string_view separators);

template <class Item> void add_once(std::vector<Item>& list, const Item& item) {
    if (std::find(list.begin(), list.end(), item) == list.end()) list.push_back(item);
}

struct Element {
    std::string name, function, role, kind, rest, pin, group;
    std::optional<OhmLimits> ohm_20 = {};
    std::optional<int> wires = {};
    std::optional<double> max_current_a = {};
    Origin origin{};
    std::string coil_attribute = {};  // the vocabulary's name for its coil; "" when there is none
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

// An apply table typed by hand, "1:A+B 2:B 3:- 4:A"; a gear R is reached by the lever R. `shared` names what
// several elements have in common, "feed:A+B". std::domain_error with an example when it cannot be read.
GearboxFamily family_by_hand(std::string_view apply, std::string_view shared, TableKind kind);

// A family of solenoid states with no shared feed on record gets one for all its solenoids.
bool add_common_feed(GearboxFamily& family);
inline constexpr const char* common_feed = "feed of all";

// Elements that share a part with another one: two functions of one interchange group.
std::vector<std::string> twins_of(const GearboxFamily& family, std::string_view element);

}  // namespace casebound::solenoids
