// The one failure type of casebound: who, where, what, and what to do, with the exit code it means.
// An expected "no" or "not recorded" is an answer, never an Error.
#pragma once

#include <algorithm>
#include <new>
#include <stdexcept>
#include <string>
#include <string_view>
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

// A request for memory that was refused while a domain was asked. It is no answer of the domain: whatever is made or
// written without it would be another.
class OutOfMemoryIn : public std::bad_alloc {
public:
    // Takes no memory itself; what is longer is cut.
    OutOfMemoryIn(std::string_view domain, std::string_view hook) noexcept {
        add(domain), add(" was asked "), add(hook);
    }
    const char* what() const noexcept override { return words_; }  // "DOMAIN was asked examine(PLACE)"

private:
    void add(std::string_view text) noexcept {
        const auto room = std::min(text.size(), sizeof words_ - 1 - size_);
        std::copy_n(text.data(), room, words_ + size_);
        words_[size_ += room] = '\0';
    }
    std::size_t size_ = 0;
    char words_[200]{};
};

// A file of ours that is not what was written to it. No answer is made of what is left of it, by nobody on the way.
class Damaged : public Error {
public:
    explicit Damaged(const std::string& what) : Error(Exit::bad_data, what) {}
};

}  // namespace casebound
