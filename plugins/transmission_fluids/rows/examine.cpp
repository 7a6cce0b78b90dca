#include "rows/examine.h"

#include <algorithm>
#include <cctype>
#include <set>
#include <string>
#include <vector>

#include "core/contract/answer_words.h"
#include "rows/findings.h"
#include "rows/spec_record.h"

namespace casebound::transmission_fluids {

namespace {

constexpr const char* gearbox_role = "gearbox-fluid";

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
                                                           row.text("gearbox_kind"), row_source(row)));
}

// The kind as an attribute of the line, or as told of a vehicle whose line does not have it.
void object_to_kinds(const SpecRecord& spec, const Services& services, Examination& result) {
    const auto told = told_of(services.vehicle, "gearbox_kind");
    for (const auto& value : services.vehicle->possible("gearbox_kind"))
        if (value.text != "none" && value.text != spec.gearbox_kind)
            result.objections.push_back(kind_objection(spec, "gearbox_kind=" + value.text, "this gearbox", value.text,
                                                       told ? told->source() : spec.source));
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
        if (replaces && !row.stated("withdrawn") && plain(row.text("wanted")) == plain(label)) return true;
    }
    return false;
}

// Where the line has the label, the pack's own conditions have narrowed by it. Each of its configurations gives a
// value to the same attributes.
bool line_has_label(const Services& services) {
    const auto& rows = services.facts.rows("configurations", "line", services.vehicle->line());
    if (rows.empty()) return false;
    const auto values = split_at(rows.front().text("attribute_values"), ';');
    return std::any_of(values.begin(), values.end(),
                       [](const std::string& value) { return trimmed(split_at(value, '=').front()) == "fluid_label"; });
}

void compare_label(const Candidate& candidate, const Services& services, Examination& result) {
    const auto told = told_of(services.vehicle, "fluid_label");
    if (!told || told->text == "none" || line_has_label(services)) return;
    for (const auto& label : told->alternatives()) {
        if (plain(label) == plain(candidate.group)) continue;
        if (succeeds(services.facts, candidate.group, label))
            result.cautions.push_back(
                {"the label on the vehicle says " + label + "; " + candidate.group + " is on record as replacing it",
                 told->source()});
        else
            result.objections.push_back({"fluid_label=" + label, Verdict::check_first,
                                         "the label on the vehicle says " + label + ", not " + candidate.group +
                                             ": ask `swap " + label + " " + candidate.group + "`",
                                         told->source()});
    }
}

// ---------------------------------------------------------------- cautions

void add_once(std::vector<Caution>& cautions, std::string text, SourceNote source) {
    if (std::none_of(cautions.begin(), cautions.end(), [&](const Caution& one) { return one.text == text; }))
        cautions.push_back({std::move(text), std::move(source)});
}

void caution_of_condition(const VehicleView& vehicle, Examination& result) {
    for (const auto& finding : read_fluid_condition(told_fluid(vehicle).as_told).findings)
        if (finding.sign > FluidSign::normal_ageing)
            add_once(result.cautions,
                     "the fluid in it is " + std::string(finding.because) + ". " + std::string(finding.next),
                     practice_on(vehicle, fluid_looks()));
    if (const auto level = told_of(&vehicle, "fluid_level"); level && level->text == "low")
        add_once(result.cautions, "the level is low: find the leak before filling",
                 practice_on(vehicle, {"fluid_level"}));
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
    if (row.stated("lever")) text += ", lever in " + cell(row, "lever");
    return text + (row.text("attitude") == "level" ? ", vehicle level" : ", vehicle as parked");
}

void caution_of_level(const Services& services, Examination& result) {
    for (const auto& held : rows_here(services, "transmission_fluids_levels"))
        if (held.holds == Holds::yes) add_once(result.cautions, level_text(*held), row_source(*held));
}

void caution_of_fill(const Services& services, Examination& result) {
    for (const auto& held : rows_here(services, "transmission_fluids_fills")) {
        if (held.holds != Holds::yes) continue;
        const auto dry = held->number("dry_fill_l");
        if (dry && !held->stated("service_refill_l") && !held->stated("pan_filter_refill_l"))
            add_once(result.cautions,
                     "only a dry fill of " + quantity_text(*dry, "L") +
                         " is on record, that of an empty unit: measure what comes out before ordering",
                     row_source(*held));
        if (held->text("reuse_clean") == "no")
            add_once(result.cautions, "drained fluid does not go back", row_source(*held));
    }
}

// ---------------------------------------------------------------- questions

void ask(const Candidate& candidate, const Services& services, bool spec_known, Examination& result) {
    std::set<std::string> groups;
    for (const auto& row : services.facts.rows("applications", "line", services.vehicle->line()))
        if (row.text("role") == candidate.role && row.text("says") == "fits" && !row.stated("withdrawn"))
            groups.insert(std::string(row.text("group_key")));
    const bool label_helps = groups.size() > 1 || !spec_known;
    if (label_helps && !told_of(services.vehicle, "fluid_label")) result.questions.emplace_back("fluid_label");
}

void examine_gearbox(const Candidate& candidate, const Services& services, Examination& result) {
    const auto spec = spec_record(services.facts, candidate.group);
    if (spec) {
        object_to_families(*spec, services, result);
        object_to_kinds(*spec, services, result);
    } else {
        result.cautions.push_back(
            {"what kind of gearbox " + candidate.group + " is made for is not recorded: read its label"});
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
    if (candidate.role == gearbox_role && services.vehicle != nullptr) examine_gearbox(candidate, services, result);
    return result;
}

}  // namespace casebound::transmission_fluids
