// What lies on the own shelf, would serve a line, and is not used: with the reason. Chooses nothing.
#pragma once

#include <string>
#include <vector>

#include "core/buy/buying.h"
#include "core/say/json_of.h"

namespace casebound {

struct ShelfLeft {
    std::string item, title;
    double quantity{};       // that is there
    std::string unit, role;  // the line it would serve
    std::string line, why;   // line: the title of the role
    bool kept{};             // all of it waits for open jobs
};

// `orders`: every one that may be placed. Empty while there is none.
std::vector<ShelfLeft> left_on_shelf(Session& session, const Buying& buying, const std::vector<const Order*>& orders,
                                     const std::string& vehicle);

std::string left_on_shelf_text(const std::vector<ShelfLeft>& left);
Json json_of(const std::vector<ShelfLeft>& left);

}  // namespace casebound
