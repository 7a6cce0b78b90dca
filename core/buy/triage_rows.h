// What packs say may be behind a trouble that was told of a vehicle: its causes, and the questions whose answers tell
// them apart, with how often each answer comes where it is this cause. Weighs nothing, and knows no money.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/deal/triage.h"
#include "core/session/situation.h"

namespace casebound {

struct CauseOnRecord {
    std::string key, title;
    std::optional<double> share;  // relative; none: nobody has counted
    bool by_unit{};               // only a replacement unit cures it
    std::string job;              // that mends it; "" when none is on record
    std::optional<Estimate> cost;
    std::string currency;  // of the cost
    SourceNote source;
};

struct SignAnswer {
    std::vector<Span> spans;  // any of them; empty: anything else
    std::string words;
};

struct SignQuestion {
    Attribute attribute;
    std::string ask;  // by phone; "" when it is only looked at
    std::vector<SignAnswer> answers;
    Chances chances;    // [cause][answer]
    SourceNote source;  // the weakest of the rows

    std::vector<std::size_t> meant(const Told& told) const;  // the answers that what was told may be
};

// One finding that causes are on record for.
struct TroubleOnRecord {
    Told told;
    std::string title;
    std::vector<CauseOnRecord> causes;
    std::vector<SignQuestion> questions;
};

// By the finding, in the order of the packs. Throws Error(bad_data) where the chances of one cause come to more than 1.
std::vector<TroubleOnRecord> troubles_on_record(const Situation& situation, const Catalog& catalog);

// Titles of the findings that some cause is on record for on this line: what a seller may be asked to describe.
std::vector<std::string> findings_on_record(const Situation& situation, const Catalog& catalog);

}  // namespace casebound
