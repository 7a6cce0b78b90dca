#include "core/host/domain_watch.h"

#include <sys/syscall.h>
#include <unistd.h>

#include <atomic>
#include <charconv>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <ctime>
#include <string_view>

#include "core/ground/error.h"

namespace casebound {

// Everything below may run in a signal handler, or while the program is taken apart: no heap, no locks, no objects.
struct DomainWatch {
    static std::string_view domain(const RunningHook& one) { return one.domain_; }
    static std::string_view hook(const RunningHook& one) { return one.hook_; }
    static std::uint64_t number(const RunningHook& one) { return one.number_; }
    static int most_s(const RunningHook& one) { return one.most_s_; }
};

namespace {

constexpr int answer_s = 20, whole_pack_s = 600;

thread_local const RunningHook* innermost = nullptr;
thread_local std::uint64_t hooks_begun = 0, hook_at_last_tick = 0;
thread_local int ticks = 0;  // seconds in one hook
thread_local bool ticking = false;
thread_local timer_t timer{};

std::atomic<pid_t> watched = 0;  // this process, until it has answered
int given_s = 0;                 // CASEBOUND_HOOK_SECONDS

bool is_watched() {
    const pid_t process = watched;
    return process != 0 && process == ::getpid();
}

// A line on standard error, at most so long; what a terminal would act on is shown as '?'.
class Line {
public:
    Line& add(std::string_view text) {
        for (const char c : text)
            if (used_ < sizeof text_ - 1) text_[used_++] = c >= ' ' && c <= '~' ? c : '?';
        return *this;
    }
    void write() {
        text_[used_++] = '\n';
        [[maybe_unused]] const auto ignored = ::write(STDERR_FILENO, text_, used_);
    }

private:
    char text_[700]{};
    std::size_t used_ = 0;
};

constexpr std::string_view advice_on_ending =
    ": nothing was answered: take the plugin out of its folder until whoever made it has mended it";

void say(std::string_view what) {
    Line line;
    line.add("casebound: ");
    if (innermost)
        line.add(DomainWatch::domain(*innermost))
            .add(what)
            .add(" in ")
            .add(DomainWatch::hook(*innermost))
            .add(advice_on_ending);
    else line.add("the program").add(what).add(" before it had answered: please report it with the command");
    line.write();
}

[[noreturn]] void end() { ::syscall(SYS_exit_group, static_cast<int>(Exit::bug)), __builtin_unreachable(); }

void ended_early() {
    if (!is_watched()) return;
    say(" ended the program");
    end();
}

void crashed(int signal) {
    if (is_watched() && innermost) {
        say(signal == SIGFPE    ? " crashed (division by zero or the like)"
            : signal == SIGABRT ? " crashed (it gave up by abort)"
            : signal == SIGILL  ? " crashed (an instruction that this machine does not have)"
                                : " crashed (memory that is not its own, or too deep a recursion)");
        end();
    }
    std::signal(signal, SIG_DFL);
    ::raise(signal);
}

void set_timer(bool on) {
    itimerspec every{};
    if (on) every.it_interval.tv_sec = every.it_value.tv_sec = 1;
    ::timer_settime(timer, 0, &every, nullptr);
    ticking = on;
}

// Once a second, in the thread that called the hook.
void tick(int) {
    if (!innermost) return set_timer(false);
    const auto number = DomainWatch::number(*innermost);
    ticks = number == hook_at_last_tick ? ticks + 1 : 0;
    hook_at_last_tick = number;
    if (ticks < DomainWatch::most_s(*innermost)) return;
    say(" does not come back");
    end();
}

void start_ticking() {
    static thread_local const bool made = [] {
        sigevent event{};
        event.sigev_notify = SIGEV_THREAD_ID;
        event.sigev_signo = SIGALRM;
        event._sigev_un._tid = static_cast<pid_t>(::syscall(SYS_gettid));
        return ::timer_create(CLOCK_MONOTONIC, &event, &timer) == 0;
    }();
    if (made) set_timer(true);
}

void handle(int signal, void (*with)(int), int flags) {
    struct sigaction action {};
    action.sa_handler = with;
    action.sa_flags = flags;
    sigemptyset(&action.sa_mask);
    ::sigaction(signal, &action, nullptr);
}

// A crash by too deep a recursion leaves no stack for its handler.
void use_own_stack() {
    constexpr std::size_t bytes = 64 << 10;
    static char memory[bytes];
    stack_t stack{};
    stack.ss_sp = memory;
    stack.ss_size = bytes;
    ::sigaltstack(&stack, nullptr);
}

}  // namespace

RunningHook::RunningHook(const std::string& domain, const std::string& hook, Pace pace)
    : domain_(domain.c_str()), hook_(hook.c_str()), outer_(innermost), number_(++hooks_begun),
      most_s_(given_s > 0                ? given_s
              : pace == Pace::whole_pack ? whole_pack_s
                                         : answer_s) {
    innermost = this;
    if (!ticking && is_watched()) start_ticking();
}

RunningHook::~RunningHook() { innermost = outer_; }

void watch_domains() {
    if (const char* seconds = std::getenv("CASEBOUND_HOOK_SECONDS"))
        std::from_chars(seconds, seconds + std::strlen(seconds), given_s);
    watched = ::getpid();
    use_own_stack();
    for (const int signal : {SIGSEGV, SIGBUS, SIGILL, SIGFPE, SIGABRT})
        handle(signal, crashed, SA_ONSTACK | SA_NODEFER);
    handle(SIGALRM, tick, SA_RESTART | SA_ONSTACK);
    std::atexit(ended_early);
    ::at_quick_exit(ended_early);
}

void answered() { watched = 0; }

}  // namespace casebound

// A plugin that means to leave without goodbye: its calls of _exit find these two before the system's.
extern "C" __attribute__((noreturn, visibility("default"))) void _exit(int status) {
    if (casebound::innermost) casebound::ended_early();
    ::syscall(SYS_exit_group, status);
    __builtin_unreachable();
}
extern "C" __attribute__((noreturn, visibility("default"))) void _Exit(int status) { _exit(status); }
