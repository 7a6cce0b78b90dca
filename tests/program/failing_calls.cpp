// Loaded before a program: its FAIL_AT-th call that changes something on the disk fails as FAIL_WITH says: an errno's
// number, "short" for half a write, or "stop": it is made once somebody sends SIGCONT; FAIL_AT=all fails every one. How
// many there were is written to FAIL_COUNT. The standard streams are left alone, unless FAIL_STREAMS is set.
#include <dlfcn.h>
#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <csignal>
#include <cstdarg>
#include <cstdio>
#include <cstdlib>
#include <cstring>

namespace {

int calls = 0;
const pid_t started = ::getpid();

template <class Function> Function next(const char* name) {
    return reinterpret_cast<Function>(::dlsym(RTLD_NEXT, name));
}

bool is(const char* way) {
    const char* with = std::getenv("FAIL_WITH");
    return with && std::strcmp(with, way) == 0;
}

bool is_short() { return is("short"); }

// True once, or always: this call is to fail. Children of the program are left alone.
bool falls() {
    if (::getpid() != started) return false;
    ++calls;
    const char* at = std::getenv("FAIL_AT");
    const bool here = at && (std::strcmp(at, "all") == 0 || std::atoi(at) == calls);
    if (here && is("stop")) return ::raise(SIGSTOP), false;
    return here;
}

int failure() {
    const char* with = std::getenv("FAIL_WITH");
    errno = with && !is_short() ? std::atoi(with) : EIO;
    return -1;
}

bool is_a_stream(int file) { return file <= STDERR_FILENO && !std::getenv("FAIL_STREAMS"); }

struct Counted {
    ~Counted() {
        const char* path = std::getenv("FAIL_COUNT");
        if (!path || ::getpid() != started) return;
        if (std::FILE* file = std::fopen(path, "w")) std::fprintf(file, "%d", calls), std::fclose(file);
    }
} counted;

}  // namespace

#pragma GCC visibility push(default)
extern "C" {

ssize_t write(int file, const void* bytes, size_t count) {
    static const auto real = next<ssize_t (*)(int, const void*, size_t)>("write");
    if (!is_a_stream(file) && falls()) return is_short() && count > 1 ? real(file, bytes, count / 2) : failure();
    return real(file, bytes, count);
}

ssize_t pwrite64(int file, const void* bytes, size_t count, off64_t at) {
    static const auto real = next<ssize_t (*)(int, const void*, size_t, off64_t)>("pwrite64");
    if (falls()) return is_short() && count > 1 ? real(file, bytes, count / 2, at) : failure();
    return real(file, bytes, count, at);
}

int fsync(int file) {
    static const auto real = next<int (*)(int)>("fsync");
    return falls() && !is_short() ? failure() : real(file);
}

int fdatasync(int file) {
    static const auto real = next<int (*)(int)>("fdatasync");
    return falls() && !is_short() ? failure() : real(file);
}

int ftruncate64(int file, off64_t size) {
    static const auto real = next<int (*)(int, off64_t)>("ftruncate64");
    return falls() && !is_short() ? failure() : real(file, size);
}

int rename(const char* from, const char* to) {
    static const auto real = next<int (*)(const char*, const char*)>("rename");
    return falls() && !is_short() ? failure() : real(from, to);
}

int renameat2(int from_in, const char* from, int to_in, const char* to, unsigned how) {
    static const auto real = next<int (*)(int, const char*, int, const char*, unsigned)>("renameat2");
    return falls() && !is_short() ? failure() : real(from_in, from, to_in, to, how);
}

int mkdir(const char* path, mode_t mode) {
    static const auto real = next<int (*)(const char*, mode_t)>("mkdir");
    return falls() && !is_short() ? failure() : real(path, mode);
}

int unlink(const char* path) {
    static const auto real = next<int (*)(const char*)>("unlink");
    return falls() && !is_short() ? failure() : real(path);
}

int open64(const char* path, int flags, ...) {
    static const auto real = next<int (*)(const char*, int, mode_t)>("open64");
    std::va_list rest;
    va_start(rest, flags);
    const auto mode = (flags & O_CREAT) != 0 ? va_arg(rest, mode_t) : 0;
    va_end(rest);
    if ((flags & O_CREAT) != 0 && falls() && !is_short()) return failure();
    return real(path, flags, mode);
}

int open(const char* path, int flags, ...) {
    static const auto real = next<int (*)(const char*, int, mode_t)>("open");
    std::va_list rest;
    va_start(rest, flags);
    const auto mode = (flags & O_CREAT) != 0 ? va_arg(rest, mode_t) : 0;
    va_end(rest);
    if ((flags & O_CREAT) != 0 && falls() && !is_short()) return failure();
    return real(path, flags, mode);
}
}
