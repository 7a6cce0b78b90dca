// `pack new`: an empty pack to be filled in, or what another one holds, as a folder of CSV files or as one workbook.
#pragma once

#include "core/session/command.h"

namespace casebound {

Result run_pack_new(Session& session, const Args& args);

}  // namespace casebound
