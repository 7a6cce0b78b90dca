// Which of the findings told speak of trouble, by a list of values; part of the contract, and nothing but shorthand for
// Domain::findings. Names no cause.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound {

struct TroubleWords {
    std::string_view attribute;
    std::vector<std::string_view> values;  // those that speak of trouble
    const char* title;
};

inline std::vector<Trouble> told_trouble(const Services& services, const std::vector<TroubleWords>& words) {
    std::vector<Trouble> troubles;
    if (!services.vehicle) return troubles;
    for (const auto& told : services.vehicle->told())
        for (const auto& one : words) {
            if (told.attribute != one.attribute) continue;
            for (const auto& seen : told.seen())
                if (std::find(one.values.begin(), one.values.end(), seen) != one.values.end())
                    troubles.push_back({told.attribute, one.title, seen, told.source()});
        }
    return troubles;
}

}  // namespace casebound
