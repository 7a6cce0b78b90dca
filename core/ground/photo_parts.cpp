#include "core/ground/photo_parts.h"

namespace casebound {

std::uint32_t big_endian(std::string_view bytes, std::size_t count) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < count; ++i) value = value << 8 | static_cast<std::uint8_t>(bytes[i]);
    return value;
}

std::uint32_t little_endian(std::string_view bytes, std::size_t count) {
    std::uint32_t value = 0;
    for (std::size_t i = count; i-- > 0;) value = value << 8 | static_cast<std::uint8_t>(bytes[i]);
    return value;
}

}  // namespace casebound
