#include "core/ground/line_escapes.h"

#include <algorithm>
#include <charconv>

#include <fmt/format.h>

#include "core/ground/utf8.h"

namespace casebound {

namespace {

constexpr std::string_view letters = "\\ntr", meant = "\\\n\t\r";

std::string one(unsigned char byte, bool bad) {
    if (const auto at = meant.find(static_cast<char>(byte)); at != std::string_view::npos) return {'\\', letters[at]};
    return bad || byte < 0x20 || byte == 0x7f ? fmt::format("\\x{:02x}", byte)
                                              : std::string(1, static_cast<char>(byte));
}

}  // namespace

std::string on_one_line(std::string_view text) {
    std::string line;
    while (!text.empty()) {
        const auto good = std::min(bad_utf8(text), text.size());
        for (const char c : text.substr(0, good)) line += one(static_cast<unsigned char>(c), false);
        if (good < text.size()) line += one(static_cast<unsigned char>(text[good]), true);
        text.remove_prefix(std::min(good + 1, text.size()));
    }
    return line;
}

std::optional<std::string> from_one_line(std::string_view line) {
    std::string text;
    for (std::size_t i = 0; i < line.size(); ++i) {
        if (line[i] != '\\') {
            text += line[i];
            continue;
        }
        if (++i == line.size()) return std::nullopt;
        if (const auto at = letters.find(line[i]); at != std::string_view::npos) {
            text += meant[at];
            continue;
        }
        int byte = 0;
        const auto* digits = line.data() + i + 1;
        if (line[i] != 'x' || i + 2 >= line.size() || std::from_chars(digits, digits + 2, byte, 16).ptr != digits + 2)
            return std::nullopt;
        text += static_cast<char>(byte);
        i += 2;
    }
    return text;
}

}  // namespace casebound
