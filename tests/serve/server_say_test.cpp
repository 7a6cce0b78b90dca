// What the server is given to say its addresses with may fail: standard output is closed, or the disk is full. And it is
// asked from two threads: the one that answers, and the one that lets a device in.
#include "tests/serve/page_server.h"

#include <atomic>
#include <stdexcept>

using namespace casebound;
using namespace std::chrono_literals;

namespace {

constexpr int ended_by_the_error = 7;

// The child's exit code, or the negative signal it died of.
int serve_and_fail_to_say() {
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
        ::alarm(20);
        ::signal(SIGABRT, SIG_DFL);  // not the tests' own report of it
        ::close(STDERR_FILENO);
        ServerOptions options;
        options.say = [](const std::vector<std::string>&) { throw std::runtime_error("cannot say it"); };
        try {
            serve(options, [](const PageRequest&) { return PageReply{}; });
        } catch (const std::runtime_error&) { ::_exit(ended_by_the_error); }
        ::_exit(0);
    }
    int ended = 0;
    REQUIRE(::waitpid(child, &ended, 0) == child);
    return WIFEXITED(ended) ? WEXITSTATUS(ended) : -WTERMSIG(ended);
}

// A device of the yard's network at the address it was told; on the loopback, but another door.
int status_at(const std::string& address) {
    const auto host_at = address.find("//") + 2, target_at = address.find('/', host_at);
    const auto host = address.substr(host_at, target_at - host_at);
    Wire wire(static_cast<std::uint16_t>(std::atoi(host.c_str() + host.find(':') + 1)), "127.0.0.2");
    wire.send("GET " + address.substr(target_at) + " HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n");
    return status_of(wire.rest());
}

// The button on that page, which alone lets the device in.
int status_of_entering(const std::string& address) {
    const auto host_at = address.find("//") + 2, target_at = address.find('/', host_at);
    const auto host = address.substr(host_at, target_at - host_at);
    const auto form = "entry=" + address.substr(address.find("token=") + 6);
    Wire wire(static_cast<std::uint16_t>(std::atoi(host.c_str() + host.find(':') + 1)), "127.0.0.2");
    wire.send("POST /enter HTTP/1.1\r\nHost: " + host + "\r\nOrigin: http://" + host +
              "\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: " + std::to_string(form.size()) +
              "\r\nConnection: close\r\n\r\n" + form);
    return status_of(wire.rest());
}

}  // namespace

TEST_CASE("an address that cannot be said ends the server with that error, not with an abort") {
    CHECK(serve_and_fail_to_say() == ended_by_the_error);
}

TEST_CASE("addresses are said one after the other, also while a device is let in") {
    ServerOptions options;
    options.listen = "127.0.0.2";
    std::atomic<int> saying = 0, said = 0, status = 0;
    std::atomic<bool> overlapped = false;
    std::thread device;
    options.say = [&](const std::vector<std::string>& addresses) {
        if (++saying > 1) overlapped = true;
        if (said == 0) {  // a device comes while the first addresses are still being said
            device = std::thread([&status, entry = addresses.back()] {
                status = status_at(entry) == 200 ? status_of_entering(entry) : 0;
                ::kill(::getpid(), SIGTERM);
            });
            for (int i = 0; i < 50 && saying == 1; ++i) std::this_thread::sleep_for(10ms);
        }
        ++said;
        --saying;
    };
    serve(options, [](const PageRequest&) { return PageReply{}; });
    device.join();
    CHECK(status == 200);
    CHECK(said == 2);
    CHECK_FALSE(overlapped);
}

TEST_CASE("a device is let in only when the address for the next one could be said, and may come again") {
    ServerOptions options;
    options.listen = "127.0.0.2";
    int said = 0, refused = 0, let_in = 0;
    std::thread device;
    options.say = [&](const std::vector<std::string>& addresses) {
        if (++said == 2) throw std::runtime_error("cannot say it");
        if (said > 1) return;
        device = std::thread([&refused, &let_in, entry = addresses.back()] {
            refused = status_of_entering(entry);
            let_in = status_of_entering(entry);
            ::kill(::getpid(), SIGTERM);
        });
    };
    serve(options, [](const PageRequest&) { return PageReply{}; });
    device.join();
    CHECK(refused == 500);
    CHECK(let_in == 200);
    CHECK(said == 3);
}
