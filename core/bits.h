// A set of configurations (or any alternatives) as bits: the currency of the possibilities engine.
// Two sets are combined only when they are of the same size.
#pragma once

#include <bit>
#include <cassert>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace casebound {

class Bits {
public:
    Bits() = default;
    explicit Bits(std::size_t size, bool full = false) : size_(size), words_((size + 63) / 64, full ? ~std::uint64_t{0} : 0) {
        if (full) trim();
    }

    std::size_t size() const { return size_; }
    bool test(std::size_t i) const { return words_[i / 64] >> (i % 64) & 1; }
    void set(std::size_t i) { words_[i / 64] |= std::uint64_t{1} << (i % 64); }
    void clear(std::size_t i) { words_[i / 64] &= ~(std::uint64_t{1} << (i % 64)); }

    std::size_t count() const;
    bool any() const {
        for (const auto word : words_) if (word) return true;
        return false;
    }
    bool none() const { return !any(); }
    bool contains(const Bits& other) const {
        assert(size_ == other.size_);
        for (std::size_t i = 0; i < words_.size(); ++i) if (other.words_[i] & ~words_[i]) return false;
        return true;
    }
    bool meets(const Bits& other) const {
        assert(size_ == other.size_);
        for (std::size_t i = 0; i < words_.size(); ++i) if (other.words_[i] & words_[i]) return true;
        return false;
    }

    Bits& operator&=(const Bits& other) {
        assert(size_ == other.size_);
        for (std::size_t i = 0; i < words_.size(); ++i) words_[i] &= other.words_[i];
        return *this;
    }
    Bits& operator|=(const Bits& other) {
        assert(size_ == other.size_);
        for (std::size_t i = 0; i < words_.size(); ++i) words_[i] |= other.words_[i];
        return *this;
    }
    Bits& operator-=(const Bits& other) {
        assert(size_ == other.size_);
        for (std::size_t i = 0; i < words_.size(); ++i) words_[i] &= ~other.words_[i];
        return *this;
    }
    friend Bits operator&(Bits a, const Bits& b) { return a &= b; }
    friend Bits operator|(Bits a, const Bits& b) { return a |= b; }
    friend Bits operator-(Bits a, const Bits& b) { return a -= b; }
    bool operator==(const Bits&) const = default;

    template <class Each>
    void for_each(Each each) const {
        for (std::size_t w = 0; w < words_.size(); ++w)
            for (auto word = words_[w]; word; word &= word - 1) each(w * 64 + static_cast<std::size_t>(std::countr_zero(word)));
    }
    const std::vector<std::uint64_t>& words() const { return words_; }

private:
    void trim() {
        if (size_ % 64) words_.back() &= (std::uint64_t{1} << (size_ % 64)) - 1;
    }
    std::size_t size_ = 0;
    std::vector<std::uint64_t> words_;
};

}  // namespace casebound
