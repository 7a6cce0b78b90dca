#include "core/ground/utf8.h"

#include <algorithm>

#include <fmt/format.h>

namespace casebound {

namespace {

unsigned char byte(std::string_view text, std::size_t at) {
    return at < text.size() ? static_cast<unsigned char>(text[at]) : 0;
}

}  // namespace

// RFC 3629, 4: no overlong forms, no surrogates, nothing above U+10FFFF.
std::size_t character_bytes(std::string_view text, std::size_t at) {
    const auto tail = [&](std::size_t n) { return (byte(text, at + n) & 0xC0) == 0x80; };
    const unsigned char first = byte(text, at), second = byte(text, at + 1);
    if (first < 0x80) return at < text.size() ? 1 : 0;
    if (first >= 0xC2 && first <= 0xDF) return tail(1) ? 2 : 0;
    if (first >= 0xE0 && first <= 0xEF) {
        const bool shaped = tail(1) && tail(2);
        const bool overlong = first == 0xE0 && second < 0xA0, surrogate = first == 0xED && second > 0x9F;
        return shaped && !overlong && !surrogate ? 3 : 0;
    }
    if (first >= 0xF0 && first <= 0xF4) {
        const bool shaped = tail(1) && tail(2) && tail(3);
        const bool overlong = first == 0xF0 && second < 0x90, beyond = first == 0xF4 && second > 0x8F;
        return shaped && !overlong && !beyond ? 4 : 0;
    }
    return 0;
}

unsigned code_point(std::string_view character) {
    constexpr unsigned lead_mask[] = {0, 0x7f, 0x1f, 0x0f, 0x07}, tail_mask = 0x3f;
    if (character.empty() || character.size() > 4) return 0;
    unsigned code = byte(character, 0) & lead_mask[character.size()];
    for (std::size_t at = 1; at < character.size(); ++at) code = code << 6 | (byte(character, at) & tail_mask);
    return code;
}

bool steers(std::string_view character) {
    const auto code = code_point(character);
    return code < 0x20 || (code >= 0x7f && code <= 0x9f) || code == 0x61c || code == 0x200e || code == 0x200f ||
           (code >= 0x2028 && code <= 0x202e) || (code >= 0x2066 && code <= 0x2069);
}

std::size_t bad_utf8(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const auto length = character_bytes(text, at);
        if (length == 0) return at;
        at += length;
    }
    return std::string_view::npos;
}

std::string shown(std::string_view text, std::size_t most) {
    std::string out;
    std::size_t characters = 0;
    for (std::size_t at = 0; at < text.size(); ++characters) {
        if (characters == most) return out + "...";
        const auto length = character_bytes(text, at);
        const unsigned char first = byte(text, at);
        const auto one = text.substr(at, std::max<std::size_t>(length, 1));
        const bool no_break_space = length == 2 && first == 0xC2 && byte(text, at + 1) == 0xA0;
        if (length == 0 || no_break_space || steers(one)) {
            for (const char c : one) out += fmt::format("\\x{:02X}", static_cast<unsigned char>(c));
            at += one.size();
        } else {
            out += text.substr(at, length);
            at += length;
        }
    }
    return out;
}

}  // namespace casebound
