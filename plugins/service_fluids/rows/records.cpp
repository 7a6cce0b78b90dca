#include "rows/records.h"

#include <algorithm>
#include <cctype>
#include <iterator>

#include "core/contract/answer_words.h"

namespace casebound::service_fluids {
namespace {

// "API SN", "api-sn" and "API_SN" read alike; a plus sign makes another class.
std::string letters_of(std::string_view category) {
    std::string letters;
    for (const char c : category)
        if (c != ' ' && c != '-' && c != '_') letters += static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
    return letters;
}

}  // namespace

const std::vector<std::string>& family_names() {
    static const std::vector<std::string> names{"inorganic", "organic", "hybrid_silicate", "hybrid_phosphate"};
    return names;
}

std::string family_said(std::string_view family) {
    if (family == "hybrid_silicate") return "hybrid with silicate";
    if (family == "hybrid_phosphate") return "hybrid with phosphate";
    return std::string(family);
}

std::string base_said(std::string_view base) {
    return base == "propylene_glycol" ? "propylene glycol" : "ethylene glycol";
}

Mixing mixing_of(const Facts& facts, std::string_view offered, std::string_view present) {
    if (offered == present) return {true, "the same family", practice()};
    Mixing found{false, "no source says that they may be mixed", practice()};
    for (const auto& row : facts.rows("service_fluids_mixes", "offered", offered)) {
        if (row.text("present") != present) continue;
        found = {row.yes("may"), row.stated("words") ? cell(row, "words") : "the source says " + cell(row, "may"),
                 row_source(row)};
        if (!found.may) break;  // one no outweighs every yes
    }
    return found;
}

bool is_brake_fluid(const Facts& facts, std::string_view group) {
    if (!facts.rows(brake_fluids, "group_key", group).empty()) return true;
    const auto& rows = facts.rows("groups", "group_key", group);
    return !rows.empty() && rows.front().text("kind") == "brake-fluid";
}

Freezing freezing_of(const Facts& facts, std::string_view base) {
    Freezing freezing;
    for (const auto& row : facts.rows("service_fluids_freezing", "base", base)) {
        freezing.points.push_back({row.need_number("glycol_pct"), row.need_number("freeze_c")});
        freezing.sources.emplace_back(row.need_number("glycol_pct"), row_source(row));
    }
    freezing.points = falling(std::move(freezing.points));
    std::stable_sort(freezing.sources.begin(), freezing.sources.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    return freezing;
}

SourceNote Freezing::source_at(double glycol_pct) const {
    const auto above = std::find_if(sources.begin(), sources.end(),
                                    [&](const auto& one) { return one.first >= glycol_pct; });
    if (above == sources.end()) return from_memory();
    if (above->first == glycol_pct || above == sources.begin()) return above->second;
    return weaker(computed("on the straight line between two rows"), weaker(std::prev(above)->second, above->second));
}

const Row* class_row(const Facts& facts, std::string_view viscosity, std::string_view winter) {
    if (viscosity.empty()) return nullptr;
    const Row* otherwise = nullptr;
    for (const auto& row : facts.rows("service_fluids_viscosities", "viscosity", viscosity)) {
        const auto beside = split_at(row.text("beside"), '|');
        if (!winter.empty() && std::find(beside.begin(), beside.end(), winter) != beside.end()) return &row;
        if (!row.stated("beside")) otherwise = &row;
    }
    return otherwise;
}

std::string category_named(const Facts& facts, std::string_view typed) {
    const auto letters = letters_of(typed);
    for (const auto& row : facts.rows("service_fluids_categories"))
        if (letters_of(row.text("category")) == letters) return std::string(row.text("category"));
    return std::string(typed);
}

CategoryAnswer category_against(const Facts& facts, std::string_view offered, std::string_view wanted) {
    if (letters_of(offered) == letters_of(wanted)) return {Category::same, practice("the same name")};
    const auto& found_offered = facts.rows("service_fluids_categories", "category", offered);
    const auto& found_wanted = facts.rows("service_fluids_categories", "category", wanted);
    if (found_offered.empty() || found_wanted.empty()) return {Category::not_recorded, practice()};
    const auto &a = found_offered.front(), &b = found_wanted.front();
    if (a.text("series") != b.text("series")) return {Category::not_recorded, practice()};
    const bool later = a.need_number("place") > b.need_number("place");
    return {later ? Category::later : Category::earlier, weaker(row_source(a), row_source(b))};
}

}  // namespace casebound::service_fluids
