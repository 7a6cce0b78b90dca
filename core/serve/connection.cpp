#include "core/serve/connection.h"

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <string_view>
#include <utility>

#include <fmt/format.h>
#include <boost/asio/post.hpp>

#include "core/html/plain_page.h"
#include "core/serve/devices.h"
#include "core/serve/form_fields.h"

namespace casebound {

namespace {

namespace asio = boost::asio;
namespace http = boost::beast::http;
using tcp = asio::ip::tcp;
using boost::system::error_code;

// Everything a page needs comes from here, and nothing else does; no other page may frame it or read it.
constexpr const char* content_policy =
    "default-src 'none'; style-src 'self'; img-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'";

// A file never changes under its name; whoever is put out has seen it already.
constexpr const char* kept_by_the_browser = "private, max-age=86400, immutable";

bool is_header_value(const std::string& text) {
    return std::none_of(text.begin(), text.end(),
                        [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; });
}

// The reply as it may be sent: one that would lead elsewhere, or split the head, is none.
PageReply sendable(PageReply from) {
    const bool stays_here = from.location.empty() ||
                            (from.location.front() == '/' && from.location.substr(0, 2) != "//");
    if (stays_here && is_header_value(from.location) && is_header_value(from.type)) return from;
    PageReply reply;
    reply.status = 500;
    reply.body = plain_page("This should not happen",
                            "casebound page: an address that leads elsewhere was about to be sent.");
    return reply;
}

RequestHead head_of(const http::request<FormBody>& request) {
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

// Nothing when no field is named so.
const std::string* field_in(const Fields& fields, std::string_view name) {
    const auto token = std::find_if(fields.begin(), fields.end(),
                                    [&](const auto& field) { return field.first == name; });
    return token == fields.end() ? nullptr : &token->second;
}

Refused not_known() {
    return {401, "this page is for those who were let in",
            "open the address that was printed last where casebound runs; each lets in one device"};
}

Target target_in(const http::request<FormBody>& request) {
    return *target_of(std::string_view(request.target().data(), request.target().size()));
}

}  // namespace

Connection::Connection(ServerState& state, tcp::socket socket, const Door& door)
    : state_(state), stream_(std::move(socket)), door_(door) {
    error_code ignored;
    stream_.socket().set_option(tcp::no_delay(true), ignored);
}

void Connection::drop() {
    let_go();
    if (!busy_) end_upload();
    error_code ignored;
    stream_.socket().close(ignored);
}

void Connection::moved() {
    const auto self = shared_from_this();
    const auto at = std::find(state_.present.begin(), state_.present.end(), self);
    if (at != state_.present.end()) state_.present.splice(state_.present.end(), state_.present, at);
}

void Connection::end() {
    drop();
    state_.present.remove(shared_from_this());
}

// Replies that nobody fetches must not fill the memory: the one that has waited longest goes.
void Connection::hold(std::size_t bytes) {
    state_.held_bytes += held_bytes_ = bytes;
    for (auto at = state_.present.begin();
         at != state_.present.end() && state_.held_bytes > state_.options.limits.waiting_bytes;) {
        const auto one = *at++;
        if (one->held_bytes_ == 0 || one.get() == this) continue;
        one->drop();
        state_.present.remove(one);
    }
}

void Connection::end_upload() {
    if (std::exchange(uploads_, false)) --state_.uploads;
}

void Connection::let_go() { state_.held_bytes -= std::exchange(held_bytes_, 0); }

void Connection::read_head() {
    moved();
    end_upload();
    parser_.emplace();
    parser_->header_limit(state_.options.limits.head_bytes);
    const auto& limits = state_.options.limits;
    parser_->body_limit(std::max(limits.body_bytes, limits.upload_bytes));  // which of the two is the gate's to say
    stream_.expires_after(state_.options.limits.for_head);  // for all of it: dripping does not prolong it
    http::async_read_header(stream_, buffer_, *parser_,
                            [self = shared_from_this()](error_code error, std::size_t) { self->got_head(error); });
}

void Connection::got_head(error_code error) {
    moved();
    if (error == http::error::header_limit || error == http::error::buffer_overflow)
        return refuse({431, "the head of the request is too long", "send less"});
    if (error == http::error::body_limit) return refuse({413, "a form so long is not taken", "say it shorter"});
    if (error == http::error::end_of_stream || error == http::error::partial_message) return end();
    if (error && error.category() == http::make_error_code(http::error::bad_method).category())
        return refuse({400, "this is not HTTP/1.1: " + error.message(), "open the address in a browser"});
    if (error) return end();  // too slow, or gone
    const auto head = head_of(parser_->get());
    if (const auto refused = refused_at(door_, head, state_.options.limits.body_bytes,
                                        state_.options.limits.upload_bytes))
        return refuse(*refused);
    agent_ = head.agent;
    entering_ = asks_to_enter(door_, head);
    if (!entering_ && !has_cookie(door_, head)) return first_visit();
    if (head.method != "POST") return is_for_devices() ? show_devices() : ask();
    read_form();
}

// What a form sends goes to the disk: who comes when the room there is taken is asked to wait.
void Connection::read_form() {
    const auto& limits = state_.options.limits;
    const auto boundary = boundary_in(std::string(parser_->get()[http::field::content_type]));
    if (!boundary.empty()) {
        if (state_.uploads >= limits.uploads)
            return refuse({503, fmt::format("{} others are sending something just now", state_.uploads),
                           "wait a few seconds and send it again"});
        ++state_.uploads;
        uploads_ = true;
    }
    parser_->get().body().begin(boundary, state_.options.upload_folder);
    stream_.expires_after(boundary.empty() ? limits.for_body : limits.for_upload);
    http::async_read(stream_, buffer_, *parser_,
                     [self = shared_from_this()](error_code failed, std::size_t) { self->got_form(failed); });
}

void Connection::got_form(error_code failed) {
    moved();
    auto& sent = parser_->get().body();
    if (!sent.failed().empty())
        return refuse({507, "what was sent cannot be kept: " + sent.failed(), "make room there and send it again"});
    if (failed && failed != http::error::bad_value) return end();
    auto parts = failed ? std::nullopt : sent.read();
    auto* const form = parts ? &parts->fields : nullptr;
    if (!form) return refuse({400, "the form cannot be read", "send UTF-8 text without control characters"});
    if (entering_) return enter(*form);
    const auto* token = field_in(*form, "token");
    if (!token || !same_secret(*token, state_.form_token))
        return refuse({403, "the form is from an earlier run, or from elsewhere",
                       "go back, open the page anew and send it again"});
    form->erase(std::find_if(form->begin(), form->end(), [&](const auto& field) { return &field.second == token; }));
    if (is_for_devices()) return put_out(*form);
    ask(std::move(*form), std::move(parts->files));
}

// At the machine's own door only.
bool Connection::is_for_devices() const {
    return !door_.devices &&
           std::string_view(parser_->get().target().data(), parser_->get().target().size()) == devices_path;
}

void Connection::show_devices() {
    PageReply reply;
    const bool lan = !state_.entry_prefix.empty();
    reply.body = devices_page(state_.devices, lan ? state_.entry_address() : "", state_.form_token);
    send(std::move(reply));
}

void Connection::put_out(const Fields& form) {
    if (const auto* number = field_in(form, "out")) state_.devices.put_out(std::atoi(number->c_str()));
    PageReply reply;
    reply.status = 303;
    reply.location = devices_path;
    send(std::move(reply));
}

void Connection::ask(Fields form, std::vector<SentFile> files) {
    auto target = target_in(parser_->get());
    PageRequest asked{parser_->get().method() == http::verb::post,
                      std::move(target.path),
                      std::move(target.query),
                      std::move(form),
                      door_.may_edit,
                      state_.form_token,
                      std::move(files)};
    busy_ = true;
    stream_.expires_never();
    state_.queue.put({std::move(asked), [self = shared_from_this()](PageReply reply) {
                          asio::post(self->stream_.get_executor(), [self, reply = std::move(reply)]() mutable {
                              self->busy_ = false;
                              self->end_upload();
                              self->send(std::move(reply));
                          });
                      }});
}

// Shows the one-time token's door, or how to get in. A preview, or a page fetched ahead, uses nothing up.
void Connection::first_visit() {
    const auto target = target_in(parser_->get());
    const auto* token = field_in(target.query, "token");
    if (!token || !same_secret(*token, state_.entry_token)) return refuse(not_known());
    PageReply reply;
    reply.body = entry_page(state_.entry_token);
    send(std::move(reply));
}

void Connection::enter(const Fields& form) {
    const auto* token = field_in(form, "entry");
    if (!token || !same_secret(*token, state_.entry_token)) return refuse(not_known());
    if (state_.devices.full())
        return refuse({403, fmt::format("{} devices are let in already", Devices::most),
                       "put one out on the machine itself, at /devices"});
    try {
        state_.renew_entry();
    } catch (const std::exception&) {
        return refuse({500, "the address for the next device cannot be printed, so nobody is let in",
                       "look where casebound runs, mend its output and open the same address again"});
    }
    const auto& device = state_.devices.let_in(agent_);
    PageReply reply;
    reply.body = plain_page(fmt::format("You are let in, as device {}", device.number),
                            "This device is known until casebound page ends, or until it is put out.",
                            PlainLink{"/", "Open the vehicles"});
    send(std::move(reply), fmt::format("{}={}; Path=/; HttpOnly; SameSite=Strict", door_.cookie_name, device.cookie));
}

void Connection::refuse(const Refused& refused) {
    PageReply reply;
    reply.status = refused.status;
    reply.body = plain_page(fmt::format("Refused ({})", refused.status),
                            fmt::format("casebound page: {}: {}.", refused.what, refused.what_to_do));
    keep_ = false;
    send(std::move(reply));
}

template <class One> void Connection::fill_head(One& reply, const PageReply& from, const std::string& cookie) {
    for (const auto& [name, value] : {std::pair{"Content-Security-Policy", content_policy},
                                      {"Referrer-Policy", "same-origin"},
                                      {"X-Content-Type-Options", "nosniff"},
                                      {"X-Frame-Options", "DENY"},
                                      {"Cross-Origin-Resource-Policy", "same-origin"},
                                      {"Cross-Origin-Opener-Policy", "same-origin"},
                                      {"Cache-Control", from.file.empty() ? "no-store" : kept_by_the_browser},
                                      {"Accept-Ranges", "none"}})
        reply.set(name, value);
    reply.set(http::field::content_type, from.type);
    if (from.status == 405) reply.set(http::field::allow, "GET, HEAD, POST");
    if (from.status == 503) reply.set(http::field::retry_after, "5");
    if (!from.location.empty()) reply.set(http::field::location, from.location);
    if (!cookie.empty()) reply.set(http::field::set_cookie, cookie);
    reply.keep_alive(keep_ && parser_->is_header_done() && parser_->keep_alive() && !state_.closing);
}

void Connection::fill_reply(PageReply from, const std::string& cookie) {
    reply_.emplace(static_cast<http::status>(from.status), 11);
    fill_head(*reply_, from, cookie);
    hold(from.body.size());
    reply_->content_length(from.body.size());
    if (parser_->get().method() != http::verb::head) reply_->body() = std::move(from.body);
}

// Read from the disk as it is sent, so that ten that look at photos take no more memory than one.
bool Connection::fill_file(const PageReply& from) {
    error_code error;
    http::file_body::value_type file;
    file.open(from.file.c_str(), boost::beast::file_mode::scan, error);
    if (error) return false;
    file_reply_.emplace(static_cast<http::status>(from.status), 11);
    fill_head(*file_reply_, from, {});
    file_reply_->body() = std::move(file);
    file_reply_->prepare_payload();
    return true;
}

template <class One> void Connection::write(std::optional<One>& reply) {
    http::async_write(stream_, *reply,
                      [self = shared_from_this(), &reply, keep = reply->keep_alive()](error_code error, std::size_t) {
                          if (error) return self->end();
                          reply.reset();
                          self->let_go();
                          if (keep) self->read_head();
                          else self->close_gently();
                      });
}

void Connection::send(PageReply from, const std::string& cookie) {
    moved();
    from = sendable(std::move(from));
    if (!from.file.empty() && parser_->get().method() == http::verb::get) {
        if (fill_file(from)) {
            stream_.expires_after(state_.options.limits.for_file);
            return write(file_reply_);
        }
        from = {404,
                "text/html; charset=utf-8",
                plain_page("Not found", "casebound page: the file is gone from here."),
                {},
                {}};
    }
    fill_reply(std::move(from), cookie);
    stream_.expires_after(state_.options.limits.for_reply);
    write(reply_);
}

// A close while the client still sends would destroy the reply on its way: what comes is thrown away, a while.
void Connection::close_gently() {
    moved();
    error_code ignored;
    stream_.socket().shutdown(tcp::socket::shutdown_send, ignored);
    stream_.expires_after(std::chrono::seconds(1));
    throw_away();
}

void Connection::throw_away() {
    stream_.async_read_some(asio::buffer(thrown_), [self = shared_from_this()](error_code error, std::size_t bytes) {
        self->thrown_bytes_ += bytes;
        if (error || self->thrown_bytes_ > 256 * 1024) return self->end();
        self->throw_away();
    });
}

}  // namespace casebound
