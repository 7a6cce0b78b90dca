// A child process that serves, and a raw client that keeps to no rule. Every wait has an end.
#pragma once

#include <catch2/catch.hpp>

#include <arpa/inet.h>
#include <netinet/in.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/socket.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "core/serve/server.h"

// The sanitizer keeps what is given back, for as long as it is asked to: there memory is bounded loosely.
#ifdef __SANITIZE_ADDRESS__
inline constexpr long memory_slack = 32;
#else
inline constexpr long memory_slack = 1;
#endif

// Serves until it is stopped; what it says goes through a pipe.
class Serving {
public:
    explicit Serving(const casebound::Answerer& answer, casebound::ServerOptions options = {}) {
        start([&](int out) {
            options.say = [out](const std::vector<std::string>& addresses) {
                for (const auto& address : addresses)
                    [[maybe_unused]] const auto written = ::write(out, (address + "\n").data(), address.size() + 1);
            };
            casebound::serve(options, answer);
        });
    }
    // A program that prints its addresses, one a line, as they are said.
    explicit Serving(const std::vector<std::string>& command) {
        start([&](int out) {
            ::dup2(out, STDOUT_FILENO);
            std::vector<char*> words;
            for (const auto& word : command) words.push_back(const_cast<char*>(word.c_str()));
            words.push_back(nullptr);
            ::execv(words.front(), words.data());
        });
    }
    ~Serving() {
        if (child_ > 0) ::kill(child_, SIGKILL), ::waitpid(child_, nullptr, 0);
        if (said_ >= 0) ::close(said_);
    }
    Serving(const Serving&) = delete;
    Serving& operator=(const Serving&) = delete;

    std::uint16_t port() const { return port_; }
    std::string host() const { return "127.0.0.1:" + std::to_string(port_); }
    std::string next_line() {
        std::string line;
        for (char c = 0; ::read(said_, &c, 1) == 1 && c != '\n';) line += c;
        return line;
    }
    const std::string& first_line() const { return first_line_; }
    void hang_up() { ::close(std::exchange(said_, -1)); }  // nobody reads any more what it says
    long peak_kb() const { return status("VmHWM:"); }
    std::ptrdiff_t open_files() const {
        return std::distance(std::filesystem::directory_iterator("/proc/" + std::to_string(child_) + "/fd"),
                             std::filesystem::directory_iterator());
    }
    void signal(int with) { ::kill(child_, with); }
    // The exit code, the negative signal it died of, -1000 when it did not end.
    int stop(int with = SIGTERM) {
        ::kill(child_, with);
        int ended = 0;
        for (int i = 0; i < 500; ++i) {
            if (::waitpid(child_, &ended, WNOHANG) == child_) {
                child_ = 0;
                return WIFEXITED(ended) ? WEXITSTATUS(ended) : -WTERMSIG(ended);
            }
            std::this_thread::sleep_for(std::chrono::milliseconds(10));
        }
        return -1000;
    }

private:
    template <class Body> void start(Body body) {
        int ends[2];
        REQUIRE(::pipe(ends) == 0);
        child_ = ::fork();
        REQUIRE(child_ >= 0);
        if (child_ == 0) {
            ::prctl(PR_SET_PDEATHSIG, SIGKILL);  // never left behind
            ::close(ends[0]);
            try {
                body(ends[1]);
            } catch (const std::exception& error) {
                std::fprintf(stderr, "%s\n", error.what());
                ::_exit(99);
            }
            ::_exit(0);
        }
        ::close(ends[1]);
        said_ = ends[0];
        first_line_ = next_line();
        INFO("it said: " << first_line_);
        const auto colon = first_line_.rfind(':');
        REQUIRE(colon != std::string::npos);
        port_ = static_cast<std::uint16_t>(std::atoi(first_line_.c_str() + colon + 1));
        REQUIRE(port_ > 0);
    }
    long status(const std::string& key) const {
        std::ifstream in("/proc/" + std::to_string(child_) + "/status");
        for (std::string word; in >> word;)
            if (word == key) {
                long value = 0;
                in >> value;
                return value;
            }
        return -1;
    }
    std::string first_line_;
    pid_t child_ = 0;
    int said_ = -1;
    std::uint16_t port_ = 0;
};

// One connection. Sending and receiving give up after `seconds`.
class Wire {
public:
    explicit Wire(std::uint16_t port, const char* address = "127.0.0.1", int seconds = 10)
        : socket_(::socket(AF_INET, SOCK_STREAM, 0)) {
        const timeval patience{seconds, 0};
        ::setsockopt(socket_, SOL_SOCKET, SO_RCVTIMEO, &patience, sizeof patience);
        ::setsockopt(socket_, SOL_SOCKET, SO_SNDTIMEO, &patience, sizeof patience);
        sockaddr_in to{};
        to.sin_family = AF_INET;
        to.sin_port = htons(port);
        ::inet_pton(AF_INET, address, &to.sin_addr);
        open_ = ::connect(socket_, reinterpret_cast<const sockaddr*>(&to), sizeof to) == 0;
    }
    ~Wire() { ::close(socket_); }
    Wire(const Wire&) = delete;
    Wire& operator=(const Wire&) = delete;

    bool open() const { return open_; }
    bool send(const std::string& bytes) {  // false: the other end no longer takes it
        for (std::size_t at = 0; at < bytes.size();) {
            const auto sent = ::send(socket_, bytes.data() + at, bytes.size() - at, MSG_NOSIGNAL);
            if (sent <= 0) return false;
            at += static_cast<std::size_t>(sent);
        }
        return true;
    }
    // Everything until the other end closes, or nothing comes for long; `most` bytes.
    std::string rest(std::size_t most = 64 << 20) {
        std::string all;
        char part[16384];
        for (ssize_t got = 0; all.size() < most && (got = ::recv(socket_, part, sizeof part, 0)) > 0;)
            all.append(part, static_cast<std::size_t>(got));
        return all;
    }
    // One reply with Content-Length; the connection stays.
    std::string reply(bool head_only = false) {
        std::string all;
        char c = 0;
        while (all.size() < 65536 && all.find("\r\n\r\n") == std::string::npos && ::recv(socket_, &c, 1, 0) == 1)
            all += c;
        const auto length = all.find("Content-Length: ");
        if (head_only || length == std::string::npos) return all;
        const auto body = std::strtoul(all.c_str() + length + 16, nullptr, 10);
        const auto head = all.size();
        while (all.size() < head + body && ::recv(socket_, &c, 1, 0) == 1) all += c;
        return all;
    }
    // Has the other end closed within the patience?
    bool closed() {
        char c = 0;
        const auto got = ::recv(socket_, &c, 1, 0);
        return got == 0 || (got < 0 && errno != EAGAIN);
    }

private:
    int socket_;
    bool open_ = false;
};

inline int status_of(const std::string& reply) {
    return reply.substr(0, 9) == "HTTP/1.1 " ? std::atoi(reply.c_str() + 9) : 0;
}

inline std::string request(const Serving& to, const std::string& first, const std::string& fields = {},
                           const std::string& body = {}) {
    return first + " HTTP/1.1\r\nHost: " + to.host() + "\r\nConnection: close\r\n" + fields + "\r\n" + body;
}

inline std::string answer_of(const Serving& to, const std::string& bytes) {
    Wire wire(to.port());
    wire.send(bytes);
    return wire.rest();
}

// How the honest browser beside the hostile client fares.
inline bool answers_others(const Serving& to) { return status_of(answer_of(to, request(to, "GET /"))) == 200; }

inline std::string form(const Serving& to, const std::string& path, const std::string& fields,
                        const std::string& body) {
    return request(to, "POST " + path,
                   fields + "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: " +
                       std::to_string(body.size()) + "\r\n",
                   body);
}
