#include "core/ground/utf8.h"

#include <fmt/format.h>

namespace casebound {

namespace {

unsigned char byte(std::string_view text, std::size_t at) {
    return at < text.size() ? static_cast<unsigned char>(text[at]) : 0;
}

// Length of the well-formed character at `at`, 0 when there is none. RFC 3629, 4: no overlong forms, no
// surrogates, nothing above U+10FFFF.
std::size_t character(std::string_view text, std::size_t at) {
    const auto tail = [&](std::size_t n) { return (byte(text, at + n) & 0xC0) == 0x80; };
    const unsigned char first = byte(text, at), second = byte(text, at + 1);
    if (first < 0x80) return 1;
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

}  // namespace

std::size_t bad_utf8(std::string_view text) {
    for (std::size_t at = 0; at < text.size();) {
        const auto length = character(text, at);
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
        const auto length = character(text, at);
        const unsigned char first = byte(text, at);
        const bool no_break_space = length == 2 && first == 0xC2 && byte(text, at + 1) == 0xA0;
        if (length == 0 || first < 0x20 || first == 0x7F || no_break_space) {
            out += fmt::format("\\x{:02X}", first);
            at += 1;
            if (no_break_space) out += fmt::format("\\x{:02X}", byte(text, at++));
        } else {
            out += text.substr(at, length);
            at += length;
        }
    }
    return out;
}

}  // namespace casebound
