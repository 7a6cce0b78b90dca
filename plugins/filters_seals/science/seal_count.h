// The neck seal as an in / out count, and how each form of seal is fitted.
// The old one may come out with the filter or stay up in the bore, where two may
// be stacked. All old ones out, then one new one in for each bore.
// Never balances a count that nobody has made.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "science/judgement.h"

namespace casebound::filters_seals {

// Absent is "not counted", never zero.
struct SealCount {
    int bores = 1;                       // places that want one seal each
    std::optional<int> on_old_filter;    // came away on the old neck
    std::optional<int> found_in_bore;    // seen with torch and mirror, filter off
    std::optional<int> taken_from_bore;  // picked out
    std::optional<int> put_in;           // new ones fitted; absent before fitting
};

enum class CountState {
    not_counted,
    old_one_left_in,  // stop: never press a new one on an old one
    recount,          // more came out of the bore than were seen in it
    none_found,       // no old seal anywhere: stop and look again
    ready_for_new,    // all old ones out, nothing in yet
    new_one_missing,  // fewer in than bores: the pump draws air
    too_many_new,     // more in than bores
    balanced,         // one in for each bore, every old one out
};

std::string_view text(CountState state);

struct SealCountAnswer {
    CountState state;
    std::optional<int> out;      // old ones out, in all
    std::optional<int> left_in;  // old ones still in the bore
    bool stacked;                // more old ones than bores: two were stacked
    Judgement judgement;         // fits only when balanced; no only when it must stop
    std::string say;
    Source source;
    std::vector<std::string> count_next;
};

// Throws std::domain_error for a count outside 0 to 10, bores outside 1 to 10.
SealCountAnswer examine_count(const SealCount& count);

enum class NeckSealForm { oring_on_neck, ribbed_band_on_neck, hat_in_bore, moulded_to_filter };
std::string_view text(NeckSealForm form);  // "hat seal in the bore"

// Where the new one goes first, and whether the old one is left in the case.
struct FitMethod {
    std::string_view goes;
    bool on_filter_first;
    bool may_stay_in_case;
    Source source;
};

FitMethod fit_method(NeckSealForm form);

}  // namespace casebound::filters_seals
