// What nobody could get at on a vehicle, so that it is not asked again. Only ever added to; what is told of the attribute
// later counts more. Knows no attribute: the caller checks words.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/store/sqlite.h"

namespace casebound {

struct OutOfReach {
    std::string attribute, note, entered;  // entered: YYYY-MM-DD
};

// What stands, by attribute. Requires: the vehicle is there.
std::vector<OutOfReach> out_of_reach(const Database& shop, std::string_view vehicle);

// Within the caller's transaction. `reached`: it can be got at after all.
void tell_reach(Database& shop, std::string_view vehicle, std::string_view attribute, bool reached,
                std::string_view note = {});

}  // namespace casebound
