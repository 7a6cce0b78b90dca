// Numbers as people write them: "38", "1.5", "3/8", "1 1/2", "1-1/2", "-40". Knows no unit.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace casebound {

struct WrittenNumber {
    double value;
    std::string rest;  // what stands behind it
};

// Nothing when the text does not begin with one.
std::optional<WrittenNumber> number_in_front(std::string_view text);

// A comma is a decimal point to some and a thousands mark to others: what to write instead. Requires: has a comma.
std::string comma_advice(std::string_view text);

void replace_all(std::string& text, std::string_view from, std::string_view to);

}  // namespace casebound
