// The page's server under a client that means harm, over raw sockets on the loopback. Each claim ends by itself.
#include "tests/environment.h"
#include "tests/scratch_folder.h"
#include "tests/serve/page_server.h"

using namespace casebound;
using namespace std::chrono_literals;

namespace {

constexpr long most_kb = 64 * 1024;
const std::string own_site = "Sec-Fetch-Site: same-origin\r\n";

// Counts what was posted; "/token" shows the form token, "/big" is large, "/slow" takes its time.
PageReply tiny(const PageRequest& asked) {
    static int posted = 0;
    PageReply reply;
    reply.type = "text/plain; charset=utf-8";
    if (asked.post) {
        ++posted;
        reply.status = 303;
        reply.location = "/posted";
        for (const auto& [name, value] : asked.form)
            if (name == "to") reply.location = value;
    } else if (asked.path == "/token") reply.body = asked.form_token;
    else if (asked.path == "/big") reply.body.assign(2'000'000, 'x');
    else if (asked.path == "/huge") reply.body.assign(12'000'000, 'x');
    else if (asked.path == "/slow") std::this_thread::sleep_for(400ms), reply.body = "at last";
    else if (asked.path == "/endless") std::this_thread::sleep_for(60s);
    else if (asked.path == "/throws") throw std::runtime_error("<script>broken</script>");
    else if (asked.path == "/may-edit") reply.body = asked.may_edit ? "yes" : "no";
    else reply.body = "posted " + std::to_string(posted);
    return reply;
}

ServerOptions hasty() {
    ServerOptions options;
    options.limits.for_head = options.limits.for_body = options.limits.for_reply = 300ms;
    options.limits.for_upload = options.limits.for_file = 300ms;
    return options;
}

std::string body_of(const std::string& reply) {
    return reply.substr(std::min(reply.find("\r\n\r\n") + 4, reply.size()));
}
bool was_posted(const Serving& to) { return body_of(answer_of(to, request(to, "GET /"))) != "posted 0"; }
std::string token_of(const Serving& to) { return body_of(answer_of(to, request(to, "GET /token"))); }

// Bounded, still there for others, and it ends when it is told to.
void came_through(Serving& serving) {
    CHECK(answers_others(serving));
    CHECK(serving.peak_kb() > 0);
    CHECK(serving.peak_kb() < memory_slack * most_kb);
    CHECK(serving.stop() == 0);
}

}  // namespace

TEST_CASE("the page listens on the loopback and nowhere else") {
    Serving serving(tiny);
    std::ifstream in("/proc/net/tcp");
    char port[8];
    std::snprintf(port, sizeof port, ":%04X", serving.port());
    int listening = 0;
    for (std::string line; std::getline(in, line);)
        if (line.find(std::string(port) + " 00000000:0000 0A") != std::string::npos) {
            ++listening;
            CHECK(line.find("0100007F" + std::string(port)) !=
                  std::string::npos);  // 127.0.0.1, as the kernel writes it
        }
    CHECK(listening == 1);
    CHECK_FALSE(Wire(serving.port(), "127.0.0.2").open());
    came_through(serving);
}

TEST_CASE("a flood of headers is refused while others are answered") {
    Serving serving(tiny);
    std::string flood = "GET / HTTP/1.1\r\nHost: " + serving.host() + "\r\n";
    while (flood.size() < 4 << 20)
        flood += "X-Filler-" + std::to_string(flood.size()) + ": " + std::string(80, 'y') + "\r\n";
    for (int i = 0; i < 20; ++i) {
        Wire wire(serving.port());
        wire.send(flood);
        CHECK(answers_others(serving));
    }
    Wire wire(serving.port());
    wire.send(flood.substr(0, 20'000));
    CHECK(status_of(wire.rest()) == 431);
    Wire shorter(serving.port());
    shorter.send(flood.substr(0, 10'000));
    CHECK(status_of(shorter.rest()) == 431);
    Wire one_line(serving.port());
    one_line.send("GET /" + std::string(20'000, 'a'));
    CHECK(status_of(one_line.rest()) == 431);
    came_through(serving);
}

TEST_CASE("a head that drips in is cut off at its time, however steadily it drips") {
    Serving serving(tiny, hasty());
    Wire wire(serving.port());
    wire.send("GET / HTTP/1.1\r\n");
    bool cut = false;
    for (int i = 0; i < 300 && !cut; ++i) {
        std::this_thread::sleep_for(20ms);
        cut = !wire.send("a");
    }
    CHECK(cut);
    came_through(serving);
}

TEST_CASE("a chunked body without end is refused before any of it is read") {
    Serving serving(tiny);
    Wire wire(serving.port());
    wire.send(request(serving, "POST /",
                      own_site + "Content-Type: application/x-www-form-urlencoded\r\nTransfer-Encoding: chunked\r\n"));
    CHECK(status_of(wire.reply()) == 411);
    const std::string chunk = "10000\r\n" + std::string(0x10000, 'z') + "\r\n";
    int taken = 0;
    while (taken < 1000 && wire.send(chunk)) ++taken;
    CHECK(taken < 1000);  // it is cut off
    CHECK_FALSE(was_posted(serving));
    came_through(serving);
}

TEST_CASE("a body that is too long, comes in no stated length or never comes is refused") {
    Serving serving(tiny, hasty());
    const auto posted = [&](const std::string& fields) {
        Wire wire(serving.port());
        wire.send(
            request(serving, "POST /", own_site + "Content-Type: application/x-www-form-urlencoded\r\n" + fields));
        return status_of(wire.rest());
    };
    CHECK(posted("Content-Length: 1000000000\r\n") == 413);
    CHECK(posted("Content-Length: 99999999999999999999999\r\n") == 400);
    CHECK(posted("") == 411);
    CHECK(posted("Content-Length: 10\r\nTransfer-Encoding: chunked\r\n") == 400);  // two lengths
    CHECK(posted("Content-Length: 10\r\nContent-Length: 11\r\n") == 400);
    Wire silent(serving.port());
    silent.send(request(serving, "POST /",
                        own_site + "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 10\r\n"));
    CHECK(silent.closed());  // at its time, without a word
    CHECK(posted("Content-Length: 10\r\nExpect: 100-continue\r\n") == 417);
    CHECK(status_of(answer_of(serving, request(serving, "GET /", "Content-Length: 3\r\n", "a=b"))) == 400);
    CHECK(status_of(answer_of(
              serving, request(serving, "GET /", "Transfer-Encoding: chunked\r\n", "3\r\na=b\r\n0\r\n\r\n"))) == 411);
    CHECK(status_of(answer_of(serving,
                              request(serving, "POST /", own_site + "Content-Type: text/plain\r\nContent-Length: 3\r\n",
                                      "a=b"))) == 415);
    CHECK_FALSE(was_posted(serving));
    came_through(serving);
}

TEST_CASE("a thousand overlapping ranges bring the page once, whole") {
    Serving serving(tiny);
    std::string ranges = "Range: bytes=0-";
    for (int i = 0; i < 999; ++i) ranges += ",0-";
    for (int i = 0; i < 20; ++i) {
        const auto reply = answer_of(serving, request(serving, "GET /big", ranges + "\r\n"));
        CHECK(status_of(reply) == 200);
        CHECK(body_of(reply).size() == 2'000'000);
    }
    came_through(serving);
}

TEST_CASE("two hundred half-open connections keep nobody else out") {
    Serving serving(tiny);
    std::vector<std::unique_ptr<Wire>> half_open;
    for (int i = 0; i < 200; ++i) {
        half_open.push_back(std::make_unique<Wire>(serving.port()));
        CHECK(half_open.back()->open());
        half_open.back()->send("POST / HTTP/1.1\r\nHost: ");
        if (i % 20 == 0) CHECK(answers_others(serving));
    }
    CHECK(answers_others(serving));
    CHECK(half_open.front()->closed());  // the longest silent made room
    CHECK(serving.open_files() < 64 + 20);
    came_through(serving);
}

TEST_CASE("clients that do not read what they asked for are dropped, and hold nobody up") {
    Serving serving(tiny, hasty());
    std::vector<std::unique_ptr<Wire>> deaf;
    for (int i = 0; i < 50; ++i) {
        deaf.push_back(std::make_unique<Wire>(serving.port()));
        deaf.back()->send(request(serving, "GET /big") + request(serving, "GET /big"));
        if (i % 10 == 0) CHECK(answers_others(serving));
    }
    std::this_thread::sleep_for(600ms);
    CHECK(deaf.front()->rest().size() < 2'000'000 + 1000);
    came_through(serving);
}

TEST_CASE("replies that nobody fetches do not pile up") {
    Serving serving(tiny);  // with its usual patience: only their size can be what ends them
    std::vector<std::unique_ptr<Wire>> deaf;
    for (int i = 0; i < 30; ++i) {
        deaf.push_back(std::make_unique<Wire>(serving.port()));
        deaf.back()->send(request(serving, "GET /huge"));
        CHECK(answers_others(serving));
    }
    came_through(serving);
}

TEST_CASE("only the exact host is answered") {
    Serving serving(tiny);
    const auto port = ":" + std::to_string(serving.port());
    const auto asked_as = [&](const std::string& hosts) {
        return status_of(answer_of(serving, "GET / HTTP/1.1\r\n" + hosts + "Connection: close\r\n\r\n"));
    };
    CHECK(asked_as("Host: 127.0.0.1" + port + "\r\n") == 200);
    CHECK(asked_as("Host: localhost" + port + "\r\n") == 200);
    for (const std::string host : {"rebound.example", "rebound.example:80", "localhost", "127.0.0.1",
                                   "127.0.0.1.rebound.example", "[::1]", "127.1", ""})
        for (const auto& tail : {std::string(), port}) {
            if ((host == "localhost" || host == "127.0.0.1") && !tail.empty()) continue;
            INFO(host << tail);
            CHECK(asked_as("Host: " + host + tail + "\r\n") == 421);
        }
    CHECK(asked_as("") == 400);
    CHECK(asked_as("Host: 127.0.0.1" + port + "\r\nHost: 127.0.0.1" + port + "\r\n") == 400);
    CHECK(status_of(answer_of(
              serving, "GET http://127.0.0.1" + port + "/ HTTP/1.1\r\nHost: 127.0.0.1" + port + "\r\n\r\n")) == 400);
    came_through(serving);
}

TEST_CASE("a form from another site, or without this run's token, writes nothing") {
    Serving serving(tiny);
    const auto good = "token=" + token_of(serving);
    const auto posted = [&](const std::string& fields, const std::string& body) {
        return status_of(answer_of(serving, form(serving, "/", fields, body)));
    };
    for (const std::string fields :
         {"", "Sec-Fetch-Site: cross-site\r\n", "Sec-Fetch-Site: same-site\r\n", "Sec-Fetch-Site: none\r\n",
          "Sec-Fetch-Site: same-origin\r\nSec-Fetch-Site: cross-site\r\n", "Origin: http://rebound.example\r\n",
          "Origin: null\r\n", "Sec-Fetch-Site: same-origin\r\nOrigin: https://rebound.example\r\n"}) {
        INFO(fields);
        CHECK(posted(fields, good) == 403);
    }
    CHECK(posted("Origin: http://localhost:" + std::to_string(serving.port()) + "\r\n", good) ==
          403);  // asked as 127.0.0.1
    for (const std::string body : {"", "token=", "token=00000000000000000000000000000000", "x=1", "&"})
        CHECK(posted(own_site, body) == 403);
    CHECK(posted(own_site, good.substr(0, good.size() - 1)) == 403);
    CHECK_FALSE(was_posted(serving));
    CHECK(posted(own_site, good) == 303);
    CHECK(posted("Origin: http://" + serving.host() + "\r\n", "a=1&" + good) == 303);
    CHECK(was_posted(serving));
    came_through(serving);
}

TEST_CASE("two runs never share a token") {
    Serving first(tiny), second(tiny);
    CHECK(token_of(first).size() == 32);
    CHECK(token_of(first) == token_of(first));
    CHECK(token_of(first) != token_of(second));
}

TEST_CASE("only GET, HEAD and POST are answered, and nothing is promised to other sites") {
    Serving serving(tiny);
    for (const std::string method : {"PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT", "PROPFIND", "MKCOL"}) {
        const auto reply = answer_of(
            serving, request(serving, method + " /",
                             "Origin: http://rebound.example\r\nAccess-Control-Request-Method: POST\r\n"));
        INFO(reply);
        CHECK(status_of(reply) == 405);
        CHECK(reply.find("Allow: GET, HEAD, POST") != std::string::npos);
        CHECK(reply.find("Access-Control") == std::string::npos);
    }
    for (const std::string bytes : {"\x16\x03\x01\x02", "GET\r\n\r\n", "GET / HTTP/2.0\r\n\r\n",
                                    "GET / HTTP/1.1\r\nBroken\r\n\r\n", "\r\n\r\n\r\n: x\r\n\r\n"})
        CHECK(status_of(answer_of(serving, bytes)) == 400);
    CHECK(status_of(answer_of(serving, request(serving, "GET //rebound.example/"))) == 400);
    CHECK(status_of(answer_of(serving, request(serving, "GET /%00"))) == 400);
    CHECK(status_of(answer_of(serving, request(serving, "GET /%ff"))) == 400);
    CHECK(status_of(answer_of(serving, request(serving, "GET /%4"))) == 400);
    came_through(serving);
}

TEST_CASE("every reply carries what keeps other pages out, and is kept nowhere") {
    Serving serving(tiny);
    for (const auto& reply :
         {answer_of(serving, request(serving, "GET /")), answer_of(serving, request(serving, "GET /throws")),
          answer_of(serving, request(serving, "PUT /")), answer_of(serving, "\r\n\r\n")}) {
        INFO(reply);
        CHECK(reply.find("Content-Security-Policy: default-src 'none'; ") != std::string::npos);
        CHECK(reply.find("frame-ancestors 'none'") != std::string::npos);
        CHECK(reply.find("form-action 'self'") != std::string::npos);
        CHECK(reply.find("unsafe") == std::string::npos);
        CHECK(reply.find("Referrer-Policy: same-origin\r\n") != std::string::npos);
        CHECK(reply.find("X-Content-Type-Options: nosniff\r\n") != std::string::npos);
        CHECK(reply.find("Cache-Control: no-store\r\n") != std::string::npos);
        CHECK(reply.find("<script>") == std::string::npos);
    }
    CHECK(status_of(answer_of(serving, request(serving, "GET /throws"))) == 500);
    came_through(serving);
}

TEST_CASE("a place to go on to never leads to another site, nor splits the reply") {
    Serving serving(tiny);
    const auto token = token_of(serving);
    for (const std::string to : {"//rebound.example/", "http://rebound.example/", "/a%0d%0aSet-Cookie:%20x=1", "x"}) {
        const auto reply = answer_of(serving, form(serving, "/", own_site, "token=" + token + "&to=" + to));
        INFO(reply);
        CHECK(status_of(reply) == 500);
        CHECK(reply.find("Set-Cookie") == std::string::npos);
    }
    came_through(serving);
}

TEST_CASE("one connection asks several times, also ahead; HEAD brings no body") {
    Serving serving(tiny);
    Wire wire(serving.port());
    const auto ask = [&](const std::string& first) {
        return first + " HTTP/1.1\r\nHost: " + serving.host() + "\r\n\r\n";
    };
    wire.send(ask("GET /") + ask("HEAD /big") + ask("GET /nowhere"));
    CHECK(body_of(wire.reply()) == "posted 0");
    const auto head = wire.reply(true);
    CHECK(head.find("Content-Length: 2000000\r\n") != std::string::npos);
    CHECK(body_of(wire.reply()) == "posted 0");
    came_through(serving);
}

namespace {

// A phone at the yard's door: 127.0.0.2 stands for an address of the yard's network.
class Phone {
public:
    explicit Phone(const Serving& serving, std::string name = "a phone")
        : serving_(serving), host_("127.0.0.2:" + std::to_string(serving.port())), name_(std::move(name)) {}
    const std::string& host() const { return host_; }
    std::string ask(const std::string& first, const std::string& fields = {}, const std::string& body = {}) const {
        Wire wire(serving_.port(), "127.0.0.2");
        wire.send(first + " HTTP/1.1\r\nHost: " + host_ + "\r\nUser-Agent: " + name_ + "\r\nConnection: close\r\n" +
                  fields + "\r\n" + body);
        return wire.rest();
    }
    std::string post(const std::string& path, const std::string& body, const std::string& fields = {}) const {
        return ask("POST " + path,
                   fields + "Origin: http://" + host_ +
                       "\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: " +
                       std::to_string(body.size()) + "\r\n",
                   body);
    }
    // By the address that was printed; its cookie as a header field, "" when it was not let in.
    std::string enter(const std::string& printed) const {
        const auto let_in = post("/enter", "entry=" + printed.substr(printed.find("token=") + 6));
        const auto at = let_in.find("Set-Cookie: ");
        if (status_of(let_in) != 200 || at == std::string::npos) return "";
        return "Cookie: other=1; " + let_in.substr(at + 12, let_in.find(';', at) - at - 12) + "\r\n";
    }

private:
    const Serving& serving_;
    std::string host_, name_;
};

}  // namespace

TEST_CASE("a phone in the yard gets in once with the token that was printed, and only looks") {
    auto options = ServerOptions{};
    options.listen = "127.0.0.2";  // stands for an address of the yard's network: on the loopback, but another door
    Serving serving(tiny, options);
    const auto entry = serving.next_line();
    const Phone phone(serving);
    const auto& host = phone.host();
    REQUIRE(entry.find("http://" + host + "/?token=") == 0);
    const auto ask = [&](const std::string& first, const std::string& fields = {}, const std::string& body = {}) {
        return phone.ask(first, fields, body);
    };
    const auto target = entry.substr(entry.find("/?"));
    CHECK(status_of(ask("GET /")) == 401);
    CHECK(status_of(ask("GET /?token=")) == 401);
    CHECK(status_of(ask("GET /", "Cookie: casebound_" + std::to_string(serving.port()) + "=\r\n")) == 401);
    for (const std::string method : {"HEAD ", "GET ", "GET "}) {  // a preview, a page fetched ahead: nothing is used up
        const auto looked = ask(method + target, "Sec-Purpose: prefetch\r\n");
        CHECK(status_of(looked) == 200);
        CHECK(looked.find("Set-Cookie") == std::string::npos);
    }
    CHECK(phone.enter("token=00000000000000000000000000000000").empty());
    CHECK(status_of(ask("POST /enter", "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 0\r\n")) ==
          403);  // of no page of ours
    const auto let_in = phone.post("/enter", "entry=" + target.substr(target.find('=') + 1));
    CHECK(status_of(let_in) == 200);
    const auto cookie_at = let_in.find("Set-Cookie: ") + 12;
    const auto set = let_in.substr(cookie_at, let_in.find("\r\n", cookie_at) - cookie_at);
    CHECK(set.find("; HttpOnly") != std::string::npos);
    CHECK(set.find("; SameSite=Strict") != std::string::npos);
    const auto cookie = "Cookie: other=1; " + set.substr(0, set.find(';')) + "\r\n";
    CHECK(status_of(ask("GET " + target)) == 401);  // used once
    CHECK(phone.enter(entry).empty());
    CHECK(serving.next_line().find("http://" + host + "/?token=") == 0);
    CHECK(body_of(ask("GET /may-edit", cookie)) == "no");
    CHECK(body_of(answer_of(serving, request(serving, "GET /may-edit"))) == "yes");
    const auto body = "token=" + token_of(serving);
    CHECK(status_of(ask("POST /",
                        cookie + "Origin: http://" + host +
                            "\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: " +
                            std::to_string(body.size()) + "\r\n",
                        body)) == 403);
    CHECK_FALSE(was_posted(serving));
    CHECK(status_of(answer_of(serving, "GET / HTTP/1.1\r\nHost: " + host + "\r\nConnection: close\r\n\r\n")) ==
          421);  // one door, one host
    came_through(serving);
}

TEST_CASE("a phone that may edit still needs the page's own form") {
    auto options = ServerOptions{};
    options.listen = "127.0.0.2";
    options.lan_may_edit = true;
    Serving serving(tiny, options);
    const auto entry = serving.next_line();
    const Phone phone(serving);
    const auto& host = phone.host();
    const auto ask = [&](const std::string& first, const std::string& fields, const std::string& body = {}) {
        return phone.ask(first, fields, body);
    };
    const auto cookie = phone.enter(entry);
    REQUIRE_FALSE(cookie.empty());
    const auto body = "token=" + token_of(serving);
    const auto content = "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: " +
                         std::to_string(body.size()) + "\r\n";
    CHECK(status_of(ask("POST /", cookie + content, body)) == 403);
    CHECK(status_of(ask("POST /", "Origin: http://" + host + "\r\n" + content, body)) == 401);
    CHECK_FALSE(was_posted(serving));
    CHECK(status_of(ask("POST /", cookie + "Origin: http://" + host + "\r\n" + content, body)) == 303);
    CHECK(was_posted(serving));
}

TEST_CASE("each device has a cookie of its own, is listed on the machine itself, and one can be put out") {
    auto options = ServerOptions{};
    options.listen = "127.0.0.2";
    Serving serving(tiny, options);
    const Phone first(serving, "first phone"), second(serving, "second <b>phone");
    const auto one = first.enter(serving.next_line()), other = second.enter(serving.next_line());
    REQUIRE_FALSE(one.empty());
    REQUIRE_FALSE(other.empty());
    CHECK(one != other);
    CHECK(status_of(first.ask("GET /", one)) == 200);
    CHECK(status_of(second.ask("GET /", other)) == 200);
    const auto listed = answer_of(serving, request(serving, "GET /devices"));
    CHECK(listed.find("Device 1: first phone") != std::string::npos);
    CHECK(listed.find("Device 2: second &lt;b&gt;phone") != std::string::npos);
    CHECK(body_of(first.ask("GET /devices", one)).find("second") == std::string::npos);  // not from outside
    const auto out = "token=" + token_of(serving) + "&out=1";
    const auto own = "Origin: http://" + serving.host() + "\r\n";
    CHECK(status_of(first.post("/devices", out, one)) == 403);
    CHECK(status_of(answer_of(serving, form(serving, "/devices", own, "out=1"))) == 403);  // without the page's token
    CHECK(status_of(first.ask("GET /", one)) == 200);
    CHECK(status_of(answer_of(serving, form(serving, "/devices", own, out))) == 303);
    CHECK(status_of(first.ask("GET /", one)) == 401);
    CHECK(status_of(second.ask("GET /", other)) == 200);
    came_through(serving);
}

TEST_CASE("the page outlives whoever read its addresses") {
    const ScratchFolder folder;
    const SetVariable home("CASEBOUND_HOME", folder.path().c_str());
    Serving serving(
        {CASEBOUND_BINARY_DIR "/casebound", "--json", "page", "--port", "0", "--listen", "127.0.0.2", "--allow-lan"});
    const auto& said = serving.first_line();
    serving.hang_up();
    const Phone phone(serving);
    const auto cookie = phone.enter(said.substr(0, said.rfind('"')));  // the next address is said to nobody
    REQUIRE_FALSE(cookie.empty());
    CHECK(status_of(phone.ask("GET /devices", cookie)) == 404);
    CHECK(status_of(answer_of(serving, request(serving, "GET /devices"))) == 200);
    CHECK(serving.stop() == 0);
}

TEST_CASE("it ends cleanly by any of its signals, also in the middle of an answer") {
    for (const int signal : {SIGINT, SIGTERM, SIGHUP}) {
        Serving serving(tiny);
        std::vector<std::unique_ptr<Wire>> wires;
        for (int i = 0; i < 20; ++i) {
            wires.push_back(std::make_unique<Wire>(serving.port()));
            wires.back()->send(i % 2 ? request(serving, "GET /slow") : std::string("GET"));
        }
        CHECK(serving.stop(signal) == 0);
    }
}

TEST_CASE("a stop that arrives twice at once is one stop, and a later one ends a long answer too") {
    Serving once(tiny);
    Wire waiting(once.port());
    waiting.send(request(once, "GET /slow"));
    std::this_thread::sleep_for(100ms);  // under way
    once.signal(SIGINT);
    CHECK(once.stop(SIGINT) == 0);

    Serving stuck(tiny);
    Wire hopeless(stuck.port());
    hopeless.send(request(stuck, "GET /endless"));
    std::this_thread::sleep_for(100ms);
    stuck.signal(SIGINT);
    std::this_thread::sleep_for(900ms);
    CHECK(stuck.stop(SIGINT) == -SIGINT);
}

TEST_CASE("an address that cannot be served at says so, and what to do") {
    const auto tried = [](const std::string& listen) {
        ServerOptions options;
        options.listen = listen;
        options.say = [](const auto&) {};
        try {
            serve(options, tiny);
        } catch (const Error& error) { return std::string(error.what()); }
        return std::string();
    };
    CHECK_THAT(tried("0.0.0.0"), Catch::Contains("name one address of this machine"));
    CHECK_THAT(tried("yard"), Catch::Contains("not an address"));
    CHECK_THAT(tried("203.0.113.7"), Catch::Contains("203.0.113.7"));  // RFC 5737: no machine has it
    Serving serving(tiny);
    ServerOptions same;
    same.port = serving.port();
    CHECK_THROWS_WITH(serve(same, tiny), Catch::Contains("--port 0"));
}
