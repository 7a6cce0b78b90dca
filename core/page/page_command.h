// A form's fields given to the command of the same work: one set of rules, one transaction, the same refusals.
#pragma once

#include <string>
#include <vector>

#include "core/page/page_visit.h"
#include "core/session/command.h"

namespace casebound {

// Runs the command of the table. Throws what it throws.
Result run_command(Session& session, std::string_view command, const Args& args);

// "name=value" for each of `names` that the form fills, in this order.
std::vector<std::string> key_value_args_of(const Visit& visit, const std::vector<std::string>& names);

std::vector<std::string> key_value_args_asked(const Visit& visit,
                                              const std::vector<std::string>& names);  // that the address fills

// Adds the options of `names` that the form fills.
void add_options(Args& args, const Visit& visit, const std::vector<std::string>& names);

// The photos that were sent with the form, as --photo.
void add_photos(Args& args, const Visit& visit);

}  // namespace casebound
