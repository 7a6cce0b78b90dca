// The page's server: HTTP/1.1 over TCP, for one person at one machine and, if asked, a phone in the yard. Knows
// sockets, limits and tokens; knows nothing of what the page shows. Serves no file.
//
// Answers come one after the other from the thread that called serve(), so that what answers needs no lock; a slow
// client never holds that thread up. Whatever a client does, the memory stays bounded: connections, heads, bodies
// and times have limits, and the connection that has been silent longest makes room for a new one.
#pragma once

#include "core/serve/request_queue.h"
#include "core/serve/server_options.h"

namespace casebound {

// Returns after SIGINT, SIGTERM or SIGHUP. Throws Error(usage) for an address that cannot be served at.
void serve(const ServerOptions& options, const Answerer& answer);

}  // namespace casebound
