// What `note` and the commands of the own pack share.
#pragma once

#include <string>
#include <vector>

#include "core/session/command.h"
#include "core/work/statement.h"

namespace casebound {

inline const OptionSpec own_folder_option{"pack-folder", "FOLDER", "another pack of your own"};

// "pan depth 38 mm" as well as "pan_depth=38mm"; what compares is the condition language already.
std::string where_typed(Session& session, const std::string& typed);

// The answer when a statement was written: what it says, what its place comes to now, how it is put right.
Result statement_written(Session& session, const OwnFact& fact, const OwnRows& rows, const std::string& folder);

[[noreturn]] void no_such_table(const PackShape& shape, const std::string& typed, const std::string& vehicle);

std::vector<Command> own_commands();  // part of the table: own show, tables, correct, withdraw

}  // namespace casebound
