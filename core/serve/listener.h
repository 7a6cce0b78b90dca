// One address that the page is served at: who comes is admitted, and at the limit the connection that has been silent
// longest makes room. Lives on the thread that does the sockets.
#pragma once

#include <cstdint>
#include <string>

#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/steady_timer.hpp>

#include "core/serve/gate.h"
#include "core/serve/server_state.h"

namespace casebound {

class Listener {
public:
    // Throws Error(usage) when it cannot be listened at.
    Listener(ServerState& state, const boost::asio::ip::address& address, std::uint16_t port);
    std::uint16_t port() const { return acceptor_.local_endpoint().port(); }
    std::string host() const;  // "127.0.0.1:8417"
    Door door;

    void open_loopback();  // the door of this machine
    void open_lan();       // the door of the yard: a token lets in one device
    void accept();
    void close();

private:
    void admit(boost::asio::ip::tcp::socket socket);
    ServerState& state_;
    boost::asio::ip::tcp::acceptor acceptor_;
    boost::asio::steady_timer pause_;
};

// Throws Error(usage) for a text that is not one address of a machine.
boost::asio::ip::address address_of(const std::string& text);

}  // namespace casebound
