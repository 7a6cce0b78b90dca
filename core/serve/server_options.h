// What the server is asked to serve at, and its limits.
#pragma once

#include <chrono>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

namespace casebound {

struct ServerLimits {
    std::uint32_t head_bytes = 8 * 1024;
    std::uint64_t body_bytes = 64 * 1024;
    std::uint64_t upload_bytes = 17 * 1024 * 1024;                   // of a form that sends a file, kept on the disk
    std::size_t uploads = 16;                                        // at once; who comes later is asked to wait
    std::size_t connections = 64, waiting_bytes = 16 * 1024 * 1024;  // replies on their way, all together
    std::chrono::milliseconds for_head{10'000};                      // also between two requests
    std::chrono::milliseconds for_body{10'000};
    std::chrono::milliseconds for_upload{180'000};  // 16 MB at 0.8 Mbit/s: a phone at the far end of the yard
    std::chrono::milliseconds for_reply{20'000};
    std::chrono::milliseconds for_file{180'000};
};

struct ServerOptions {
    std::uint16_t port = 0;  // 0: a free one
    std::string listen;      // an address of this machine besides 127.0.0.1; empty: none
    bool lan_may_edit = false;
    std::string upload_folder;  // what is sent lies there until it is answered; empty: the system's temporary folder
    ServerLimits limits;
    // Told the addresses to open, the own machine's first: when they answer, and again (the last one) whenever a
    // one-time token was used up and another takes its place.
    std::function<void(const std::vector<std::string>&)> say;
};

}  // namespace casebound
