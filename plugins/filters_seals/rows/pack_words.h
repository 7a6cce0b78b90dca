// The words packs and the command line use, as the terms of the computations, and back.
// A word that is not known is nothing, never the nearest one.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "science/debris.h"
#include "science/elastomer.h"
#include "science/gasket.h"
#include "science/oring.h"
#include "science/seal_count.h"

namespace casebound::filters_seals {

std::optional<NeckSealForm> neck_seal_form_from(std::string_view word);
std::optional<GasketMaterial> gasket_material_from(std::string_view word);
std::optional<FlangeForm> flange_form_from(std::string_view word);
std::optional<Listing> listing_from(std::string_view word);
std::optional<Reuse> reuse_from(std::string_view word);  // if_undamaged and by_design are one answer here
std::optional<Sealant> sealant_from(std::string_view word);
std::optional<Fluid> fluid_from(std::string_view word);
std::optional<Rating> rating_from(std::string_view word);  // nothing for `unknown`
std::optional<Debris> debris_from(std::string_view word);
std::optional<GlandUse> gland_use_from(std::string_view word);
std::optional<SectionLoss> section_loss_from(std::string_view word);

// In the order they are offered.
std::vector<std::string> neck_seal_form_words();
std::vector<std::string> seal_form_words();  // every form a seal may be recorded with
std::vector<std::string> gasket_material_words();
std::vector<std::string> flange_form_words();
std::vector<std::string> sealant_words();
std::vector<std::string> fluid_words();
std::vector<std::string> debris_words();
std::vector<std::string> gland_use_words();
std::vector<std::string> section_loss_words();
std::vector<std::string> elastomer_words();  // ISO 1629 codes

// A flat washer's metal: nothing that a fluid attacks here.
bool is_washer_metal(std::string_view word);

}  // namespace casebound::filters_seals
