// A set of configurations (or any alternatives) as bits: the currency of the possibilities engine.
// Two sets are combined only when they are of the same size.
#pragma once

#include <algorithm>
#include <array>
#include <bit>
#include <cassert>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace casebound {

class Bits {
public:
    Bits() = default;
    explicit Bits(std::size_t size, bool full = false) : size_(size) {
        const auto fill = full ? ~std::uint64_t{0} : 0;
        if (count_words() > few_.size()) many_.assign(count_words(), fill);
        else few_.fill(fill);
        if (full) trim();
    }

    std::size_t size() const { return size_; }
    bool test(std::size_t i) const { return begin()[i / 64] >> (i % 64) & 1; }
    void set(std::size_t i) { begin()[i / 64] |= std::uint64_t{1} << (i % 64); }
    void clear(std::size_t i) { begin()[i / 64] &= ~(std::uint64_t{1} << (i % 64)); }

    std::size_t count() const;
    bool any() const {
        return std::any_of(begin(), end(), [](std::uint64_t word) { return word != 0; });
    }
    bool none() const { return !any(); }
    bool contains(const Bits& other) const {
        assert(size_ == other.size_);
        return !any_word(other, [](std::uint64_t mine, std::uint64_t theirs) { return theirs & ~mine; });
    }
    bool meets(const Bits& other) const {
        assert(size_ == other.size_);
        return any_word(other, [](std::uint64_t mine, std::uint64_t theirs) { return theirs & mine; });
    }

    Bits& operator&=(const Bits& other) {
        return each_word(other, [](std::uint64_t mine, std::uint64_t theirs) { return mine & theirs; });
    }
    Bits& operator|=(const Bits& other) {
        return each_word(other, [](std::uint64_t mine, std::uint64_t theirs) { return mine | theirs; });
    }
    Bits& operator-=(const Bits& other) {
        return each_word(other, [](std::uint64_t mine, std::uint64_t theirs) { return mine & ~theirs; });
    }
    friend Bits operator&(Bits a, const Bits& b) { return a &= b; }
    friend Bits operator|(Bits a, const Bits& b) { return a |= b; }
    friend Bits operator-(Bits a, const Bits& b) { return a -= b; }
    bool operator==(const Bits& other) const {
        return size_ == other.size_ && std::equal(begin(), end(), other.begin());
    }

    template <class Each> void for_each(Each each) const {
        const auto* words = begin();
        for (std::size_t w = 0, n = count_words(); w < n; ++w)
            for (auto word = words[w]; word; word &= word - 1)
                each(w * 64 + static_cast<std::size_t>(std::countr_zero(word)));
    }
    std::vector<std::uint64_t> copied_words() const { return {begin(), end()}; }

private:
    std::size_t count_words() const { return (size_ + 63) / 64; }
    const std::uint64_t* begin() const { return many_.empty() ? few_.data() : many_.data(); }
    const std::uint64_t* end() const { return begin() + count_words(); }
    std::uint64_t* begin() { return many_.empty() ? few_.data() : many_.data(); }
    void trim() {
        if (size_ % 64) begin()[count_words() - 1] &= (std::uint64_t{1} << (size_ % 64)) - 1;
        else if (size_ == 0) few_.fill(0);
    }
    // Blocks of so many words that the compiler works on several at once.
    static constexpr std::size_t block = 8;

    template <class Word> Bits& each_word(const Bits& other, Word word) {
        assert(size_ == other.size_);
        auto* mine = begin();
        const auto* theirs = other.begin();
        std::size_t i = 0;
        for (const auto n = count_words() / block * block; i < n; i += block) {
            std::array<std::uint64_t, block> read;
            std::copy_n(theirs + i, block, read.begin());
            for (std::size_t j = 0; j < block; ++j) mine[i + j] = word(mine[i + j], read[j]);
        }
        for (const auto n = count_words(); i < n; ++i) mine[i] = word(mine[i], theirs[i]);
        return *this;
    }
    template <class Word> bool any_word(const Bits& other, Word word) const {
        assert(size_ == other.size_);
        const auto *mine = begin(), *theirs = other.begin();
        std::size_t i = 0;
        for (const auto n = count_words() / block * block; i < n; i += block) {
            std::uint64_t any = 0;
            for (std::size_t j = 0; j < block; ++j) any |= word(mine[i + j], theirs[i + j]);
            if (any) return true;
        }
        for (const auto n = count_words(); i < n; ++i)
            if (word(mine[i], theirs[i])) return true;
        return false;
    }

    std::size_t size_ = 0;
    std::array<std::uint64_t, 2> few_{};  // most lines have few configurations: no allocation for them
    std::vector<std::uint64_t> many_;     // all words, when two are not enough
};

}  // namespace casebound
