// The words that a pack may use: of core, of the domains loaded today or known from earlier, of other packs, and
// its own attributes. Says which cells use a word that nobody has declared.
#pragma once

#include <string>
#include <vector>

#include "core/host/plugin_host.h"
#include "core/pack/loaded_packs.h"
#include "core/pack/pack_data.h"
#include "core/pack/pack_faults.h"
#include "core/reason/vocabulary.h"

namespace casebound {

// Everything but the own words of the pack that `others` leaves out.
Vocabularies words_without(const Plugins& plugins, const LoadedPacks& others);

// Adds the pack's own attributes and checks them.
void add_own_words(Vocabularies& words, const PackData& data, const std::string& pack, FaultList& faults);

// Every role and item kind in the rows is known.
void check_words(const Vocabularies& words, const PackData& data, const std::vector<TableView>& views,
                 FaultList& faults);

// "did you mean x?" or what else to do.
std::string unknown_attribute(const Vocabularies& words, std::string_view name);
std::string unknown_role(const Vocabularies& words, std::string_view name);

// Rewrites known_role, known_item_kind and known_attribute.
void store_words(Database& catalog, const Vocabularies& words);

}  // namespace casebound
