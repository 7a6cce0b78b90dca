// How a quantity is bought: whole bottles, cans or drums of what a group comes in. Knows no price.
#pragma once

#include <string>
#include <vector>

#include "core/verdict/catalog.h"

namespace casebound {

struct Container {
    std::string item;
    double quantity{};
    int count{};
};

// Whole containers that give at least `need`: least left over, then fewest containers. Empty when there is no container.
std::vector<Container> whole_containers(double need, const std::vector<Member>& members);

}  // namespace casebound
