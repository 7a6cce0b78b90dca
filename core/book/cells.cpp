#include "core/book/cells.h"

#include <array>
#include <charconv>
#include <cmath>
#include <cstdlib>

#include <fmt/format.h>

namespace casebound {

std::string cell_name(unsigned long line, unsigned column) {
    std::string letters;
    for (; column > 0; column = (column - 1) / 26)
        letters.insert(letters.begin(), static_cast<char>('A' + (column - 1) % 26));
    return fmt::format("{}{}", letters, line);
}

std::string MergedCells::name() const {
    return fmt::format("{}:{}", cell_name(first_line, first_column), cell_name(last_line, last_column));
}

std::string MergedCells::what_to_do() const {
    return fmt::format("{} is merged, and only its first cell holds what it shows: unmerge it, and type it in every {}",
                       name(), first_line == last_line ? "cell" : "row");
}

std::string stored_number(std::string_view text) {
    double value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return {};
    std::array<char, 64> written{};
    const auto write = [&](std::chars_format format) {
        return std::string(written.data(),
                           std::to_chars(written.data(), written.data() + written.size(), value, format).ptr);
    };
    constexpr double most_written_out = 1e21, all_digits_count = 1e15, least_written_out = 1e-7;
    const double size = std::abs(value);
    if (size != 0 && (size >= most_written_out || size <= least_written_out))
        return write(std::chars_format::scientific);
    if (size < all_digits_count) return write(std::chars_format::fixed);
    auto digits = write(std::chars_format::scientific);  // the digits that count, then zeros
    const auto places = std::strtoul(digits.c_str() + digits.find('e') + 1, nullptr, 10) + 1;
    digits.erase(digits.find('e'));
    std::erase(digits, '.');
    digits.resize(places + (value < 0 ? 1 : 0), '0');
    return digits;
}

}  // namespace casebound
