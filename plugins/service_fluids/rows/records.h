#pragma once
// What packs record, read into the terms of science/: families and whether they mix, points of freezing, viscosity
// classes, service classes in their order. A cell that is not stated stays unknown.

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/contract/plugin.h"
#include "science/coolant.h"

namespace casebound::service_fluids {

inline constexpr const char* oils = "service_fluids_oils";
inline constexpr const char* coolants = "service_fluids_coolants";
inline constexpr const char* brake_fluids = "service_fluids_brake_fluids";
inline constexpr const char* oil_filters = "service_fluids_oil_filters";
inline constexpr const char* washers = "service_fluids_washers";

const std::vector<std::string>& family_names();
std::string family_said(std::string_view family);  // "hybrid with silicate"
std::string base_said(std::string_view base);      // "ethylene glycol"

// May one family be poured onto another? Silence is no.
struct Mixing {
    bool may{};
    std::string words;  // why, or as the source puts it
    SourceNote source;
};
Mixing mixing_of(const Facts& facts, std::string_view offered, std::string_view present);

// By its row, or by the item kind of the group where it has none.
bool is_brake_fluid(const Facts& facts, std::string_view group);

// The points of a glycol that fall, each with its row's source.
struct Freezing {
    std::vector<FreezePoint> points{};
    std::vector<std::pair<double, SourceNote>> sources{};  // by share
    // Of the row of that share, or of the two around it.
    SourceNote source_at(double glycol_pct) const;
};
Freezing freezing_of(const Facts& facts, std::string_view base);

// "5W", or "30" beside a winter class; nothing when no row is loaded.
const Row* class_row(const Facts& facts, std::string_view viscosity, std::string_view winter = {});

// Of two service classes.
enum class Category : std::uint8_t { same, later, earlier, not_recorded };
struct CategoryAnswer {
    Category offered;
    SourceNote source;
};
// The recorded name of a class however it is typed or printed: "API SN" for API-SN; as typed where none reads like it.
std::string category_named(const Facts& facts, std::string_view typed);
CategoryAnswer category_against(const Facts& facts, std::string_view offered, std::string_view wanted);

}  // namespace casebound::service_fluids
