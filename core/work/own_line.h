// A vehicle that is in no pack: its line becomes a row of the person's own pack, and what is found out about its parts
// is written there statement by statement. Nothing about its configurations is typed; see core/verdict/open_line.h.
#pragma once

#include <string>

#include "core/session/session.h"
#include "core/work/measured_pack.h"

namespace casebound {

// The person's own pack: where the shop's settings say, else beside the shop file.
std::string own_pack_folder(Session& session);
// Where it is without a setting.
std::string own_pack_beside_shop(const Session& session);

// In a home where nothing is loaded yet, the packs that the loaded domains ship; invented ones never. Nothing may refer
// to the session's catalog.
void load_shipped_packs_once(Session& session);

// The line that people mean by its key or its title; "" when there is none. Throws Error(usage) with what was nearly
// meant when it is close to one.
std::string line_meant(Session& session, const std::string& typed);

// The key of a line with this title. Throws Error(usage) when there is no letter or digit in it.
std::string own_line_key(const std::string& title);

// Writes a line with this title. Nothing may refer to the session's catalog.
void add_own_line(Session& session, const std::string& title, const std::string& vehicle);

}  // namespace casebound
