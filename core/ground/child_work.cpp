#include "core/ground/child_work.h"

#include <fcntl.h>
#include <sys/mman.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <new>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/ground/outlet.h"

namespace casebound {

namespace {

class Descriptor {
public:
    explicit Descriptor(int file = -1) : file_(file) {}
    ~Descriptor() { close(); }
    Descriptor(const Descriptor&) = delete;
    Descriptor& operator=(const Descriptor&) = delete;

    int number() const { return file_; }
    void hold(int file) { close(), file_ = file; }
    void close() {
        if (file_ >= 0) ::close(file_);
        file_ = -1;
    }

private:
    int file_;
};

void put(int file, std::string_view text) noexcept {  // takes no memory
    while (!text.empty()) {
        const auto written = ::write(file, text.data(), text.size());
        if (written <= 0) return;
        text.remove_prefix(static_cast<std::size_t>(written));
    }
}

// From where it stands to its end.
std::string all_of(int file) {
    std::string all;
    std::array<char, 4096> part;
    for (ssize_t got; (got = ::read(file, part.data(), part.size())) != 0;) {
        if (got < 0 && errno != EINTR) break;
        if (got > 0) all.append(part.data(), static_cast<std::size_t>(got));
    }
    return all;
}

// Before there is a child: a file without a name for what it says on standard error, however much, and a pipe that its
// report fits into, which is written also where no file may be.
struct Passage {
    Descriptor said{::memfd_create("said", MFD_CLOEXEC)}, read_end, write_end;

    Passage() {
        int ends[2];
        if (::pipe2(ends, O_CLOEXEC | O_NONBLOCK) != 0) return;
        read_end.hold(ends[0]), write_end.hold(ends[1]);
    }
    bool is_there() const { return said.number() >= 0 && read_end.number() >= 0; }
};

// What the child reports begins with one of these; then the words, behind the exit code of an Error.
constexpr char all_went_well = 'w', no_memory = 'm', failed = 'f', threw = 't';

[[noreturn]] void run_child(const std::function<void()>& work, const Passage& passage, pid_t parent) {
    const auto report = [&](char what, std::string_view words = {}) {
        put(passage.write_end.number(), {&what, 1});
        put(passage.write_end.number(), words);
    };
    ::prctl(PR_SET_PDEATHSIG, SIGKILL);
    if (::getppid() != parent) ::_exit(1);
    crash_by_signal();
    send_messages_to(passage.said.number());
    try {
        work();
        report(all_went_well);
    } catch (const std::bad_alloc&) { report(no_memory); } catch (const Error& error) {
        report(failed);
        report(static_cast<char>(error.exit()), error.what());
    } catch (const std::exception& error) { report(threw, error.what()); } catch (...) {
        report(threw, "something that is no std::exception");
    }
    ::_exit(0);
}

int end_of(pid_t child) {
    int status = 0;
    while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {}
    return status;
}

}  // namespace

void crash_by_signal() {
    for (const int signal : {SIGSEGV, SIGBUS, SIGILL, SIGFPE, SIGABRT, SIGTRAP}) std::signal(signal, SIG_DFL);
    sigset_t none;
    sigemptyset(&none);
    ::sigprocmask(SIG_SETMASK, &none, nullptr);
}

ChildEnd work_in_child(const std::function<void()>& work) {
    Passage passage;
    const pid_t parent = ::getpid(), child = passage.is_there() ? ::fork() : -1;
    if (child == 0) run_child(work, passage, parent);
    if (child < 0)
        throw Error(Exit::busy, fmt::format("no child process can be had ({}): nothing was changed; try again when the "
                                            "machine is less busy",
                                            std::strerror(errno)));
    const int status = end_of(child);
    passage.write_end.close();
    const auto told = all_of(passage.read_end.number());
    ::lseek(passage.said.number(), 0, SEEK_SET);
    const auto said = all_of(passage.said.number());
    const auto what = told.empty() ? '\0' : told[0];
    if (what == no_memory) throw std::bad_alloc();
    if (what == failed && told.size() > 1) throw Error(static_cast<Exit>(told[1]), told.substr(2));
    if (what == threw) throw std::runtime_error(told.substr(1));
    if (WIFSIGNALED(status)) return {false, ::strsignal(WTERMSIG(status)), said};
    if (what != all_went_well) return {false, fmt::format("exit code {}", WEXITSTATUS(status)), said};
    return {true, {}, said};
}

}  // namespace casebound
