// The shop as one file that leaves the machine: the shop file and the packs of the person's own, each with its hash, in
// a tar whose name has the day and the hash of the whole. Restoring writes to an empty place only.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/store/sqlite.h"

namespace casebound {

struct OwnPack {
    std::string name, folder;
};

struct Backup {
    std::string path, date, sha256;    // of the whole file
    std::vector<std::string> files;    // in it
    std::vector<std::string> missing;  // what should be in it and is not there: "pack own: /home/a/own"
};

// Written whole into the folder, which is made. Throws Error(cannot_write).
Backup back_up_shop(const Database& shop, const std::vector<OwnPack>& packs, const std::string& folder);

struct Restored {
    std::string date, shop;
    std::vector<std::string> packs;  // folders that were written
};

// Checks every hash before anything is written. Throws Error: 65 for a damaged file, 64 where a shop file, or a folder
// of a pack's name under `packs_in`, is already there.
Restored restore_shop(const std::string& file, const std::string& shop, const std::string& packs_in);

// The day of the last backup of this shop file on this machine, and where it went; nothing when there was none.
struct LastBackup {
    std::string date, path;
};
std::optional<LastBackup> last_backup(const std::string& shop);

}  // namespace casebound
