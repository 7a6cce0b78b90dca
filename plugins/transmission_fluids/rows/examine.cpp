#include "rows/examine.h"

#include <algorithm>
#include <cctype>
#include <set>
#include <string>
#include <vector>

#include "answer_parts.h"
#include "on_vehicle.h"
#include "rows/findings.h"
#include "rows/spec_record.h"

namespace casebound::transmission_fluids {

namespace {

constexpr const char* gearbox_role = "gearbox-fluid";
constexpr const char* brake_role = "brake-fluid";

std::string told(const VehicleView& vehicle, std::string_view attribute) {
    for (const auto& one : vehicle.told())
        if (one.attribute == attribute) return one.text;
    return {};
}

// ---------------------------------------------------------------- kind of gearbox against kind of spec

Objection kind_objection(const SpecRecord& spec, std::string condition, const std::string& what, std::string_view kind,
                         const SourceNote& source) {
    const bool never = kind_match(spec.gearbox_kind, kind) == KindMatch::never;
    return {std::move(condition), never ? Verdict::does_not_fit : Verdict::check_first,
            spec.group + " is made for " + kind_words(spec.gearbox_kind) + "; " + what + " is " + kind_words(kind) +
                (never ? ": kinds are never crossed" : ": only its maker's own text permits that"),
            weaker(spec.source, source)};
}

// Families of gearbox the vehicle may still have, each with the kind that the catalog gives it.
void object_to_families(const SpecRecord& spec, const Services& services, Examination& result) {
    for (const auto& value : services.vehicle->possible("gearbox"))
        for (const auto& row : services.facts.rows("transmission_fluids_gearboxes", "gearbox", value.text))
            if (row.text("gearbox_kind") != spec.gearbox_kind)
                result.objections.push_back(kind_objection(spec, "gearbox=" + value.text, "gearbox " + value.text,
                                                           row.text("gearbox_kind"), source_of(row)));
}

// The kind as an attribute of the line, or as told of this vehicle.
void object_to_kinds(const SpecRecord& spec, const Services& services, Examination& result) {
    const auto possible = services.vehicle->possible("gearbox_kind");
    for (const auto& value : possible)
        if (value.text != "none" && value.text != spec.gearbox_kind)
            result.objections.push_back(
                kind_objection(spec, "gearbox_kind=" + value.text, "this gearbox", value.text, spec.source));
    const std::string kind = told(*services.vehicle, "gearbox_kind");
    if (possible.empty() && !kind.empty() && kind != spec.gearbox_kind)
        result.objections.push_back(
            kind_objection(spec, "", "the gearbox, as told,", kind, {Evidence::measured, "told of this vehicle"}));
}

void object_to_brakes(const Candidate& candidate, const SpecRecord& spec, Examination& result) {
    const bool for_brakes = spec.gearbox_kind == "brake_system";
    if (for_brakes == (candidate.role == brake_role)) return;
    result.objections.push_back({"", Verdict::does_not_fit,
                                 for_brakes ? candidate.group + " is a brake fluid"
                                            : candidate.group + " is no brake fluid: brakes take the exact grade",
                                 weaker(law("49 CFR 571.116, S4"), spec.source)});
}

// ---------------------------------------------------------------- what the vehicle's own label says

std::string plain(std::string_view text) {
    std::string result;
    for (const char c : text)
        if (std::isalnum(static_cast<unsigned char>(c)))
            result += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return result;
}

// Stated to replace what the label names, by a statement that has not been withdrawn.
bool succeeds(const Facts& facts, std::string_view group, const std::string& label) {
    for (const auto& row : facts.rows("stand_ins", "offered", group)) {
        const bool replaces = row.text("relation") == "supersedes" || row.text("relation") == "stands_in_if";
        if (replaces && row.text("withdrawn").empty() && plain(row.text("wanted")) == plain(label)) return true;
    }
    return false;
}

void compare_label(const Candidate& candidate, const Services& services, Examination& result) {
    if (!services.vehicle->possible("fluid_label").empty()) return;  // then it narrows the configurations
    const std::string label = told(*services.vehicle, "fluid_label");
    if (label.empty() || label == "none" || plain(label) == plain(candidate.group)) return;
    if (succeeds(services.facts, candidate.group, label)) {
        result.cautions.push_back("the label on the vehicle says " + label + "; " + candidate.group +
                                  " is on record as replacing it");
        return;
    }
    result.objections.push_back({"",
                                 Verdict::check_first,
                                 "the label on the vehicle says " + label + ", not " + candidate.group +
                                     ": ask `swap " + label + " " + candidate.group + "`",
                                 {Evidence::measured, "told of this vehicle"}});
}

// ---------------------------------------------------------------- cautions

void add_once(std::vector<std::string>& texts, std::string text) {
    if (std::find(texts.begin(), texts.end(), text) == texts.end()) texts.push_back(std::move(text));
}

void caution_of_condition(const VehicleView& vehicle, Examination& result) {
    const auto reading = read_fluid_condition(observed_from(told(vehicle, "fluid_colour"), told(vehicle, "fluid_smell"),
                                                            told(vehicle, "fluid_clarity"),
                                                            told(vehicle, "fluid_feel")));
    for (const auto& finding : reading.findings)
        if (finding.sign > FluidSign::normal_ageing)
            add_once(result.cautions,
                     "the fluid in it is " + std::string(finding.because) + ". " + std::string(finding.next));
    if (told(vehicle, "fluid_level") == "low")
        add_once(result.cautions, "the level is low: find the leak before filling");
}

std::string words(std::string_view name) {
    std::string text{name};
    std::replace(text.begin(), text.end(), '_', ' ');
    return text;
}

std::string level_text(const Row& row) {
    std::string text = "read the level by " + words(row.text("method"));
    const auto low = row.number("low_temp_c"), high = row.number("high_temp_c");
    if (low && high) text += " at " + quantity_text(*low, "") + " to " + quantity_text(*high, "°C");
    text += row.text("engine_running") == "yes" ? ", engine running" : ", engine standing";
    if (!row.text("lever").empty()) text += ", lever in " + std::string(row.text("lever"));
    text += row.text("attitude") == "level" ? ", vehicle level" : ", vehicle as parked";
    return text + " (" + source_of(row).title + ")";
}

void caution_of_level(const Services& services, Examination& result) {
    for (const auto& held : rows_on_vehicle(services, "transmission_fluids_levels"))
        if (held.holds == Holds::yes) add_once(result.cautions, level_text(held.row));
}

void caution_of_fill(const Services& services, Examination& result) {
    for (const auto& held : rows_on_vehicle(services, "transmission_fluids_fills")) {
        if (held.holds != Holds::yes) continue;
        const auto dry = held.row.number("dry_fill_l");
        const bool service_known = held.row.number("service_refill_l") || held.row.number("pan_filter_refill_l");
        if (dry && !service_known)
            add_once(result.cautions,
                     "only a dry fill of " + quantity_text(*dry, "L") +
                         " is on record, that of an empty unit: measure what comes out before ordering");
        if (held.row.text("reuse_clean") == "no")
            add_once(result.cautions, "drained fluid does not go back (" + source_of(held.row).title + ")");
    }
}

// ---------------------------------------------------------------- questions

void ask(const Candidate& candidate, const Services& services, bool spec_known, Examination& result) {
    std::set<std::string> groups;
    for (const auto& row : services.facts.rows("applications", "line", services.vehicle->line()))
        if (row.text("role") == candidate.role && row.text("says") == "fits" && row.text("withdrawn").empty())
            groups.insert(std::string(row.text("group_key")));
    const bool label_helps = groups.size() > 1 || !spec_known;
    if (label_helps && told(*services.vehicle, "fluid_label").empty()) result.questions.emplace_back("fluid_label");
}

void examine_gearbox(const Candidate& candidate, const Services& services, Examination& result) {
    const auto spec = spec_record(services.facts, candidate.group);
    if (spec) {
        object_to_families(*spec, services, result);
        object_to_kinds(*spec, services, result);
    } else {
        result.cautions.push_back("what kind of gearbox " + candidate.group +
                                  " is made for is not recorded: read its label");
    }
    compare_label(candidate, services, result);
    caution_of_condition(*services.vehicle, result);
    caution_of_level(services, result);
    caution_of_fill(services, result);
    ask(candidate, services, spec.has_value(), result);
}

}  // namespace

Examination examine(const Candidate& candidate, const Services& services) {
    Examination result;
    if (const auto spec = spec_record(services.facts, candidate.group)) object_to_brakes(candidate, *spec, result);
    if (candidate.role == gearbox_role && services.vehicle != nullptr) examine_gearbox(candidate, services, result);
    return result;
}

}  // namespace casebound::transmission_fluids
