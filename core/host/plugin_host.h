// Finds, checks and loads domain plugins: the only file pair that knows shared libraries.
//
// A file is loaded only from a trusted folder that nobody else can write to, only if its manifest, read from
// the ELF section before any of its code runs, carries this build's stamp, and, when it is new (path, size,
// time, sha256), only after a child process with limits has loaded it without crashing or hanging.
// Plugins are never unloaded. A refused plugin is a message, never a failure of the rest.
#pragma once

#include <functional>
#include <set>
#include <string>
#include <vector>

#include "core/host/guarded_domain.h"

namespace casebound {

struct LoadedDomain {
    LoadedDomain(std::string name_, std::string path_, const Domain& domain_, Vocabulary vocabulary_)
        : name(std::move(name_)), path(std::move(path_)), domain(name, domain_),
          title(domain.title().answer.value_or(name)), vocabulary(std::move(vocabulary_)) {}
    std::string name, path;
    GuardedDomain domain;
    std::string title;      // in words
    Vocabulary vocabulary;  // asked once, after the probe
};

struct RefusedPlugin {
    std::string path, reason;
};  // reason: what is wrong and what to do

struct Plugins {
    std::vector<LoadedDomain> domains;   // by name
    std::vector<RefusedPlugin> refused;  // by path
    const GuardedDomain* find(std::string_view domain) const;
};

using ReservedNames = std::set<std::string, std::less<>>;

// Of two that clash, the one in the earlier folder is loaded and the later one refused; within a folder, by path.
// `probe_record`: file that remembers which plugins have been probed; may not exist yet, is rewritten atomically.
// `reserved`: names that no domain may have, because the program itself answers to them.
Plugins load_plugins(const std::vector<std::string>& folders, const std::string& probe_record,
                     const ReservedNames& reserved = {});

// This build's own stamp, for messages.
std::string_view build_stamp();

}  // namespace casebound
