// Loaded before a program: its MEMORY_AT-th request for memory is refused, and MEMORY_ROW - 1 after it. How many there were
// is written to MEMORY_COUNT. Children of the program are left alone.
#include <unistd.h>

#include <cstdio>
#include <cstdlib>

extern "C" {
void* __libc_malloc(std::size_t);
void* __libc_calloc(std::size_t, std::size_t);
void* __libc_realloc(void*, std::size_t);
}

namespace {

const pid_t started = ::getpid();
long requests = 0, at = -1, row = 1;

long number_in(const char* name, long otherwise) {
    const char* text = std::getenv(name);
    return text ? std::atol(text) : otherwise;
}

struct Counted {
    Counted() : first(requests) { at = number_in("MEMORY_AT", 0), row = number_in("MEMORY_ROW", 1), requests = 0; }
    ~Counted() {
        const char* path = std::getenv("MEMORY_COUNT");
        if (!path || ::getpid() != started) return;
        at = 0;
        if (std::FILE* file = std::fopen(path, "w")) std::fprintf(file, "%ld", requests), std::fclose(file);
    }
    long first;
} counted;

bool refused() {
    ++requests;
    return at > 0 && requests >= at && requests < at + row && ::getpid() == started;
}

}  // namespace

#pragma GCC visibility push(default)
extern "C" {

void* malloc(std::size_t bytes) { return refused() ? nullptr : __libc_malloc(bytes); }
void* calloc(std::size_t count, std::size_t bytes) { return refused() ? nullptr : __libc_calloc(count, bytes); }
void* realloc(void* old, std::size_t bytes) { return refused() ? nullptr : __libc_realloc(old, bytes); }
}
