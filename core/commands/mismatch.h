// What follows when the part in the hand does not match: what else rests on the same statement, the return with its last
// day and cost, and what to find out next. Read from the records each time; writes nothing.
#pragma once

#include <string>
#include <vector>

#include "core/say/json_of.h"
#include "core/session/session.h"

namespace casebound {

struct Mismatch {
    std::string role, item;
    std::vector<std::string> held;     // open orders of other vehicles, and pieces on the own shelf; each a sentence
    std::string back, back_command;    // "SEND IT BACK to Pier: until ...", and how to say that it is gone
    std::string next, next_command{};  // what to find out, and how to tell it
};

Mismatch what_follows(Session& session, const std::string& vehicle, const std::string& role, const std::string& item);
std::string mismatch_text(const Mismatch& mismatch);
Json json_of(const std::vector<Mismatch>& mismatches);

// Of parts that do not match and have not gone back.
std::vector<Mismatch> mismatches_open(Session& session, const std::string& vehicle);

}  // namespace casebound
