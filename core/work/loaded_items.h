// Parts of the packs that are loaded, by the number as it is compared: read once, for a list of many. Reads only.
#pragma once

#include <string>
#include <unordered_map>
#include <vector>

#include "core/verdict/catalog.h"

namespace casebound {

class LoadedItems {
public:
    struct One {
        std::string key, kind, title, pack;  // pack: the name of the one that has it
        double pack_quantity = 1;            // how much of it is in one, in the kind's unit
        bool of_this_pack{};
    };
    LoadedItems(const Catalog& catalog, const std::string& pack);

    const std::vector<One>& with(const std::string& compared) const;  // none: empty

private:
    std::unordered_map<std::string, std::vector<One>> by_number_;
};

}  // namespace casebound
