// What the readers of the three kinds of picture share. A fault of a picture is thrown as PhotoFault and gets its
// place in photo_bytes.cpp.
#pragma once

#include <cstddef>
#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>

#include "core/ground/photo.h"

namespace casebound {

class PhotoFault : public std::runtime_error {
public:
    using std::runtime_error::runtime_error;
};

// Bytes that are read in order; what would lie behind their end is a fault.
class PhotoBytes {
public:
    explicit PhotoBytes(std::string_view bytes) : bytes_(bytes) {}
    std::size_t at() const { return at_; }
    std::size_t left() const { return bytes_.size() - at_; }
    bool begins(std::string_view text) const { return bytes_.substr(at_, text.size()) == text; }
    std::string_view take(std::size_t count) {
        if (count > left()) throw PhotoFault("it ends early: send it again");
        const auto part = bytes_.substr(at_, count);
        at_ += count;
        return part;
    }
    std::uint8_t byte() { return static_cast<std::uint8_t>(take(1)[0]); }
    std::string_view rest() const { return bytes_.substr(at_); }
    std::string_view since(std::size_t from) const { return bytes_.substr(from, at_ - from); }

private:
    std::string_view bytes_;
    std::size_t at_ = 0;
};

// The number in the first `count` bytes. Requires: as many are there.
std::uint32_t big_endian(std::string_view bytes, std::size_t count);
std::uint32_t little_endian(std::string_view bytes, std::size_t count);

// What is read of an Exif block (Exif 2.3, a TIFF header and its directories; without the "Exif\0\0" before it). A
// damaged block says nothing; it is no fault, because it is left out.
struct ExifWords {
    int turn = 1;
    std::string taken{};
};
ExifWords exif_words(std::string_view tiff);

// By so much may what is kept be longer than what came: how it is turned.
inline constexpr std::size_t most_added = 64;

// An Exif block that says how to turn it and nothing else.
std::string exif_of_turn(int turn);

// Each fills everything; the size is checked by who calls.
CleanPhoto jpeg_photo(std::string_view bytes);
CleanPhoto png_photo(std::string_view bytes);
CleanPhoto webp_photo(std::string_view bytes);

}  // namespace casebound
