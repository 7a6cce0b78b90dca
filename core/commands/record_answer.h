// What every `record` answers, and what it does when the part in the hand does not match.
#pragma once

#include <string>
#include <vector>

#include "core/session/session.h"
#include "core/shop/shop_records.h"
#include "core/work/key_value_args.h"

namespace casebound {

// The whole check-off when it is asked for or begun; otherwise only what is still to order.
Result record_answer(Session& session, const std::string& vehicle, const std::string& notes, Exit exit = Exit::yes,
                     bool whole = false, const std::vector<std::string>& against = {});

// The part in the hand does not match: written down, kept in the own pack against the statement that said it fits, every
// other open order and shelf piece that rests on it is named, the return begins, and what to find out next is asked.
// What was written stands, whatever becomes of the answer.
Result record_does_not_fit(Session& session, const Args& args, const KeyValueArgs& words);

// Whether what is corrected was kept with a statement of the own pack, that a part does not fit, and that stands.
bool takes_back_mismatch(Session& session, const std::string& vehicle, const KeyValueArgs& words);
// Takes the statement back, and says so; "" where there is none. Nothing may refer to the session's catalog.
std::string take_back_mismatch(Session& session, const std::string& vehicle, const LineEvent& event,
                               const KeyValueArgs& words);

// What the records of open jobs leave to be checked, a sentence each: "filter-neck-seal: 2 were seen there ...".
std::vector<std::string> checks_open(Session& session, const std::string& vehicle);

}  // namespace casebound
