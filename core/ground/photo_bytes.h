// A photo as bytes, known by its content and not by its name: JPEG (ITU-T T.81), PNG (W3C PNG, third edition) or WebP
// (RFC 9649). What it says beside the picture itself - where and by what it was taken, captions, comments, a smaller or a
// second picture, whatever hangs behind its end - is left out; how it is to be turned, and its colour profile, stay.
// Nothing is decoded: what is kept is kept byte by byte. Touches no disk.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "core/ground/photo.h"

namespace casebound {

inline constexpr std::size_t most_photo_bytes = std::size_t{16} << 20;  // a phone's photo has 3 to 12 MB
// What a browser has to hold when it is shown: 250 million, of 4 bytes each. Phones take 12 to 200 million.
inline constexpr std::uint64_t most_photo_pixels = 250'000'000;

// Takes up to twice the memory of `bytes`. Once again on what came of it, it leaves out nothing.
// Throws Error(bad_data), naming `path`, for what is no such picture, is damaged, ends early, or moves.
CleanPhoto clean_photo(std::string_view bytes, const std::string& path);

std::string_view media_type(std::string_view type);   // "image/jpeg" of "jpeg"
std::string_view file_ending(std::string_view type);  // ".jpg" of "jpeg"

}  // namespace casebound
