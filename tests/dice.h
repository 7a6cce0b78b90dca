// Random choices of a test. The same seed gives the same choices on every machine.
#pragma once

#include <chrono>
#include <cstdint>
#include <cstdlib>
#include <iostream>
#include <random>
#include <string>
#include <utility>
#include <vector>

namespace casebound::tests {

// Added to every seed: 0, or CASEBOUND_SEED, a number, or "clock" for others in every run (the soak preset). Said, so
// that a run can be repeated.
inline std::uint64_t seeds_from() {
    static const std::uint64_t from = [] {
        const char* asked = std::getenv("CASEBOUND_SEED");
        if (!asked) return std::uint64_t{0};
        const bool clock = std::string(asked) == "clock";
        const auto seed = clock
                              ? static_cast<std::uint64_t>(std::chrono::system_clock::now().time_since_epoch().count())
                              : std::strtoull(asked, nullptr, 10);
        std::cout << "CASEBOUND_SEED=" << seed << "\n";
        return static_cast<std::uint64_t>(seed);
    }();
    return from;
}

// The standard's distributions differ between libraries; its engines do not.
class Dice {
public:
    explicit Dice(std::uint64_t seed) : engine_(seed + seeds_from()) {}
    std::size_t below(std::size_t count) { return static_cast<std::size_t>(engine_() % count); }
    std::size_t between(std::size_t low, std::size_t high) { return low + below(high - low + 1); }
    bool chance(unsigned percent) { return below(100) < percent; }
    template <class T> const T& any(const std::vector<T>& list) { return list[below(list.size())]; }
    template <class T> void shuffle(std::vector<T>& list) {
        for (std::size_t i = list.size(); i > 1; --i) std::swap(list[i - 1], list[below(i)]);
    }

private:
    std::mt19937_64 engine_;
};

}  // namespace casebound::tests
