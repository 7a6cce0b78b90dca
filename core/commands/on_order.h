// What is on order for a place of a vehicle, so that it need not be said again when it comes. Reads the records alone.
#pragma once

#include <cstdint>
#include <optional>
#include <string>

#include "core/session/session.h"
#include "core/shop/shop_records.h"

namespace casebound {

// The one item that was ordered for it, of several the one that has not come; "": none, or more than one. The entry
// that is corrected does not count.
std::string item_on_order(Session& session, const std::string& vehicle, const std::string& role,
                          std::optional<std::int64_t> corrects = {});

// Who it was ordered from, when that is not said again.
std::string seller_of_order(Session& session, const std::string& vehicle, const LineEvent& event);

}  // namespace casebound
