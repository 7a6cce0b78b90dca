// Triage as text, as JSON, and as one page to print with boxes: what to bid, what to ask by phone, what to look at in the
// yard. Renders only.
#pragma once

#include <string>
#include <vector>

#include "core/buy/bid.h"
#include "core/say/json_of.h"
#include "core/sheets/sheet_html.h"

namespace casebound {

std::string bid_text(const Bid& bid, const SheetHead& head, const std::string& currency, bool full);
Json json_of(const Bid& bid, const std::string& currency);
PrintSheet printed(const Bid& bid, const SheetHead& head, const std::string& currency, const std::string& catalog);

}  // namespace casebound
