// What may be bought of a set of items: the offers on file, what the own shelf has to spare, and what is on order or here
// for this vehicle. Reads the shop; chooses nothing.
#pragma once

#include <set>
#include <string>
#include <vector>

#include "core/buy/pieces.h"
#include "core/cover/market.h"
#include "core/session/session.h"

namespace casebound {

Market own_market(Session& session, const std::vector<Piece>& here, const std::set<std::string>& items);

}  // namespace casebound
