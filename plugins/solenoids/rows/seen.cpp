#include "rows/seen.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <limits>

#include "core/contract/answer_lines.h"

namespace casebound::solenoids {
namespace {

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

bool is_gear(const ApplyTable& table, std::string_view name) {
    return std::any_of(table.gears.begin(), table.gears.end(), [name](const Gear& gear) { return gear.name == name; });
}

std::string obtained_from(const std::string& word, const ApplyTable& table) {
    if (is_gear(table, word)) return word;
    if (word == "slip" || word == "slips") return "slips";
    if (word == "bind" || word == "binds") return "binds";
    if (word == "?" || word == "x") return "?";
    std::vector<std::string> names;
    for (const auto& gear : table.gears) names.push_back(gear.name);
    refuse("gears", word, listed(names) + ", slip, bind or ?");
}

double ohm_from(const std::string& text, const char* input) {
    if (text == "open" || text == "infinite") return std::numeric_limits<double>::infinity();
    char* end = nullptr;
    const double ohm = std::strtod(text.c_str(), &end);
    if (end == text.c_str() || (*end != '\0' && std::string_view(end) != "ohm"))
        refuse(input, text, "a number of ohm, or open");
    return in_range(input, ohm, 0, 1e9, "ohm");
}

SourceNote evidence_source(CodeEvidence evidence) {
    switch (evidence) {
        case CodeEvidence::lists_agree:
            return {Evidence::standard, "SAE J2012 / ISO 15031-6, as published lists agree on it"};
        case CodeEvidence::one_list: return {Evidence::common_practice, "one published list only"};
        case CodeEvidence::makers_text: return {Evidence::maker, "a maker's workshop manual"};
        case CodeEvidence::from_memory: break;
    }
    return from_memory();
}

SeenCode from_row(Code code, const Row& row) {
    return {code, code_class_from(row.text("class")), std::string(row.text("element")), std::string(row.text("words")),
            row_source(row.origin)};
}

std::optional<double> told_number(const VehicleView* vehicle, std::string_view attribute) {
    if (vehicle == nullptr) return std::nullopt;
    for (const auto& told : vehicle->told())
        if (told.attribute == attribute) return told.number;
    return std::nullopt;
}

std::optional<std::string> told_value(const VehicleView* vehicle, std::string_view attribute) {
    if (vehicle == nullptr) return std::nullopt;
    for (const auto& told : vehicle->told())
        if (told.attribute == attribute && told.text.find('|') == std::string::npos) return told.text;
    return std::nullopt;
}

SourceNote told_source(const VehicleView* vehicle, std::string_view attribute) {
    if (vehicle != nullptr)
        for (const auto& told : vehicle->told())
            if (told.attribute == attribute)
                return {told.evidence == "measured" || told.evidence == "read" ? Evidence::measured : Evidence::memory,
                        "told: " + told.evidence + " " + told.date};
    return practice();
}

struct CoilReader {
    const Given& given;
    const Services& services;
    const GearboxFamily& family;
    std::vector<SeenCoil> coils{};

    std::optional<double> temp_c() const {
        if (const auto temp = given.maybe_number("coil-temp")) return temp;
        return told_number(services.vehicle, "coil_temp");
    }

    void add(const std::string& name, double ohm, SourceNote source) {
        SeenCoil coil{name, ohm, temp_c(), {}, {}, std::move(source), {}};
        const Element* element = family.element(name);
        if (given.has("ohm-low") && given.has("ohm-high")) {
            coil.ohm_20 = OhmLimits{given.number("ohm-low"), given.number("ohm-high")};
            coil.limits_source = given_source(given, "ohm-low");
        } else if (element && element->ohm_20) {
            coil.ohm_20 = element->ohm_20;
            coil.limits_source = row_source(element->origin);
        }
        coils.push_back(std::move(coil));
    }

    SeenCoil* find(std::string_view name) {
        const auto found = std::find_if(coils.begin(), coils.end(),
                                        [name](const SeenCoil& one) { return one.element == name; });
        return found == coils.end() ? nullptr : &*found;
    }

    // Elements and ohm of an input; nothing when it is not given.
    std::vector<std::pair<std::string, double>> of(const char* input) const {
        if (!given.has(input)) return {};
        auto coils_given = coils_from(given.text(input), input);
        const auto names = family.element_names();
        for (const auto& [name, ohm] : coils_given)
            if (std::find(names.begin(), names.end(), name) == names.end())
                refuse(input, name, "elements of the gearbox: " + listed(names));
        return coils_given;
    }

    void read_given() {
        for (const auto& [name, ohm] : of("coils")) add(name, ohm, given_source(given, "coils"));
    }

    // Beside a reading at the connector that was given or told.
    void read_given_at_part() {
        for (const auto& [name, ohm] : of("coils-at-part"))
            if (auto* coil = find(name)) coil->at_part_ohm = ohm;
    }

    void read_told() {
        for (const auto& name : family.element_names()) {
            const auto attribute = coil_attribute(family, name);
            if (attribute.empty() || find(name)) continue;
            const auto told = told_ohm(services.vehicle, attribute);
            if (!told) continue;
            add(name, *told, told_source(services.vehicle, attribute));
            coils.back().at_part_ohm = told_ohm(services.vehicle, attribute + "_at_part");
        }
    }
};

std::optional<double> number_seen(const Given& given, const Services& services, std::string_view input,
                                  std::string_view attribute) {
    if (const auto number = given.maybe_number(input)) return number;
    return told_number(services.vehicle, attribute);
}

std::optional<bool> yes_seen(const Given& given, const Services& services, std::string_view input,
                             std::string_view attribute) {
    const auto text = given_or_told(given, services, input, attribute);
    return text ? std::optional(*text == "yes") : std::nullopt;
}

void read_gears(Seen& seen, const Given& given, const Services& services, const ApplyTable& table) {
    if (table.gears.empty()) return;
    if (const auto text = given_or_told(given, services, "gears", "gears_obtained"))
        seen.obtained = gears_from(*text, table);
    if (given.has("commanded")) {
        seen.commanded = gears_from(given.text("commanded"), table);
        if (seen.commanded.size() != seen.obtained.size())
            refuse("commanded", std::to_string(seen.commanded.size()) + " gears",
                   std::to_string(seen.obtained.size()) + " gears, one for each gear obtained");
        return;
    }
    for (const auto& gear : table.gears)
        if (gear.range.empty()) seen.commanded.push_back(gear.name);
    for (const auto& gear : table.gears)
        if (!gear.range.empty()) seen.commanded.push_back(gear.name);
    if (seen.obtained.size() > seen.commanded.size())
        refuse("gears", std::to_string(seen.obtained.size()) + " gears",
               "at most " + std::to_string(seen.commanded.size()) + ", for commanded " + listed(seen.commanded, " "));
    seen.commanded.resize(seen.obtained.size());
}

void read_slips(Seen& seen, const Given& given, const Services& services, const ApplyTable& table) {
    const auto slips = given_or_told(given, services, "slips", "slips_in");
    if (!slips || *slips == "none" || table.gears.empty()) return;
    for (const auto& gear : gears_from(*slips, table)) {
        if (!is_gear(table, gear)) refuse("slips", gear, "gears of the apply table");
        seen.slipping.push_back(gear);
    }
    for (const auto& gear : forward_gears(table))
        if (std::find(seen.slipping.begin(), seen.slipping.end(), gear) == seen.slipping.end())
            seen.holding.push_back(gear);
}

}  // namespace

bool SeenCode::electrical() const {
    return kind == CodeClass::circuit || kind == CodeClass::electrical || kind == CodeClass::intermittent ||
           kind == CodeClass::low || kind == CodeClass::high;
}

bool SeenCoil::open() const { return std::isinf(ohm); }

std::optional<CoilAnswer> SeenCoil::answer() const {
    if (open()) return CoilAnswer{CoilVerdict::open, ohm, {}, false};
    if (!temp_c || !ohm_20) return std::nullopt;
    return judge_coil({ohm, *temp_c}, *ohm_20);
}

bool Seen::anything() const {
    return !codes.empty() || no_codes || !obtained.empty() || !slipping.empty() || !coils.empty() || feed_v || fuse ||
           connector || fluid_level || swap || gears_back;
}

bool Seen::connector_bad() const { return connector && *connector != "clean"; }

const SeenCoil* Seen::coil(std::string_view element) const {
    const auto found = std::find_if(coils.begin(), coils.end(),
                                    [&](const SeenCoil& one) { return one.element == element; });
    return found == coils.end() ? nullptr : &*found;
}

bool Seen::fails_at_part(std::string_view element) const {
    const auto* one = coil(element);
    if (!one || !one->at_part_ohm) return false;
    const auto judged = one->answer();
    return judged && judged->verdict != CoilVerdict::pass && judged->verdict != CoilVerdict::borderline &&
           where_between(one->ohm, *one->at_part_ohm) == WhereBetween::coil;
}

std::vector<Observation> Seen::observations() const {
    std::vector<Observation> all;
    for (std::size_t i = 0; i < obtained.size(); ++i) {
        const auto& word = obtained[i];
        if (word == "?") continue;
        const auto what = word == "slips" ? Obtained::slips : word == "binds" ? Obtained::binds : Obtained::gear;
        all.push_back({commanded[i], what, what == Obtained::gear ? word : "", situation()});
    }
    const auto driven = [&](const std::string& gear) {
        return std::find(commanded.begin(), commanded.end(), gear) != commanded.end();
    };
    for (const auto& gear : slipping)
        if (!driven(gear)) all.push_back({gear, Obtained::slips, "", situation()});
    for (const auto& gear : holding)
        if (!driven(gear)) all.push_back({gear, Obtained::gear, gear, situation()});
    return all;
}

Situation Seen::situation() const {
    Situation situation{phase, lever, {}};
    for (const auto& code : codes)
        if (code.electrical() || code.stuck() || code.kind == CodeClass::ratio || code.kind == CodeClass::supply_open) {
            situation.detected = code.kind;
            break;
        }
    return situation;
}

std::vector<std::string> Seen::failed_circuits() const {
    std::vector<std::string> failed;
    for (const auto& code : codes) {
        if (!code.electrical()) continue;
        auto name = code.element;
        if (name.empty()) {
            const auto known = solenoids::failed_circuits({code.code});
            if (known.empty()) continue;
            name = std::string(word(known.front().function)) +
                   (known.front().which.empty() ? "" : " " + known.front().which);
        }
        if (std::find(failed.begin(), failed.end(), name) == failed.end()) failed.push_back(name);
    }
    return failed;
}

bool Seen::supply_reported() const {
    return std::any_of(codes.begin(), codes.end(),
                       [](const SeenCode& code) { return code.kind == CodeClass::supply_open; });
}

std::optional<std::string> given_or_told(const Given& given, const Services& services, std::string_view input,
                                         std::string_view attribute) {
    if (given.has(input))
        return given.text(input).find('|') == std::string::npos ? std::optional(given.text(input)) : std::nullopt;
    return told_value(services.vehicle, attribute);
}

std::vector<Code> codes_from(std::string_view text) {
    std::vector<Code> codes;
    for (const auto& word : split_words(text, "+, ;")) {
        const auto code = read_code(word);
        if (!code) refuse("codes", word, "codes of five characters, such as P0753+P0758");
        if (std::find(codes.begin(), codes.end(), *code) == codes.end()) codes.push_back(*code);
    }
    return codes;
}

std::vector<std::string> gears_from(std::string_view text, const ApplyTable& table) {
    std::vector<std::string> gears;
    for (const auto& word : split_words(text, "-, ;")) gears.push_back(obtained_from(word, table));
    return gears;
}

std::vector<std::pair<std::string, double>> coils_from(std::string_view text, const char* input) {
    std::vector<std::pair<std::string, double>> coils;
    for (const auto& word : split_words(text, " ,;")) {
        const auto at = word.find_first_of("=:");
        if (at == std::string::npos || at == 0) refuse(input, word, "a list such as \"A=18.4 B=open\"");
        coils.emplace_back(word.substr(0, at), ohm_from(word.substr(at + 1), input));
    }
    return coils;
}

std::string element_of(const GearboxFamily& family, const Circuit& circuit) {
    for (const auto& word : role_words)
        if (word.function == circuit.function && word.which == circuit.which)
            if (const auto* element = family.element_of_role(word.role)) return element->name;
    const auto names = family.element_names();
    const bool by_letter = family.elements.empty() && circuit.function == Function::shift_solenoid;
    return by_letter && std::find(names.begin(), names.end(), circuit.which) != names.end() ? circuit.which : "";
}

std::string coil_attribute(const GearboxFamily& family, std::string_view name) {
    const auto* element = family.element(name);
    if (element == nullptr) return "";
    const auto found = std::find_if(role_words.begin(), role_words.end(),
                                    [&](const RoleWord& word) { return word.role == element->role; });
    return found == role_words.end() ? "" : std::string(found->attribute);
}

SeenCode about(Code code, const GearboxFamily* family, const Facts& facts) {
    const auto& rows = facts.rows("solenoids_codes", "code", code_text(code));
    for (const auto& row : rows)
        if (family && !row.text("gearbox").empty() && row.text("gearbox") == family->name) return from_row(code, row);
    SeenCode seen{code, {}, "", "not recorded; a code names a circuit or a behaviour", practice()};
    if (const auto known = meaning(code)) {
        seen.kind = known->kind;
        seen.words = described(code).substr(code_text(code).size() + 2);
        seen.source = evidence_source(known->evidence);
        if (family) seen.element = element_of(*family, {known->function, known->which});
        return seen;
    }
    for (const auto& row : rows)
        if (row.text("gearbox").empty()) return from_row(code, row);
    return seen;
}

std::optional<double> told_ohm(const VehicleView* vehicle, std::string_view attribute) {
    if (vehicle != nullptr)
        for (const auto& told : vehicle->told())
            if (told.attribute == attribute && told.text == "open") return std::numeric_limits<double>::infinity();
    return told_number(vehicle, attribute);
}

std::vector<std::string> forward_gears(const ApplyTable& table) {
    std::vector<std::string> gears;
    for (const auto& gear : table.gears)
        if (gear.range.empty()) gears.push_back(gear.name);
    return gears;
}

Seen read_seen(const Given& given, const Services& services, const GearboxFamily& family) {
    Seen seen;
    if (const auto text = given_or_told(given, services, "codes", "codes")) {
        seen.no_codes = *text == "none";
        if (!seen.no_codes)
            for (const auto code : codes_from(*text)) seen.codes.push_back(about(code, &family, services.facts));
    }
    seen.read_before_clearing = yes_seen(given, services, "codes-before-clearing", "codes_before_clearing");
    if (const auto phase = given_or_told(given, services, "phase", "gears_phase"))
        seen.phase = *phase == "in_fail_safe" ? Phase::in_fail_safe : Phase::before_fail_safe;
    seen.lever = given_or_told(given, services, "lever", "lever_position").value_or("");
    read_gears(seen, given, services, family.table);
    read_slips(seen, given, services, family.table);
    CoilReader coils{given, services, family};
    coils.read_given();
    coils.read_told();
    coils.read_given_at_part();
    seen.coils = std::move(coils.coils);
    seen.feed_v = number_seen(given, services, "feed", "feed_under_load");
    seen.battery_v = given.maybe_number("battery");
    seen.fuse = given_or_told(given, services, "fuse", "feed_fuse");
    seen.connector = given_or_told(given, services, "connector", "connector_state");
    seen.fluid_level = given_or_told(given, services, "fluid-level", "fluid_level");
    seen.swap = given_or_told(given, services, "swap", "swap_result");
    seen.gears_back = yes_seen(given, services, "gears-back", "gears_back");
    return seen;
}

GearboxFamily family_of_codes(const std::vector<Code>& codes) {
    GearboxFamily family;
    family.title = "not known; only what the codes name";
    for (const auto& circuit : failed_circuits(codes)) {
        Element element;
        element.name = std::string(word(circuit.function)) + (circuit.which.empty() ? "" : " " + circuit.which);
        for (const auto& word : role_words)
            if (word.function == circuit.function && word.which == circuit.which && element.role.empty())
                element.role = word.role;
        family.elements.push_back(std::move(element));
    }
    return family;
}

}  // namespace casebound::solenoids
