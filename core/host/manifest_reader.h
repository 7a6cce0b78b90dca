// Reads a plugin's manifest out of its file: the section `.casebound` of an ELF shared library for this machine.
// No code of the plugin runs and nothing is mapped. Every offset and size is checked against the file, so a
// damaged file is a message. Never judges the stamp or the name.
#pragma once

#include <string>

namespace casebound {

struct ManifestText {
    std::string stamp, domain;
};

// Throws Error (refused): what is wrong with the file and what to do, without the path.
ManifestText read_manifest(const std::string& path);

}  // namespace casebound
