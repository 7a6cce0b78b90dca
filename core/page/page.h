// One request of the page and its reply: the same answers as the command line, as HTML that needs no script.
// Knows nothing of sockets (server.h). GET asks and never writes; POST writes and then sends the reader back.
#pragma once

#include "core/page/page_request.h"
#include "core/session/session.h"

namespace casebound {

// Never throws for bad input: an Error becomes a page that says where, what and what to do.
PageReply page_reply(Session& session, const PageRequest& request);

}  // namespace casebound
