#include "rows/spec_record.h"

#include <algorithm>
#include <array>
#include <utility>

#include "core/contract/answer_words.h"

namespace casebound::transmission_fluids {

namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 7> kinds{{
    {"planetary_automatic", "a planetary automatic"},
    {"belt_cvt", "a belt CVT"},
    {"chain_cvt", "a chain CVT"},
    {"dual_clutch_wet", "a wet dual clutch"},
    {"dual_clutch_dry", "a dry dual clutch"},
    {"manual", "a manual gearbox"},
    {"transfer_case", "a transfer case"},
}};

bool plain_gears(std::string_view kind) { return kind == "manual" || kind == "transfer_case"; }

SpecRecord spec_from(const Row& row) {
    return {cell(row, "group_key"),  cell(row, "gearbox_kind"),   cell(row, "base"),
            cell(row, "jaso_class"), cell(row, "sae_j306_grade"), cell(row, "owner"),
            cell(row, "issued"),     row.number("kv40_mm2_s"),    row.number("kv100_mm2_s"),
            row_source(row)};
}

std::vector<Claim> claims_from(const std::vector<Row>& rows) {
    std::vector<Claim> claims;
    for (const auto& row : rows)
        claims.push_back({cell(row, "item"), cell(row, "group_key"), cell(row, "wording"), cell(row, "words"),
                          cell(row, "claimed_by"), cell(row, "seen"), row_source(row)});
    return claims;
}

// The one spec that more than a claim puts the product in.
std::optional<SpecRecord> spec_of_product(const Facts& facts, std::string_view item) {
    std::vector<SpecRecord> specs;
    for (const auto& row : facts.rows("group_members", "item", item)) {
        if (row.text("basis") == "claimed") continue;
        if (auto spec = spec_record(facts, row.text("group_key"))) specs.push_back(std::move(*spec));
    }
    return specs.size() == 1 ? std::optional(specs.front()) : std::nullopt;
}

void add_viscosities_of_spec(FluidFigures& figures) {
    if (!figures.spec || figures.kv40_mm2_s || figures.kv100_mm2_s) return;
    figures.kv40_mm2_s = figures.spec->kv40_mm2_s;
    figures.kv100_mm2_s = figures.spec->kv100_mm2_s;
    figures.typical = figures.kv40_mm2_s || figures.kv100_mm2_s;
    figures.source = figures.spec->source;
}

}  // namespace

std::optional<SpecRecord> spec_record(const Facts& facts, std::string_view group) {
    const auto& rows = facts.rows("transmission_fluids_specs", "group_key", group);
    return rows.empty() ? std::nullopt : std::optional(spec_from(rows.front()));
}

std::string kind_words(std::string_view gearbox_kind) {
    const auto found = std::find_if(kinds.begin(), kinds.end(),
                                    [&](const auto& kind) { return kind.first == gearbox_kind; });
    return std::string(found == kinds.end() ? gearbox_kind : found->second);
}

KindMatch kind_match(std::string_view one_kind, std::string_view other_kind) {
    if (one_kind == other_kind) return KindMatch::same;
    const bool gears = plain_gears(one_kind) || plain_gears(other_kind);
    return gears ? KindMatch::maker_may_permit : KindMatch::never;
}

std::optional<FluidFigures> fluid_figures(const Facts& facts, std::string_view key) {
    FluidFigures figures;
    figures.name = key;
    figures.spec = spec_record(facts, key);
    const auto& products = facts.rows("transmission_fluids_products", "item", key);
    if (!products.empty()) {
        const Row& row = products.front();
        figures.kv40_mm2_s = row.number("kv40_mm2_s");
        figures.kv100_mm2_s = row.number("kv100_mm2_s");
        figures.density_15c_kg_m3 = row.number("density_15c_kg_m3");
        figures.source = row_source(row);
    }
    if (!figures.spec) figures.spec = spec_of_product(facts, key);
    if (!figures.spec && products.empty() && facts.rows("items", "item", key).empty()) return std::nullopt;
    add_viscosities_of_spec(figures);
    return figures;
}

std::vector<Claim> claims_of_item(const Facts& facts, std::string_view item) {
    return claims_from(facts.rows("transmission_fluids_claims", "item", item));
}

std::vector<Claim> claims_on_spec(const Facts& facts, std::string_view group) {
    return claims_from(facts.rows("transmission_fluids_claims", "group_key", group));
}

std::string claim_text(const Claim& claim) {
    std::string text = "\"" + claim.words + "\", says " + claim.claimed_by;
    if (!claim.seen.empty()) text += ", read " + claim.seen;
    return text;
}

}  // namespace casebound::transmission_fluids
