// `pack draft`: a seller's list into a pack of its claims and a file of its offers, once a person has confirmed what each
// column is.
#pragma once

#include <memory>
#include <string>
#include <vector>

#include "core/session/command.h"
#include "core/work/list_draft.h"
#include "core/work/list_mapping.h"

namespace casebound {

// What a person must still say before anything can be taken, and by which option.
struct StillOpen {
    std::string what, option;
    std::string text() const;
};

struct Drafting {
    std::unique_ptr<const ListFile> list;
    ListMapping mapping;
    DraftedList draft;
    std::string folder;
    std::vector<StillOpen> open;
    bool done{};  // the pack is written
};

// As the command: written where nothing is open and it is confirmed, or was before; with --preview never. Throws Error.
Drafting drafting_of(Session& session, const Args& args);

// "12 rows: 11 parts, 9 claims of what they fit, 8 offers; 1 row not taken".
std::string counts_text(const DraftedList& draft);

Result run_pack_draft(Session& session, const Args& args);

}  // namespace casebound
