#include "core/ground/base64.h"

#include <cstdint>

namespace casebound {

std::string base64_of(std::string_view bytes) {
    constexpr std::string_view alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t at = 0; at < bytes.size(); at += 3) {
        std::uint32_t three = 0;
        for (std::size_t i = 0; i < 3; ++i)
            three = three << 8 | (at + i < bytes.size() ? static_cast<std::uint8_t>(bytes[at + i]) : 0);
        for (std::size_t i = 0; i < 4; ++i) text += at + i > bytes.size() ? '=' : alphabet[three >> (18 - 6 * i) & 63];
    }
    return text;
}

}  // namespace casebound
