#include "core/work/loaded_items.h"

#include "core/verdict/part_number.h"

namespace casebound {

LoadedItems::LoadedItems(const Catalog& catalog, const std::string& pack) {
    constexpr int pack_from = 32;  // origin: the pack's number above the line
    Statement rows(catalog.database(), "SELECT item, kind, title, pack_quantity, origin FROM items ORDER BY item");
    while (rows.step()) {
        const auto of = catalog.packs().find(rows.integer(4) >> pack_from);
        const auto name = of == catalog.packs().end() ? std::string() : of->second.name;
        by_number_[compared_number(rows.text(0))].push_back(
            {rows.str(0), rows.str(1), rows.str(2), name, rows.real(3), name == pack});
    }
}

const std::vector<LoadedItems::One>& LoadedItems::with(const std::string& compared) const {
    static const std::vector<One> none;
    const auto found = by_number_.find(compared);
    return found == by_number_.end() ? none : found->second;
}

}  // namespace casebound
