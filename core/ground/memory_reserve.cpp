#include "core/ground/memory_reserve.h"

#include <array>
#include <atomic>
#include <cstddef>
#include <cstdlib>
#include <new>

namespace casebound {

namespace {

constexpr std::size_t half_bytes = 96 * 1024;  // below what malloc maps by itself, so that it serves small pieces again

std::array<std::atomic<void*>, 2> kept{};

void on_refusal() {
    if (void* first = kept[0].exchange(nullptr)) {
        std::free(first);
        return;
    }
    std::free(kept[1].exchange(nullptr));
    throw std::bad_alloc();
}

}  // namespace

void keep_memory_back() noexcept {
    for (auto& half : kept)
        if (!half.load()) half.store(std::malloc(half_bytes));
    std::set_new_handler(on_refusal);
}

}  // namespace casebound
