#include "rows/check.h"

#include <algorithm>
#include <map>
#include <string>

#include "core/contract/answer_words.h"
#include "core/contract/domain_words.h"
#include "core/contract/false_leads.h"
#include "rows/family.h"
#include "rows/findings.h"
#include "rows/vocabulary.h"
#include "science/code_list.h"
#include "science/codes.h"

namespace casebound::solenoids {
namespace {

struct FamilyChecker {
    const Facts& facts;
    std::string_view pack;
    GearboxFamily family{};
    std::vector<RowFault> faults{};

    void add(const Row& row, const char* column, std::string what) {
        if (row.origin.pack == pack) faults.push_back({row.origin, column, std::move(what)});
    }
    std::vector<Row> rows(std::string_view table) const { return facts.rows(table, "gearbox", family.name); }

    bool is_gear(std::string_view name) const {
        return std::any_of(family.table.gears.begin(), family.table.gears.end(),
                           [name](const Gear& gear) { return gear.name == name; });
    }
    bool is_element(const std::string& name) const {
        const auto& elements = family.table.elements;
        return family.element(name) != nullptr || std::find(elements.begin(), elements.end(), name) != elements.end();
    }
    bool is_node(std::string_view name) const {
        return std::any_of(family.nodes.begin(), family.nodes.end(),
                           [name](const Node& node) { return node.name == name; });
    }
    std::string elements_text() const {
        auto names = family.element_names();
        for (const auto& name : family.table.elements)
            if (std::find(names.begin(), names.end(), name) == names.end()) names.push_back(name);
        return listed(names);
    }

    void need_element(const Row& row, const char* column) {
        const auto name = cell(row, column);
        if (!name.empty() && !is_element(name))
            add(row, column, name + " is no element of " + family.name + ": its elements are " + elements_text());
    }
    void need_gear(const Row& row, const char* column) {
        const auto name = cell(row, column);
        if (!name.empty() && !is_gear(name))
            add(row, column,
                name + " is no gear of the apply table of " + family.name + ": add the gear or correct the name");
    }
    void need_subject(const Row& row) {
        const auto name = cell(row, "subject");
        if (name.empty()) return;
        const bool known = row.text("fault") == "node_lost" ? is_node(name) : is_element(name);
        if (!known)
            add(row, "subject",
                name + " is no " + (row.text("fault") == "node_lost" ? "node" : "element") + " of " + family.name);
    }

    void check_table(const Row& gearbox) {
        if (family.table.gears.empty()) return;  // a family without steps has no apply table
        auto table = family.table;               // rows of the other tables are reported at their own place
        table.nodes.clear();
        table.reactions.clear();
        table.lever_rules.clear();
        table.chart.clear();
        for (const auto& fault : table_faults(table)) add(gearbox, "gearbox", "apply table: " + fault);
        for (const auto& fault : fail_safe_faults(family.table, family.fail_safe)) add(gearbox, "default_gear", fault);
        if (family.table.kind == TableKind::solenoid_states)
            for (const auto& row : rows("solenoids_apply"))
                if (!family.elements.empty() && family.element(row.text("element")) == nullptr)
                    add(row, "element", cell(row, "element") + " has no row in solenoids_functions: say what it does");
    }

    void check_apply() {
        std::map<std::string, std::string> range;
        for (const auto& row : rows("solenoids_apply")) {
            const auto [at, fresh] = range.try_emplace(cell(row, "gear"), cell(row, "lever"));
            if (!fresh && at->second != row.text("lever"))
                add(row, "lever", "gear " + cell(row, "gear") + " is given two lever ranges: keep one");
        }
    }

    void check_functions() {
        for (const auto& row : rows("solenoids_functions")) {
            const auto at_20 = row.number("ohm_20_low");
            if (at_20 && *at_20 < 0.1)
                add(row, "ohm_20_low", "below 0.1 ohm no coil is judged: is it a resistance at 20 °C?");
            if (row.text("ohm_20_low").empty() != row.text("ohm_20_high").empty())
                add(row, "ohm_20_low", "limits come in pairs: give both or none");
            for (const auto& part : facts.rows("solenoids_parts", "group_key", row.text("group_key")))
                check_part(row, part);
        }
    }

    void check_part(const Row& function, const Row& part) {
        if (function.text("group_key").empty()) return;
        const auto a_low = function.number("ohm_20_low"), a_high = function.number("ohm_20_high"),
                   b_low = part.number("ohm_20_low"), b_high = part.number("ohm_20_high");
        if (a_low && a_high && b_low && b_high && (*a_low > *b_high || *b_low > *a_high))
            add(function, "group_key",
                cell(function, "group_key") + " has " + number_text(*b_low) + " to " + number_text(*b_high) + " ohm, " +
                    cell(function, "element") + " needs " + number_text(*a_low) + " to " + number_text(*a_high) +
                    " ohm: one of them is wrong");
        if (!part.text("kind").empty() && part.text("kind") != function.text("kind"))
            add(function, "group_key",
                cell(function, "group_key") + " is " + cell(part, "kind") + ", " + cell(function, "element") +
                    " is driven " + cell(function, "kind") + ": one of them is wrong");
    }

    void check_nodes() {
        std::map<std::string, std::string> lost;
        for (const auto& row : rows("solenoids_nodes")) {
            need_element(row, "element");
            const auto [at, fresh] = lost.try_emplace(cell(row, "node"), cell(row, "state_when_lost"));
            if (!fresh && at->second != row.text("state_when_lost"))
                add(row, "state_when_lost",
                    "node " + cell(row, "node") +
                        " leaves its elements on in one row and off in another: make two nodes");
        }
    }

    void check_reactions() {
        for (const auto& row : rows("solenoids_failsafe")) {
            need_subject(row);
            if (row.text("fault").empty() && !row.text("subject").empty())
                add(row, "fault", "a subject without a fault: say what has happened to it");
            const auto commands = read_commands(row.text("commands"));
            if (!commands) {
                add(row, "commands", "not a list of commands: write A=off;B=on");
                continue;
            }
            for (const auto& [name, on] : *commands)
                if (!is_element(name))
                    add(row, "commands",
                        name + " is no element of " + family.name + ": its elements are " + elements_text());
        }
        for (const auto& row : rows("solenoids_levers")) {
            need_gear(row, "commanded");
            need_gear(row, "obtained");
        }
        for (const auto& row : rows("solenoids_published_failures")) {
            need_subject(row);
            need_gear(row, "commanded");
            need_gear(row, "obtained");
        }
    }

    void check_positions() {
        for (const auto& row : rows("solenoids_positions")) need_element(row, "element");
    }

    void check_service() {
        for (const auto& row : rows("solenoids_service")) {
            need_element(row, "element");
            const bool other = row.text("serviced_as") != "single";
            if (other && row.text("serviced_as") != "unit_only" && row.text("order_role").empty())
                add(row, "order_role",
                    cell(row, "element") + " is sold as " + cell(row, "serviced_as") +
                        ": name the role to order instead");
            if (row.text("calibration") != "none" && row.text("calibration_words").empty())
                add(row, "calibration_words", "say where the code or grade stands and what to do with it");
        }
    }

    void check_ratios() {
        double last = 0;
        std::string last_gear;
        for (const auto& row : rows("solenoids_ratios")) {
            if (!family.table.gears.empty()) need_gear(row, "gear");
            const auto ratio = row.number("ratio").value_or(0);
            if (ratio < 0.1 || ratio > 20) add(row, "ratio", "a gear ratio lies between 0.1 and 20");
            const bool number = cell(row, "gear").find_first_not_of("0123456789") == std::string::npos;
            if (number && !last_gear.empty() && std::stoi(cell(row, "gear")) > std::stoi(last_gear) && ratio >= last)
                add(row, "ratio",
                    "gear " + cell(row, "gear") + " is not longer than gear " + last_gear +
                        ": ratios fall from gear to gear");
            if (!number) continue;
            last = ratio;
            last_gear = cell(row, "gear");
        }
    }

    void check_sensor() {
        auto points = rows("solenoids_temperatures");
        std::stable_sort(points.begin(), points.end(), [](const Row& a, const Row& b) {
            return a.number("temp_c").value_or(0) < b.number("temp_c").value_or(0);
        });
        for (std::size_t i = 1; i < points.size(); ++i)
            for (const char* edge : {"low_ohm", "high_ohm"})
                if (points[i].number(edge).value_or(0) >= points[i - 1].number(edge).value_or(0))
                    add(points[i], edge,
                        "does not fall from " + cell(points[i - 1], "temp_c") + " to " + cell(points[i], "temp_c") +
                            " °C: the resistance falls as the sensor warms");
    }

    void check_all(const Row& gearbox) {
        check_apply();
        check_table(gearbox);
        check_functions();
        check_nodes();
        check_reactions();
        check_positions();
        check_service();
        check_ratios();
        check_sensor();
    }
};

// ---------------------------------------------------------------- codes

struct CodeChecker {
    const Facts& facts;
    std::string_view pack;
    std::vector<RowFault> faults{};
    std::map<std::string, std::vector<CodeRow>> lists{};  // texts by source
    std::map<std::string, Row> first_of{};

    void add(const Row& row, const char* column, std::string what) {
        if (row.origin.pack == pack) faults.push_back({row.origin, column, std::move(what)});
    }

    void check_row(const Row& row) {
        const auto code = read_code(row.text("code"));
        if (!code) return add(row, "code", "not a code: a letter P, C, B or U and four characters, the first 0 to 3");
        if (!row.text("element").empty() && row.text("gearbox").empty())
            add(row, "element", "an element without its gearbox family: name the family");
        if (!row.text("gearbox").empty()) check_own(row);
        else check_generic(row, *code);
        if (looks_damaged(row.text("words")))
            add(row, "words", "begins with a five-digit number: a spreadsheet turned \"1-2\" into a date");
    }

    void check_own(const Row& row) {
        const auto family = read_family(facts, row.text("gearbox"));
        if (!family) return add(row, "gearbox", cell(row, "gearbox") + " is no family of solenoids_gearboxes");
        const auto name = cell(row, "element");
        if (!name.empty() && family->element(name) == nullptr)
            add(row, "element", name + " is no element of " + family->name);
    }

    void check_generic(const Row& row, Code code) {
        const auto known = meaning(code);
        const auto stated = code_class_from(row.text("class"));
        if (known && stated && *stated != known->kind)
            add(row, "class",
                cell(row, "code") + " is " + std::string(word(known->kind)) + " by its number, not " +
                    std::string(word(*stated)) + ": is the list shifted by a row?");
        if (is_makers_own(code))
            add(row, "gearbox", cell(row, "code") + " is the maker's own code: name the family it belongs to");
        lists[cell(row, "source")].push_back({code, cell(row, "words")});
        first_of.try_emplace(cell(row, "source"), row);
    }

    void check_lists() {
        for (const auto& [source, list] : lists)
            if (judge_list(list).verdict == ListVerdict::shifted)
                add(first_of.at(source), "words",
                    "most texts of this source belong to the code before or after: the list is shifted by a row, do "
                    "not use it");
    }
};

}  // namespace

std::vector<RowFault> check(const Facts& facts, std::string_view pack) {
    std::vector<RowFault> faults;
    for (const auto& gearbox : facts.rows("solenoids_gearboxes")) {
        auto family = read_family(facts, gearbox.text("gearbox"));
        if (!family) continue;
        FamilyChecker checker{facts, pack, std::move(*family)};
        checker.check_all(gearbox);
        faults.insert(faults.end(), checker.faults.begin(), checker.faults.end());
    }
    CodeChecker codes{facts, pack};
    for (const auto& row : facts.rows("solenoids_codes")) codes.check_row(row);
    codes.check_lists();
    faults.insert(faults.end(), codes.faults.begin(), codes.faults.end());
    return faults;
}

}  // namespace casebound::solenoids
