// Packs: folders of CSV files with a datapackage.json, the way facts come in. Everything is checked first and
// every fault reported as `file:line:cell: column: what: what to do` (cells counted from 1, as a spreadsheet
// does); then the pack's rows are replaced in one transaction, or nothing changes. Loading the same pack twice
// is a no-op. Never guesses: a cell that a spreadsheet has damaged is a fault.
#pragma once

#include <string>
#include <vector>

#include "core/host/plugin_host.h"
#include "core/pack/pack_report.h"

namespace casebound {

// Checks against the catalog's other packs without changing anything. The catalog is created when missing.
// A domain's own check runs only when nothing else is wrong, because it reads rows as sound.
// `about_to_seal`: the sizes and sha256 in the descriptor are about to be rewritten, so they are not compared.
PackReport check_pack(const std::string& folder, const std::string& catalog_path, const Plugins& plugins,
                      bool about_to_seal = false);
// Loads when there is no fault; otherwise the catalog is as it was.
PackReport load_pack(const std::string& folder, const std::string& catalog_path, const Plugins& plugins);
// An empty pack: every table of core and the loaded domains as a CSV with its header, and the descriptor.
// In a folder that is a pack already, only the descriptor is brought up to date. Returns the files written.
// `tables`: only these; empty: every table.
std::vector<std::string> new_pack(const std::string& folder, const std::string& name, const Plugins& plugins,
                                  const std::vector<std::string>& tables = {});
// Writes bytes and sha256 of each file into the descriptor, and takes out foreign keys that only other packs meet.
// Requires a pack without faults.
void seal_pack(const std::string& folder);
// Takes a pack's rows out. Throws Error when another pack refers to its keys, naming the rows.
PackSummary drop_pack(const std::string& name, const std::string& catalog_path);
std::vector<PackSummary> list_packs(const std::string& catalog_path);

}  // namespace casebound
