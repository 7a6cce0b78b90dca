// The rules over core's own tables: what an application, a member, a stand-in, a kit and a quantity must be.
// Faults of single cells, keys and conditions are found elsewhere. Never changes anything.
#pragma once

#include <vector>

#include "core/pack/loaded_packs.h"
#include "core/pack/pack_data.h"
#include "core/pack/pack_faults.h"
#include "core/pack/pack_keys.h"
#include "core/reason/vocabulary.h"

namespace casebound {

// Item kind of each item and group, of this pack or another, as a name; 0 when unknown.
class ItemKinds {
public:
    ItemKinds(PackData& data, LoadedPacks& others);
    NameId of_item(NameId item) { return of(items_, "items", item); }
    NameId of_group(NameId group) { return of(groups_, "groups", group); }

private:
    static constexpr NameId unasked = ~NameId{0};
    NameId of(std::vector<NameId>& kinds, std::string_view table, NameId key);

    PackData& data_;
    LoadedPacks& others_;
    std::vector<NameId> items_, groups_;
};

struct RuleContext {
    const PackShape& shape;
    PackData& data;
    PackKeys& keys;
    const Vocabularies& words;
    ItemKinds& kinds;
    FaultList& faults;
};

void check_core_rules(RuleContext& context);

// Sources of kind `invented` need a pack that says that it is.
void check_invented(const PackData& data, bool invented, FaultList& faults);

}  // namespace casebound
