// A piece of work done in a child process, for a library that may crash in it. The files that it writes stay; what it
// changes in memory does not.
#pragma once

#include <functional>
#include <string>

namespace casebound {

struct ChildEnd {
    bool whole = true;  // it came to its end
    std::string how;    // otherwise: "Segmentation fault", or "exit code 3"
    std::string said;   // on standard error, which nobody was shown
};

// Throws what `work` throws: an Error or std::bad_alloc as such, else std::runtime_error with its words,
// which are cut at 60 KB. Throws Error(busy) where there can be no child.
ChildEnd work_in_child(const std::function<void()>& work);

// In a child: a crash ends it by its signal, whatever this program has installed.
void crash_by_signal();

}  // namespace casebound
