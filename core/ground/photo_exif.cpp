// Exif 2.3 (JEITA CP-3451C), 4.5 and 4.6: the two fields that are wanted out of it.
#include <optional>

#include "core/ground/dates.h"
#include "core/ground/photo_parts.h"

namespace casebound {

namespace {

constexpr std::uint32_t tag_turn = 0x0112, tag_changed = 0x0132, tag_exif = 0x8769, tag_taken = 0x9003;
constexpr std::uint32_t type_ascii = 2, type_short = 3;
constexpr std::size_t entry_bytes = 12, day_bytes = 10;

class Tiff {
public:
    explicit Tiff(std::string_view bytes) : bytes_(bytes), big_(bytes.substr(0, 2) == "MM") {}

    bool sound() const {
        return bytes_.size() >= 8 && (big_ || bytes_.substr(0, 2) == "II") && number(2, 2) == std::uint32_t{42};
    }
    std::optional<std::uint32_t> number(std::size_t at, std::size_t count) const {
        if (at > bytes_.size() || count > bytes_.size() - at) return std::nullopt;
        return big_ ? big_endian(bytes_.substr(at), count) : little_endian(bytes_.substr(at), count);
    }
    // Where the entry of a tag stands in the directory at `at`.
    std::optional<std::size_t> entry(std::optional<std::uint32_t> at, std::uint32_t tag) const {
        const auto count = at ? number(*at, 2) : std::nullopt;
        if (!count) return std::nullopt;
        for (std::size_t i = 0; i < *count; ++i) {
            const auto from = *at + 2 + i * entry_bytes;
            if (!number(from, 4)) return std::nullopt;
            if (number(from, 2) == tag) return from;
        }
        return std::nullopt;
    }
    // "2026:11:25 14:05:07" as its day; "" for anything else.
    std::string day(std::optional<std::size_t> entry) const {
        if (!entry || number(*entry + 2, 2) != type_ascii) return {};
        const auto at = number(*entry + 8, 4);
        if (!at || *at > bytes_.size() || bytes_.size() - *at < day_bytes) return {};
        std::string text(bytes_.substr(*at, day_bytes));
        if (text[4] != ':' || text[7] != ':') return {};
        text[4] = text[7] = '-';
        return is_date(text) ? text : std::string();
    }

private:
    std::string_view bytes_;
    bool big_;
};

}  // namespace

ExifWords exif_words(std::string_view bytes) {
    const Tiff tiff(bytes);
    ExifWords words;
    if (!tiff.sound()) return words;
    const auto first = tiff.number(4, 4);
    if (const auto at = tiff.entry(first, tag_turn); at && tiff.number(*at + 2, 2) == type_short)
        if (const auto turn = tiff.number(*at + 8, 2); turn && *turn >= 1 && *turn <= 8)
            words.turn = static_cast<int>(*turn);
    if (const auto at = tiff.entry(first, tag_exif))
        words.taken = tiff.day(tiff.entry(tiff.number(*at + 8, 4), tag_taken));
    if (words.taken.empty()) words.taken = tiff.day(tiff.entry(first, tag_changed));
    return words;
}

std::string exif_of_turn(int turn) {
    std::string tiff("MM\0\x2a\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\0\0\0\0\0\0\0", 26);
    tiff[19] = static_cast<char>(turn);
    return tiff;
}

}  // namespace casebound
