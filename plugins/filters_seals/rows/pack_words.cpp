#include "rows/pack_words.h"

#include <algorithm>
#include <array>
#include <utility>

namespace casebound::filters_seals {
namespace {

template <class Term, std::size_t N> using Words = std::array<std::pair<std::string_view, Term>, N>;

constexpr Words<NeckSealForm, 4> kForms{{{"oring_on_neck", NeckSealForm::oring_on_neck},
                                         {"ribbed_band_on_neck", NeckSealForm::ribbed_band_on_neck},
                                         {"hat_in_bore", NeckSealForm::hat_in_bore},
                                         {"moulded_to_filter", NeckSealForm::moulded_to_filter}}};
constexpr Words<GasketMaterial, 8> kMaterials{{{"cork", GasketMaterial::cork},
                                               {"cork_rubber", GasketMaterial::cork_rubber},
                                               {"coated_cork_rubber", GasketMaterial::coated_cork_rubber},
                                               {"nitrile", GasketMaterial::nitrile},
                                               {"neoprene", GasketMaterial::neoprene},
                                               {"moulded_lip", GasketMaterial::moulded_lip},
                                               {"silicone_adhesive", GasketMaterial::silicone_adhesive},
                                               {"rigid_carrier", GasketMaterial::rigid_carrier}}};
constexpr Words<FlangeForm, 4> kFlanges{{{"flat", FlangeForm::flat},
                                         {"ribs_between_holes", FlangeForm::ribs_between_holes},
                                         {"continuous_rib", FlangeForm::continuous_rib},
                                         {"lipped", FlangeForm::lipped}}};
constexpr Words<Listing, 3> kListings{{{"listed", Listing::listed},
                                       {"specified_application_only", Listing::specified_application_only},
                                       {"not_listed", Listing::not_listed}}};
constexpr Words<Reuse, 3> kReuses{{{"never", Reuse::single_use},
                                   {"if_undamaged", Reuse::reusable_if_undamaged},
                                   {"by_design", Reuse::reusable_if_undamaged}}};
constexpr Words<Sealant, 3> kSealants{
    {{"none", Sealant::none}, {"spots_only", Sealant::spot}, {"bead_only", Sealant::bead_only}}};
constexpr Words<Fluid, 6> kFluids{{{"mineral_oil_atf", Fluid::mineral_oil_atf},
                                   {"hydraulic_system_mineral_oil", Fluid::hydraulic_system_mineral_oil},
                                   {"glycol_brake_fluid", Fluid::glycol_brake_fluid},
                                   {"silicone_brake_fluid", Fluid::silicone_brake_fluid},
                                   {"engine_coolant", Fluid::engine_coolant},
                                   {"gasoline", Fluid::gasoline}}};
constexpr Words<Rating, 8> kRatings{{{"good", Rating::good},
                                     {"fair_to_good", Rating::mostly_good},
                                     {"good_to_fair", Rating::mostly_good},
                                     {"fair", Rating::fair},
                                     {"poor_to_fair", Rating::mostly_poor},
                                     {"poor", Rating::mostly_poor},
                                     {"poor_to_good_by_type", Rating::varies},
                                     {"not_suitable", Rating::not_suitable}}};
constexpr Words<Debris, 10> kDebris{{{"grey_paste_thin", Debris::grey_paste_thin},
                                     {"grey_paste_thick", Debris::grey_paste_thick},
                                     {"brass_flakes", Debris::brass_flakes},
                                     {"steel_pieces", Debris::steel_pieces},
                                     {"black_flakes", Debris::black_flakes},
                                     {"aluminium_glitter", Debris::aluminium_glitter},
                                     {"varnish_film", Debris::varnish_film},
                                     {"plastic_bits", Debris::plastic_bits},
                                     {"loose_plug_with_oring", Debris::loose_plug_with_oring},
                                     {"sealant_strings", Debris::sealant_strings}}};
constexpr Words<GlandUse, 4> kUses{{{"static_radial", GlandUse::static_radial},
                                    {"static_face", GlandUse::static_face},
                                    {"reciprocating", GlandUse::reciprocating},
                                    {"rotary", GlandUse::rotary}}};
constexpr Words<SectionLoss, 4> kLosses{{{"torus_volume", SectionLoss::torus_volume},
                                         {"square_root", SectionLoss::square_root},
                                         {"two_thirds_power", SectionLoss::two_thirds_power},
                                         {"none", SectionLoss::none}}};
constexpr std::array<Elastomer, 11> kElastomers{Elastomer::NBR, Elastomer::HNBR, Elastomer::FKM,  Elastomer::ACM,
                                                Elastomer::VMQ, Elastomer::FVMQ, Elastomer::EPDM, Elastomer::CR,
                                                Elastomer::AEM, Elastomer::SBR,  Elastomer::NR};

template <class Term, std::size_t N> std::optional<Term> term(const Words<Term, N>& words, std::string_view word) {
    for (const auto& [name, value] : words)
        if (name == word) return value;
    return std::nullopt;
}

template <class Term, std::size_t N> std::vector<std::string> names(const Words<Term, N>& words) {
    std::vector<std::string> out;
    for (const auto& [name, value] : words) out.emplace_back(name);
    return out;
}

}  // namespace

std::optional<NeckSealForm> neck_seal_form_from(std::string_view word) { return term(kForms, word); }
std::optional<GasketMaterial> gasket_material_from(std::string_view word) { return term(kMaterials, word); }
std::optional<FlangeForm> flange_form_from(std::string_view word) { return term(kFlanges, word); }
std::optional<Listing> listing_from(std::string_view word) { return term(kListings, word); }
std::optional<Reuse> reuse_from(std::string_view word) { return term(kReuses, word); }
std::optional<Sealant> sealant_from(std::string_view word) { return term(kSealants, word); }
std::optional<Fluid> fluid_from(std::string_view word) { return term(kFluids, word); }
std::optional<Rating> rating_from(std::string_view word) { return term(kRatings, word); }
std::optional<Debris> debris_from(std::string_view word) { return term(kDebris, word); }
std::optional<GlandUse> gland_use_from(std::string_view word) { return term(kUses, word); }
std::optional<SectionLoss> section_loss_from(std::string_view word) { return term(kLosses, word); }

std::vector<std::string> neck_seal_form_words() { return names(kForms); }
std::vector<std::string> seal_form_words() {
    return {"oring", "oring_on_neck", "ribbed_band_on_neck", "hat_in_bore", "moulded_to_filter",
            "lip",   "flat_washer",   "bonded_washer"};
}
std::vector<std::string> gasket_material_words() { return names(kMaterials); }
std::vector<std::string> flange_form_words() { return names(kFlanges); }
std::vector<std::string> sealant_words() { return names(kSealants); }
std::vector<std::string> fluid_words() { return names(kFluids); }
std::vector<std::string> debris_words() { return names(kDebris); }
std::vector<std::string> gland_use_words() { return names(kUses); }
std::vector<std::string> section_loss_words() { return names(kLosses); }

std::vector<std::string> elastomer_words() {
    std::vector<std::string> out;
    for (const Elastomer e : kElastomers) out.emplace_back(text(e));
    return out;
}

bool is_washer_metal(std::string_view word) {
    constexpr std::array<std::string_view, 4> metals{"copper", "aluminium", "steel", "brass"};
    return std::find(metals.begin(), metals.end(), word) != metals.end();
}

}  // namespace casebound::filters_seals
