// What the catalog holds about a fluid: the spec (an interchange group), the product (an item), and what is printed
// about it, word for word. Kinds of gearbox are never guessed from a name, a colour or a viscosity.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound::transmission_fluids {

struct SpecRecord {
    std::string group, gearbox_kind, base, jaso_class, j306_grade, owner, issued;
    std::optional<double> kv40_mm2_s, kv100_mm2_s;  // typical of the spec
    SourceNote source;
};

std::optional<SpecRecord> spec_record(const Facts& facts, std::string_view group);

// "a planetary automatic", "a belt CVT", ...
std::string kind_words(std::string_view gearbox_kind);

enum class KindMatch {
    same,
    maker_may_permit,  // a manual gearbox or a transfer case is on one side
    never,             // belt, chain, planetary, dual clutch: a hard stop
};
KindMatch kind_match(std::string_view one_kind, std::string_view other_kind);

struct FluidFigures {
    std::string name;                // as asked for
    std::optional<SpecRecord> spec;  // nothing when the product is in more than one spec, or in none
    std::optional<double> kv40_mm2_s, kv100_mm2_s, density_15c_kg_m3;
    bool typical{};  // the viscosities are those of the spec, not of the product
    SourceNote source;
};

// `key`: a spec or a product. Nothing when it is neither. A seller's claim puts a product in no spec.
std::optional<FluidFigures> fluid_figures(const Facts& facts, std::string_view key);

struct Claim {
    std::string item, group, wording, words, claimed_by, seen;
    SourceNote source;
};

std::vector<Claim> claims_of_item(const Facts& facts, std::string_view item);
std::vector<Claim> claims_on_spec(const Facts& facts, std::string_view group);

// `"words", says X, read 2026-05-01`
std::string claim_text(const Claim& claim);

}  // namespace casebound::transmission_fluids
