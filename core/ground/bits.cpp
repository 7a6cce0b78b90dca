#include "core/ground/bits.h"

namespace casebound {

// Without the instruction popcount is six times slower; the clone keeps the binary portable.
__attribute__((target_clones("popcnt", "default"))) static std::size_t ones(const std::uint64_t* words,
                                                                            std::size_t count) {
    std::size_t total = 0;
    for (std::size_t i = 0; i < count; ++i) total += static_cast<std::size_t>(std::popcount(words[i]));
    return total;
}

std::size_t Bits::count() const { return ones(begin(), count_words()); }

}  // namespace casebound
