// Loaded before a program: its MEMORY_AT-th request for memory is refused, and MEMORY_ROW - 1 after it. How many there were
// is written to MEMORY_COUNT. Counted from where main begins: before it the libraries set themselves up, and the system
// ends what gets no memory for that. Children of the program are left alone.
#include <dlfcn.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>

extern "C" {
void* __libc_malloc(std::size_t);
void* __libc_calloc(std::size_t, std::size_t);
void* __libc_realloc(void*, std::size_t);
}

namespace {

using Main = int (*)(int, char**, char**);

pid_t started = -1;
long requests = 0, at = 0, row = 1;
Main real_main = nullptr;

long number_in(const char* name, long otherwise) {
    const char* text = std::getenv(name);
    return text ? std::atol(text) : otherwise;
}

int counted_main(int count, char** words, char** environment) {
    at = number_in("MEMORY_AT", 0), row = number_in("MEMORY_ROW", 1), requests = 0, started = ::getpid();
    return real_main(count, words, environment);
}

struct Counted {
    ~Counted() {
        const char* path = std::getenv("MEMORY_COUNT");
        if (!path || ::getpid() != started) return;
        at = 0;
        if (std::FILE* file = std::fopen(path, "w")) std::fprintf(file, "%ld", requests), std::fclose(file);
    }
} counted;

bool refused() {
    ++requests;
    return at > 0 && requests >= at && requests < at + row && ::getpid() == started;
}

}  // namespace

#pragma GCC visibility push(default)
extern "C" {

int __libc_start_main(Main main, int count, char** words, void (*before)(), void (*after)(), void (*end)(),
                      void* stack) {
    using Start = int (*)(Main, int, char**, void (*)(), void (*)(), void (*)(), void*);
    real_main = main;
    return reinterpret_cast<Start>(::dlsym(RTLD_NEXT, "__libc_start_main"))(counted_main, count, words, before, after,
                                                                            end, stack);
}

void* malloc(std::size_t bytes) { return refused() ? nullptr : __libc_malloc(bytes); }
void* calloc(std::size_t count, std::size_t bytes) { return refused() ? nullptr : __libc_calloc(count, bytes); }
void* realloc(void* old, std::size_t bytes) { return refused() ? nullptr : __libc_realloc(old, bytes); }
}
