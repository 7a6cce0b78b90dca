#include "science/gasket.h"

#include <array>

namespace casebound::filters_seals {
namespace {

constexpr Source kBulletin{Evidence::common_practice,
                           "industry technical service bulletin 98-3 on pan gaskets, revised 2009"};
constexpr Source kNobody{Evidence::memory, "nobody has said"};

constexpr Source kPractice{Evidence::common_practice, "common practice, no source"};

constexpr std::size_t kMaterials = 8;
constexpr std::size_t kFlanges = 4;

using enum Listing;

// Rows as GasketMaterial, columns as FlangeForm. Bulletin 98-3, first table.
constexpr std::array<std::array<Listing, kFlanges>, kMaterials> kListing{{
    {listed, listed, not_listed, not_listed},
    {listed, listed, not_listed, not_listed},
    {listed, listed, listed, not_listed},
    {listed, listed, listed, not_listed},
    {listed, not_listed, listed, not_listed},
    {not_listed, not_listed, not_listed, listed},
    {specified_application_only, not_listed, not_listed, not_listed},
    {specified_application_only, not_listed, not_listed, not_listed},
}};

std::string list_text(FlangeForm flange) {
    std::string out;
    for (const GasketMaterial m : materials_for(flange)) out += (out.empty() ? "" : ", ") + std::string(text(m));
    return out;
}

std::string pair_text(GasketMaterial material, FlangeForm flange) {
    return std::string(text(material)) + " on a " + std::string(text(flange)) + " flange";
}

Finding judge_specified(const std::string& pair, std::optional<bool> specified_here, Source source) {
    if (!specified_here)
        return {Judgement::check_first, pair + ": listed for a specified application only, is it named for this pan?",
                source};
    return {*specified_here ? Judgement::fits : Judgement::does_not_fit,
            pair + (*specified_here ? ": named for this pan" : ": not named for this pan, and listed for no other use"),
            source};
}

Source usual_source(GasketMaterial material) {
    return material == GasketMaterial::rigid_carrier ? kBulletin : kPractice;
}

Finding judge_listing(const std::string& pair, Listing listing, Source source, FlangeForm flange,
                      std::optional<bool> specified_here) {
    switch (listing) {
        case listed: return {Judgement::fits, pair + ": listed", source};
        case specified_application_only: return judge_specified(pair, specified_here, source);
        case not_listed: break;
    }
    return {Judgement::check_first, pair + ": not listed; listed for it: " + list_text(flange), source};
}

}  // namespace

std::string_view text(GasketMaterial material) {
    switch (material) {
        case GasketMaterial::cork: return "cork";
        case GasketMaterial::cork_rubber: return "cork-rubber";
        case GasketMaterial::coated_cork_rubber: return "coated cork-rubber";
        case GasketMaterial::nitrile: return "nitrile rubber";
        case GasketMaterial::neoprene: return "neoprene rubber";
        case GasketMaterial::moulded_lip: return "moulded rubber";
        case GasketMaterial::silicone_adhesive: return "silicone adhesive sealant";
        case GasketMaterial::rigid_carrier: return "rigid carrier with torque limiters";
    }
    return "gasket";
}

std::string_view text(Sealant sealant) {
    switch (sealant) {
        case Sealant::not_recorded: return "not recorded";
        case Sealant::none: return "no sealant";
        case Sealant::spot: return "sealant at spots only";
        case Sealant::bead_only: return "a bead of sealant and no gasket";
    }
    return "not recorded";
}

std::string_view text(Listing listing) {
    switch (listing) {
        case listed: return "listed";
        case specified_application_only: return "where specified only";
        case not_listed: return "not listed";
    }
    return "not listed";
}

std::string_view text(FlangeForm flange) {
    switch (flange) {
        case FlangeForm::flat: return "flat";
        case FlangeForm::ribs_between_holes: return "ribbed-between-holes";
        case FlangeForm::continuous_rib: return "continuous-rib";
        case FlangeForm::lipped: return "lipped";
    }
    return "flange";
}

Listing listing(GasketMaterial material, FlangeForm flange) {
    return kListing[static_cast<std::size_t>(material)][static_cast<std::size_t>(flange)];
}

Source listing_source() { return kBulletin; }

std::vector<GasketMaterial> materials_for(FlangeForm flange) {
    std::vector<GasketMaterial> out;
    for (const Listing wanted : {listed, specified_application_only})
        for (std::size_t m = 0; m < kMaterials; ++m)
            if (listing(static_cast<GasketMaterial>(m), flange) == wanted)
                out.push_back(static_cast<GasketMaterial>(m));
    return out;
}

Finding judge_flange(std::optional<GasketMaterial> material, std::optional<FlangeForm> flange,
                     std::optional<bool> specified_here, std::span<const RecordedListing> recorded) {
    if (!flange)
        return {Judgement::check_first, "flange form unknown: lay a straightedge on the rail and look", kNobody};
    if (!material)
        return {Judgement::check_first, "gasket material unknown; listed for this flange: " + list_text(*flange),
                kBulletin};
    const std::string pair = pair_text(*material, *flange);
    const RecordedListing* found = nullptr;
    for (const RecordedListing& row : recorded) {
        if (row.material != *material || row.flange != *flange) continue;
        if (found && found->listing != row.listing)
            return {Judgement::check_first,
                    pair + ": sources disagree: " + std::string(text(found->listing)) + " (" +
                        std::string(found->source.work) + "), " + std::string(text(row.listing)) + " (" +
                        std::string(row.source.work) + ")",
                    weakest(found->source, row.source)};
        found = &row;
    }
    if (found) return judge_listing(pair, found->listing, found->source, *flange, specified_here);
    return judge_listing(pair, listing(*material, *flange), kBulletin, *flange, specified_here);
}

std::optional<Reuse> usual_reuse(GasketMaterial material) {
    if (material == GasketMaterial::rigid_carrier) return Reuse::reusable_if_undamaged;
    if (material == GasketMaterial::silicone_adhesive) return Reuse::single_use;  // cured bead, cannot go back
    return std::nullopt;
}

Finding judge_reuse(const GasketDesign& design, std::optional<bool> undamaged) {
    const bool own = design.reuse != Reuse::not_recorded;
    const std::optional<Reuse> reuse = own ? design.reuse : usual_reuse(design.material);
    const Source source = own ? design.source : usual_source(design.material);
    if (!reuse)
        return {Judgement::check_first, "reuse not recorded for this design: single use is not assumed, ask", kNobody};
    if (*reuse == Reuse::single_use) return {Judgement::does_not_fit, "single use by design", source};
    if (!undamaged) return {Judgement::check_first, "reusable if undamaged: look at it first", source};
    return {*undamaged ? Judgement::fits : Judgement::does_not_fit,
            *undamaged ? "reusable by design, and undamaged" : "reusable by design, but damaged", source};
}

Finding judge_sealant(const GasketDesign& design, Sealant meant) {
    if (design.sealant == Sealant::not_recorded || meant == Sealant::not_recorded)
        return {Judgement::check_first, "sealant not recorded for this design: ask before adding any", kNobody};
    const std::string asks = "the design asks for " + std::string(text(design.sealant));
    if (design.sealant == meant) return {Judgement::fits, asks, design.source};
    return {Judgement::does_not_fit, asks + ", not " + std::string(text(meant)), design.source};
}

}  // namespace casebound::filters_seals
