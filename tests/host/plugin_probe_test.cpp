// Work that crashes, hangs or takes too much ends as a message that says where it was.
#include <catch2/catch.hpp>

#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdio>
#include <stdexcept>
#include <string>
#include <vector>

#include "core/ground/error.h"
#include "core/host/plugin_probe.h"
#include "tests/scratch_folder.h"

using namespace casebound;
using Catch::Contains;
using namespace std::chrono_literals;

namespace {

std::string fault_in_step(const std::function<void()>& work, ProbeLimits limits = {}) {
    return probe_fault(
        [&](const ProbeSteps& step) {
            step("in its first step");
            step("in the tested step");
            work();
        },
        limits);
}

}  // namespace

TEST_CASE("work that comes to its end has no fault, and its printing goes nowhere") {
    CHECK(fault_in_step([] { std::printf("not to be seen\n"), std::fflush(stdout); }).empty());
}

TEST_CASE("a crash is named by its signal and its step") {
    const auto [signal, words] = GENERATE(table<int, std::string>({{SIGSEGV, "Segmentation fault"},
                                                                   {SIGABRT, "Aborted"},
                                                                   {SIGBUS, "Bus error"},
                                                                   {SIGFPE, "Floating point exception"}}));
    CHECK_THAT(fault_in_step([signal = signal] { std::raise(signal); }),
               Contains("crashed (" + words + ") in the tested step: tell whoever made it"));
}

TEST_CASE("work that sleeps for ever is ended when its time is over, with whatever it started") {
    const auto before = std::chrono::steady_clock::now();
    CHECK_THAT(fault_in_step(
                   [] {
                       for (;;) ::pause();
                   },
                   {700ms}),
               Contains("did not come back within 0.7 s in the tested step"));
    CHECK(std::chrono::steady_clock::now() - before < 4s);
}

TEST_CASE("work that closes its report and goes on is ended too") {
    CHECK_THAT(fault_in_step([] { ::close(3), std::raise(SIGSTOP); }), Contains("was killed in the tested step"));
}

TEST_CASE("work that keeps the processor busy is ended when its share is used up") {
    CHECK_THAT(fault_in_step(
                   [] {
                       volatile bool on = true;
                       while (on) {}
                   },
                   {60'000ms, 1}),
               Contains("used more than 1 s of processor time in the tested step"));
}

TEST_CASE("work that ends the program is told from work that came to its end") {
    CHECK_THAT(fault_in_step([] { ::_exit(0); }), Contains("ended the program (exit code 0) in the tested step"));
    CHECK_THAT(fault_in_step([] { ::_exit(7); }), Contains("ended the program (exit code 7)"));
}

TEST_CASE("an exception is a fault with its text, and one of our own stands as it is") {
    CHECK_THAT(fault_in_step([] { throw std::runtime_error("two\nlines"); }),
               Contains("threw an exception in the tested step (two\nlines): tell"));
    CHECK(fault_in_step([] {
              throw Error(Exit::refused, std::vector<std::string>{"one: do this", "two: do that"});
          }) == "one: do this\ntwo: do that");
    CHECK_THAT(fault_in_step([] { throw 42; }),
               Contains("threw something that is no std::exception in the tested step"));
}

TEST_CASE("work can write no file, and keeps none of this program's open files") {
    const ScratchFolder folder;
    CHECK_THAT(fault_in_step([&] {
                   const int file = ::open(folder.file("made").c_str(), O_WRONLY | O_CREAT, 0600);
                   if (::write(file, "x", 1) == 1) ::_exit(1);
               }),
               Contains("tried to write a file in the tested step"));
    const int kept = ::fcntl(STDERR_FILENO, F_DUPFD, 20);
    REQUIRE(kept >= 20);
    CHECK(fault_in_step([&] {
              if (::fcntl(kept, F_GETFD) != -1) throw std::runtime_error("still open");
          }).empty());
    ::close(kept);
}

#ifndef __SANITIZE_ADDRESS__
TEST_CASE("work that takes all memory is ended by its limit, however much this program has mapped") {
    CHECK_THAT(fault_in_step(
                   [] {
                       std::vector<std::string> all;
                       for (;;) all.emplace_back(std::size_t{16} << 20, 'x');
                   },
                   {5000ms, 3, std::size_t{64} << 20}),
               Contains("threw an exception in the tested step (std::bad_alloc)"));
}
#endif

TEST_CASE("a child that was stopped or finished leaves no zombie") {
    CHECK(fault_in_step([] {}).empty());
    CHECK(::waitpid(-1, nullptr, WNOHANG) == -1);
}

TEST_CASE("this program's own handler for a crash does not run in the child") {
    const auto old = std::signal(SIGSEGV, [](int) { ::_exit(0); });
    CHECK_THAT(fault_in_step([] { std::raise(SIGSEGV); }), Contains("crashed (Segmentation fault)"));
    std::signal(SIGSEGV, old);
}
