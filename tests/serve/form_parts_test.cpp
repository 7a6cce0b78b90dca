// Forms that send a file: RFC 7578 as browsers write it, and what else may come.
#include <catch2/catch.hpp>

#include <filesystem>

#include "core/serve/form_parts.h"
#include "core/serve/gate.h"
#include "tests/scratch_folder.h"

using namespace casebound;

namespace {

const std::string parts_sent =
    "--X\r\nContent-Disposition: form-data; name=\"name\"\r\n\r\nkelder\r\n"
    "--X\r\nContent-Disposition: form-data; name=\"list\"; filename=\"june.csv\"\r\n"
    "Content-Type: text/csv\r\n\r\n" +
    std::string("a;b\r\n\0\xFF--X\r\n", 13) + "\r\n--X--\r\n";

}  // namespace

TEST_CASE("fields and files of a form are told apart, and a file is its bytes") {
    const auto parts = parts_of(parts_sent, "X");
    REQUIRE(parts);
    CHECK(parts->fields == Fields{{"name", "kelder"}});
    REQUIRE(parts->files.size() == 1);
    CHECK(parts->files[0].field == "list");
    CHECK(parts->files[0].name == "june.csv");
    CHECK(ScratchFolder::read(parts->files[0].path) == std::string("a;b\r\n\0\xFF--X\r\n", 13));
}

TEST_CASE("a form that comes in pieces is the same form, wherever it is cut, and its file goes when nobody holds it") {
    std::string path;
    for (std::size_t piece = 1; piece <= parts_sent.size(); ++piece) {
        const ScratchFolder folder;
        PartsReader reader("X", folder.path());
        for (std::size_t at = 0; at < parts_sent.size(); at += piece)
            REQUIRE(reader.take(parts_sent.substr(at, piece)));
        auto parts = reader.whole();
        REQUIRE(parts);
        CHECK(parts->fields == Fields{{"name", "kelder"}});
        path = parts->files.at(0).path;
        CHECK(path.starts_with(folder.path() + "/.sent-"));
        CHECK(ScratchFolder::read(path) == std::string("a;b\r\n\0\xFF--X\r\n", 13));
        CHECK(is_wanted(path));
        parts.reset();
        CHECK_FALSE(std::filesystem::exists(path));
    }
}

TEST_CASE("a form that is given up leaves no file, and none has more files or text than it may") {
    const ScratchFolder folder;
    {
        PartsReader reader("X", folder.path());
        CHECK(reader.take(parts_sent.substr(0, parts_sent.size() - 12)));
        CHECK_FALSE(std::filesystem::is_empty(folder.path()));
    }
    CHECK(std::filesystem::is_empty(folder.path()));
    const auto part = [](const std::string& more, const std::string& text) {
        return "--X\r\nContent-Disposition: form-data; name=\"a\"" + more + "\r\n\r\n" + text + "\r\n";
    };
    std::string many;
    for (int n = 0; n < 21; ++n) many += part("; filename=\"f\"", "x");
    CHECK_FALSE(parts_of(many + "--X--", "X"));
    CHECK(parts_of(many.substr(0, many.size() / 21 * 20) + "--X--", "X")->files.size() == 20);
    CHECK_FALSE(parts_of(part("", std::string(300'000, 'a')) + "--X--", "X"));
    CHECK(parts_of(part("", std::string(200'000, 'a')) + "--X--", "X"));
}

TEST_CASE("a form that is not well formed, and a field that is no text, are no form") {
    for (std::size_t cut = 0; cut + 4 < parts_sent.size(); ++cut) CHECK_FALSE(parts_of(parts_sent.substr(0, cut), "X"));
    CHECK_FALSE(parts_of(parts_sent, "Y"));
    CHECK_FALSE(parts_of("--X\r\nContent-Disposition: form-data; name=\"a\"\r\n\r\n\x07\r\n--X--", "X"));
    CHECK_FALSE(parts_of("--X\r\nContent-Disposition: form-data\r\n\r\na\r\n--X--", "X"));
    CHECK_FALSE(parts_of("--X\r\nContent-Type: text/csv\r\n\r\na\r\n--X--", "X"));
    CHECK_FALSE(parts_of(
        "--X\r\nContent-Disposition: form-data; name=\"" + std::string(300, 'a') + "\"\r\n\r\na\r\n--X--", "X"));
    CHECK(parts_of("--X\r\nContent-Disposition: form-data; name=\"f\"; filename=\"\"\r\n\r\n\r\n--X--", "X")
              ->files.empty());
    for (std::size_t at = 0; at < parts_sent.size();
         ++at) {  // none does more than be refused, or be read as something else
        auto changed = parts_sent;
        changed[at] = static_cast<char>(changed[at] ^ 0x21);
        const auto read = parts_of(changed, "X");
        CHECK((!read || read->files.size() + read->fields.size() <= 2));
    }
}

TEST_CASE("a boundary is taken as RFC 2046 bounds it") {
    CHECK(boundary_in("multipart/form-data; boundary=----Ab1") == "----Ab1");
    CHECK(boundary_in("Multipart/Form-Data; charset=utf-8; boundary=\"a.b\"") == "a.b");
    for (const std::string bad : {"multipart/form-data", "multipart/form-data; boundary=", "text/plain; boundary=a",
                                  "multipart/form-data; boundary=a b"}) {
        INFO(bad);
        CHECK(boundary_in(bad).empty());
    }
    CHECK(boundary_in("multipart/form-data; boundary=" + std::string(71, 'a')).empty());
}

TEST_CASE("only a form that sends a file may be longer, and no longer than it may") {
    const Door door{{"127.0.0.1:1"}, "c"};
    RequestHead head;
    head.method = "POST";
    head.target = "/lists";
    head.host = {"127.0.0.1:1"};
    head.origin = {"http://127.0.0.1:1"};
    head.content_type = "multipart/form-data; boundary=X";
    head.content_length = 900;
    const auto status = [&](std::uint64_t upload) {
        const auto refused = refused_at(door, head, 100, upload);
        return refused ? refused->status : 0;
    };
    CHECK(status(1000) == 0);
    CHECK(status(800) == 413);
    CHECK(status(0) == 413);
    head.content_length = 90;
    CHECK(status(0) == 415);
    head.content_type = "application/x-www-form-urlencoded";
    CHECK(status(1000) == 0);
    head.content_length = 900;
    CHECK(status(1000) == 413);
    head.content_type = "multipart/form-data; boundary=X";
    head.origin = {"http://elsewhere"};
    CHECK(status(1000) == 403);
}
