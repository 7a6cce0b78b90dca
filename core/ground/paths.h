// Where casebound keeps its files: CASEBOUND_HOME, else XDG_DATA_HOME/casebound, else ~/.local/share/casebound
// (XDG Base Directory Specification: a relative XDG_DATA_HOME is ignored). Never looks anywhere else.
#pragma once

#include <string>

namespace casebound {

struct Paths {
    std::string home;     // absolute
    std::string catalog;  // derived: can be rebuilt from packs
    std::string shop;     // precious
    std::string probed;   // which plugins have been probed
    std::string plugins;  // folder of the person's own domains; may not exist
};

// Makes the folder when missing, for its owner only (0700). Throws Error 73 when that fails.
Paths data_paths();

}  // namespace casebound
