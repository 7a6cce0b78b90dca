// Finds, checks and loads domain plugins: the only file pair that knows shared libraries.
//
// A file is loaded only from a trusted folder that nobody else can write to, only if its manifest, read from
// the ELF section before any of its code runs, carries this build's stamp, and, when it is new (path, size,
// time, sha256), only after a child process with limits has loaded it without crashing or hanging.
// Plugins are never unloaded. A refused plugin is a message, never a failure of the rest.
#pragma once

#include <string>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound {

struct LoadedDomain {
    std::string name, path;
    const Domain* domain = nullptr;
    Vocabulary vocabulary;  // asked once, after the probe
};

struct RefusedPlugin {
    std::string path, reason;
};  // reason: what is wrong and what to do

struct Plugins {
    std::vector<LoadedDomain> domains;   // by name
    std::vector<RefusedPlugin> refused;  // by path
    const Domain* find(std::string_view domain) const;
};

// `probe_record`: file that remembers which plugins have been probed; may not exist yet, is rewritten atomically.
Plugins load_plugins(const std::vector<std::string>& folders, const std::string& probe_record);

// This build's own stamp, for messages.
std::string_view build_stamp();

}  // namespace casebound
