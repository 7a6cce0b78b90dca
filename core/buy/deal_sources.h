// Where the figures of `decide` come from: typed in, own closed jobs, offers on file, the shop's settings, or the
// invented demo defaults, in this order. Every figure carries its origin and how many closed jobs it rests on.
// Decides nothing; a demo default is never passed off as anything else.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "core/deal/deal.h"
#include "core/session/session.h"
#include "core/shop/shop_records.h"
#include "core/work/key_value_args.h"

namespace casebound {

struct DealWish {
    std::vector<std::string> fix_jobs, unit_jobs;  // the first of each gives the own rate
    std::vector<std::string> without;              // roles that need not be bought for them
    std::string symptom;                           // only closed jobs whose start note speaks of it
    bool bought{}, fix_failed{};
};

struct DealFigure {
    std::string key;
    Estimate estimate;
    int closed_jobs{};  // that it rests on
    bool share{};       // of 1, not an amount
    bool demo() const;
};

struct DealAsked {
    Deal deal;
    std::vector<DealFigure> figures;    // in the order they are asked for; those that are 0 and not given are left out
    std::vector<std::string> defaults;  // keys that rest on the demo
    std::string rate_note;
    std::vector<std::string> notes;     // what could not be taken from offers or jobs, and why
    std::vector<std::string> held;      // what stops a cure until it is settled: while it stands, no chance is known
    std::map<std::string, int> causes;  // found in closed jobs of the fix
};

const std::vector<std::string>& deal_keys();
// Throws Error: 64 for a figure that cannot be read, a job that is not there, an item that nobody offers.
DealAsked deal_from(Session& session, const std::string& vehicle, const KeyValueArgs& words, const DealWish& wish);

}  // namespace casebound
