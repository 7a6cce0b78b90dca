#include "core/ground/secret.h"

#include <sys/random.h>

#include <algorithm>
#include <array>
#include <cerrno>

#include "core/ground/error.h"

namespace casebound {

std::string new_secrets(std::size_t count) {
    constexpr std::size_t bytes_each = secret_letters / 2, most_at_once = 256;  // these come whole (getrandom(2))
    constexpr std::string_view digits = "0123456789abcdef";
    std::array<unsigned char, most_at_once> bytes{};
    std::string text;
    text.reserve(count * secret_letters);
    for (std::size_t left = count * bytes_each; left > 0;) {
        const auto wanted = std::min(left, most_at_once);
        ssize_t got = -1;
        do got = ::getrandom(bytes.data(), wanted, 0);
        while (got < 0 && errno == EINTR);
        if (got != static_cast<ssize_t>(wanted))
            throw Error(Exit::bug, "page: the kernel gives no random bytes: nothing is served");
        for (std::size_t i = 0; i < wanted; ++i) {
            text += digits[bytes[i] >> 4];
            text += digits[bytes[i] & 15];
        }
        left -= wanted;
    }
    return text;
}

std::string new_secret() { return new_secrets(1); }

bool same_secret(std::string_view given, std::string_view kept) {
    if (kept.empty()) return false;
    volatile unsigned char differ = given.size() != kept.size();
    for (std::size_t i = 0; i < given.size(); ++i)
        differ = static_cast<unsigned char>(differ | (given[i] ^ kept[i % kept.size()]));
    return differ == 0;
}

}  // namespace casebound
