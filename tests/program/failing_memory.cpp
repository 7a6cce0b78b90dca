// Loaded before a program: its MEMORY_AT-th request for memory is refused; with MEMORY_FULL, memory is full from there on,
// and a request is met only out of what was given back since. How many there were is written to MEMORY_COUNT. Counted
// from where main begins: before it the libraries set themselves up, and the system ends what gets no memory for that.
// What a child asks for that works on in the program is counted with the rest.
#include <dlfcn.h>
#include <malloc.h>
#include <sys/mman.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <new>

extern "C" {
void* __libc_malloc(std::size_t);
void* __libc_calloc(std::size_t, std::size_t);
void* __libc_realloc(void*, std::size_t);
void __libc_free(void*);
}

namespace {

using Main = int (*)(int, char**, char**);

pid_t started = -1;
std::atomic<long> requests_before_main = 0, at = 0, given_back = 0;
std::atomic<long>* requests = &requests_before_main;  // from main on in memory that a child shares
std::atomic<bool> full = false;
Main real_main = nullptr;

long number_in(const char* name, long otherwise) {
    const char* text = std::getenv(name);
    return text ? std::atol(text) : otherwise;
}

int counted_main(int count, char** words, char** environment) {
    full = number_in("MEMORY_FULL", 0) != 0;
    void* const shared = ::mmap(nullptr, sizeof *requests, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    if (shared == MAP_FAILED) std::abort();
    requests = new (shared) std::atomic<long>(0);
    at = number_in("MEMORY_AT", 0), given_back = 0, started = ::getpid();
    return real_main(count, words, environment);
}

struct Counted {
    ~Counted() {
        const char* path = std::getenv("MEMORY_COUNT");
        if (!path || ::getpid() != started) return;
        at = 0;
        if (std::FILE* file = std::fopen(path, "w")) std::fprintf(file, "%ld", requests->load()), std::fclose(file);
    }
} counted;

bool is_full() { return full && at > 0 && *requests >= at; }

bool refused(std::size_t bytes) {
    const long request = ++*requests;
    if (at == 0 || request < at) return false;
    if (full ? given_back >= static_cast<long>(bytes) : request != at) return false;
    errno = ENOMEM;
    return true;
}

void* taken(void* piece) {
    if (piece && is_full()) given_back -= static_cast<long>(::malloc_usable_size(piece));
    return piece;
}

void returned(void* piece) {
    if (piece && is_full()) given_back += static_cast<long>(::malloc_usable_size(piece));
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

void* malloc(std::size_t bytes) { return refused(bytes) ? nullptr : taken(__libc_malloc(bytes)); }
void* calloc(std::size_t count, std::size_t bytes) {
    return refused(count * bytes) ? nullptr : taken(__libc_calloc(count, bytes));
}
void* realloc(void* old, std::size_t bytes) {
    if (refused(bytes)) return nullptr;
    returned(old);
    return taken(__libc_realloc(old, bytes));
}
void free(void* piece) {
    returned(piece);
    __libc_free(piece);
}
}
