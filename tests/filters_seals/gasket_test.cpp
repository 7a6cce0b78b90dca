#include <algorithm>
#include <array>
#include <catch2/catch.hpp>

#include "science/gasket.h"

using namespace casebound::filters_seals;
using M = GasketMaterial;
using F = FlangeForm;

namespace {

constexpr std::array kMaterials{M::cork,     M::cork_rubber, M::coated_cork_rubber, M::nitrile,
                                M::neoprene, M::moulded_lip, M::silicone_adhesive,  M::rigid_carrier};
constexpr std::array kFlanges{F::flat, F::ribs_between_holes, F::continuous_rib, F::lipped};

GasketDesign design(M material, Reuse reuse, Sealant sealant = Sealant::none) {
    return {material, reuse, sealant, {Evidence::maker, "its own sheet"}};
}

}  // namespace

// Industry technical service bulletin 98-3 on pan gaskets, revised 2009.
TEST_CASE("which material is listed for which flange, all 32 pairings") {
    const auto L = Listing::listed, S = Listing::specified_application_only, N = Listing::not_listed;
    const std::array<std::array<Listing, 4>, 8> expected{{{L, L, N, N},
                                                          {L, L, N, N},
                                                          {L, L, L, N},
                                                          {L, L, L, N},
                                                          {L, N, L, N},
                                                          {N, N, N, L},
                                                          {S, N, N, N},
                                                          {S, N, N, N}}};
    for (std::size_t m = 0; m < kMaterials.size(); ++m)
        for (std::size_t f = 0; f < kFlanges.size(); ++f) {
            INFO(text(kMaterials[m]) << " on " << text(kFlanges[f]));
            CHECK(listing(kMaterials[m], kFlanges[f]) == expected[m][f]);
        }
}

TEST_CASE("a lipped pan takes moulded rubber; cork there is not listed, and the answer says what is") {
    CHECK(judge_flange(M::moulded_lip, F::lipped).judgement == Judgement::fits);
    const Finding cork = judge_flange(M::cork, F::lipped);
    CHECK(cork.judgement == Judgement::check_first);
    CHECK(cork.reason == "cork on a lipped flange: not listed; listed for it: moulded rubber");
}

TEST_CASE("a rigid carrier on a flat flange fits only the pan it is named for") {
    CHECK(judge_flange(M::rigid_carrier, F::flat).judgement == Judgement::check_first);
    CHECK(judge_flange(M::rigid_carrier, F::flat, true).judgement == Judgement::fits);
    CHECK(judge_flange(M::rigid_carrier, F::flat, false).judgement == Judgement::does_not_fit);
    CHECK(judge_flange(M::silicone_adhesive, F::flat).judgement == Judgement::check_first);
}

TEST_CASE("unknown material or flange never gives a firm verdict") {
    for (const M m : kMaterials) CHECK(judge_flange(m, std::nullopt).judgement == Judgement::check_first);
    for (const F f : kFlanges) CHECK(judge_flange(std::nullopt, f).judgement == Judgement::check_first);
    for (const F f : kFlanges) CHECK(judge_flange(std::nullopt, f, true).judgement == Judgement::check_first);
    CHECK(judge_flange(std::nullopt, std::nullopt).judgement == Judgement::check_first);
}

TEST_CASE("what is listed for a flange is what judges to fit it") {
    for (const F f : kFlanges) {
        const auto list = materials_for(f);
        CHECK_FALSE(list.empty());
        for (const M m : kMaterials) {
            const bool in = std::find(list.begin(), list.end(), m) != list.end();
            CHECK((judge_flange(m, f, true).judgement == Judgement::fits) == in);
        }
    }
}

TEST_CASE("single use is a fact of a design: where nothing is recorded it is not assumed") {
    CHECK(judge_reuse(design(M::nitrile, Reuse::not_recorded), true).judgement == Judgement::check_first);
    CHECK_FALSE(usual_reuse(M::nitrile));
    CHECK(judge_reuse(design(M::nitrile, Reuse::reusable_if_undamaged), true).judgement == Judgement::fits);
    CHECK(judge_reuse(design(M::nitrile, Reuse::single_use), true).judgement == Judgement::does_not_fit);
}

TEST_CASE("a rigid carrier is reusable by design, if looked at and undamaged") {
    const GasketDesign carrier = design(M::rigid_carrier, Reuse::not_recorded);
    CHECK(judge_reuse(carrier, std::nullopt).judgement == Judgement::check_first);
    CHECK(judge_reuse(carrier, true).judgement == Judgement::fits);
    CHECK(judge_reuse(carrier, false).judgement == Judgement::does_not_fit);
}

TEST_CASE("a design's own word overrides what is usual for the material") {
    const Finding own = judge_reuse(design(M::rigid_carrier, Reuse::single_use), true);
    CHECK(own.judgement == Judgement::does_not_fit);
    CHECK(own.source.kind == Evidence::maker);
}

TEST_CASE("sealant goes only where the design asks for it") {
    const GasketDesign dry = design(M::rigid_carrier, Reuse::not_recorded, Sealant::none);
    CHECK(judge_sealant(dry, Sealant::none).judgement == Judgement::fits);
    CHECK(judge_sealant(dry, Sealant::bead_only).judgement == Judgement::does_not_fit);
    CHECK(judge_sealant(dry, Sealant::spot).judgement == Judgement::does_not_fit);
    const GasketDesign bead = design(M::silicone_adhesive, Reuse::single_use, Sealant::bead_only);
    CHECK(judge_sealant(bead, Sealant::bead_only).judgement == Judgement::fits);
    CHECK(judge_sealant(bead, Sealant::none).judgement == Judgement::does_not_fit);
    CHECK(judge_sealant(design(M::cork, Reuse::single_use, Sealant::not_recorded), Sealant::none).judgement ==
          Judgement::check_first);
}
