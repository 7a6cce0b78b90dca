// Work in a child process: its files stay, what it throws is thrown here, and its crash ends nothing but itself.
#include <catch2/catch.hpp>

#include <sys/resource.h>
#include <unistd.h>

#include <csignal>
#include <cstdlib>

#include "core/ground/child_work.h"
#include "core/ground/error.h"
#include "core/ground/owned_json.h"
#include "tests/scratch_folder.h"

using namespace casebound;

TEST_CASE("work in a child leaves its files, and nothing in memory") {
    const ScratchFolder folder;
    int changed = 0;
    const auto end = work_in_child([&] {
        folder.write("made", "by the child");
        changed = 1;
        (void)!::write(STDERR_FILENO, "heard", 5);
    });
    CHECK(end.whole);
    CHECK(end.said == "heard");
    CHECK(changed == 0);
    CHECK(ScratchFolder::read(folder.file("made")) == "by the child");
}

TEST_CASE("what work in a child throws is thrown here, with its exit code and its words") {
    try {
        work_in_child([] { throw Error(Exit::cannot_write, std::string(50'000, 'x')); });
        FAIL("nothing was thrown");
    } catch (const Error& error) {
        CHECK(error.exit() == Exit::cannot_write);
        CHECK(error.what() == std::string(50'000, 'x'));
    }
    CHECK_THROWS_AS(work_in_child([] { throw std::bad_alloc(); }), std::bad_alloc);
    CHECK_THROWS_WITH(work_in_child([] { throw std::out_of_range("too far"); }), "too far");
    CHECK_THROWS_WITH(work_in_child([] { throw 7; }), "something that is no std::exception");
}

TEST_CASE("work in a child that crashes, or ends the program, says how") {
    const auto crashed = work_in_child([] { std::raise(SIGSEGV); });
    CHECK_FALSE(crashed.whole);
    CHECK(crashed.how == "Segmentation fault");
    const auto aborted = work_in_child([] { std::raise(SIGABRT); });
    CHECK(aborted.how == "Aborted");
    const auto left = work_in_child([] { ::_exit(0); });
    CHECK_FALSE(left.whole);
    CHECK(left.how == "exit code 0");
}

#ifndef __SANITIZE_ADDRESS__  // whose shadow is larger than any limit
namespace {

// Takes all there is, to the last small piece.
void fill_memory() {
    const rlimit nothing_more{0, 0};
    ::setrlimit(RLIMIT_AS, &nothing_more);
    for (std::size_t bytes = std::size_t{1} << 20; bytes >= 16; bytes /= 2)
        while (auto* const piece = static_cast<volatile char*>(std::malloc(bytes))) *piece = 1;
}

nlohmann::ordered_json nested() {
    nlohmann::ordered_json json;
    for (int i = 0; i < 100; ++i) json["a"].push_back({{"b", {1, "two", {{"c", std::string(40, 'd')}}}}});
    return json;
}

}  // namespace

TEST_CASE("a JSON document that is owned is given back where there is no memory") {
    const auto owned = work_in_child([] {
        auto* const json = new OwnedJson(nested());
        fill_memory();
        delete json;
    });
    CHECK(owned.whole);
    // Control: the library's own end of it wants some.
    const auto bare = work_in_child([] {
        auto* const json = new nlohmann::ordered_json(nested());
        fill_memory();
        delete json;
    });
    CHECK_FALSE(bare.whole);
}
#endif
