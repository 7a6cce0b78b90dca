#include "core/work/loaded_items.h"

#include "core/verdict/part_number.h"

namespace casebound {

LoadedItems::LoadedItems(const Catalog& catalog, const std::string& pack) {
    std::int64_t own = -1;
    for (const auto& [id, info] : catalog.packs())
        if (info.name == pack) own = id;
    constexpr int pack_from = 32;  // origin: the pack's number above the line
    Statement rows(catalog.database(), "SELECT item, kind, origin FROM items ORDER BY item");
    while (rows.step())
        by_number_[compared_number(rows.text(0))].push_back(
            {rows.str(0), rows.str(1), rows.integer(2) >> pack_from == own});
}

const std::vector<LoadedItems::One>& LoadedItems::with(const std::string& compared) const {
    static const std::vector<One> none;
    const auto found = by_number_.find(compared);
    return found == by_number_.end() ? none : found->second;
}

}  // namespace casebound
