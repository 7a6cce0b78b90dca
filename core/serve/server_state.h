// What all connections of one run of the server share. Touched by the thread that does the sockets only, but for what
// says the addresses.
#pragma once

#include <list>
#include <memory>
#include <mutex>
#include <string>
#include <utility>
#include <vector>

#include <boost/asio/io_context.hpp>

#include "core/ground/secret.h"
#include "core/serve/devices.h"
#include "core/serve/request_queue.h"
#include "core/serve/server_options.h"

namespace casebound {

// Says addresses one after the other, whichever thread has some to say.
class Announcer {
public:
    explicit Announcer(std::function<void(const std::vector<std::string>&)> say) : say_(std::move(say)) {}
    void say(const std::vector<std::string>& addresses) {  // throws what the saying throws
        const std::lock_guard lock(mutex_);
        say_(addresses);
    }

private:
    std::mutex mutex_;
    std::function<void(const std::vector<std::string>&)> say_;
};

struct ServerState {
    ServerState(boost::asio::io_context& context, RequestQueue& answers, const ServerOptions& with)
        : io(context), queue(answers), options(with), announcer(with.say) {}
    boost::asio::io_context& io;
    RequestQueue& queue;
    const ServerOptions& options;
    Announcer announcer;
    std::string form_token = new_secret();
    std::string entry_prefix;                              // of the LAN door: "http://192.168.0.7:8417/?token="
    std::string entry_token;                               // used once
    Devices devices;                                       // let in by one
    std::list<std::shared_ptr<class Connection>> present;  // longest without progress first
    std::size_t held_bytes = 0;                            // of replies under way
    std::size_t uploads = 0;                               // under way, or waiting for their answer
    bool closing = false;

    std::string entry_address() const { return entry_prefix + entry_token; }
    // Another token takes the place of one that was used; until its address is said, the one before lets in. Throws
    // what the saying throws.
    void renew_entry() {
        auto next = new_secret();
        announcer.say({entry_prefix + next});
        entry_token = std::move(next);
    }
};

}  // namespace casebound
