// The one failure type of casebound: who, where, what, and what to do, with the exit code it means.
// An expected "no" or "not recorded" is an answer, never an Error.
#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace casebound {

enum class Exit : int {
    yes = 0,
    no = 1,
    cannot_tell = 2,
    usage = 64,
    bad_data = 65,
    no_input = 66,
    bug = 70,
    cannot_create = 73,
    cannot_write = 74,
    busy = 75,
    refused = 78
};

class Error : public std::runtime_error {
public:
    Error(Exit exit, const std::string& what) : std::runtime_error(what), exit_(exit), all_{what} {}
    // Every fault found, one line each; what() joins them.
    Error(Exit exit, std::vector<std::string> all)
        : std::runtime_error(joined(all)), exit_(exit), all_(std::move(all)) {}

    Exit exit() const { return exit_; }
    const std::vector<std::string>& all() const { return all_; }

private:
    static std::string joined(const std::vector<std::string>& all) {
        std::string text;
        for (const auto& one : all) text += (text.empty() ? "" : "\n") + one;
        return text;
    }
    Exit exit_;
    std::vector<std::string> all_;
};

// A file of ours that is not what was written to it. No answer is made of what is left of it, by nobody on the way.
class Damaged : public Error {
public:
    explicit Damaged(const std::string& what) : Error(Exit::bad_data, what) {}
};

}  // namespace casebound
