// What was entered about a vehicle as rows of its sheets: one row an entry, in words. Reads nothing itself.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/reason/vocabulary.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_told.h"

namespace casebound {

struct SheetRow {
    std::string subject{};                   // role, attribute or job in words; may be empty
    std::string text{};                      // what is said of it
    std::string date{};                      // YYYY-MM-DD; empty: not about a day
    std::string source{};                    // where a figure comes from
    std::optional<std::int64_t> entry{};     // its number in the history
    std::optional<std::int64_t> corrects{};  // the entry it replaces
    bool stands = true;                      // no later entry replaces it
    std::vector<std::string> cells{};        // the same for a section that has columns
    std::vector<Photo> photos{};             // that the row is about
};

using SheetRows = std::vector<SheetRow>;

std::string or_not_known(const std::string& text);

SheetRow row_of(const ToldFact& entry, const Vocabularies& words);
SheetRow row_of(const WorkRecord& record, const Vocabularies& words);
SheetRow row_of(const LineEvent& event, const Vocabularies& words);
SheetRow row_of(const MoneyEntry& entry, const std::string& currency);
SheetRow row_of(const Closing& closing, const std::string& currency);

}  // namespace casebound
