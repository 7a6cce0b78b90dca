// Texts kept once each and known by a small number. 0 is the empty text. Views stay valid as long as the interner.
// Never forgets a text; not for use from several threads.
#pragma once

#include <cstdint>
#include <cstring>
#include <functional>
#include <memory>
#include <string_view>
#include <vector>

namespace casebound {

// Copies of texts in large blocks, freed all at once.
class Arena {
public:
    std::string_view keep(std::string_view text) {
        if (text.size() > left_) grow(text.size());
        char* const at = next_;
        if (!text.empty()) std::memcpy(at, text.data(), text.size());
        next_ += text.size();
        left_ -= text.size();
        return {at, text.size()};
    }

private:
    static constexpr std::size_t block_bytes = std::size_t{1} << 18;

    void grow(std::size_t need) {
        left_ = need > block_bytes ? need : block_bytes;
        blocks_.push_back(std::make_unique_for_overwrite<char[]>(left_));
        next_ = blocks_.back().get();
    }

    std::vector<std::unique_ptr<char[]>> blocks_;
    char* next_ = nullptr;
    std::size_t left_ = 0;
};

using NameId = std::uint32_t;

class Interner {
public:
    Interner() : texts_(1), slots_(1024) {}

    std::size_t size() const { return texts_.size(); }  // ids are below this
    std::string_view text(NameId id) const { return texts_[id]; }

    NameId id(std::string_view text) {
        if (text.empty()) return 0;
        if (texts_.size() * 4 > slots_.size() * 3) grow();
        const auto hash = hash_of(text);
        Slot& slot = slots_[slot_of(text, hash)];
        if (slot.id == 0) {
            slot = {hash, static_cast<NameId>(texts_.size())};
            texts_.push_back(arena_.keep(text));
        }
        return slot.id;
    }

    // 0 when it has never been seen.
    NameId find(std::string_view text) const { return text.empty() ? 0 : slots_[slot_of(text, hash_of(text))].id; }

private:
    struct Slot {
        std::uint32_t hash{};
        NameId id{};
    };  // id 0: free

    static std::uint32_t hash_of(std::string_view text) {
        return static_cast<std::uint32_t>(std::hash<std::string_view>{}(text));
    }

    std::size_t slot_of(std::string_view text, std::uint32_t hash) const {
        const std::size_t mask = slots_.size() - 1;
        std::size_t at = hash & mask;
        while (slots_[at].id != 0 && (slots_[at].hash != hash || texts_[slots_[at].id] != text)) at = (at + 1) & mask;
        return at;
    }

    void grow() {
        std::vector<Slot> old(slots_.size() * 2);
        old.swap(slots_);
        const std::size_t mask = slots_.size() - 1;
        for (const auto& slot : old) {
            if (slot.id == 0) continue;
            std::size_t at = slot.hash & mask;
            while (slots_[at].id != 0) at = (at + 1) & mask;
            slots_[at] = slot;
        }
    }

    Arena arena_;
    std::vector<std::string_view> texts_;
    std::vector<Slot> slots_;
};

}  // namespace casebound
