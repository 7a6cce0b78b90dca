// A sheet as text in 80 columns and as JSON. Renders only.
#pragma once

#include <string>

#include "core/say/json_of.h"
#include "core/sheets/sheets.h"

namespace casebound {

std::string row_text(const SheetRow& row);  // "entry 3, 2026-11-25: pan-filter: fitted (no longer stands)"
std::string sheet_text(const Sheet& sheet);
Json json_of(const Sheet& sheet);

}  // namespace casebound
