// Short ways to write the typed inputs of an inquiry, for any domain; part of the contract, and nothing but shorthand.
// No default value is hidden here: a fallback is always named.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound {

inline Input number_input(std::string name, std::string title, std::string unit, double min, double max) {
    Input input;
    input.kind = Input::Kind::number;
    input.name = std::move(name);
    input.title = std::move(title);
    input.unit = std::move(unit);
    input.min = min;
    input.max = max;
    return input;
}

inline Input numbers_input(std::string name, std::string title, std::string unit, double min, double max) {
    Input input = number_input(std::move(name), std::move(title), std::move(unit), min, max);
    input.kind = Input::Kind::number_list;
    return input;
}

inline Input word_input(Input::Kind kind, std::string name, std::string title) {
    Input input;
    input.kind = kind;
    input.name = std::move(name);
    input.title = std::move(title);
    return input;
}

inline Input text_input(std::string name, std::string title) {
    return word_input(Input::Kind::text, std::move(name), std::move(title));
}

inline Input choice_input(std::string name, std::string title, std::vector<std::string> choices) {
    Input input = word_input(Input::Kind::choice, std::move(name), std::move(title));
    input.choices = std::move(choices);
    return input;
}

inline Input yes_no_input(std::string name, std::string title) {
    return word_input(Input::Kind::yes_no, std::move(name), std::move(title));
}

// An amount in the currency of the shop; hours of work; and what an hour is worth.
inline Input money_input(std::string name, std::string title) {
    return number_input(std::move(name), std::move(title), "", 0, 1e6);
}
inline Input hours_input(std::string name, std::string title) {
    return number_input(std::move(name), std::move(title), "h", 0, 1000);
}
inline Input hour_rate_input() { return money_input("hour-rate", "what an hour is worth"); }

inline Input required(Input input) {
    input.required = true;
    return input;
}
inline Input assumed(Input input, std::string fallback) {
    input.fallback = std::move(fallback);
    return input;
}
inline Input told(Input input, std::string attribute) {
    input.attribute = std::move(attribute);
    return input;
}
// A count: a number with a fraction is refused.
inline Input whole(Input input) {
    input.whole = true;
    return input;
}
// A group, or an item in one, that has a row in `table`.
inline Input key_of(Input input, std::string table) {
    input.key_of = std::move(table);
    return input;
}
// On record in `column` of `table`; `match`: columns that must equal another input.
inline Input recorded(Input input, std::string table, std::string column,
                      std::vector<std::pair<std::string, std::string>> match = {}) {
    input.recorded = Recorded{std::move(table), std::move(column), std::move(match)};
    return input;
}
// How to find it out when it is missing, imperative.
inline Input found_by(Input input, std::string how) {
    input.how = std::move(how);
    return input;
}
inline Input helped(Input input, std::string help) {
    input.help = std::move(help);
    return input;
}

}  // namespace casebound
