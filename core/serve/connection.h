// One client's connection: its requests one after the other, each with its limits and times. Lives on the thread that
// does the sockets; what answers is asked through the queue.
#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>

#include <boost/asio/ip/tcp.hpp>
#include <boost/beast/core/flat_buffer.hpp>
#include <boost/beast/core/tcp_stream.hpp>
#include <boost/beast/http.hpp>

#include "core/serve/form_body.h"
#include "core/serve/gate.h"
#include "core/serve/server_state.h"

namespace casebound {

class Connection : public std::enable_shared_from_this<Connection> {
public:
    Connection(ServerState& state, boost::asio::ip::tcp::socket socket, const Door& door);
    bool busy() const { return busy_; }
    void start() { read_head(); }
    void drop();

private:
    using ErrorCode = boost::system::error_code;
    using Parser = boost::beast::http::request_parser<FormBody>;
    using Reply = boost::beast::http::response<boost::beast::http::string_body>;
    using FileReply = boost::beast::http::response<boost::beast::http::file_body>;

    void moved();  // something happened: to the end of the row
    void end();
    void end_upload();
    void hold(std::size_t bytes);
    void let_go();
    void read_head();
    void got_head(ErrorCode error);
    void read_form();
    void got_form(ErrorCode error);
    void ask(Fields form = {}, std::vector<SentFile> files = {});
    void first_visit();
    void enter(const Fields& form);
    bool is_for_devices() const;
    void show_devices();
    void put_out(const Fields& form);
    void refuse(const Refused& refused);
    void send(PageReply from, const std::string& cookie = {});
    template <class One> void fill_head(One& reply, const PageReply& from, const std::string& cookie);
    void fill_reply(PageReply from, const std::string& cookie);
    bool fill_file(const PageReply& from);  // false: it is gone
    template <class One> void write(std::optional<One>& reply);
    void close_gently();
    void throw_away();

    ServerState& state_;
    boost::beast::tcp_stream stream_;
    const Door& door_;
    boost::beast::flat_buffer buffer_{16 * 1024};
    std::optional<Parser> parser_;
    std::optional<Reply> reply_;
    std::optional<FileReply> file_reply_;
    std::array<char, 4096> thrown_{};
    std::size_t thrown_bytes_ = 0, held_bytes_ = 0;
    std::string agent_;  // of the request under way
    bool keep_ = true, busy_ = false, entering_ = false, uploads_ = false;
};

}  // namespace casebound
