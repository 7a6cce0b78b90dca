// The page's server: HTTP/1.1 over TCP, for one person at one machine and, if asked, a phone in the yard. Knows
// sockets, limits and tokens; knows nothing of what the page shows. Serves no file.
//
// Answers come one after the other from the thread that called serve(), so that what answers needs no lock; a slow
// client never holds that thread up. Whatever a client does, the memory stays bounded: connections, heads, bodies
// and times have limits, and the connection that has been silent longest makes room for a new one.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

#include "core/serve/request_queue.h"

namespace casebound {

struct ServerLimits {
    std::uint32_t head_bytes = 8 * 1024;
    std::uint64_t body_bytes = 64 * 1024;
    std::size_t connections = 64, waiting_bytes = 16 * 1024 * 1024;  // replies on their way, all together
    std::chrono::milliseconds for_head{10'000};                      // also between two requests
    std::chrono::milliseconds for_body{10'000};
    std::chrono::milliseconds for_reply{20'000};
};

struct ServerOptions {
    std::uint16_t port = 0;  // 0: a free one
    std::string listen;      // an address of this machine besides 127.0.0.1; empty: none
    bool lan_may_edit = false;
    ServerLimits limits;
    // Told the addresses to open, the own machine's first: when they answer, and again (the last one) whenever a
    // one-time token was used up and another takes its place.
    std::function<void(const std::vector<std::string>&)> say;
};

// Returns after SIGINT, SIGTERM or SIGHUP. Throws Error(usage) for an address that cannot be served at.
void serve(const ServerOptions& options, const Answerer& answer);

}  // namespace casebound
