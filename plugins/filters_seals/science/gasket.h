// Pan gasket against the pan's flange: which materials a published bulletin
// lists for which form, whether this design may go back on, and whether sealant
// belongs there. Single use and reusable are facts of a design, each with its
// source, never a habit; a pairing not listed is not recorded, never a no.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "science/judgement.h"

namespace casebound::filters_seals {

enum class GasketMaterial {
    cork,
    cork_rubber,
    coated_cork_rubber,
    nitrile,
    neoprene,
    moulded_lip,
    silicone_adhesive,
    rigid_carrier,  // plastic and rubber, metal torque limiters in the bolt holes
};

enum class FlangeForm { flat, ribs_between_holes, continuous_rib, lipped };

std::string_view text(GasketMaterial material);
std::string_view text(FlangeForm flange);

enum class Listing { listed, specified_application_only, not_listed };
std::string_view text(Listing listing);

Listing listing(GasketMaterial material, FlangeForm flange);
Source listing_source();

// Everything listed for a flange, firm listings first.
std::vector<GasketMaterial> materials_for(FlangeForm flange);

// A pairing as a pack records it.
struct RecordedListing {
    GasketMaterial material;
    FlangeForm flange;
    Listing listing;
    Source source;
};

// `specified_here`: some source names this gasket for this very pan. Decides
// the listings made "for a specified application only". `recorded` takes the
// place of the bulletin for the pairings it holds; where it contradicts itself
// the answer is open and names both.
Finding judge_flange(std::optional<GasketMaterial> material, std::optional<FlangeForm> flange,
                     std::optional<bool> specified_here = std::nullopt, std::span<const RecordedListing> recorded = {});

enum class Reuse { not_recorded, reusable_if_undamaged, single_use };
enum class Sealant { not_recorded, none, spot, bead_only };
std::string_view text(Sealant sealant);

// What its own paper says about one gasket design.
struct GasketDesign {
    GasketMaterial material;
    Reuse reuse;
    Sealant sealant;
    Source source;
};

// Rigid carriers are reusable by design; that default yields to the design's
// own record. nullopt: no default for this material.
std::optional<Reuse> usual_reuse(GasketMaterial material);

// May the old one go back on? `undamaged`: looked at and found so; nullopt:
// nobody has looked.
Finding judge_reuse(const GasketDesign& design, std::optional<bool> undamaged);

// Is what somebody means to apply what the design asks for?
Finding judge_sealant(const GasketDesign& design, Sealant meant);

}  // namespace casebound::filters_seals
