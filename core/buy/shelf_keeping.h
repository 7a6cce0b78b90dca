// How long an opened pack keeps, and whether one on the own shelf has passed it. The months are what a domain's table says
// in a column `shelf_months` beside `item`. Uses nothing up.
#pragma once

#include <optional>
#include <string>

#include "core/shop/shop_offers.h"
#include "core/verdict/catalog.h"

namespace casebound {

std::optional<int> keeps_months(const Catalog& catalog, const std::string& item);

// The day a pack was opened when so much of an item is left: `date`, or today; "" when only whole packs are left.
std::string day_opened(const Catalog& catalog, const std::string& item, double quantity, const std::string& date);

// "opened 2024-01-02, keeps 12 months: passed on 2025-01-02"; "" when it has not passed, or nothing is on record.
std::string passed_keeping(const Catalog& catalog, const OnShelf& one);

// Of what lies there, what is in an opened pack.
double opened_part(const Catalog& catalog, const std::string& item, double quantity);

}  // namespace casebound
