#include "core/ground/written_number.h"

#include <cctype>
#include <charconv>

#include <fmt/format.h>

namespace casebound {

namespace {

// Takes digits off the front; nothing when there are none.
std::optional<long> whole(std::string_view& rest) {
    long value = 0;
    const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), value);
    if (error != std::errc() || rest.front() == '-') return std::nullopt;
    rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
    return value;
}

std::optional<double> over(long top, std::string_view& rest) {
    std::string_view tail = rest;
    if (tail.empty() || tail.front() != '/') return std::nullopt;
    tail.remove_prefix(1);
    const auto bottom = whole(tail);
    if (!bottom || *bottom == 0) return std::nullopt;
    rest = tail;
    return static_cast<double>(top) / static_cast<double>(*bottom);
}

// "3/8", "1 1/2", "1-1/2".
std::optional<double> fraction(std::string_view& rest) {
    std::string_view tail = rest;
    const auto first = whole(tail);
    if (!first) return std::nullopt;
    auto value = over(*first, tail);
    if (!value && !tail.empty() && (tail.front() == ' ' || tail.front() == '-')) {
        tail.remove_prefix(1);
        const auto top = whole(tail);
        const auto part = top ? over(*top, tail) : std::nullopt;
        if (part) value = static_cast<double>(*first) + *part;
    }
    if (value) rest = tail;
    return value;
}

std::optional<double> decimal(std::string_view& rest) {
    if (rest.empty() || !(std::isdigit(static_cast<unsigned char>(rest.front())) || rest.front() == '.'))
        return std::nullopt;
    double value = 0;
    const auto [end, error] = std::from_chars(rest.data(), rest.data() + rest.size(), value);
    if (error != std::errc()) return std::nullopt;
    rest.remove_prefix(static_cast<std::size_t>(end - rest.data()));
    return value;
}

}  // namespace

std::optional<WrittenNumber> number_in_front(std::string_view text) {
    std::string plain(text);
    replace_all(plain, "\u2212", "-");
    std::string_view rest = plain;
    const bool negative = !rest.empty() && rest.front() == '-';
    if (!rest.empty() && (negative || rest.front() == '+')) rest.remove_prefix(1);
    auto number = fraction(rest);
    if (!number) number = decimal(rest);
    if (!number) return std::nullopt;
    return WrittenNumber{negative ? -*number : *number, std::string(rest)};
}

std::string comma_advice(std::string_view text) {
    std::string stop{text}, out{text};
    replace_all(stop, ",", ".");
    replace_all(out, ",", "");
    const auto first = text.find(',');
    const bool one = text.find(',', first + 1) == std::string_view::npos;
    const auto digits = text.find_first_not_of("0123456789", first + 1);
    const auto after = (digits == std::string_view::npos ? text.size() : digits) - first - 1;
    if (one && after != 3) return fmt::format("write \"{}\"", stop);
    return one ? fmt::format("write \"{}\" or \"{}\"", stop, out) : fmt::format("write \"{}\"", out);
}

void replace_all(std::string& text, std::string_view from, std::string_view to) {
    for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
        text.replace(at, from.size(), to);
}

}  // namespace casebound
