#include "rows/family.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "core/contract/answer_lines.h"

namespace casebound::solenoids {

std::vector<std::string> split_words(std::string_view text, std::string_view separators) {
    std::vector<std::string> all;
    std::string word;
    for (const char c : std::string(text) + std::string(separators.substr(0, 1))) {
        if (separators.find(c) == std::string_view::npos) word += c;
        else if (!word.empty()) all.push_back(std::exchange(word, {}));
    }
    return all;
}

namespace {

std::string cell(const Row& row, std::string_view column) { return std::string(row.text(column)); }

std::optional<bool> yes_no(const Row& row, std::string_view column) {
    return row.text(column).empty() ? std::nullopt : std::optional(row.text(column) == "yes");
}

std::optional<OhmLimits> limits(const Row& row) {
    const auto low = row.number("ohm_20_low"), high = row.number("ohm_20_high");
    return low && high ? std::optional(OhmLimits{*low, *high}) : std::nullopt;
}

template <class Item> void add_once(std::vector<Item>& list, const Item& item) {
    if (std::find(list.begin(), list.end(), item) == list.end()) list.push_back(item);
}

Element element_from(const Row& row) {
    Element element{cell(row, "element"), cell(row, "function"), cell(row, "role"),     cell(row, "kind"),
                    cell(row, "rest"),    cell(row, "pin"),      cell(row, "group_key")};
    element.ohm_20 = limits(row);
    element.max_current_a = row.number("max_current_a");
    if (const auto wires = row.number("wires")) element.wires = static_cast<int>(std::lround(*wires));
    element.origin = row.origin;
    return element;
}

struct Reader {
    const Facts& facts;
    GearboxFamily family{};

    std::vector<Row> rows(std::string_view table) const { return facts.rows(table, "gearbox", family.name); }

    void read_title(const Row& row) {
        family.title = cell(row, "title");
        family.source = row_source(row.origin);
        family.table.family = family.name;
        if (row.text("elements") == "friction_elements") family.table.kind = TableKind::friction_elements;
        auto& fail_safe = family.fail_safe;
        fail_safe.default_gear = cell(row, "default_gear");
        const auto reason = row.text("default_reason");
        fail_safe.reason = reason == "hydraulic_rest"      ? DefaultReason::hydraulic_rest
                           : reason == "controller_choice" ? DefaultReason::controller_choice
                                                           : DefaultReason::not_recorded;
        fail_safe.reverse_available = yes_no(row, "reverse_without_current");
        fail_safe.manual_low_available = yes_no(row, "low_by_lever");
        fail_safe.converter_lock_off = yes_no(row, "lockup_off");
        fail_safe.pressure_at_maximum = yes_no(row, "pressure_high");
        fail_safe.source = family.source.title;
        family.ratio_window = row.number("ratio_window");
    }

    void read_elements() {
        for (const auto& row : rows("solenoids_functions")) family.elements.push_back(element_from(row));
        const auto apply = rows("solenoids_apply");
        auto& elements = family.table.elements;
        for (const auto& element : family.elements)
            if (std::any_of(apply.begin(), apply.end(),
                            [&](const Row& row) { return row.text("element") == element.name; }))
                add_once(elements, element.name);
        for (const auto& row : apply) add_once(elements, cell(row, "element"));
    }

    void read_gears() {
        auto& gears = family.table.gears;
        for (const auto& row : rows("solenoids_apply")) {
            const auto name = cell(row, "gear");
            auto gear = std::find_if(gears.begin(), gears.end(), [&](const Gear& one) { return one.name == name; });
            if (gear == gears.end())
                gear = gears.insert(gears.end(),
                                    {name, std::vector<bool>(family.table.elements.size()), cell(row, "lever")});
            const auto& elements = family.table.elements;
            const auto at = std::find(elements.begin(), elements.end(), row.text("element")) - elements.begin();
            gear->required[static_cast<std::size_t>(at)] = row.text("state") == "on";
        }
    }

    void read_nodes() {
        for (const auto& row : rows("solenoids_nodes")) {
            const auto name = cell(row, "node"), element = cell(row, "element");
            auto& nodes = family.nodes;
            auto node = std::find_if(nodes.begin(), nodes.end(), [&](const Node& one) { return one.name == name; });
            if (node == nodes.end()) {
                node = nodes.insert(nodes.end(), {name, cell(row, "title"), cell(row, "check_by"), {}, row.origin});
                family.table.nodes.push_back({name, {}, row.text("state_when_lost") == "on"});
            }
            add_once(node->elements, element);
            const auto& elements = family.table.elements;
            if (std::find(elements.begin(), elements.end(), element) != elements.end())
                add_once(family.table.nodes[static_cast<std::size_t>(node - nodes.begin())].elements, element);
        }
    }

    void add_reaction(const Row& row, std::optional<Fault> fault) {
        Reaction reaction{std::move(fault), code_class_from(row.text("detected")),
                          read_commands(row.text("commands")).value_or(std::vector<std::pair<std::string, bool>>{}),
                          row_source(row.origin).title};
        std::erase_if(reaction.substituted, [&](const auto& one) {  // a solenoid that selects no gear
            return std::find(family.table.elements.begin(), family.table.elements.end(), one.first) ==
                       family.table.elements.end() &&
                   family.element(one.first);
        });
        family.table.reactions.push_back(std::move(reaction));
    }

    // A row about a kind of fault and no subject holds for every element, or every node.
    void read_reactions() {
        for (const auto& row : rows("solenoids_failsafe")) {
            const auto kind = fault_kind_from(row.text("fault"));
            if (!kind) add_reaction(row, std::nullopt);
            else if (!row.text("subject").empty()) add_reaction(row, Fault{*kind, cell(row, "subject")});
            else if (*kind == FaultKind::node_lost)
                for (const auto& node : family.table.nodes) add_reaction(row, Fault{*kind, node.name});
            else
                for (const auto& element : family.table.elements) add_reaction(row, Fault{*kind, element});
        }
        // A reaction to the loss of a solenoid that selects no gear is no matter of the apply table.
        std::erase_if(family.table.reactions, [&](const Reaction& one) {
            return one.fault && one.fault->kind != FaultKind::node_lost && family.element(one.fault->subject) &&
                   std::find(family.table.elements.begin(), family.table.elements.end(), one.fault->subject) ==
                       family.table.elements.end();
        });
    }

    // With no reaction on record the default gear is what is commanded, whatever was noticed.
    void add_default_reaction() {
        if (!family.table.reactions.empty()) return;
        for (const auto& gear : family.table.gears) {
            if (gear.name != family.fail_safe.default_gear) continue;
            Reaction reaction{{}, {}, {}, family.source.title};
            for (std::size_t i = 0; i < gear.required.size(); ++i)
                reaction.substituted.emplace_back(family.table.elements[i], gear.required[i]);
            family.table.reactions.push_back(std::move(reaction));
        }
    }

    void read_levers_and_chart() {
        for (const auto& row : rows("solenoids_levers")) {
            LeverRule rule{cell(row, "lever"), {}, cell(row, "obtained"), row_source(row.origin).title};
            if (!row.text("commanded").empty()) rule.commanded = cell(row, "commanded");
            family.table.lever_rules.push_back(std::move(rule));
        }
        for (const auto& row : rows("solenoids_published_failures")) {
            const auto kind = fault_kind_from(row.text("fault"));
            if (!kind) continue;
            family.table.chart.push_back(
                {{*kind, cell(row, "subject")},
                 cell(row, "commanded"),
                 cell(row, "obtained"),
                 row.text("phase") == "in_fail_safe" ? Phase::in_fail_safe : Phase::before_fail_safe,
                 cell(row, "lever"),
                 row_source(row.origin).title});
        }
    }

    void read_rest() {
        for (const auto& row : rows("solenoids_service"))
            family.services.push_back({cell(row, "element"), cell(row, "serviced_as"), cell(row, "order_role"),
                                       cell(row, "calibration"), cell(row, "calibration_words"), cell(row, "access"),
                                       row.origin});
        for (const auto& row : rows("solenoids_ratios"))
            if (const auto ratio = row.number("ratio")) family.ratios.push_back({cell(row, "gear"), *ratio});
        for (const auto& row : rows("solenoids_temperatures")) {
            const auto temp = row.number("temp_c"), low = row.number("low_ohm"), high = row.number("high_ohm");
            if (temp && low && high) family.sensor.push_back({*temp, *low, *high});
        }
        std::sort(family.sensor.begin(), family.sensor.end(),
                  [](const SensorPoint& a, const SensorPoint& b) { return a.temp_c < b.temp_c; });
    }
};

// ---------------------------------------------------------------- by hand

std::pair<std::string, std::vector<std::string>> named_elements(const std::string& word, const char* input,
                                                                const char* example) {
    const auto colon = word.find(':');
    if (colon == std::string::npos || colon == 0)
        refuse(input, word, std::string("a list such as \"") + example + "\"");
    auto elements = split_words(word.substr(colon + 1), "+");
    std::erase(elements, "-");
    return {word.substr(0, colon), elements};
}

constexpr const char* apply_example = "1:A+B 2:B 3:- 4:A";
constexpr const char* shared_example = "feed:A+B ground:A+B";

}  // namespace

const Element* GearboxFamily::element(std::string_view wanted) const {
    const auto found = std::find_if(elements.begin(), elements.end(),
                                    [wanted](const Element& one) { return one.name == wanted; });
    return found == elements.end() ? nullptr : &*found;
}

const Element* GearboxFamily::element_of_role(std::string_view role) const {
    const auto found = std::find_if(elements.begin(), elements.end(),
                                    [role](const Element& one) { return one.role == role; });
    return found == elements.end() ? nullptr : &*found;
}

std::vector<Service> GearboxFamily::services_of(std::string_view wanted) const {
    std::vector<Service> all;
    for (const auto& service : services)
        if (service.element == wanted) all.push_back(service);
    return all;
}

std::vector<std::string> GearboxFamily::element_names() const {
    if (elements.empty()) return table.elements;
    std::vector<std::string> names;
    for (const auto& one : elements) names.push_back(one.name);
    return names;
}

std::optional<GearboxFamily> read_family(const Facts& facts, std::string_view gearbox) {
    const auto& known = facts.rows("solenoids_gearboxes", "gearbox", gearbox);
    if (known.empty()) return std::nullopt;
    Reader reader{facts};
    reader.family.name = gearbox;
    reader.read_title(known.front());
    reader.read_elements();
    reader.read_gears();
    reader.read_nodes();
    reader.read_reactions();
    reader.add_default_reaction();
    reader.read_levers_and_chart();
    reader.read_rest();
    return std::move(reader.family);
}

std::optional<FaultKind> fault_kind_from(std::string_view text) {
    if (text == "stuck_off") return FaultKind::stuck_off;
    if (text == "stuck_on") return FaultKind::stuck_on;
    if (text == "node_lost") return FaultKind::node_lost;
    return std::nullopt;
}

std::optional<CodeClass> code_class_from(std::string_view text) {
    constexpr std::array<std::string_view, 13> names{
        "circuit", "stuck_off",         "stuck_on", "electrical", "intermittent", "ratio", "supply_open",
        "request", "range_performance", "low",      "high",       "no_signal",    "shift"};
    const auto found = std::find(names.begin(), names.end(), text);
    return found == names.end() ? std::nullopt : std::optional(static_cast<CodeClass>(found - names.begin()));
}

std::optional<std::vector<std::pair<std::string, bool>>> read_commands(std::string_view text) {
    std::vector<std::pair<std::string, bool>> commands;
    for (const auto& word : split_words(text, "; ")) {
        const auto equals = word.find('=');
        const auto state = equals == std::string::npos ? "" : word.substr(equals + 1);
        if (equals == 0 || (state != "on" && state != "off")) return std::nullopt;
        commands.emplace_back(word.substr(0, equals), state == "on");
    }
    return commands.empty() ? std::nullopt : std::optional(std::move(commands));
}

GearboxFamily family_by_hand(std::string_view apply, std::string_view shared, TableKind kind) {
    GearboxFamily family;
    family.name = family.table.family = "by hand";
    family.title = "apply table given by hand";
    family.source = {Evidence::measured, "given"};
    family.table.kind = kind;
    std::vector<std::pair<std::string, std::vector<std::string>>> gears;
    for (const auto& word : split_words(apply, " ,")) gears.push_back(named_elements(word, "apply", apply_example));
    auto& elements = family.table.elements;
    for (const auto& gear : gears)
        for (const auto& element : gear.second) add_once(elements, element);
    std::sort(elements.begin(), elements.end());
    for (const auto& [name, on] : gears) {
        Gear gear{name, {}, name == "R" ? "R" : ""};
        for (const auto& element : elements)
            gear.required.push_back(std::find(on.begin(), on.end(), element) != on.end());
        family.table.gears.push_back(std::move(gear));
    }
    for (const auto& word : split_words(shared, " ,")) {
        const auto [name, behind] = named_elements(word, "shared", shared_example);
        family.nodes.push_back({name, name, "", behind, {}});
        family.table.nodes.push_back({name, behind, false});
    }
    if (const auto faults = table_faults(family.table); !faults.empty())
        refuse("apply", faults.front(), std::string("a list such as \"") + apply_example + "\"");
    return family;
}

}  // namespace casebound::solenoids
