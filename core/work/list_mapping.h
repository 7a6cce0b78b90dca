// What each column of a seller's list is: proposed from the header and the cells, confirmed by a person, kept as JSON beside
// the pack that is drafted, and used again for the next edition. Proposes only; judges no row.
#pragma once

#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/reason/vocabulary.h"

namespace casebound {

inline constexpr const char* mapping_file = "mapping.json";

struct ListMapping {
    unsigned long header = 1;                                  // the row it is in
    std::vector<std::pair<std::string, std::string>> columns;  // as the header has it; what it is, "-" left out
    std::map<std::string, std::string, std::less<>> words;  // the list's word: ours (an item kind, a line, engine=2.2)
    std::string decimal;                                    // "point" or "comma"; "" nothing needs it
    std::string seller, sheet, kind, line, role;            // kind, line, role: of every row; "" each row says it
    bool operator==(const ListMapping&) const = default;

    std::string of(std::string_view column) const;  // what it is, "-" when it has no such column
};

// All that a column can be, beside the attributes of vehicles: key and what it is, in words.
const std::vector<std::pair<std::string, std::string>>& column_meanings();
// "pack L" is how much one pack holds, in L. Throws Error(usage) with a near miss.
void require_meaning(const std::string& meaning, const Vocabularies& words);

struct ListSample {
    std::vector<std::pair<unsigned long, std::vector<std::string>>> rows;  // the first ones: row and cells
};

// Requires: rows. Columns that nothing tells are left out.
ListMapping proposed(const ListSample& sample, const Vocabularies& words);

std::string mapping_text(const ListMapping& mapping);
ListMapping mapping_from(const std::string& text, const std::string& path);  // throws Error(bad_data)

// Small letters, and one blank for whatever else stands between letters and digits; letters beyond ASCII stay.
std::string as_words(std::string_view text);

}  // namespace casebound
