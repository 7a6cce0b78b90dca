// Texts kept once each and known by a small number. 0 is the empty text. Views stay valid as long as the interner.
// Never forgets a text; not for use from several threads.
#pragma once

#include <algorithm>
#include <cstdint>
#include <cstring>
#include <functional>
#include <string_view>
#include <vector>

#include "core/ground/large_page.h"

namespace casebound {

// Copies of texts in large blocks, freed all at once.
class Arena {
public:
    std::string_view keep(std::string_view text) { return {keep({}, text), text.size()}; }

    // Both, the one behind the other; where they begin.
    const char* keep(std::string_view head, std::string_view text) {
        const std::size_t size = head.size() + text.size();
        if (size > left_) grow(size);
        char* const at = next_;
        if (!head.empty()) std::memcpy(at, head.data(), head.size());
        if (!text.empty()) std::memcpy(at + head.size(), text.data(), text.size());
        next_ += size;
        left_ -= size;
        return at;
    }

private:
    static constexpr std::size_t least = std::size_t{1} << 18, most = std::size_t{1} << 23;

    void grow(std::size_t need) {  // small as long as little is kept
        left_ = std::max(need, std::min(most, least << std::min<std::size_t>(blocks_.size(), 5)));
        blocks_.emplace_back();
        blocks_.back().reserve(left_);
        next_ = blocks_.back().data();
    }

    std::vector<LargeVector<char>> blocks_;
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
            const auto size = static_cast<std::uint32_t>(text.size());
            const char* const head = arena_.keep({reinterpret_cast<const char*>(&size), sizeof(size)}, text);
            slot = {hash, static_cast<NameId>(texts_.size()), head};
            texts_.push_back({head + sizeof(size), text.size()});
        }
        return slot.id;
    }

    // 0 when it has never been seen.
    NameId find(std::string_view text) const { return text.empty() ? 0 : slots_[slot_of(text, hash_of(text))].id; }

private:
    // Points to the text itself: in a table larger than the processor's memory each place more to look at is a wait.
    struct Slot {
        std::uint32_t hash{};
        NameId id{};         // 0: free
        const char* head{};  // the size of the text, and the text behind it

        bool is(std::string_view text) const {
            std::uint32_t size = 0;
            std::memcpy(&size, head, sizeof(size));
            return size == text.size() && std::memcmp(head + sizeof(size), text.data(), size) == 0;
        }
    };

    static std::uint32_t hash_of(std::string_view text) {
        return static_cast<std::uint32_t>(std::hash<std::string_view>{}(text));
    }

    std::size_t slot_of(std::string_view text, std::uint32_t hash) const {
        const std::size_t mask = slots_.size() - 1;
        std::size_t at = hash & mask;
        while (slots_[at].id != 0 && (slots_[at].hash != hash || !slots_[at].is(text))) at = (at + 1) & mask;
        return at;
    }

    void grow() {
        LargeVector<Slot> old(slots_.size() * 2);
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
    LargeVector<std::string_view> texts_;
    LargeVector<Slot> slots_;
};

}  // namespace casebound
