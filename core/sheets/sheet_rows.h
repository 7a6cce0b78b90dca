// What was entered about a vehicle as rows of its sheets: one row an entry, in words. Reads nothing itself.
#pragma once

#include <string>

#include "core/sheets/sheets.h"
#include "core/shop/shop_records.h"

namespace casebound {

std::string or_not_known(const std::string& text);

SheetRow row_of(const TellEntry& entry);
SheetRow row_of(const WorkRecord& record);
SheetRow row_of(const LineEvent& event);
SheetRow row_of(const MoneyEntry& entry, const std::string& currency);
SheetRow row_of(const Closing& closing, const std::string& currency);

}  // namespace casebound
