// The typed inputs of this domain's inquiries, written short. Says what is asked for; never reads a value.
#pragma once

#include <limits>
#include <string>
#include <utility>
#include <vector>

#include "core/plugin.h"

namespace casebound::transmission_fluids {

inline Input number_input(std::string name, std::string title, std::string unit, double min, double max) {
    Input input{Input::Kind::number, std::move(name), std::move(title), std::move(unit), min, max};
    return input;
}

inline Input numbers_input(std::string name, std::string title, std::string unit, double min, double max) {
    Input input = number_input(std::move(name), std::move(title), std::move(unit), min, max);
    input.kind = Input::Kind::number_list;
    return input;
}

inline Input words_input(Input::Kind kind, std::string name, std::string title) {
    Input input{kind, std::move(name), std::move(title), ""};
    return input;
}

inline Input text_input(std::string name, std::string title) {
    return words_input(Input::Kind::text, std::move(name), std::move(title));
}

inline Input yes_no_input(std::string name, std::string title) {
    return words_input(Input::Kind::yes_no, std::move(name), std::move(title));
}

inline Input choice_input(std::string name, std::string title, std::vector<std::string> choices) {
    Input input = words_input(Input::Kind::choice, std::move(name), std::move(title));
    input.choices = std::move(choices);
    return input;
}

inline Input required(Input input) {
    input.required = true;
    return input;
}

inline Input else_assumed(Input input, std::string fallback) {
    input.fallback = std::move(fallback);
    return input;
}

inline Input told_as(Input input, std::string attribute) {
    input.attribute = std::move(attribute);
    return input;
}

inline Input with_help(Input input, std::string help) {
    input.help = std::move(help);
    return input;
}

}  // namespace casebound::transmission_fluids
