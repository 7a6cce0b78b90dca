#include "core/ground/dates.h"

#include <chrono>
#include <cstdlib>
#include <ctime>

#include <fmt/chrono.h>
#include <fmt/format.h>

#include "core/ground/error.h"

namespace casebound {

namespace {

std::tm now() {
    const std::time_t seconds = std::time(nullptr);
    std::tm local{};
    ::localtime_r(&seconds, &local);
    return local;
}

std::string set_date() {
    const char* text = std::getenv("CASEBOUND_TODAY");
    if (!text || !*text) return {};
    if (!is_date(text))
        throw Error(Exit::usage,
                    fmt::format("CASEBOUND_TODAY: \"{}\" is not a date: write YYYY-MM-DD, or unset it", text));
    return text;
}

int number(std::string_view digits) {
    int value = 0;
    for (const char c : digits) value = value * 10 + (c - '0');
    return value;
}

}  // namespace

std::string today() {
    const std::string set = set_date();
    return set.empty() ? fmt::format("{:%Y-%m-%d}", now()) : set;
}

std::string time_stamp() {
    std::string set = set_date();
    if (set.empty()) return fmt::format("{:%Y%m%dT%H%M%S}", now());
    std::erase(set, '-');
    return set + "T000000";
}

bool is_date(std::string_view text) {
    if (text.size() != 10) return false;
    for (std::size_t i = 0; i < text.size(); ++i)
        if (i == 4 || i == 7 ? text[i] != '-' : text[i] < '0' || text[i] > '9') return false;
    const int year = number(text.substr(0, 4)), month = number(text.substr(5, 2)), day = number(text.substr(8, 2));
    const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    constexpr int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    return year > 0 && month >= 1 && month <= 12 && day >= 1 && day <= days[month - 1] + (month == 2 && leap ? 1 : 0);
}

int days_until(std::string_view date) {
    const auto day = [](std::string_view text) {
        return std::chrono::sys_days(std::chrono::year(number(text.substr(0, 4))) / number(text.substr(5, 2)) /
                                     number(text.substr(8, 2)));
    };
    return static_cast<int>((day(date) - day(today())).count());
}

}  // namespace casebound
