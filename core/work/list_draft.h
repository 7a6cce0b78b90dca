// A seller's list as rows of a pack and as offers, by a mapping that a person has confirmed. What the list says a part fits
// stays a claim: its source is the list, from memory, with the list's own words; what it serves for is `claimed`. A row that
// is not understood is kept with the reason. Nothing is guessed; writes nothing.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "core/book/list_file.h"
#include "core/session/session.h"
#include "core/work/fits_text.h"
#include "core/work/list_mapping.h"

namespace casebound {

struct NotTaken {
    unsigned long row{};
    std::string part, why;
    bool partly{};  // the rest of the row was taken
    std::vector<std::string> cells;
};

struct DraftedList {
    std::vector<std::string> header;                           // of the list
    std::vector<std::string> unknown;                          // its columns that the mapping does not know
    std::string items, groups, members, applications, offers;  // rows as CSV, without a header
    std::size_t rows = 0, item_count = 0, claim_count = 0, offer_count = 0;
    bool needs_decimal{};            // an amount has a sign before its last digits, and nobody said which
    std::vector<std::string> shown;  // what the first rows become
    std::vector<NotTaken> not_taken;
};

// `pack`: its name; what is loaded of an older edition of it is no other pack. Throws Error for a list that cannot be read.
DraftedList drafted(Session& session, const ListFile& list, const ListMapping& mapping, const std::string& pack);

}  // namespace casebound
