// The commands that say what a change of packs comes to before it is made.
#pragma once

#include <nlohmann/json.hpp>

#include "core/pack/pack_report.h"
#include "core/session/command.h"

namespace casebound {

nlohmann::ordered_json json_of(const PackSummary& summary);

// Adds what a spreadsheet has damaged to the faults, and what it may have to the notes, against the edition that is loaded;
// `meant`: cells that a person names.
void add_damage(Session& session, const std::string& folder, const std::vector<std::string>& meant, PackReport& report);

// What sealing anew changes: which rows differ from the edition that is loaded; "" when it is not.
std::string since_loaded(Session& session, const std::string& folder);

Result run_pack_diff(Session& session, const Args& args);
Result run_pack_preview(Session& session, const Args& args);  // `pack load --preview`
Result run_pack_drop(Session& session, const Args& args);

}  // namespace casebound
