#pragma once
// The words of the domain: what can be found out about links, bushes and a clunk, and how; kinds of items and places.

#include <string>
#include <vector>

#include "core/contract/plugin.h"
#include "science/link.h"

namespace casebound::stabilisers {

Vocabulary vocabulary();

// "link_length_front", for "link_length".
std::string at_axle(std::string_view attribute, Axle axle);

// The four wheels as findings name them, "front_left", without "none".
const std::vector<std::string>& wheels();

}  // namespace casebound::stabilisers
