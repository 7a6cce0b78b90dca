// The parts list of the started jobs as their check-off: every role of each, what is still to order, and what
// happened to it: ordered, received, matched, fitted, left over, returned, old part returned. Writes nothing.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "core/say/json_of.h"
#include "core/session/session.h"
#include "core/shop/shop_records.h"

namespace casebound {

struct CheckOffLine {
    std::int64_t job{};  // started job; 0: of none that is open
    std::string job_key, role, title, need;
    std::string state;               // "to order", "look first", "ordered", "fitted", ...
    std::string so_far;              // what happened, with days
    std::string item;                // of the newest event
    std::string return_by, core_by;  // still open; empty: none
    std::string job_title{};         // in words
    bool to_order{}, blocked{};      // blocked: ordering it now would be a guess
    bool open_job{};                 // the job is not closed
    bool unfinished{};    // needed and neither fitted nor looked at, or something of it is still to come or go
    bool fitted{};        // and nothing speaks against what is in
    std::string doubt{};  // "BUT BY THE CATALOG: does not fit this vehicle"; nothing speaks against it: ""

    std::string state_with_doubt() const;
};

// Lines in job and list order, then roles that something happened to outside an open job. A job, or the whole
// line of the vehicle, that no loaded pack has leaves only what happened.
std::vector<CheckOffLine> check_off(Session& session, const std::string& vehicle);

std::string still_to_order_text(const std::vector<CheckOffLine>& lines);  // one sentence; empty when no job is open
std::string check_off_text(const std::vector<CheckOffLine>& lines);
Json json_of(const CheckOffLine& line);

}  // namespace casebound
