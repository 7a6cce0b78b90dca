#include "rows/seen.h"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <limits>

#include "core/contract/answer_lines.h"
#include "rows/family.h"

namespace casebound::solenoids {
namespace {

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
    SeenCode seen{code, code_class_from(row.text("class")), std::string(row.text("element")),
                  std::string(row.text("words")), row_source(row)};
    if (const auto known = meaning(code); known && row.text("gearbox").empty()) seen.function = known->function;
    return seen;
}

// ---------------------------------------------------------------- one thing, by hand or told

struct Found {
    std::string text;
    std::optional<double> number;
    HowSeen how;
};

// What can lie in a pan, as it is told.
constexpr std::array<const char*, 11> debris_words{
    "none",         "grey_paste_thin",       "grey_paste_thick",  "brass_flakes",
    "steel_pieces", "black_flakes",          "aluminium_glitter", "varnish_film",
    "plastic_bits", "loose_plug_with_oring", "sealant_strings"};

bool one_value(const std::string& text) { return text.find('|') == std::string::npos; }

// The value of an input, or else what was told of the attribute; nothing when "a|b" was told.
std::optional<Found> found(const Given& given, const Services& services, std::string_view input,
                           std::string_view attribute) {
    if (given.has(input)) {
        const auto& value = given.value(input);
        if (!one_value(value.text)) return std::nullopt;
        const auto number = value.numbers.empty() ? std::nullopt : std::optional(value.numbers.front());
        return Found{value.text, number, {value.source, value.hearsay}};
    }
    const auto told = told_of(services.vehicle, attribute);
    if (!told || !one_value(told->text)) return std::nullopt;
    return Found{told->text, told->number, {told->source(), is_hearsay(told->evidence)}};
}

// "2-2-3-3" or "2 2 3 3". "slip", "bind" and "?" may stand for a gear.
std::vector<std::string> gears_from(std::string_view text, const ApplyTable& table) {
    std::vector<std::string> gears;
    for (const auto& word : split_words(text, "-, ;")) gears.push_back(obtained_from(word, table));
    return gears;
}

// "A=18.4 B=open": element and ohm.
std::vector<std::pair<std::string, double>> coils_from(std::string_view text, const char* input) {
    std::vector<std::pair<std::string, double>> coils;
    for (const auto& word : split_words(text, " ,;")) {
        const auto at = word.find_first_of("=:");
        if (at == std::string::npos || at == 0) refuse(input, word, "a list such as \"A=18.4 B=open\"");
        coils.emplace_back(word.substr(0, at), ohm_from(word.substr(at + 1), input));
    }
    return coils;
}

// ---------------------------------------------------------------- coils

struct CoilReader {
    const Given& given;
    const Services& services;
    const GearboxFamily& family;
    std::optional<Found> temp = found(given, services, "coil-temp", "coil_temp");
    std::vector<SeenCoil> coils{};

    void add_limits(SeenCoil& coil) const {
        const Element* element = family.element(coil.element);
        if (given.has("ohm-low") && given.has("ohm-high")) {
            coil.ohm_20 = OhmLimits{given.number("ohm-low"), given.number("ohm-high")};
            coil.limits_source = given.source("ohm-low");
        } else if (element && element->ohm_20) {
            coil.ohm_20 = element->ohm_20;
            coil.limits_source = row_source(element->origin);
        }
    }

    SeenCoil& add(const std::string& name, double ohm, const HowSeen& how) {
        SeenCoil coil{name, ohm, temp ? temp->number : std::nullopt, {}, {}, how.source, {}, how.hearsay};
        if (!coil.open() && temp && temp->how.hearsay) coil.hearsay = true;
        add_limits(coil);
        return coils.emplace_back(std::move(coil));
    }

    SeenCoil* find(std::string_view name) {
        const auto found = std::find_if(coils.begin(), coils.end(),
                                        [name](const SeenCoil& one) { return one.element == name; });
        return found == coils.end() ? nullptr : &*found;
    }

    // Beside a reading at the connector; by itself it is a reading of the coil with no connector in between.
    void add_at_part(const std::string& name, double ohm, const HowSeen& how) {
        auto* coil = find(name);
        if (coil == nullptr) coil = &add(name, ohm, how);
        coil->at_part_ohm = ohm;
        coil->at_part_hearsay = how.hearsay;
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

    std::optional<HowSeen> told(const std::string& attribute) const {
        const auto told = told_of(services.vehicle, attribute);
        return told && told_ohm(services.vehicle, attribute)
                   ? std::optional(HowSeen{told->source(), is_hearsay(told->evidence)})
                   : std::nullopt;
    }

    void read() {
        for (const auto& [name, ohm] : of("coils")) add(name, ohm, {given.source("coils"), given.hearsay("coils")});
        for (const auto& name : family.element_names()) read_told(name);
        for (const auto& [name, ohm] : of("coils-at-part"))
            add_at_part(name, ohm, {given.source("coils-at-part"), given.hearsay("coils-at-part")});
    }

    void read_told(const std::string& name) {
        const auto* element = family.element(name);
        if (element == nullptr || element->coil_attribute.empty() || find(name)) return;
        const auto at_part = element->coil_attribute + "_at_part";
        if (const auto how = told(element->coil_attribute))
            add(name, *told_ohm(services.vehicle, element->coil_attribute), *how);
        if (const auto how = told(at_part)) add_at_part(name, *told_ohm(services.vehicle, at_part), *how);
    }
};

// ---------------------------------------------------------------- all of them

struct SeenReader {
    const Given& given;
    const Services& services;
    const GearboxFamily& family;
    Seen seen{};

    std::optional<Found> find(SeenWhat what, std::string_view input, std::string_view attribute) {
        auto one = found(given, services, input, attribute);
        if (one) seen.how[what] = one->how;
        return one;
    }
    std::string text(SeenWhat what, std::string_view input, std::string_view attribute) {
        const auto one = find(what, input, attribute);
        return one ? one->text : "";
    }
    std::optional<std::string> maybe(SeenWhat what, std::string_view input, std::string_view attribute) {
        const auto one = find(what, input, attribute);
        return one ? std::optional(one->text) : std::nullopt;
    }

    void read_codes() {
        const auto stored = text(SeenWhat::codes, "codes", "codes");
        seen.no_codes = stored == "none";
        if (!seen.no_codes)
            for (const auto code : codes_from(stored)) seen.codes.push_back(about(code, &family, services.facts));
        if (const auto before = found(given, services, "codes-before-clearing", "codes_before_clearing"))
            seen.read_before_clearing = before->text == "yes";
    }

    void read_gears() {
        const auto phase = text(SeenWhat::phase, "phase", "gears_phase");
        if (!phase.empty()) seen.phase = phase == "in_fail_safe" ? Phase::in_fail_safe : Phase::before_fail_safe;
        seen.lever = text(SeenWhat::lever, "lever", "lever_position");
        if (family.table.gears.empty()) return;
        seen.obtained = gears_from(text(SeenWhat::gears, "gears", "gears_obtained"), family.table);
        read_commanded();
        read_slips();
    }

    void read_commanded() {
        if (given.has("commanded")) {
            seen.commanded = gears_from(given.text("commanded"), family.table);
            if (seen.commanded.size() != seen.obtained.size())
                refuse("commanded", std::to_string(seen.commanded.size()) + " gears",
                       std::to_string(seen.obtained.size()) + " gears, one for each gear obtained");
            return;
        }
        for (const auto& gear : family.table.gears)
            if (gear.range.empty()) seen.commanded.push_back(gear.name);
        for (const auto& gear : family.table.gears)
            if (!gear.range.empty()) seen.commanded.push_back(gear.name);
        if (seen.obtained.size() > seen.commanded.size())
            refuse(
                "gears", std::to_string(seen.obtained.size()) + " gears",
                "at most " + std::to_string(seen.commanded.size()) + ", for commanded " + listed(seen.commanded, " "));
        seen.commanded.resize(seen.obtained.size());
    }

    void read_slips() {
        const auto slips = text(SeenWhat::slips, "slips", "slips_in");
        if (slips.empty() || slips == "none") return;
        for (const auto& gear : gears_from(slips, family.table)) {
            if (!is_gear(family.table, gear)) refuse("slips", gear, "gears of the apply table");
            seen.slipping.push_back(gear);
        }
        for (const auto& gear : forward_gears(family.table))
            if (std::find(seen.slipping.begin(), seen.slipping.end(), gear) == seen.slipping.end())
                seen.holding.push_back(gear);
    }

    void read_readings() {
        if (const auto feed = find(SeenWhat::feed, "feed", "feed_under_load")) seen.feed_v = feed->number;
        if (const auto battery = found(given, services, "battery", "battery_voltage")) seen.battery_v = battery->number;
        seen.fuse = maybe(SeenWhat::fuse, "fuse", "feed_fuse");
        seen.connector = maybe(SeenWhat::connector, "connector", "connector_state");
        seen.fluid_level = maybe(SeenWhat::fluid_level, "fluid-level", "fluid_level");
        seen.swap = maybe(SeenWhat::swap, "swap", "swap_result");
        if (const auto back = find(SeenWhat::ignition, "gears-back", "gears_back"))
            seen.gears_back = back->text == "yes";
    }

    std::string known_debris(std::string word) const {
        const bool by_hand = given.has("debris") && given.value("debris").from == From::by_hand;
        if (by_hand && std::find(debris_words.begin(), debris_words.end(), word) == debris_words.end())
            refuse("debris", word, listed({debris_words.begin(), debris_words.end()}));
        return word;
    }

    void read_pan() {
        for (auto& one : split_words(text(SeenWhat::debris, "debris", "pan_debris"), "+, ;"))
            seen.debris.push_back(known_debris(std::move(one)));
        seen.fluid_colour = text(SeenWhat::fluid_colour, "fluid-colour", "fluid_colour");
        seen.fluid_smell = text(SeenWhat::fluid_smell, "fluid-smell", "fluid_smell");
    }
};

}  // namespace

std::vector<Code> codes_from(std::string_view text) {
    std::vector<Code> codes;
    for (const auto& word : split_words(text, "+, ;")) {
        const auto code = read_code(word);
        if (!code) refuse("codes", word, "codes of five characters, such as P0753+P0758");
        if (std::find(codes.begin(), codes.end(), *code) == codes.end()) codes.push_back(*code);
    }
    return codes;
}

SeenCode about(Code code, const GearboxFamily* family, const Facts& facts) {
    const auto& rows = facts.rows("solenoids_codes", "code", code_text(code));
    for (const auto& row : rows)
        if (family && !row.text("gearbox").empty() && row.text("gearbox") == family->name) return from_row(code, row);
    SeenCode seen{code, {}, "", "not recorded; a code names a circuit or a behaviour", practice()};
    if (const auto known = meaning(code)) {
        seen.kind = known->kind;
        seen.function = known->function;
        seen.words = in_words(*known);
        seen.source = evidence_source(known->evidence);
        if (family) seen.element = element_of(*family, {known->function, known->which});
        return seen;
    }
    for (const auto& row : rows)
        if (row.text("gearbox").empty()) return from_row(code, row);
    return seen;
}

std::optional<double> told_ohm(const VehicleView* vehicle, std::string_view attribute) {
    const auto told = told_of(vehicle, attribute);
    if (!told) return std::nullopt;
    return told->text == "open" ? std::optional(std::numeric_limits<double>::infinity()) : told->number;
}

bool may_show_trouble(const VehicleView& vehicle) {
    constexpr std::array<std::string_view, 13> names{"gearbox_noise",   "codes",      "gears_obtained",  "slips_in",
                                                     "feed_under_load", "feed_fuse",  "connector_state", "fluid_level",
                                                     "swap_result",     "gears_back", "pan_debris",      "fluid_colour",
                                                     "fluid_smell"};
    const auto told = vehicle.told();
    return std::any_of(told.begin(), told.end(), [&](const Told& one) {
        return one.attribute.rfind("coil_", 0) == 0 ||
               std::find(names.begin(), names.end(), one.attribute) != names.end();
    });
}

Seen read_seen(const Given& given, const Services& services, const GearboxFamily& family) {
    SeenReader reader{given, services, family};
    reader.read_codes();
    reader.read_gears();
    CoilReader coils{given, services, family};
    coils.read();
    reader.seen.coils = std::move(coils.coils);
    reader.read_readings();
    reader.read_pan();
    return std::move(reader.seen);
}

}  // namespace casebound::solenoids
