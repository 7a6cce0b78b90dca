#include "core/verdict/part_number.h"

#include <cctype>
#include <vector>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/error.h"

namespace casebound {

namespace {

bool left_out(char c) { return c == ' ' || c == '.' || c == '-' || c == '/' || c == '_'; }

// The expression of the index name_as_compared in schema/catalog.sql; compared_number() says the same.
constexpr std::string_view same_number =
    "SELECT n.text FROM name n JOIN {} i ON i.id = n.id WHERE upper(replace(replace(replace(replace(replace(n.text, ' "
    "', "
    "''), '.', ''), '-', ''), '/', ''), '_', '')) = ?1 ORDER BY n.text";

std::vector<std::string> compared_as(const Catalog& catalog, std::string_view stored, const std::string& number) {
    std::vector<std::string> keys;
    Statement rows(catalog.database(), fmt::format(same_number, stored));
    rows.bind(1, std::string_view(number));
    while (rows.step()) keys.push_back(rows.str(0));
    return keys;
}

}  // namespace

std::string compared_number(std::string_view typed) {
    std::string number;
    for (const char c : typed)
        if (!left_out(c)) number += static_cast<char>(c >= 'a' && c <= 'z' ? c - 'a' + 'A' : c);
    return number;
}

std::string number_as_key(std::string_view typed) {
    std::string key;
    for (const char c : typed)
        if (c != ' ') key += c;
        else if (!key.empty() && key.back() != '-') key += '-';
    while (!key.empty() && key.back() == '-') key.pop_back();
    return key;
}

std::string item_meant(const Catalog& catalog, std::string_view typed) {
    const auto number = compared_number(typed);
    if (number.empty()) return std::string(typed);
    const std::string exact(typed);
    if (catalog.item(exact) || catalog.group(exact)) return exact;
    auto keys = compared_as(catalog, "item", number);
    if (keys.empty()) keys = compared_as(catalog, "item_group", number);
    if (keys.empty()) return exact;
    if (keys.size() == 1) return keys.front();
    throw Error(Exit::usage,
                fmt::format("{}: it may be {}: write it as one of them is printed", typed, fmt::join(keys, " or ")));
}

}  // namespace casebound
