// Writes a new domain out of .packaging/new_domain/: into this source tree, or as a project of its own. What it writes
// builds, loads, passes its checks and has one text case that passes. Never changes a file that is there.
#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include "core/host/plugin_host.h"

namespace casebound {

struct NewDomain {
    std::string folder;  // that the files are in
    std::vector<std::string> files;
    bool in_tree{};
};

// The root of casebound's own source that `folder` lies in; empty elsewhere.
std::filesystem::path source_tree_above(const std::filesystem::path& folder);

// `folder` must not be there yet, or be empty.
NewDomain write_domain_project(const std::string& name, const std::string& folder, const Plugins& plugins);

// plugins/<name>/, schema/<name>.sql, seed-data/<name>/ and tests/cases/<name>/. Throws Error when one is there.
NewDomain write_domain_in_tree(const std::string& name, const std::filesystem::path& root, const Plugins& plugins);

}  // namespace casebound
