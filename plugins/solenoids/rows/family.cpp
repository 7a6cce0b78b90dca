#include "rows/family.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "core/contract/answer_words.h"

namespace casebound::solenoids {
namespace {

std::optional<bool> yes_no(const Row& row, std::string_view column) {
    return row.text(column).empty() ? std::nullopt : std::optional(row.text(column) == "yes");
}

std::optional<OhmLimits> limits(const Row& row) {
    const auto low = row.number("ohm_20_low"), high = row.number("ohm_20_high");
    return low && high ? std::optional(OhmLimits{*low, *high}) : std::nullopt;
}

struct RoleWord {
    std::string_view role, attribute;
    Function function;
    std::string_view which;
};

// Roles that a generic code or a coil attribute speaks of. Clutch solenoids carry the letters of shift solenoids.
constexpr std::array<RoleWord, 14> role_words{{
    {"shift-solenoid-a", "coil_a", Function::shift_solenoid, "A"},
    {"shift-solenoid-b", "coil_b", Function::shift_solenoid, "B"},
    {"shift-solenoid-c", "coil_c", Function::shift_solenoid, "C"},
    {"clutch-solenoid-a", "coil_clutch_a", Function::shift_solenoid, "A"},
    {"clutch-solenoid-b", "coil_clutch_b", Function::shift_solenoid, "B"},
    {"clutch-solenoid-c", "coil_clutch_c", Function::shift_solenoid, "C"},
    {"clutch-solenoid-d", "coil_clutch_d", Function::shift_solenoid, "D"},
    {"clutch-solenoid-e", "coil_clutch_e", Function::shift_solenoid, "E"},
    {"lockup-solenoid", "coil_lockup", Function::converter_clutch, ""},
    {"pressure-solenoid", "coil_pressure", Function::pressure_control, "A"},
    {"primary-pressure-solenoid", "coil_primary", Function::pressure_control, "A"},
    {"secondary-pressure-solenoid", "coil_secondary", Function::pressure_control, "B"},
    {"clutch-solenoid-b", "coil_clutch_b", Function::pressure_control, "B"},
    {"clutch-solenoid-c", "coil_clutch_c", Function::pressure_control, "C"},
}};

std::string coil_attribute_of(std::string_view role) {
    const auto found = std::find_if(role_words.begin(), role_words.end(),
                                    [&](const RoleWord& word) { return word.role == role; });
    return found == role_words.end() ? "" : std::string(found->attribute);
}

Element element_from(const Row& row) {
    Element element{cell(row, "element"), cell(row, "function"), cell(row, "role"),     cell(row, "kind"),
                    cell(row, "rest"),    cell(row, "pin"),      cell(row, "group_key")};
    element.ohm_20 = limits(row);
    element.max_current_a = row.number("max_current_a");
    if (const auto wires = row.number("wires")) element.wires = static_cast<int>(std::lround(*wires));
    element.origin = row.origin;
    element.coil_attribute = coil_attribute_of(element.role);
    return element;
}

struct Reader {
    const Facts& facts;
    GearboxFamily family{};

    const std::vector<Row>& rows(std::string_view table) const { return facts.rows(table, "gearbox", family.name); }

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
    }

    void read_applied() {
        const auto& apply = rows("solenoids_apply");
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

    void read_services() {
        for (const auto& row : rows("solenoids_service"))
            family.services.push_back({cell(row, "element"), cell(row, "serviced_as"), cell(row, "order_role"),
                                       cell(row, "calibration"), cell(row, "calibration_words"), cell(row, "access"),
                                       row.origin});
    }

    void read_ratios_and_sensor() {
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

// Nothing when no pack records the family.
std::optional<Reader> reader_of(const Facts& facts, std::string_view gearbox) {
    const auto& known = facts.rows("solenoids_gearboxes", "gearbox", gearbox);
    if (known.empty()) return std::nullopt;
    Reader reader{facts};
    reader.family.name = gearbox;
    reader.read_title(known.front());
    return reader;
}

}  // namespace

std::optional<GearboxFamily> read_what_is_ordered(const Facts& facts, std::string_view gearbox) {
    auto reader = reader_of(facts, gearbox);
    if (!reader) return std::nullopt;
    reader->read_elements();
    reader->read_services();
    return std::move(reader->family);
}

std::optional<GearboxFamily> read_family(const Facts& facts, std::string_view gearbox) {
    auto reader = reader_of(facts, gearbox);
    if (!reader) return std::nullopt;
    reader->read_elements();
    reader->read_applied();
    reader->read_gears();
    reader->read_nodes();
    reader->read_reactions();
    reader->add_default_reaction();
    reader->read_levers_and_chart();
    reader->read_services();
    reader->read_ratios_and_sensor();
    return std::move(reader->family);
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

std::string element_of(const GearboxFamily& family, const Circuit& circuit) {
    for (const auto& word : role_words)
        if (word.function == circuit.function && word.which == circuit.which)
            if (const auto* element = family.element_of_role(word.role)) return element->name;
    const auto names = family.element_names();
    const bool by_letter = family.elements.empty() && circuit.function == Function::shift_solenoid;
    return by_letter && std::find(names.begin(), names.end(), circuit.which) != names.end() ? circuit.which : "";
}

GearboxFamily family_of_codes(const std::vector<Code>& codes) {
    GearboxFamily family;
    family.title = "not known; only what the codes name";
    for (const auto& circuit : failed_circuits(codes)) {
        Element element;
        element.name = std::string(word(circuit.function)) + (circuit.which.empty() ? "" : " " + circuit.which);
        for (const auto& word : role_words)
            if (word.function == circuit.function && word.which == circuit.which && element.role.empty())
                element.role = word.role, element.coil_attribute = word.attribute;
        family.elements.push_back(std::move(element));
    }
    return family;
}

}  // namespace casebound::solenoids
