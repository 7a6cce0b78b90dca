// Kills every command that writes at every system call that changes something on the disk: what it writes is as before
// or as after, and the next run of the same command finds no hindrance.
#include <sys/ptrace.h>
#include <sys/syscall.h>
#include <sys/uio.h>
#include <sys/user.h>
#include <sys/wait.h>

#include <fcntl.h>
#include <signal.h>
#include <unistd.h>

#include <algorithm>
#include <iterator>

#include "tests/program/hard_yard.h"

namespace {

bool changes_the_disk(const __ptrace_syscall_info& call) {
    static constexpr long always[] = {SYS_write,     SYS_pwrite64,        SYS_writev,   SYS_rename,  SYS_renameat,
                                      SYS_renameat2, SYS_unlink,          SYS_unlinkat, SYS_mkdir,   SYS_rmdir,
                                      SYS_ftruncate, SYS_fsync,           SYS_link,     SYS_symlink, SYS_fdatasync,
                                      SYS_fchmod,    SYS_copy_file_range, SYS_sendfile};
    const auto number = static_cast<long>(call.entry.nr);
    if (number == SYS_openat) return (call.entry.args[2] & O_CREAT) != 0;
    return std::find(std::begin(always), std::end(always), number) != std::end(always);
}

// Changing calls that were begun; killed at the `kill_at`-th, never for 0. The words run in a shell that becomes them.
struct Ran {
    int calls = 0;
    bool killed = false;
};
Ran run_and_kill(const std::string& folder, const std::string& words, int kill_at) {
    const pid_t child = ::fork();
    if (child == 0) {
        const int nowhere = ::open("/dev/null", O_RDWR);
        ::dup2(nowhere, STDOUT_FILENO);
        ::dup2(nowhere, STDERR_FILENO);
        if (::chdir(folder.c_str()) != 0 || ::ptrace(PTRACE_TRACEME, 0, nullptr, nullptr) != 0) ::_exit(126);
        ::execl("/bin/sh", "sh", "-c", ("exec " + words).c_str(), nullptr);
        ::_exit(127);
    }
    Ran ran;
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    REQUIRE(WIFSTOPPED(status));  // otherwise this machine does not let itself be watched
    ::ptrace(PTRACE_SETOPTIONS, child, nullptr, PTRACE_O_TRACESYSGOOD | PTRACE_O_EXITKILL);
    for (long signal = 0;; signal = 0) {
        ::ptrace(PTRACE_SYSCALL, child, nullptr, signal);
        if (::waitpid(child, &status, 0) != child || !WIFSTOPPED(status)) return ran;
        __ptrace_syscall_info call{};
        if (WSTOPSIG(status) != (SIGTRAP | 0x80)) {
            signal = WSTOPSIG(status) == SIGTRAP ? 0 : WSTOPSIG(status);
            continue;
        }
        ::ptrace(PTRACE_GET_SYSCALL_INFO, child, sizeof call, &call);
        if (call.op != PTRACE_SYSCALL_INFO_ENTRY || !changes_the_disk(call) || ++ran.calls != kill_at) continue;
        ::kill(child, SIGKILL);
        ::waitpid(child, &status, 0);
        ran.killed = true;
        return ran;
    }
}

}  // namespace

TEST_CASE("hard: a command that is killed at any call that changes the disk leaves all as before or as after") {
    hard::Yard yard;
    int kills = 0, left_before = 0, left_after = 0;
    for (const auto& command : hard::writing_commands()) {
        yard.begin(command.to_catalog);
        const auto before = yard.state();
        const auto words = fmt::format("'{}' {}", hard::program, command.words);
        const auto whole = run_and_kill(yard.root(), words, 0);
        const auto after = yard.state();
        INFO(command.words);
        REQUIRE(before != after);  // otherwise nothing is shown
        for (const int place : hard::places(whole.calls, 3)) {
            yard.begin(command.to_catalog);
            kills += run_and_kill(yard.root(), words, place).killed;
            const auto now = yard.state();
            INFO("killed at call " << place << " of " << whole.calls);
            REQUIRE(hard::between(now, before, after) == "");
            left_before += now == before;
            left_after += now == after;
            if (!hard::is_long() && place != 1) continue;
            const int again = yard.run(command.words);
            INFO(yard.said());
            REQUIRE((again == 0 || now == after));  // done once, and twice may be refused
        }
    }
    WARN(kills << " kills: " << left_before << " times all as before, " << left_after << " times all as after");
    CHECK(kills >= 60);
    CHECK(left_before > 0);
    CHECK(left_after > 0);
}

TEST_CASE("hard, positive control: files that are written in place are caught between") {
    hard::Yard yard;
    yard.begin(true);
    const auto before = yard.state();
    const std::string words = "sh -c 'for file in own/*.csv; do echo more >> $file; done'";
    const auto whole = run_and_kill(yard.root(), words, 0);
    const auto after = yard.state();
    REQUIRE(before != after);
    std::string found;
    for (int place = 1; place <= whole.calls && found.empty(); ++place) {
        yard.begin(true);
        run_and_kill(yard.root(), words, place);
        found = hard::between(yard.state(), before, after);
    }
    CHECK_THAT(found, Catch::Contains("own: neither as before nor as after"));
}
