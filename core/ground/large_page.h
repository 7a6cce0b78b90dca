// Memory on large pages. A short command takes about 2 MB of heap, and to be given that in 500 small pages took a quarter of
// its time; one of 2 MB is given at once. And in a table of many, looked up here and there, a large page is found sooner.
#pragma once

#include <cstddef>
#include <new>
#include <vector>

namespace casebound {

// Once, at the beginning of main(). Where the kernel has no such pages to give, the heap grows as it always does.
void heap_on_large_pages();

// A piece that begins with a large page; what is not written to takes none. Throws std::bad_alloc.
void* take_large_pages(std::size_t bytes);
void give_large_pages(void* piece);

// What grows large lies on large pages; what stays small, where everything does.
template <class T> struct OnLargePages {
    using value_type = T;
    OnLargePages() = default;
    template <class Other> OnLargePages(const OnLargePages<Other>&) {}

    T* allocate(std::size_t count) {
        return static_cast<T*>(is_large(count) ? take_large_pages(count * sizeof(T))
                                               : ::operator new(count * sizeof(T)));
    }
    void deallocate(T* piece, std::size_t count) {
        if (is_large(count)) give_large_pages(piece);
        else ::operator delete(piece);
    }
    bool operator==(const OnLargePages&) const { return true; }

private:
    static bool is_large(std::size_t count) { return count >= (std::size_t{1} << 20) / sizeof(T); }
};

template <class T> using LargeVector = std::vector<T, OnLargePages<T>>;

}  // namespace casebound
