#include "core/pack/spreadsheet_damage.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "core/ground/utf8.h"

namespace casebound {

namespace {

bool digit(char c) { return c >= '0' && c <= '9'; }
bool digits(std::string_view text, std::size_t least, std::size_t most) {
    return text.size() >= least && text.size() <= most && std::all_of(text.begin(), text.end(), digit);
}

constexpr std::array<std::string_view, 12> months{"Jan", "Feb", "Mar", "Apr", "May", "Jun",
                                                  "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"};
bool month(std::string_view text) { return std::find(months.begin(), months.end(), text) != months.end(); }

// 2-Sep, Sep-02, 2-Sep-26, 2/9/2026, 02.Sep. Codes in capitals (SEP-02) are left alone.
bool date(std::string_view text) {
    const auto first = text.find_first_of("-/.");
    if (first == std::string_view::npos || text.size() > 11) return false;
    const char mark = text[first];
    const auto second = text.find(mark, first + 1);
    const auto a = text.substr(0, first),
               b = text.substr(first + 1, second == std::string_view::npos ? second : second - first - 1);
    const auto c = second == std::string_view::npos ? std::string_view{} : text.substr(second + 1);
    if (second == std::string_view::npos) return (digits(a, 1, 2) && month(b)) || (month(a) && digits(b, 1, 4));
    if (digits(a, 1, 2) && month(b)) return digits(c, 2, 4);
    return mark == '/' && digits(a, 1, 2) && digits(b, 1, 2) && digits(c, 2, 4);
}

// 2.31E+13 as a spreadsheet shows a long number: one digit before the point, a sign, two digits of exponent.
bool scientific(std::string_view text) {
    const auto e = text.find('E');
    if (e == std::string_view::npos || e + 3 > text.size() || (text[e + 1] != '+' && text[e + 1] != '-')) return false;
    const auto mantissa = text.substr(0, e);
    const bool shaped = digits(mantissa, 1, 1) ||
                        (mantissa.size() > 2 && digit(mantissa[0]) && (mantissa[1] == '.' || mantissa[1] == ',') &&
                         digits(mantissa.substr(2), 1, 20));
    return shaped && digits(text.substr(e + 2), 2, 3);
}

constexpr std::array<std::string_view, 8> broken_formulas{"#REF!", "#NAME?", "#VALUE!", "#DIV/0!",
                                                          "#N/A",  "#NUM!",  "#NULL!",  "#SPILL!"};

bool broken_formula(std::string_view text) {
    if (text.empty() || text[0] != '#') return false;
    return std::find(broken_formulas.begin(), broken_formulas.end(), text) != broken_formulas.end() ||
           (text.size() > 1 && text.find_first_not_of('#') == std::string_view::npos);
}

// 1,234 or 1,234,567.8
bool thousands(std::string_view text) {
    const auto comma = text.find(',');
    if (comma == std::string_view::npos || !digits(text.substr(0, comma), 1, 3)) return false;
    std::string_view rest = text.substr(comma);
    while (rest.size() >= 4 && rest[0] == ',' && digits(rest.substr(1, 3), 3, 3)) rest.remove_prefix(4);
    return rest.empty() || (rest[0] == '.' && digits(rest.substr(1), 1, 20));
}

bool blank(char c) { return c == ' ' || c == '\t'; }
bool has_no_break_space(std::string_view text) { return text.find("\xC2\xA0") != std::string_view::npos; }

// Nothing below has to be looked for: most cells of a pack are so. Numbers and dates begin with a digit or a month.
bool plainly_whole(std::string_view text) {
    const char first = text.front();
    return !blank(first) && !blank(text.back()) && first != '#' &&
           (text.size() > 24 ||
            (!digit(first) && std::string_view("JFMASOND").find(first) == std::string_view::npos)) &&
           !has_no_break_space(text);
}

}  // namespace

std::string damage_in(std::string_view text, bool key) {
    if (text.empty() || plainly_whole(text)) return {};
    if (blank(text.front()) || blank(text.back()))
        return fmt::format("`{}` begins or ends with a blank: delete it", shown(text));
    if (has_no_break_space(text))
        return fmt::format("`{}` holds a no-break space: write a plain blank, or none in a key", shown(text));
    if (broken_formula(text))
        return fmt::format("`{}` is what a spreadsheet leaves of a broken formula: write the value", shown(text));
    if (text.size() > 24) return {};
    if (scientific(text))
        return fmt::format(
            "`{}` looks like a number that a spreadsheet has shortened: write it in full, in a column formatted as "
            "text",
            shown(text));
    if (date(text))
        return fmt::format(
            "`{}` looks like a date that a spreadsheet has made: write the original, in a column formatted as text",
            shown(text));
    if (key && thousands(text))
        return fmt::format("`{}` holds a thousands separator: write the digits alone", shown(text));
    return {};
}

bool looks_like_date_serial(std::string_view text) { return digits(text, 5, 5) && text >= "36526" && text <= "54788"; }

std::string not_a_number(std::string_view text) {
    if (const auto damage = damage_in(text, false); !damage.empty() && !scientific(text)) return damage;
    if (thousands(text)) {
        std::string plain(text);
        plain.erase(std::remove(plain.begin(), plain.end(), ','), plain.end());
        return fmt::format("`{}` is not a number: write {}, without a thousands separator", shown(text), plain);
    }
    if (const auto comma = text.find(','); comma != std::string_view::npos && comma + 1 < text.size()) {
        std::string point(text);
        point[comma] = '.';
        return fmt::format("`{}` is not a number: write {}, with a decimal point", shown(text), shown(point));
    }
    return fmt::format("`{}` is not a number: write digits and a decimal point, without a unit", shown(text));
}

}  // namespace casebound
