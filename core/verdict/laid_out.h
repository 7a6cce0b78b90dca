// What the judging of one place and its proof share: the groups of an answer laid out over the line, and what a domain
// says against them. Decides nothing by itself.
#pragma once

#include <cstdint>
#include <vector>

#include "core/verdict/role_answer.h"
#include "core/verdict/statements.h"

namespace casebound {

// An objection met with the line.
struct Objected {
    std::int64_t group{};
    Bits where;
    Verdict at_most = Verdict::fits;
};

std::vector<std::int64_t> group_ids(const RoleAnswer& answer);

// Where each group of the answer stands by what was weighed; nothing objected yet.
void lay_out(RoleAnswer& answer, const Weighed& weighed);

// Objections take configurations away or put them in doubt; they never add one.
void object(RoleAnswer& answer, const std::vector<Objected>& objections);

}  // namespace casebound
