// What a bid says, in sentences that text, JSON and paper share. Renders only.
#pragma once

#include <cmath>
#include <string>
#include <vector>

#include "core/buy/bid.h"
#include "core/ground/units.h"

namespace casebound {

inline std::string bid_amount(double value, const std::string& currency) {
    const auto number = plain_number(std::round(value), 0);
    return currency.empty() ? number : number + " " + currency;
}

std::vector<std::string> ceiling_sentences(const Bid& bid,
                                           const std::string& currency);  // what to bid, and what that rests on
std::vector<Lacking> missing_of(const Bid& bid);                          // why it cannot be told
std::string typed_words(const Bid& bid, const Lacking& one);              // with what is typed for it
std::vector<std::string> typed_words(const Bid& bid, const std::vector<Lacking>& all);
std::string told_words_of(const Bid& bid);          // the trouble: "gears obtained: 3-3-3-3 (said 2026-11-25)"
std::string against_words(const WordAgainst& one);  // "...: what was seen counts"
std::string share_words(double share);              // "35 %"
std::string cause_cost_words(const Bid& bid, const BidCause& cause);     // "330 / 420 / 620"
std::string cause_from_words(const BidCause& cause, bool full);          // full: the row itself
std::string answers_words(const Bid& bid, const BidQuestion& question);  // each with its chance and the ceiling then
std::string question_words(const BidQuestion& question);                 // as it is asked, or how it is looked at
std::string worth_words(const Bid& bid, const BidQuestion& question);    // "120", "up to 120", "0", "?"
bool worth_nothing(const BidQuestion& question);
std::string minutes_words(const BidQuestion& question);  // "13 min, raised"
std::vector<Lacking> rests_on(const Bid& bid);           // assumptions and notes
std::vector<std::string> yard_cautions(const Bid& bid);

}  // namespace casebound
