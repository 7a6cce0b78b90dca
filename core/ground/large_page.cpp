#include "core/ground/large_page.h"

#include <malloc.h>
#include <sys/mman.h>
#include <unistd.h>

#include <cstdint>
#include <cstdlib>

namespace casebound {

namespace {

constexpr std::uintptr_t large_page_bytes = std::uintptr_t{2} << 20;  // x86-64 and arm64
constexpr std::size_t piece_bytes = 96 * 1024;                        // below what malloc maps by itself

// Whoever sets one of malloc's figures sets them all: it then no longer finds them by itself. It would come to about these.
constexpr int mapped_by_itself_bytes = 4 << 20, kept_for_later_bytes = 8 << 20;

std::uintptr_t heap_end() { return reinterpret_cast<std::uintptr_t>(::sbrk(0)); }

}  // namespace

// A page that is already written to in part is not exchanged for a large one: the heap is moved to just before the next
// boundary, and made to grow over it while what lies behind it is untouched.
void heap_on_large_pages() {
    constexpr std::uintptr_t before = 2 * piece_bytes;
    const auto end = heap_end();
    const auto boundary = (end + before + large_page_bytes - 1) / large_page_bytes * large_page_bytes;
    if (::sbrk(static_cast<std::intptr_t>(boundary - before - end)) == reinterpret_cast<void*>(-1)) return;
    ::mallopt(M_TOP_PAD, static_cast<int>(before + large_page_bytes));
    ::mallopt(M_MMAP_THRESHOLD, mapped_by_itself_bytes);
    ::mallopt(M_TRIM_THRESHOLD, kept_for_later_bytes);
    void* volatile grown = std::malloc(piece_bytes);
    if (heap_end() >= boundary + large_page_bytes)
        ::madvise(reinterpret_cast<void*>(boundary), large_page_bytes, MADV_HUGEPAGE);
    std::free(grown);
}

void* take_large_pages(std::size_t bytes) {
    constexpr auto page = static_cast<std::size_t>(large_page_bytes);
    const std::size_t whole = bytes / page * page + (bytes % page == 0 ? 0 : page);
    void* const piece = whole < bytes ? nullptr : std::aligned_alloc(page, whole);
    if (!piece) throw std::bad_alloc();
    ::madvise(piece, whole, MADV_HUGEPAGE);  // where there are none, small ones do
    return piece;
}

void give_large_pages(void* piece) { std::free(piece); }

}  // namespace casebound
