// Runs a piece of work in a child process with limits and says how it ended, so that work that crashes, hangs,
// or takes all memory is a message. The child writes nowhere: its input and output are /dev/null, it may make no
// file longer than nothing, start no process, and keep none of this program's open files.
// Guards against mistakes in a plugin; it is not a sandbox.
#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <string>
#include <string_view>

namespace casebound {

struct ProbeLimits {
    std::chrono::milliseconds wall{5000};
    unsigned cpu_s = 2;
    std::size_t memory_bytes = std::size_t{512} << 20;  // beyond what this program has mapped already
};

// Told before each step, so that a crash can be placed: "while it was loaded", "in vocabulary()".
using ProbeSteps = std::function<void(std::string_view step)>;

// "" when `work` came to its end; else what happened and at which step. An exception of `work` is a fault with its text.
std::string probe_fault(const std::function<void(const ProbeSteps&)>& work, const ProbeLimits& limits = {});

}  // namespace casebound
