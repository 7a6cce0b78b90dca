// What other packs stand on: keys, item kinds, attributes and configurations of the pack that is about to be
// replaced or dropped. Asked before its rows go. Names every row that would be left without its ground.
#pragma once

#include <string>
#include <vector>

#include "core/pack/condition_check.h"
#include "core/pack/loaded_packs.h"
#include "core/pack/pack_check.h"
#include "core/pack/pack_data.h"
#include "core/pack/pack_keys.h"
#include "core/pack/pack_shape.h"

namespace casebound {

struct Dependent {
    std::string table;  // of the pack that is replaced: where the ground was
    std::string what;   // "`BW-1` is still needed by pack q, applications.csv:41 (group_key)"
};

struct DependentsContext {
    Database& catalog;  // a temporary table is made in it and dropped
    const PackShape& shape;
    PackData& data;  // empty when the pack is dropped
    LoadedPacks& others;
    PackKeys& keys;
    ItemKinds& kinds;
    const Vocabularies& words;  // as they will be
    ConditionCheck& conditions;
};

// At most 1,000.
std::vector<Dependent> dependents_of(DependentsContext& context);

}  // namespace casebound
