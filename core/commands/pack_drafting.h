// `pack draft`: a seller's list into a pack of its claims and a file of its offers, once a person has confirmed what each
// column is.
#pragma once

#include "core/session/command.h"

namespace casebound {

Result run_pack_draft(Session& session, const Args& args);

}  // namespace casebound
