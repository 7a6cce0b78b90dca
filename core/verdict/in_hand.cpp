#include "core/verdict/in_hand.h"

#include <array>
#include <charconv>
#include <optional>
#include <utility>

#include "core/ground/units.h"

namespace casebound {

namespace {

bool digit(char c) { return c >= '0' && c <= '9'; }
char small(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

// Small letters; a multiplication sign or a star is an x, a comma between digits a point where it is the only one of its
// number, any other comma or semicolon ends a part.
std::vector<std::string> segments_of(std::string_view typed) {
    std::vector<std::string> parts(1);
    for (std::size_t i = 0; i < typed.size(); ++i) {
        const char c = typed[i];
        const bool between = i > 0 && i + 1 < typed.size() && digit(typed[i - 1]) && digit(typed[i + 1]);
        if (typed.substr(i, 2) == "\xC3\x97") {
            parts.back() += 'x';
            ++i;
        } else if (c == '*') parts.back() += 'x';
        else if (c == ',' && between) parts.back() += '.';
        else if (c == ',' || c == ';') parts.emplace_back();
        else parts.back() += small(c);
    }
    return parts;
}

std::vector<std::string> tokens_of(std::string_view part) {
    std::vector<std::string> tokens;
    std::string token;
    for (const char c : part) {
        if (c != ' ' && c != '\t' && c != '\n' && c != ':' && c != '(' && c != ')') token += c;
        else if (!token.empty()) tokens.push_back(std::exchange(token, {}));
    }
    if (!token.empty()) tokens.push_back(token);
    return tokens;
}

struct UnitWord {
    std::string_view typed, unit,
        from;  // as typed, as columns are kept, and where it differs what it is converted from
};
constexpr std::array<UnitWord, 15> units_typed{{{"mm", "mm", ""},
                                                {"cm", "mm", "cm"},
                                                {"in", "mm", "in"},
                                                {"inch", "mm", "in"},
                                                {"\"", "mm", "in"},
                                                {"mm2", "mm2", ""},
                                                {"a", "A", ""},
                                                {"amp", "A", ""},
                                                {"v", "V", ""},
                                                {"volt", "V", ""},
                                                {"ohm", "ohm", ""},
                                                {"c", "degC", ""},
                                                {"degc", "degC", ""},
                                                {"%", "%", ""},
                                                {"mpa", "MPa", ""}}};

const UnitWord* unit_word(std::string_view typed) {
    for (const auto& one : units_typed)
        if (one.typed == typed) return &one;
    return nullptr;
}

void give_unit(HandNumber& number, const UnitWord& unit) {
    number.unit = unit.unit;
    if (!unit.from.empty()) number.value = converted(number.value, unit.from, unit.unit);
}

struct ReadNumber {
    HandNumber number;
    const UnitWord* unit;  // null: none stands behind it
};

// "3.5", "3.5mm", "15a": a number and perhaps a unit right behind it, and nothing else. "025" is the name of a size.
std::optional<ReadNumber> read_number(std::string_view text) {
    ReadNumber read{{}, nullptr};
    read.number.text = text;
    if (text.size() > 1 && text[0] == '0' && digit(text[1])) return std::nullopt;
    if (text.empty() || !(digit(text[0]) || text[0] == '.' || text[0] == '-')) return std::nullopt;
    const auto end = std::from_chars(text.data(), text.data() + text.size(), read.number.value);
    if (end.ec != std::errc{}) return std::nullopt;
    const std::string_view behind(end.ptr, static_cast<std::size_t>(text.data() + text.size() - end.ptr));
    if (behind.empty()) return read;
    read.unit = unit_word(behind);
    return read.unit ? std::optional(read) : std::nullopt;
}

std::optional<HandNumber> number_of(std::string_view text) {
    auto read = read_number(text);
    if (!read) return std::nullopt;
    if (read->unit) give_unit(read->number, *read->unit);
    return std::move(read->number);
}

// "25x32x7", "m12x1.25": two numbers or more with an x between them; a unit behind the last is that of all, else mm.
std::optional<std::vector<HandNumber>> size_of(std::string_view text) {
    if (text.size() > 1 && text[0] == 'm' && digit(text[1])) text.remove_prefix(1);
    std::vector<ReadNumber> read;
    while (true) {
        const auto x = text.find('x');
        const auto one = read_number(text.substr(0, x));
        if (!one) return std::nullopt;
        read.push_back(*one);
        if (x == text.npos) break;
        text.remove_prefix(x + 1);
    }
    if (read.size() < 2) return std::nullopt;
    std::vector<HandNumber> size;
    for (auto& one : read) {
        const auto* unit = one.unit ? one.unit : read.back().unit ? read.back().unit : unit_word("mm");
        give_unit(one.number, *unit);
        size.push_back(std::move(one.number));
    }
    return size;
}

// A number, or a size, that no unit stands behind yet.
bool bare(std::string_view token) {
    if (const auto one = read_number(token)) return !one->unit;
    return size_of(token) && !read_number(token.substr(token.rfind('x') + 1))->unit;
}

// "25 x 32 x 7" as one token, "25 mm" as one.
std::vector<std::string> joined(const std::vector<std::string>& tokens) {
    std::vector<std::string> all;
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        const auto& token = tokens[i];
        const bool behind_x = !all.empty() && all.back().size() > 1 && all.back().back() == 'x' && number_of(token);
        const bool an_x = token == "x" && !all.empty() &&
                          (number_of(all.back()) || size_of(all.back()) || all.back()[0] == 'm');
        const bool last = i + 1 == tokens.size();  // "25 in bore" has no inches
        const bool a_unit = !all.empty() && unit_word(token) && (token != "in" || last) && bare(all.back());
        if (behind_x || an_x || a_unit) all.back() += token;
        else all.push_back(token);
    }
    return all;
}

void read_part(const std::vector<std::string>& tokens, InHand& hand) {
    // "section 3.5": the words stand before their numbers; else behind them, "3.5 section".
    const bool before = tokens.size() > 1 && !number_of(tokens.front()) && number_of(tokens.back());
    std::vector<bool> taken(tokens.size());
    const auto is_word = [&](std::size_t i) {
        return i < tokens.size() && !taken[i] && !number_of(tokens[i]) && !size_of(tokens[i]);
    };
    for (std::size_t i = 0; i < tokens.size(); ++i) {
        if (auto size = size_of(tokens[i])) {
            hand.sizes.push_back(std::move(*size));
            taken[i] = true;
        } else if (auto number = number_of(tokens[i])) {
            taken[i] = true;
            const auto beside = before ? i - 1 : i + 1;
            if ((i > 0 || !before) && is_word(beside)) {
                number->label = tokens[beside];
                taken[beside] = true;
            }
            hand.numbers.push_back(std::move(*number));
        }
    }
    for (std::size_t i = 0; i < tokens.size(); ++i)
        if (!taken[i])
            for (auto& word : small_words(tokens[i])) hand.words.push_back(std::move(word));
}

}  // namespace

std::vector<std::string> small_words(std::string_view text) {
    std::vector<std::string> words;
    std::string word;
    for (std::size_t i = 0; i <= text.size(); ++i) {
        const char c = i < text.size() ? small(text[i]) : ' ';
        const bool point = c == '.' && i > 0 && i + 1 < text.size() && digit(text[i - 1]) && digit(text[i + 1]);
        if (digit(c) || point || (c >= 'a' && c <= 'z') || static_cast<unsigned char>(c) >= 0x80) word += c;
        else if (!word.empty()) words.push_back(std::exchange(word, {}));
    }
    return words;
}

bool alike(std::string_view a, std::string_view b) {
    if (a == b) return true;
    if (a.size() > b.size()) std::swap(a, b);
    return a.size() >= 4 && b.substr(0, a.size()) == a;
}

InHand in_hand(std::string_view typed) {
    InHand hand;
    for (const auto& part : segments_of(typed)) read_part(joined(tokens_of(part)), hand);
    return hand;
}

}  // namespace casebound
