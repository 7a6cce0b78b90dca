// What an answer lacks or rests on. `figure`: what would be given for it, by its key; "cost.CAUSE" for what mending one
// costs, "share" for how often it is which, "told" for what is told of the vehicle, "" where nothing can be given. `note`
// stands behind it.
#pragma once

#include <string>

namespace casebound {

struct Lacking {
    std::string what, figure{}, note{};
};

}  // namespace casebound
