#include "core/host/plugin_probe.h"

#include <fcntl.h>
#include <poll.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <csignal>
#include <cstring>
#include <exception>
#include <fstream>

#include <fmt/format.h>

#include "core/contract/answer_lines.h"
#include "core/ground/child_work.h"
#include "core/ground/error.h"

namespace casebound {

namespace {

// What the child writes: a line "s<step>" before each step, then "o" when all went well, or "e<text>".
constexpr int report_descriptor = 3;
constexpr std::size_t longest_report = std::size_t{64} << 10;
constexpr std::string_view advice = "tell whoever made it, and take the file out of the folder until it is mended";

#ifdef __SANITIZE_ADDRESS__
constexpr bool memory_can_be_limited = false;  // the sanitizer's shadow is larger than any limit
#else
constexpr bool memory_can_be_limited = true;
#endif

// ------------------------------------------------------------------ the child

void report(std::string_view text) {
    while (!text.empty()) {
        const auto written = ::write(report_descriptor, text.data(), text.size());
        if (written <= 0) return;
        text.remove_prefix(static_cast<std::size_t>(written));
    }
}

void limit(__rlimit_resource resource, rlim_t soft, rlim_t hard) {
    const rlimit both{soft, hard};
    ::setrlimit(resource, &both);
}

std::size_t mapped_bytes() {
    std::size_t pages = 0;
    std::ifstream("/proc/self/statm") >> pages;
    return pages * static_cast<std::size_t>(::sysconf(_SC_PAGESIZE));
}

void limit_child(const ProbeLimits& limits) {
    limit(RLIMIT_CPU, limits.cpu_s, limits.cpu_s + 1);
    const auto memory = mapped_bytes() + limits.memory_bytes;
    if (memory_can_be_limited) limit(RLIMIT_AS, memory, memory);
    limit(RLIMIT_FSIZE, 0, 0);
    limit(RLIMIT_CORE, 0, 0);
    limit(RLIMIT_NPROC, 0, 0);
    limit(RLIMIT_NOFILE, 16, 16);
}

// Standard input and output to nowhere, the report at its number, everything else closed.
void shut_files(int report_end) {
    const int nowhere = ::open("/dev/null", O_RDWR);
    const int kept = ::fcntl(report_end, F_DUPFD, report_descriptor + 1);
    for (int standard = 0; standard < report_descriptor; ++standard) ::dup2(nowhere, standard);
    ::dup2(kept, report_descriptor);
    ::close_range(report_descriptor + 1, ~0U, 0);
}

// Its limits end the child by their signals, too.
void default_signals() {
    for (const int signal : {SIGTERM, SIGINT, SIGPIPE, SIGXCPU, SIGXFSZ}) std::signal(signal, SIG_DFL);
    crash_by_signal();
}

[[noreturn]] void run_child(const std::function<void(const ProbeSteps&)>& work, const ProbeLimits& limits,
                            int report_end, pid_t parent) {
    ::setpgid(0, 0);
    ::prctl(PR_SET_PDEATHSIG, SIGKILL);
    if (::getppid() != parent) ::_exit(1);
    default_signals();
    shut_files(report_end);
    limit_child(limits);
    std::string step;
    try {
        work([&](std::string_view next) { report(fmt::format("s{}\n", step = next)); });
        report("o");
    } catch (const Error& error) { report(fmt::format("e{}", error.what())); } catch (const std::exception& error) {
        report(fmt::format("ethrew an exception {} ({}): {}", step, error.what(), advice));
    } catch (...) { report(fmt::format("ethrew something that is no std::exception {}: {}", step, advice)); }
    ::_exit(0);
}

// ------------------------------------------------------------------ the parent

struct Heard {
    std::string text;
    bool in_time = true;
};

// Does it want the processor or the disk, and not get it? On a busy machine that is no hang: what it may use of the
// processor is limited apart. proc(5): the state stands behind the name, which may hold anything.
bool waits_its_turn(pid_t child) {
    std::ifstream file(fmt::format("/proc/{}/stat", child));
    const std::string text{std::istreambuf_iterator<char>(file), {}};
    const auto name_end = text.rfind(')');
    const char state = name_end == std::string::npos || name_end + 2 >= text.size() ? ' ' : text[name_end + 2];
    return state == 'R' || state == 'D';
}

Heard listen(int end, std::chrono::milliseconds wall, pid_t child) {
    using std::chrono::steady_clock;
    constexpr int most_turns = 12;
    int turns = 1;
    auto deadline = steady_clock::now() + wall;
    Heard heard;
    std::array<char, 4096> part;
    while (heard.text.size() < longest_report) {
        const auto left = std::chrono::ceil<std::chrono::milliseconds>(deadline - steady_clock::now()).count();
        pollfd wait{end, POLLIN, 0};
        const int ready = left <= 0 ? 0 : ::poll(&wait, 1, static_cast<int>(left));
        if (ready < 0 && errno == EINTR) continue;
        if (ready == 0 && turns < most_turns && waits_its_turn(child)) {
            deadline += wall, ++turns;
            continue;
        }
        if (ready <= 0) return {std::move(heard.text), false};
        const auto count = ::read(end, part.data(), part.size());
        if (count <= 0) break;
        heard.text.append(part.data(), static_cast<std::size_t>(count));
    }
    return heard;
}

// Ends the child and whatever it started. A child that is already ending keeps its own status.
int end_child(pid_t child) {
    ::kill(-child, SIGKILL);
    ::kill(child, SIGKILL);
    int status = 0;
    while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {}
    return status;
}

std::string ending(int status, const ProbeLimits& limits) {
    if (!WIFSIGNALED(status)) return fmt::format("ended the program (exit code {})", WEXITSTATUS(status));
    switch (WTERMSIG(status)) {
        case SIGXCPU: return fmt::format("used more than {} s of processor time", limits.cpu_s);
        case SIGXFSZ: return "tried to write a file";
        case SIGKILL: return "was killed";
        default: return fmt::format("crashed ({})", ::strsignal(WTERMSIG(status)));
    }
}

struct Story {
    std::string step = "before it was loaded", fault;
    bool done = false;
};

Story understand(std::string_view text) {
    Story told;
    while (!text.empty()) {
        const auto line = text.substr(0, text.find('\n'));
        if (text[0] == 'e') return {told.step, std::string(text.substr(1)), true};
        told.done = line == "o";
        if (text[0] == 's') told.step = line.substr(1);
        text.remove_prefix(std::min(text.size(), line.size() + 1));
    }
    return told;
}

}  // namespace

std::string probe_fault(const std::function<void(const ProbeSteps&)>& work, const ProbeLimits& limits) {
    constexpr std::string_view no_child =
        "cannot be probed, no child process ({}): try again when the machine is less busy";
    int ends[2];
    if (::pipe2(ends, O_CLOEXEC) != 0) return fmt::format(no_child, std::strerror(errno));
    const pid_t parent = ::getpid(), child = ::fork();
    if (child == 0) run_child(work, limits, ends[1], parent);
    const int fork_error = errno;
    ::close(ends[1]);
    const Heard heard = child < 0 ? Heard{} : listen(ends[0], limits.wall, child);
    ::close(ends[0]);
    if (child < 0) return fmt::format(no_child, std::strerror(fork_error));
    const int status = end_child(child);
    const Story told = understand(heard.text);
    if (told.done) return told.fault;
    const std::string what = heard.in_time ? ending(status, limits)
                                           : fmt::format("did not come back within {} s",
                                                         fixed(std::chrono::duration<double>(limits.wall).count(), 1));
    return fmt::format("{} {}: {}", what, told.step, advice);
}

}  // namespace casebound
