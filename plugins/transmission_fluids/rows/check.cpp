#include "rows/check.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <map>
#include <string>
#include <utility>

#include "core/contract/answer_words.h"
#include "science/gear_grade.h"
#include "science/grades.h"
#include "science/viscosity_index.h"

namespace casebound::transmission_fluids {

namespace {

class Faults {
public:
    Faults(const Facts& facts, std::string_view pack) : facts_(facts), pack_(pack) {}

    const Facts& facts() const { return facts_; }
    std::vector<Row> rows(std::string_view table) const {
        auto all = facts_.rows(table);
        all.erase(std::remove_if(all.begin(), all.end(), [&](const Row& row) { return row.origin.pack != pack_; }),
                  all.end());
        return all;
    }
    void add(const Row& row, std::string column, std::string what) {
        found_.push_back({row.origin, std::move(column), std::move(what)});
    }
    std::vector<RowFault> found() && { return std::move(found_); }

private:
    const Facts& facts_;
    std::string_view pack_;
    std::vector<RowFault> found_;
};

std::string lower_case(std::string_view text) {
    std::string result{text};
    for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
    return result;
}

std::string kind_of(const Facts& facts, std::string_view table, std::string_view column, std::string_view key) {
    const auto& rows = facts.rows(table, column, key);
    return rows.empty() ? std::string() : cell(rows.front(), "kind");
}

bool is_fluid_kind(std::string_view kind) { return kind == "transmission-fluid"; }

// YYYY, YYYY-MM or YYYY-MM-DD.
bool is_dated(std::string_view text) {
    if (text.size() != 4 && text.size() != 7 && text.size() != 10) return false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const bool dash = i == 4 || i == 7;
        if (dash ? text[i] != '-' : !std::isdigit(static_cast<unsigned char>(text[i]))) return false;
    }
    const auto two = [&](std::size_t at) { return (text[at] - '0') * 10 + (text[at + 1] - '0'); };
    if (text.size() >= 7 && (two(5) < 1 || two(5) > 12)) return false;
    return text.size() < 10 || (two(8) >= 1 && two(8) <= 31);
}

void check_date(const Row& row, const char* column, Faults& faults) {
    if (row.stated(column) && !is_dated(row.text(column)))
        faults.add(row, column, "`" + cell(row, column) + "` is no date: write 2016, 2016-04 or 2016-04-30");
}

// ---------------------------------------------------------------- specs

void check_kind(const Row& row, Faults& faults) {
    const std::string kind = kind_of(faults.facts(), "groups", "group_key", row.text("group_key"));
    if (!kind.empty() && !is_fluid_kind(kind))
        faults.add(
            row, "group_key",
            "`" + cell(row, "group_key") + "` is a group of " + kind + ": a spec is a group of transmission-fluid");
}

// Indices of real oils lie far inside; outside, two cells are swapped or a digit is wrong (range from memory).
void check_viscosity(const Row& row, Faults& faults) {
    const auto kv40 = row.number("kv40_mm2_s"), kv100 = row.number("kv100_mm2_s");
    if (!kv40 || !kv100 || !(*kv40 > *kv100) || !(*kv100 > 0) || *kv40 > 1e6) return;
    const auto index = viscosity_index(*kv40, *kv100);
    if (index && (index->whole < -200 || index->whole > 500))
        faults.add(row, "kv40_mm2_s",
                   "with " + quantity_text(*kv100, "mm2/s") + " at 100 °C its viscosity index would be " +
                       std::to_string(index->whole) + ": look at both figures again");
}

void check_grade(const Row& row, Faults& faults) {
    const std::string grade = cell(row, "sae_j306_grade");
    if (grade.empty()) return;
    if (!known_gear_grade(grade)) {
        faults.add(row, "sae_j306_grade",
                   "`" + grade + "` is no grade of SAE J306 (2005 or 2019): write it as 75W-90, 80W or 90");
        return;
    }
    const auto kv100 = row.number("kv100_mm2_s");
    if (!kv100) return;
    const std::string outside = outside_gear_grade(grade, *kv100);
    if (!outside.empty()) faults.add(row, "kv100_mm2_s", outside + ": correct one of the two");
}

void check_specs(Faults& faults) {
    for (const auto& row : faults.rows("transmission_fluids_specs")) {
        check_kind(row, faults);
        check_viscosity(row, faults);
        check_grade(row, faults);
        check_date(row, "issued", faults);
    }
}

// ---------------------------------------------------------------- claims and products

constexpr std::array<std::string_view, 5> firmness{"none_stated", "suitable_for", "meets", "approved", "licensed"};

std::size_t firmness_of(std::string_view wording) {
    return static_cast<std::size_t>(std::find(firmness.begin(), firmness.end(), wording) - firmness.begin());
}

// The words themselves must not say less than the column.
void check_words(const Row& row, Faults& faults) {
    const std::string words = lower_case(row.text("words"));
    const bool sellers = words.find("suitable for") != std::string::npos ||
                         words.find("recommended for") != std::string::npos;
    const bool firm = words.find("approved") != std::string::npos || words.find("licensed") != std::string::npos;
    if (sellers && !firm && firmness_of(row.text("wording")) > firmness_of("suitable_for"))
        faults.add(row, "wording",
                   "the words say \"" + cell(row, "words") + "\": that is suitable_for, not " + cell(row, "wording"));
    if (words.empty() && row.text("wording") != "none_stated")
        faults.add(row, "words", "a claim without its words is none: copy them from the label, or write none_stated");
}

struct ProductOnSpec {
    Row claim;  // the first of them
    std::size_t firmest;
};

// Membership may not rest on more than the firmest claim on record for that product and spec.
void check_membership(const ProductOnSpec& claims, std::string_view pack, Faults& faults) {
    const auto item = claims.claim.text("item"), group = claims.claim.text("group_key");
    for (const auto& member : faults.facts().rows("group_members", "item", item)) {
        const std::string basis = cell(member, "basis");
        if (member.text("group_key") != group || (basis != "approved" && basis != "meets")) continue;
        if (claims.firmest >= firmness_of(basis)) continue;
        const bool here = member.origin.pack == pack;
        faults.add(here ? member : claims.claim, here ? "basis" : "wording",
                   "`" + basis + "` for " + std::string(item) + " in " + std::string(group) +
                       ", but its label says no more than " + std::string(firmness[claims.firmest]) +
                       ": write claimed, or record the firmer claim");
    }
}

void check_memberships(std::string_view pack, Faults& faults) {
    std::map<std::pair<std::string, std::string>, ProductOnSpec> claims;
    for (const auto& row : faults.rows("transmission_fluids_claims")) {
        const auto firm = firmness_of(row.text("wording"));
        const auto [at, fresh] = claims.try_emplace({cell(row, "item"), cell(row, "group_key")},
                                                    ProductOnSpec{row, firm});
        if (!fresh) at->second.firmest = std::max(at->second.firmest, firm);
    }
    for (const auto& [key, found] : claims) check_membership(found, pack, faults);
}

void check_claims(Faults& faults) {
    for (const auto& row : faults.rows("transmission_fluids_claims")) {
        check_words(row, faults);
        check_date(row, "seen", faults);
        if (const auto kind = kind_of(faults.facts(), "items", "item", row.text("item"));
            !kind.empty() && !is_fluid_kind(kind))
            faults.add(row, "item", "`" + cell(row, "item") + "` is a " + kind + ": only a fluid has claims here");
        if (const auto kind = kind_of(faults.facts(), "groups", "group_key", row.text("group_key"));
            !kind.empty() && !is_fluid_kind(kind))
            faults.add(row, "group_key",
                       "`" + cell(row, "group_key") + "` is a group of " + kind + ": a claim speaks of a fluid spec");
    }
}

void check_products(Faults& faults) {
    for (const auto& row : faults.rows("transmission_fluids_products")) {
        if (const auto kind = kind_of(faults.facts(), "items", "item", row.text("item"));
            !kind.empty() && !is_fluid_kind(kind))
            faults.add(row, "item",
                       "`" + cell(row, "item") + "` is a " + kind + ": a data sheet of a fluid belongs here");
        const auto kv40 = row.number("kv40_mm2_s"), kv100 = row.number("kv100_mm2_s");
        if (kv40 && kv100 && *kv40 <= *kv100)
            faults.add(row, "kv40_mm2_s", "not above the viscosity at 100 °C: the two are swapped or one is wrong");
        else check_viscosity(row, faults);
    }
}

// ---------------------------------------------------------------- the vehicle's figures

void not_above(const Row& row, const char* smaller, const char* larger, const char* why, Faults& faults) {
    const auto low = row.number(smaller), high = row.number(larger);
    if (low && high && *low > *high)
        faults.add(
            row, smaller,
            quantity_text(*low, "L") + " is more than " + larger + " of " + quantity_text(*high, "L") + ": " + why);
}

void check_fills(Faults& faults) {
    for (const auto& row : faults.rows("transmission_fluids_fills")) {
        not_above(row, "dry_fill_l", "total_l", "an empty unit takes no more than unit, converter and cooler together",
                  faults);
        not_above(row, "pan_filter_refill_l", "total_l", "a service takes no more than all the fluid", faults);
        not_above(row, "cooler_l", "total_l", "the cooler is part of the whole", faults);
        not_above(row, "service_refill_l", "dry_fill_l", "a service refill above the dry fill: are the two swapped?",
                  faults);
        not_above(row, "service_refill_l", "pan_filter_refill_l",
                  "with the pan off and a new filter no less goes in than after a plain drain", faults);
        const bool any = row.number("service_refill_l") || row.number("pan_filter_refill_l") || row.number("total_l") ||
                         row.number("dry_fill_l");
        if (!any) faults.add(row, "service_refill_l", "the row states no volume: give one, or remove it");
    }
}

bool needs_temperature(std::string_view method) { return method != "side_plug" && method != "sight_glass"; }

void check_levels(Faults& faults) {
    for (const auto& row : faults.rows("transmission_fluids_levels")) {
        const auto low = row.number("low_temp_c"), high = row.number("high_temp_c");
        if (needs_temperature(row.text("method")) && (!low || !high))
            faults.add(row, low ? "high_temp_c" : "low_temp_c",
                       "a level by " + cell(row, "method") +
                           " means nothing without its temperatures: give both ends of the window");
        for (const auto& [value, column] : {std::pair{low, "low_temp_c"}, std::pair{high, "high_temp_c"}})
            if (value && (*value < -40 || *value > 130))
                faults.add(row, column,
                           quantity_text(*value, "degC") + " is no fluid temperature of a level check: is it in degF?");
    }
}

void check_intervals(Faults& faults) {
    for (const auto& row : faults.rows("transmission_fluids_intervals")) {
        const auto km = row.number("interval_km"), months = row.number("interval_months"),
                   severe = row.number("severe_factor");
        if (!km && !months && row.text("words").empty())
            faults.add(row, "words", "the row states nothing: give a distance, an age, or the source's own words");
        if (km && (*km < 100 || *km > 1e6))
            faults.add(row, "interval_km", quantity_text(*km, "km") + " is no service interval: 100 to 1000000 km");
        if (months && *months > 600)
            faults.add(row, "interval_months",
                       quantity_text(*months, "months") + " is no service interval: 1 to 600 months");
        if (severe && *severe < 0.3)
            faults.add(row, "severe_factor", quantity_text(*severe, "") + " is below 0.3: is it the part taken off?");
    }
}

// Two rows of one source for the same configurations would answer one question twice.
void check_doubles(const char* table, Faults& faults) {
    std::map<std::string, std::uint32_t> first;
    for (const auto& row : faults.rows(table)) {
        const std::string key = cell(row, "line") + "\n" + cell(row, "condition") + "\n" + cell(row, "source");
        const auto [at, fresh] = first.emplace(key, row.origin.line);
        if (!fresh)
            faults.add(row, "condition",
                       "the same line, condition and source as line " + std::to_string(at->second) + ": keep one");
    }
}

void check_published(Faults& faults) {
    for (const auto& row : faults.rows("transmission_fluids_published")) {
        const auto low = row.number("low"), high = row.number("high");
        if (row.text("unit") == "share" && ((low && *low < 0) || (high && *high > 1)))
            faults.add(row, "high", "a share is a part of one, 0 to 1: write 30 % as 0.3");
    }
}

// The classes that are computed with are the standard's own: a row may not say otherwise.
void check_gear_grades(Faults& faults) {
    for (const auto& row : faults.rows("transmission_fluids_gear_grades"))
        for (const auto& one : viscosity_classes(OilScale::j306_2019)) {
            if (one.name != row.text("grade")) continue;
            if (row.number("kv100_min_mm2_s") != one.kv100_min_mm2_s)
                faults.add(row, "kv100_min_mm2_s", "SAE J306 of 2019 has " + fixed(one.kv100_min_mm2_s, 1));
            if (row.number("kv100_below_mm2_s") != one.kv100_below_mm2_s)
                faults.add(row, "kv100_below_mm2_s", "SAE J306 of 2019 has another upper limit, or none");
            if (row.number("temp_at_150000_c") != one.temp_at_150000_c)
                faults.add(row, "temp_at_150000_c", "SAE J306 of 2019 has another temperature, or none");
        }
}

void check_iso_classes(Faults& faults) {
    for (const auto& row : faults.rows("transmission_fluids_iso_classes"))
        for (const auto& one : iso_classes())
            if (row.text("iso_class") == "VG " + std::to_string(one.vg) &&
                row.number("kv40_mid_mm2_s") != one.mid_mm2_s)
                faults.add(row, "kv40_mid_mm2_s", "ISO 3448 has " + quantity_text(one.mid_mm2_s, "mm2/s"));
}

}  // namespace

std::vector<RowFault> check(const Facts& facts, std::string_view pack) {
    Faults faults(facts, pack);
    for (const auto rule : {check_specs, check_claims, check_products, check_fills, check_levels, check_intervals,
                            check_published, check_gear_grades, check_iso_classes})
        rule(faults);
    check_memberships(pack, faults);
    for (const char* table :
         {"transmission_fluids_fills", "transmission_fluids_levels", "transmission_fluids_intervals"})
        check_doubles(table, faults);
    return std::move(faults).found();
}

}  // namespace casebound::transmission_fluids
