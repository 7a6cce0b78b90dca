#include "core/serve/server.h"

#include <chrono>
#include <csignal>
#include <list>
#include <stop_token>
#include <thread>

#include <fmt/format.h>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>

#include "core/serve/connection.h"
#include "core/serve/listener.h"
#include "core/serve/request_queue.h"
#include "core/serve/server_state.h"

namespace casebound {

namespace {

namespace asio = boost::asio;
using boost::system::error_code;

// A terminal or a supervisor may deliver one stop twice, to the process and to its group.
constexpr auto one_key_press = std::chrono::milliseconds(300);

// Sockets, on a thread of their own, until the queue is closed. A signal closes it.
void run_sockets(asio::io_context& io, asio::signal_set& signals, ServerState& state, std::list<Listener>& listeners) {
    asio::steady_timer same_key(io);
    signals.async_wait([&](error_code, int) {
        state.closing = true;
        for (auto& listener : listeners) listener.close();
        for (const auto& connection : state.present) connection->drop();
        state.queue.close();
        same_key.expires_after(one_key_press);
        same_key.async_wait([&](error_code cancelled) {
            error_code ignored;
            if (!cancelled) signals.clear(ignored);  // a later one ends a long answer too
        });
    });
    for (auto& listener : listeners) listener.accept();
    while (!io.stopped()) {
        try {
            io.run();
        } catch (const std::exception&) {  // out of memory in one handler: its connection is gone, the others go on
        }
    }
}

}  // namespace

void serve(const ServerOptions& options, const Answerer& answer) {
    asio::io_context io{1};
    RequestQueue queue;
    ServerState state(io, queue, options);
    std::list<Listener> listeners;
    listeners.emplace_back(state, asio::ip::make_address("127.0.0.1"), options.port).open_loopback();
    std::vector<std::string> addresses{fmt::format("http://{}/", listeners.front().host())};
    if (!options.listen.empty()) {
        listeners.emplace_back(state, address_of(options.listen), listeners.front().port()).open_lan();
        addresses.push_back(state.entry_address());
    }
    asio::signal_set signals(io, SIGINT, SIGTERM, SIGHUP);
    // Ends, however this function is left, before anything that it works with.
    const std::jthread sockets([&](const std::stop_token& stop) {
        const std::stop_callback ends(stop, [&] { io.stop(); });
        run_sockets(io, signals, state, listeners);
    });
    state.announcer.say(addresses);
    queue.work(answer);
}

}  // namespace casebound
