// What a question is worth before the vehicle is bought: the expected value of the best decision with its answer, less
// that of the best decision now. The decision is how much to bid, and walking away is worth nothing. After the purchase
// the ways to mend are tried one after another, until it runs, a unit goes in, or it is passed on: with one way to mend
// that is the bid ceiling of `decide`. All amounts in the shop's currency; knows no vehicle; pure.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/deal/deal_paths.h"

namespace casebound {

inline constexpr std::size_t most_ways = 16;

struct TriageFigures {
    double sale{};               // running, net of fees
    double as_is{}, opened{};    // passed on as it stands, and once something was tried
    std::optional<double> unit;  // fitted, net of the old one; none: not thought of
    double reusable_share{};     // of what was tried in vain, where a unit follows
    double before{};             // on every path: diagnosis, what is set aside, the margin wanted
};

struct TriageCase {
    std::vector<Estimate> ways;                     // what each way to mend costs; at most most_ways
    std::vector<std::optional<std::size_t>> mends;  // by cause: the way that mends it; none: only a unit does
    TriageFigures figures;
};

using Shares = std::vector<double>;                // by cause, sum 1
using Chances = std::vector<std::vector<double>>;  // [cause][answer], each row sums to 1

enum class Cost : std::uint8_t { low, likely, high };

struct FirstStep {
    Path path = Path::pass_on;         // fix_first, unit_now or pass_on
    std::optional<std::size_t> way{};  // of fix_first
    bool operator==(const FirstStep&) const = default;
};

// What it may cost to buy and bring home so that the best course from there comes out even, and how that begins.
struct Ceiling {
    double amount{};
    FirstStep first;
};

// Requires: shares by cause, none below 0. Throws Error(bad_data) above most_ways.
Ceiling ceiling_of(const TriageCase& one, const Shares& shares, Cost cost = Cost::likely);

// The same if the cause were known before anything is done, on average over the causes.
double ceiling_if_known(const TriageCase& one, const Shares& shares);

struct AnswerWorth {
    std::size_t answer{};  // of the question's
    double chance{};
    Shares shares;  // once it is given
    Ceiling ceiling;
    bool buy{};  // at the price
};

struct QuestionWorth {
    double value{};                    // never below 0
    double before{};                   // the ceiling without it
    std::vector<AnswerWorth> answers;  // those that may come, in the order of the question's
};

// `price`: what is asked. None: the value at the price where it is largest, that of the ceiling now.
QuestionWorth worth_of(const TriageCase& one, const Shares& shares, const Chances& chances,
                       std::optional<double> price);
double worth_of_knowing(const TriageCase& one, const Shares& shares, std::optional<double> price);

// Bayes' rule; nothing where the answer cannot come.
std::optional<Shares> shares_after(const Shares& shares, const Chances& chances, std::size_t answer);

// What somebody says where he is right with chance `right`, else any of the other answers alike. Requires: two answers
// or more.
Chances as_said(const Chances& chances, double right);

}  // namespace casebound
