// Photos that many phones send and look at: on the disk while they come, never together in memory, and gone afterwards.
#include <atomic>

#include "tests/scratch_folder.h"
#include "tests/serve/page_server.h"

using namespace casebound;
using namespace std::chrono_literals;

namespace {

constexpr std::size_t mega = 1'000'000;

// What the page would do: "/token" shows the form token, "/photo" is a file, a form's files are counted by their bytes.
Answerer upload_answers(const std::string& photo) {
    return [photo](const PageRequest& asked) {
        PageReply reply;
        reply.type = "text/plain; charset=utf-8";
        if (asked.path == "/token") reply.body = asked.form_token;
        if (asked.path == "/photo") reply.type = "image/jpeg", reply.file = photo;
        if (asked.path == "/gone") reply.type = "image/jpeg", reply.file = photo + ".gone";
        if (!asked.post) return reply;
        for (const auto& file : asked.files)
            reply.body += file.name + " " + std::to_string(std::filesystem::file_size(file.path)) + "\n";
        if (asked.path == "/slow") std::this_thread::sleep_for(1s);
        return reply;
    };
}

std::string what_came(const std::string& reply) {
    return reply.substr(std::min(reply.find("\r\n\r\n") + 4, reply.size()));
}

struct UploadYard {
    ScratchFolder folder;
    std::string photo = folder.write("pan.jpg", std::string(12 * mega, 'p'));
    Serving serving;
    std::string token;

    explicit UploadYard(ServerOptions options = {}) : serving(upload_answers(photo), with_folder(std::move(options))) {
        token = what_came(answer_of(serving, request(serving, "GET /token")));
    }
    ServerOptions with_folder(ServerOptions options) const {
        options.upload_folder = folder.file("sent");
        return options;
    }
    std::string form_with(const std::string& file) const {
        return "--X\r\nContent-Disposition: form-data; name=\"token\"\r\n\r\n" + token +
               "\r\n--X\r\nContent-Disposition: form-data; name=\"photo\"; filename=\"pan.jpg\"\r\n"
               "Content-Type: image/jpeg\r\n\r\n" +
               file + "\r\n--X--\r\n";
    }
    std::string head_of(const std::string& path, std::size_t bytes) const {
        return request(serving, "POST " + path,
                       "Sec-Fetch-Site: same-origin\r\nContent-Type: multipart/form-data; boundary=X\r\n"
                       "Content-Length: " +
                           std::to_string(bytes) + "\r\n");
    }
    std::string send(const std::string& path, const std::string& file) const {
        const auto form = form_with(file);
        return answer_of(serving, head_of(path, form.size()) + form);
    }
    std::size_t files_sent() const {
        const auto path = folder.file("sent");
        if (!std::filesystem::exists(path)) return 0;
        return static_cast<std::size_t>(std::distance(std::filesystem::directory_iterator(path), {}));
    }
    bool empty_soon() const {
        for (int i = 0; i < 200 && files_sent() > 0; ++i) std::this_thread::sleep_for(10ms);
        return files_sent() == 0;
    }
};

}  // namespace

TEST_CASE("ten phones send 12 MB each at once, all are taken, and the server holds less than one of them in memory") {
    UploadYard yard;
    const long before_kb = yard.serving.peak_kb();
    const auto form = yard.form_with(std::string(12 * mega, 'p'));
    std::vector<std::unique_ptr<Wire>> phones;
    for (int n = 0; n < 10; ++n) {  // half of each before the rest of any: they are under way together
        phones.push_back(std::make_unique<Wire>(yard.serving.port()));
        REQUIRE(phones.back()->send(yard.head_of("/", form.size()) + form.substr(0, form.size() / 2)));
    }
    for (int i = 0; i < 500 && yard.files_sent() < 10; ++i) std::this_thread::sleep_for(10ms);
    CHECK(yard.files_sent() == 10);
    for (auto& phone : phones) REQUIRE(phone->send(form.substr(form.size() / 2)));
    for (auto& phone : phones) CHECK(what_came(phone->rest()) == "pan.jpg 12000000\n");
    WARN("ten uploads of 12 MB at once: peak " << yard.serving.peak_kb() << " kB, " << before_kb << " kB before");
    CHECK(yard.serving.peak_kb() - before_kb < memory_slack * 12 * 1024);
    CHECK(yard.empty_soon());
    CHECK(yard.serving.stop() == 0);
}

TEST_CASE("who sends when too many are sending is asked to come again, and is taken then") {
    ServerOptions options;
    options.limits.uploads = 2;
    UploadYard yard(options);
    const auto form = yard.form_with(std::string(mega, 'p'));
    std::vector<std::unique_ptr<Wire>> phones;
    for (int n = 0; n < 2; ++n) {
        phones.push_back(std::make_unique<Wire>(yard.serving.port()));
        REQUIRE(phones.back()->send(yard.head_of("/", form.size()) + form.substr(0, form.size() / 2)));
    }
    for (int i = 0; i < 500 && yard.files_sent() < 2; ++i) std::this_thread::sleep_for(10ms);
    const auto refused = yard.send("/", "small");
    CHECK(status_of(refused) == 503);
    CHECK(refused.find("Retry-After: 5\r\n") != std::string::npos);
    CHECK(answers_others(yard.serving));  // who only looks is not in the way
    for (auto& phone : phones) phone->send(form.substr(form.size() / 2));
    for (auto& phone : phones) CHECK(status_of(phone->rest()) == 200);
    CHECK(what_came(yard.send("/", "small")) == "pan.jpg 5\n");
}

TEST_CASE("a phone that goes away, or sends too slowly, leaves no file and keeps nobody out") {
    ServerOptions options;
    options.limits.uploads = 1;
    options.limits.for_upload = 500ms;
    UploadYard yard(options);
    const auto form = yard.form_with(std::string(mega, 'p'));
    {
        Wire phone(yard.serving.port());
        phone.send(yard.head_of("/", form.size()) + form.substr(0, form.size() / 2));
        for (int i = 0; i < 500 && yard.files_sent() < 1; ++i) std::this_thread::sleep_for(10ms);
    }
    CHECK(yard.empty_soon());
    Wire slow(yard.serving.port());
    slow.send(yard.head_of("/", form.size()) + form.substr(0, 1000));
    CHECK(slow.closed());
    CHECK(yard.empty_soon());
    CHECK(status_of(yard.send("/", "small")) == 200);
}

TEST_CASE("a form that is more than may be sent is refused before it comes, and one that is no form leaves no file") {
    UploadYard yard;
    CHECK(status_of(answer_of(yard.serving, yard.head_of("/", 18 * mega))) == 413);
    auto broken = yard.form_with("x");
    broken.replace(broken.size() - 6, 6, "nobody");
    CHECK(status_of(answer_of(yard.serving, yard.head_of("/", broken.size()) + broken)) == 400);
    const auto text = "--Y\r\n" + std::string(mega, 'x');
    CHECK(status_of(answer_of(yard.serving, yard.head_of("/", text.size()) + text)) == 400);
    yard.token = "another run's";
    CHECK(status_of(yard.send("/", "small")) == 403);
    CHECK(yard.empty_soon());
}

TEST_CASE("a folder that takes nothing is said, and is no end of the server") {
    ServerOptions options;
    UploadYard yard(options);
    yard.folder.write("sent", "a file where the folder should be");
    const auto refused = yard.send("/", "small");
    CHECK(status_of(refused) == 507);
    CHECK(answers_others(yard.serving));
}

TEST_CASE("ten who look at a photo of 12 MB and read slowly take no memory for it") {
    UploadYard yard;
    const long before_kb = yard.serving.peak_kb();
    std::vector<std::unique_ptr<Wire>> phones;
    for (int n = 0; n < 10; ++n) {
        phones.push_back(std::make_unique<Wire>(yard.serving.port()));
        REQUIRE(phones.back()->send(request(yard.serving, "GET /photo")));
    }
    std::this_thread::sleep_for(300ms);  // all are under way
    std::string last;
    for (auto& phone : phones) {
        last = phone->rest();
        CHECK(what_came(last).size() == 12 * mega);
    }
    for (const char* field : {"Content-Type: image/jpeg\r\n", "X-Content-Type-Options: nosniff\r\n",
                              "Cache-Control: private, max-age=86400, immutable\r\n", "Content-Length: 12000000\r\n"})
        CHECK(last.find(field) != std::string::npos);
    CHECK(yard.serving.peak_kb() - before_kb < memory_slack * 12 * 1024);
    CHECK(status_of(answer_of(yard.serving, request(yard.serving, "GET /gone"))) == 404);
    const auto head = answer_of(yard.serving, request(yard.serving, "HEAD /photo"));
    CHECK(status_of(head) == 200);
    CHECK(what_came(head).empty());
}
