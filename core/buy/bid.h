// What to bid for a vehicle that is not bought yet, and what to ask and look at first: causes from rows of packs, what
// mending each costs from what is typed, own closed jobs, offers on file or the row, in this order. Nothing is made up:
// a figure that nobody has given is named, and then the ceiling is "cannot tell".
// The seller's word moves a ceiling of its own, beside that of what was seen.
#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/buy/lacking.h"
#include "core/buy/triage_rows.h"
#include "core/deal/triage.h"
#include "core/session/session.h"
#include "core/work/key_value_args.h"

namespace casebound {

struct BidWish {
    std::vector<std::string> costs, shares;  // CAUSE=LOW/LIKELY/HIGH; CAUSE=30%
    std::string trouble;                     // attribute; "": the first one told
};

struct BidCause {
    CauseOnRecord on_record;
    double share_seen{}, share_said{};  // by what was seen; with the seller's word taken as true
    std::optional<Estimate> cost;       // of mending it; none for a unit, or not known
};

struct BidQuestion {
    SignQuestion sign;
    std::optional<QuestionWorth> worth;  // none: a figure is missing
    std::string said;                    // what only somebody's word says; "" when nothing is told
    double minutes{};
    bool by_phone{};
};

// Somebody's word, and what was seen against it.
struct WordAgainst {
    std::string title, said, seen;
};

struct Bid {
    std::string vehicle;
    std::optional<TroubleOnRecord> trouble;
    std::vector<std::string> without_causes;  // troubles told that no cause is on record for
    std::vector<std::string> others;          // further troubles that have causes, and what is set aside for each
    std::vector<std::string> describable;     // where no trouble is told: what causes are on record for
    std::vector<BidCause> causes;
    std::vector<std::string> ways;         // to mend, in words: "shift solenoid A"
    bool shares_even{};                    // nobody has counted: each cause alike
    std::vector<BidQuestion> phone, yard;  // best first
    std::vector<std::string> see_again;    // told by word of mouth, in words
    std::vector<WordAgainst> against;

    std::vector<Lacking> missing;                // why the ceiling cannot be told
    std::optional<double> price;                 // asked, with transport
    std::optional<Ceiling> seen, said, weighed;  // weighed: with the seller right as often as was typed
    double low{}, high{};                        // of the ceiling to go by, with what mending costs at its high and low
    std::optional<double> knowing;               // what it would be worth to know the cause
    std::optional<double> seller_right;
    std::vector<std::pair<std::string, std::string>> figures;  // and where each comes from
    std::vector<Lacking> left_out;                             // counted as none
    std::vector<std::string> notes;
    bool bought{}, invented{};

    // To go by: weighed, else the lower of what was seen and what was said.
    const Ceiling* to_go_by() const;
};

const std::vector<std::string>& bid_keys();
// Throws Error: 64 for a figure that cannot be read or a cause that is not there, 65 for signs that cannot be.
Bid bid_for(Session& session, const Situation& situation, const KeyValueArgs& words, const BidWish& wish);
// As the words and options of `triage` say.
Bid bid_asked(Session& session, const Situation& situation, const Args& args);

inline constexpr double phone_minutes = 2;  // a question on the telephone; common practice, no source

}  // namespace casebound
