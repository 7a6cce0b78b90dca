// Pictures for tests: small real ones, as a browser wrote them (tests/ground/photos), and the same with what a phone
// puts beside the picture. Every word that may not get out begins with SECRET.
#pragma once

#include <zlib.h>

#include <string>
#include <string_view>

#include "tests/scratch_folder.h"

namespace photo_made {

using std::string_literals::operator""s;

inline std::string plain(const std::string& ending) {
    return ScratchFolder::read(CASEBOUND_SOURCE_DIR "/tests/ground/photos/plain." + ending);
}

inline std::string big(std::size_t value, int bytes) {
    std::string out;
    for (int shift = 8 * (bytes - 1); shift >= 0; shift -= 8) out += static_cast<char>(value >> shift);
    return out;
}
inline std::string little(std::size_t value, int bytes) {
    const auto out = big(value, bytes);
    return {out.rbegin(), out.rend()};
}

// An Exif block (Exif 2.3): how it is turned, the camera, when it was taken, and where.
inline std::string exif(int turn, bool big_ones = true) {
    const auto number = [&](std::size_t value, int bytes) {
        return big_ones ? big(value, bytes) : little(value, bytes);
    };
    const auto entry = [&](std::size_t tag, std::size_t type, std::size_t count, const std::string& value) {
        return number(tag, 2) + number(type, 2) + number(count, 4) + value;
    };
    const std::string model = "SECRET-CAMERA\0"s, taken = "2026:11:24 10:11:12\0"s, where = "SECRET-PLACE\0\0"s;
    constexpr std::size_t first = 8, first_bytes = 2 + 4 * 12 + 4, inner_bytes = 2 + 12 + 4, place_bytes = 2 + 12 + 4;
    const auto inner = first + first_bytes, place = inner + inner_bytes, texts = place + place_bytes;
    std::string out = (big_ones ? "MM" : "II") + number(42, 2) + number(first, 4) + number(4, 2);
    out += entry(0x0110, 2, model.size(), number(texts, 4));
    out += entry(0x0112, 3, 1,
                 big_ones ? number(static_cast<std::size_t>(turn), 2) + "\0\0"s
                          : number(static_cast<std::size_t>(turn), 2) + "\0\0"s);
    out += entry(0x8769, 4, 1, number(inner, 4)) + entry(0x8825, 4, 1, number(place, 4)) + number(0, 4);
    out += number(1, 2) + entry(0x9003, 2, taken.size(), number(texts + model.size(), 4)) + number(0, 4);
    out += number(1, 2) + entry(0x001b, 7, where.size(), number(texts + model.size() + taken.size(), 4)) + number(0, 4);
    return out + model + taken + where;
}

inline std::string segment(int marker, const std::string& body) {
    return "\xff"s + static_cast<char>(marker) + big(body.size() + 2, 2) + body;
}

// As a phone sends it: Exif with the place, XMP, IPTC, a comment, an index of more pictures, and one behind the end.
inline std::string jpeg_of_phone(int turn = 6) {
    auto plain_one = plain("jpg");
    const std::string head = segment(0xe1, "Exif\0\0"s + exif(turn)) +
                             segment(0xe1, "http://ns.adobe.com/xap/1.0/\0<x>SECRET-XMP</x>"s) +
                             segment(0xed, "Photoshop 3.0\0SECRET-IPTC"s) + segment(0xfe, "SECRET-COMMENT"s) +
                             segment(0xe2, "MPF\0SECRET-INDEX"s) + segment(0xe5, "SECRET-OWN"s);
    return plain_one.insert(2, head) + "\xff\xd8SECRET-SECOND\xff\xd9" + "ftypSECRET-FILM";
}

inline std::string chunk(const std::string& type, const std::string& body) {
    const auto named = type + body;
    const auto sum = ::crc32(0, reinterpret_cast<const Bytef*>(named.data()), static_cast<uInt>(named.size()));
    return big(body.size(), 4) + named + big(sum, 4);
}

inline std::string png_of_phone(int turn = 3) {
    auto plain_one = plain("png");
    constexpr std::size_t behind_header = 8 + 25;
    return plain_one.insert(behind_header, chunk("eXIf", exif(turn, false)) + chunk("tEXt", "Comment\0SECRET-TEXT"s) +
                                               chunk("iTXt", "XML:com.adobe.xmp\0\0\0\0\0SECRET-XMP"s) +
                                               chunk("zTXt", "SECRET\0\0x"s) + chunk("tIME", "SECRET."s)) +
           "SECRET-BEHIND";
}

inline std::string riff_chunk(const std::string& type, const std::string& body) {
    return type + little(body.size(), 4) + body + (body.size() % 2 ? "\0"s : ""s);
}

inline std::string webp_of_phone(int turn = 8) {
    auto all = plain("webp") + riff_chunk("EXIF", exif(turn)) + riff_chunk("XMP ", "<x>SECRET-XMP</x>") +
               riff_chunk("ZZZZ", "SECRET-OWN");
    constexpr std::size_t size_at = 4, flags_at = 20;
    all[flags_at] = static_cast<char>(all[flags_at] | 0x0c);
    return all.replace(size_at, 4, little(all.size() - 8, 4)) + "SECRET-BEHIND";
}

// A JPEG of a phone's size: the small one, with as much more coded data as makes it `bytes` long. No browser shows more
// of it than of the small one; what reads it reads all of it.
inline std::string jpeg_of_size(std::size_t bytes, unsigned other = 0) {
    auto one = plain("jpg");
    const auto end = one.size() - 2;
    std::string data(bytes > one.size() ? bytes - one.size() : 0, '\x55');
    for (std::size_t at = 0; at < data.size(); at += 97) data[at] = static_cast<char>((at + other) % 0xff);
    return one.insert(end, data);
}

}  // namespace photo_made
