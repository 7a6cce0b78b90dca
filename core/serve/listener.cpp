#include "core/serve/listener.h"

#include <algorithm>
#include <chrono>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/serve/connection.h"

namespace casebound {

namespace {
namespace asio = boost::asio;
using tcp = asio::ip::tcp;
using boost::system::error_code;
}  // namespace

Listener::Listener(ServerState& state, const asio::ip::address& address, std::uint16_t port)
    : state_(state), acceptor_(state.io), pause_(state.io) {
    try {
        const tcp::endpoint at(address, port);
        acceptor_.open(at.protocol());
        acceptor_.set_option(tcp::acceptor::reuse_address(true));
        acceptor_.bind(at);
        acceptor_.listen();
    } catch (const boost::system::system_error& error) {
        throw Error(
            Exit::usage,
            fmt::format("page: {} port {}: {}: --port 0 takes a free one; --listen takes an address of this machine",
                        address.to_string(), port, error.code().message()));
    }
}

std::string Listener::host() const {
    const auto address = acceptor_.local_endpoint().address();
    return address.is_v6() ? fmt::format("[{}]:{}", address.to_string(), port())
                           : fmt::format("{}:{}", address.to_string(), port());
}

void Listener::open_loopback() {
    door.hosts = {host(), fmt::format("localhost:{}", port())};
    if (port() == 80) door.hosts.insert(door.hosts.end(), {"127.0.0.1", "localhost"});
}

void Listener::open_lan() {
    door.hosts = {host()};
    if (port() == 80) door.hosts.push_back(host().substr(0, host().rfind(':')));
    door.may_edit = state_.options.lan_may_edit;
    door.cookie_name = fmt::format("casebound_{}", port());
    door.devices = &state_.devices;
    state_.entry_token = new_secret();
    state_.entry_prefix = fmt::format("http://{}/?token=", host());
}

void Listener::accept() {
    acceptor_.async_accept([this](error_code error, tcp::socket socket) {
        if (state_.closing) return;
        if (!error) admit(std::move(socket));
        if (!error || error == asio::error::connection_aborted) return accept();
        pause_.expires_after(std::chrono::milliseconds(100));  // out of descriptors: later there may be some
        pause_.async_wait([this](error_code) {
            if (!state_.closing) accept();
        });
    });
}

void Listener::close() {
    error_code ignored;
    acceptor_.close(ignored);
    pause_.cancel();
}

void Listener::admit(tcp::socket socket) {
    if (state_.present.size() >= state_.options.limits.connections) {
        const auto idle = std::find_if(state_.present.begin(), state_.present.end(),
                                       [](const auto& one) { return !one->busy(); });
        if (idle == state_.present.end()) return;  // all are being answered: the newcomer is closed
        (*idle)->drop();
        state_.present.erase(idle);
    }
    state_.present.push_back(std::make_shared<Connection>(state_, std::move(socket), door));
    state_.present.back()->start();
}

asio::ip::address address_of(const std::string& text) {
    error_code error;
    const auto address = asio::ip::make_address(text, error);
    if (error)
        throw Error(Exit::usage, fmt::format("page: {}: not an address: --listen takes one of this machine, as "
                                             "192.168.0.7 (`hostname -I` lists them)",
                                             text));
    if (address.is_unspecified() || address.is_multicast())
        throw Error(
            Exit::usage,
            fmt::format("page: {}: name one address of this machine, as 192.168.0.7: `hostname -I` lists them", text));
    return address;
}

}  // namespace casebound
