#include "core/ground/secret.h"

#include <sys/random.h>

#include <array>
#include <cerrno>

#include "core/ground/error.h"

namespace casebound {

std::string new_secret() {
    std::array<unsigned char, 16> bytes{};
    ssize_t got = -1;
    do got = ::getrandom(bytes.data(), bytes.size(), 0);  // up to 256 bytes come whole (getrandom(2))
    while (got < 0 && errno == EINTR);
    if (got != static_cast<ssize_t>(bytes.size()))
        throw Error(Exit::bug, "page: the kernel gives no random bytes: nothing is served");
    constexpr std::string_view digits = "0123456789abcdef";
    std::string text;
    for (const auto byte : bytes) {
        text += digits[byte >> 4];
        text += digits[byte & 15];
    }
    return text;
}

bool same_secret(std::string_view given, std::string_view kept) {
    if (kept.empty()) return false;
    volatile unsigned char differ = given.size() != kept.size();
    for (std::size_t i = 0; i < given.size(); ++i)
        differ = static_cast<unsigned char>(differ | (given[i] ^ kept[i % kept.size()]));
    return differ == 0;
}

}  // namespace casebound
