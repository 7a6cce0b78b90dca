#include "core/serve/server.h"

#include <algorithm>
#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <list>
#include <memory>
#include <optional>
#include <thread>
#include <utility>

#include <fmt/format.h>
#include <boost/asio/ip/tcp.hpp>
#include <boost/asio/post.hpp>
#include <boost/asio/signal_set.hpp>
#include <boost/asio/steady_timer.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http.hpp>

#include "core/ground/error.h"
#include "core/ground/secret.h"
#include "core/html/plain_page.h"
#include "core/serve/devices.h"
#include "core/serve/form_fields.h"
#include "core/serve/gate.h"
#include "core/serve/request_queue.h"

namespace casebound {

namespace {

namespace asio = boost::asio;
namespace beast = boost::beast;
namespace http = beast::http;
using tcp = asio::ip::tcp;
using boost::system::error_code;

// Everything a page needs comes from here, and nothing else does; no other page may frame it or read it.
constexpr const char* content_policy =
    "default-src 'none'; style-src 'self'; img-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'";

// A terminal or a supervisor may deliver one stop twice, to the process and to its group.
constexpr auto one_key_press = std::chrono::milliseconds(300);

// What all connections of one run share. Touched by the thread that does the sockets only.
struct ServerState {
    ServerState(asio::io_context& context, RequestQueue& answers, const ServerOptions& with)
        : io(context), queue(answers), options(with) {}
    asio::io_context& io;
    RequestQueue& queue;
    const ServerOptions& options;
    std::string form_token = new_secret();
    std::string entry_token;                               // of the LAN door; used once
    Devices devices;                                       // let in by one
    std::list<std::shared_ptr<class Connection>> present;  // longest without progress first
    std::size_t held_bytes = 0;                            // of replies under way
    bool closing = false;
    std::string entry_address() const { return entry_prefix + entry_token; }
    std::string entry_prefix;  // "http://192.168.0.7:8417/?token="
};

bool is_header_value(const std::string& text) {
    return std::none_of(text.begin(), text.end(),
                        [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; });
}

class Connection : public std::enable_shared_from_this<Connection> {
public:
    Connection(ServerState& state, tcp::socket socket, const Door& door)
        : state_(state), stream_(std::move(socket)), door_(door) {
        error_code ignored;
        stream_.socket().set_option(tcp::no_delay(true), ignored);
    }
    bool busy() const { return busy_; }
    void start() { read_head(); }
    void drop() {
        let_go();
        error_code ignored;
        stream_.socket().close(ignored);
    }

private:
    using Parser = http::request_parser<http::string_body>;
    using Reply = http::response<http::string_body>;

    void moved() {  // something happened: to the end of the row
        const auto self = shared_from_this();
        const auto at = std::find(state_.present.begin(), state_.present.end(), self);
        if (at != state_.present.end()) state_.present.splice(state_.present.end(), state_.present, at);
    }
    void end() {
        drop();
        state_.present.remove(shared_from_this());
    }

    // Replies that nobody fetches must not fill the memory: the one that has waited longest goes.
    void hold(std::size_t bytes) {
        state_.held_bytes += held_bytes_ = bytes;
        for (auto at = state_.present.begin();
             at != state_.present.end() && state_.held_bytes > state_.options.limits.waiting_bytes;) {
            const auto one = *at++;
            if (one->held_bytes_ == 0 || one.get() == this) continue;
            one->drop();
            state_.present.remove(one);
        }
    }
    void let_go() { state_.held_bytes -= std::exchange(held_bytes_, 0); }

    void read_head() {
        moved();
        parser_.emplace();
        parser_->header_limit(state_.options.limits.head_bytes);
        parser_->body_limit(state_.options.limits.body_bytes);
        stream_.expires_after(state_.options.limits.for_head);  // for all of it: dripping does not prolong it
        http::async_read_header(stream_, buffer_, *parser_,
                                [self = shared_from_this()](error_code error, std::size_t) { self->got_head(error); });
    }

    void got_head(error_code error) {
        moved();
        if (error == http::error::header_limit || error == http::error::buffer_overflow)
            return refuse({431, "the head of the request is too long", "send less"});
        if (error == http::error::body_limit) return refuse({413, "a form so long is not taken", "say it shorter"});
        if (error == http::error::end_of_stream || error == http::error::partial_message) return end();
        if (error && error.category() == http::make_error_code(http::error::bad_method).category())
            return refuse({400, "this is not HTTP/1.1: " + error.message(), "open the address in a browser"});
        if (error) return end();  // too slow, or gone
        const auto head = head_of(parser_->get());
        if (const auto refused = refused_at(door_, head, state_.options.limits.body_bytes)) return refuse(*refused);
        agent_ = head.agent;
        entering_ = asks_to_enter(door_, head);
        if (!entering_ && !has_cookie(door_, head)) return first_visit();
        if (head.method != "POST") return answer_or_devices();
        stream_.expires_after(state_.options.limits.for_body);
        http::async_read(stream_, buffer_, *parser_, [self = shared_from_this()](error_code failed, std::size_t) {
            if (failed) return self->end();
            self->got_form();
        });
    }

    static RequestHead head_of(const Parser::value_type& request) {
        RequestHead head;
        head.method = std::string(request.method_string());
        head.target = std::string(request.target());
        const auto all = [&](auto name) {
            std::vector<std::string> values;
            const auto [first, last] = request.equal_range(name);
            for (auto at = first; at != last; ++at) values.emplace_back(at->value());
            return values;
        };
        head.host = all(http::field::host);
        head.origin = all(http::field::origin);
        head.fetch_site = all("Sec-Fetch-Site");
        head.cookie = all(http::field::cookie);
        head.content_type = std::string(request[http::field::content_type]);
        head.agent = std::string(request[http::field::user_agent]);
        head.transfer_encoding = request.count(http::field::transfer_encoding) > 0;
        head.content_encoding = request.count(http::field::content_encoding) > 0;
        head.expects = request.count(http::field::expect) > 0;
        if (request.count(http::field::content_length))
            head.content_length = std::stoull(
                "0" + std::string(request[http::field::content_length]));  // the parser took digits only
        return head;
    }

    void got_form() {
        moved();
        auto form = form_of(parser_->get().body());
        if (!form) return refuse({400, "the form cannot be read", "send UTF-8 text without control characters"});
        if (entering_) return enter(*form);
        const auto token = std::find_if(form->begin(), form->end(),
                                        [](const auto& field) { return field.first == "token"; });
        if (token == form->end() || !same_secret(token->second, state_.form_token))
            return refuse({403, "the form is from an earlier run, or from elsewhere",
                           "go back, open the page anew and send it again"});
        form->erase(token);
        if (is_for_devices()) return put_out(*form);
        ask(std::move(*form));
    }

    // The machine's own door only.
    bool is_for_devices() const { return !door_.devices && parser_->get().target() == devices_path; }

    void answer_or_devices() {
        if (!is_for_devices()) return ask();
        PageReply reply;
        reply.body = devices_page(state_.devices, state_.form_token);
        send(std::move(reply));
    }

    void put_out(const Fields& form) {
        for (const auto& [name, value] : form)
            if (name == "out") state_.devices.put_out(std::atoi(value.c_str()));
        PageReply reply;
        reply.status = 303;
        reply.location = devices_path;
        send(std::move(reply));
    }

    void ask(Fields form = {}) {
        const auto& request = parser_->get();
        auto target = *target_of(std::string_view(request.target().data(), request.target().size()));
        PageRequest asked{request.method() == http::verb::post,
                          std::move(target.path),
                          std::move(target.query),
                          std::move(form),
                          door_.may_edit,
                          state_.form_token};
        busy_ = true;
        stream_.expires_never();
        state_.queue.put({std::move(asked), [self = shared_from_this()](PageReply reply) {
                              asio::post(self->stream_.get_executor(), [self, reply = std::move(reply)]() mutable {
                                  self->busy_ = false;
                                  self->send(std::move(reply));
                              });
                          }});
    }

    bool opens(const Fields& fields, std::string_view name) const {
        return std::any_of(fields.begin(), fields.end(), [&](const auto& field) {
            return field.first == name && same_secret(field.second, state_.entry_token);
        });
    }

    static Refused not_known() {
        return {401, "this page is for the yard's own people",
                "open the address that was printed last where casebound runs; each lets in one device"};
    }

    // Shows the one-time token's door, or how to get in. A preview, or a page fetched ahead, uses nothing up.
    void first_visit() {
        const auto target = *target_of(
            std::string_view(parser_->get().target().data(), parser_->get().target().size()));
        if (!opens(target.query, "token")) return refuse(not_known());
        PageReply reply;
        reply.body = entry_page(state_.entry_token);
        send(std::move(reply));
    }

    void enter(const Fields& form) {
        if (!opens(form, "entry")) return refuse(not_known());
        if (state_.devices.full())
            return refuse({403, fmt::format("{} devices are let in already", Devices::most),
                           "put one out on the machine itself, at /devices"});
        const auto& device = state_.devices.let_in(agent_);
        state_.entry_token = new_secret();
        state_.options.say({state_.entry_address()});
        PageReply reply;
        reply.body = plain_page(fmt::format("You are let in, as device {}", device.number),
                                "This device is known until casebound page ends, or until it is put out.",
                                PlainLink{"/", "Open the yard"});
        send(std::move(reply),
             fmt::format("{}={}; Path=/; HttpOnly; SameSite=Strict", door_.cookie_name, device.cookie));
    }

    void refuse(const Refused& refused) {
        PageReply reply;
        reply.status = refused.status;
        reply.body = plain_page(fmt::format("Refused ({})", refused.status),
                                fmt::format("casebound page: {}: {}.", refused.what, refused.what_to_do));
        keep_ = false;
        send(std::move(reply));
    }

    void send(PageReply from, const std::string& cookie = {}) {
        moved();
        if (!is_header_value(from.location) || !is_header_value(from.type) || from.location.substr(0, 2) == "//" ||
            (!from.location.empty() && from.location.front() != '/')) {
            from = PageReply{};
            from.status = 500;
            from.body = plain_page("This should not happen",
                                   "casebound page: an address that leads elsewhere was about to be sent.");
        }
        const bool head_only = parser_->get().method() == http::verb::head;
        reply_.emplace(static_cast<http::status>(from.status), 11);
        for (const auto& [name, value] : {std::pair{"Content-Security-Policy", content_policy},
                                          {"Referrer-Policy", "same-origin"},
                                          {"X-Content-Type-Options", "nosniff"},
                                          {"X-Frame-Options", "DENY"},
                                          {"Cross-Origin-Resource-Policy", "same-origin"},
                                          {"Cross-Origin-Opener-Policy", "same-origin"},
                                          {"Cache-Control", "no-store"},
                                          {"Accept-Ranges", "none"}})
            reply_->set(name, value);
        reply_->set(http::field::content_type, from.type);
        if (from.status == 405) reply_->set(http::field::allow, "GET, HEAD, POST");
        if (!from.location.empty()) reply_->set(http::field::location, from.location);
        if (!cookie.empty()) reply_->set(http::field::set_cookie, cookie);
        reply_->keep_alive(keep_ && parser_->is_header_done() && parser_->keep_alive() && !state_.closing);
        hold(from.body.size());
        reply_->content_length(from.body.size());
        if (!head_only) reply_->body() = std::move(from.body);
        stream_.expires_after(state_.options.limits.for_reply);
        http::async_write(stream_, *reply_,
                          [self = shared_from_this(), keep = reply_->keep_alive()](error_code error, std::size_t) {
                              if (error) return self->end();
                              self->reply_.reset();
                              self->let_go();
                              if (keep) self->read_head();
                              else self->close_gently();
                          });
    }

    // A close while the client still sends would destroy the reply on its way: what comes is thrown away, a while.
    void close_gently() {
        moved();
        error_code ignored;
        stream_.socket().shutdown(tcp::socket::shutdown_send, ignored);
        stream_.expires_after(std::chrono::seconds(1));
        throw_away();
    }
    void throw_away() {
        stream_.async_read_some(asio::buffer(thrown_),
                                [self = shared_from_this()](error_code error, std::size_t bytes) {
                                    self->thrown_bytes_ += bytes;
                                    if (error || self->thrown_bytes_ > 256 * 1024) return self->end();
                                    self->throw_away();
                                });
    }

    ServerState& state_;
    beast::tcp_stream stream_;
    const Door& door_;
    beast::flat_buffer buffer_{16 * 1024};
    std::optional<Parser> parser_;
    std::optional<Reply> reply_;
    std::array<char, 4096> thrown_{};
    std::size_t thrown_bytes_ = 0, held_bytes_ = 0;
    std::string agent_;  // of the request under way
    bool keep_ = true, busy_ = false, entering_ = false;
};

// One address that is listened at.
class Listener {
public:
    Listener(ServerState& state, const asio::ip::address& address, std::uint16_t port)
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
                fmt::format(
                    "page: {} port {}: {}: --port 0 takes a free one; --listen takes an address of this machine",
                    address.to_string(), port, error.code().message()));
        }
    }
    std::uint16_t port() const { return acceptor_.local_endpoint().port(); }
    std::string host() const {
        const auto address = acceptor_.local_endpoint().address();
        return address.is_v6() ? fmt::format("[{}]:{}", address.to_string(), port())
                               : fmt::format("{}:{}", address.to_string(), port());
    }
    Door door;

    void accept() {
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
    void close() {
        error_code ignored;
        acceptor_.close(ignored);
        pause_.cancel();
    }

private:
    void admit(tcp::socket socket) {
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
    ServerState& state_;
    tcp::acceptor acceptor_;
    asio::steady_timer pause_;
};

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

void open_loopback(Listener& listener) {
    listener.door.hosts = {listener.host(), fmt::format("localhost:{}", listener.port())};
    if (listener.port() == 80) listener.door.hosts.insert(listener.door.hosts.end(), {"127.0.0.1", "localhost"});
}

void open_lan(Listener& listener, ServerState& state) {
    const auto host = listener.host();
    listener.door.hosts = {host};
    if (listener.port() == 80) listener.door.hosts.push_back(host.substr(0, host.rfind(':')));
    listener.door.may_edit = state.options.lan_may_edit;
    listener.door.cookie_name = fmt::format("casebound_{}", listener.port());
    listener.door.devices = &state.devices;
    state.entry_token = new_secret();
    state.entry_prefix = fmt::format("http://{}/?token=", host);
}

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
    open_loopback(listeners.emplace_back(state, asio::ip::make_address("127.0.0.1"), options.port));
    std::vector<std::string> addresses{fmt::format("http://{}/", listeners.front().host())};
    if (!options.listen.empty()) {
        open_lan(listeners.emplace_back(state, address_of(options.listen), listeners.front().port()), state);
        addresses.push_back(state.entry_address());
    }
    asio::signal_set signals(io, SIGINT, SIGTERM, SIGHUP);
    std::thread sockets([&] { run_sockets(io, signals, state, listeners); });
    options.say(addresses);
    queue.work(answer);
    io.stop();
    sockets.join();
}

}  // namespace casebound
