// Colour by meaning, for a terminal; what is coloured says the same by its words or its sign. In a text a colour is a
// mark of bytes that no UTF-8 has, which counts no column, and of a word drawn for this run, so that nothing that was
// typed or read can write one. `outlet` alone turns marks into what a terminal acts on.
#pragma once

#include <string>
#include <string_view>

namespace casebound {

enum class Meaning { good, check, stop };

void use_colours(bool on);  // off until then; what goes to a browser never has any

std::string coloured(Meaning meaning, std::string_view text);  // `text` as it is while colours are off

// Each piece between two marks as `plain` makes it; the marks as ECMA-48 (SGR). While colours are off there are none.
std::string with_colours(std::string_view text, std::string (*plain)(std::string_view));

}  // namespace casebound
