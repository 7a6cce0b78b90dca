#include "core/ground/line_escapes.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include <fmt/format.h>

#include "core/ground/utf8.h"

namespace casebound {

namespace {

constexpr std::string_view letters = "\\ntr", meant = "\\\n\t\r";

bool is_number(std::string_view text) {
    if (text.starts_with('+')) text.remove_prefix(1);
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    return error == std::errc{} && end == text.data() + text.size() && std::isfinite(value);
}

void add(std::string& line, std::string_view character, bool as_bytes) {
    if (character.size() == 1)
        if (const auto at = meant.find(character[0]); at != std::string_view::npos) {
            line += {'\\', letters[at]};
            return;
        }
    if (!as_bytes) line += character;
    else
        for (const char c : character) line += fmt::format("\\x{:02x}", static_cast<unsigned char>(c));
}

}  // namespace

std::string on_one_line(std::string_view text) {
    std::string line;
    for (std::size_t at = 0; at < text.size();) {
        const auto length = character_bytes(text, at);
        const auto one = text.substr(at, std::max<std::size_t>(length, 1));
        add(line, one, length == 0 || steers(one));
        at += one.size();
    }
    return line;
}

std::string on_one_line_for_spreadsheets(std::string_view text) {
    auto line = on_one_line(text);
    constexpr std::string_view begin_a_formula = "=+-@";
    if (line.empty() || begin_a_formula.find(line[0]) == std::string_view::npos || is_number(line)) return line;
    return fmt::format("\\x{:02x}{}", static_cast<unsigned char>(line[0]), line.substr(1));
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
