// Bytes that claim to be UTF-8 text (RFC 3629): where they are not, and how to show them in a message.
// Never changes a text.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace casebound {

// Offset of the first byte that is not well-formed UTF-8 (RFC 3629, 4), npos when all of it is.
std::size_t bad_utf8(std::string_view text);

// Bytes of the well-formed character at `at`, 0 when there is none.
std::size_t character_bytes(std::string_view text, std::size_t at);

// A character that a terminal or a reader's eye is steered by: control characters (C0, DEL, C1), marks of direction and
// the two separators that end a line. Unicode 15, general category Cc and property Bidi_Control.
bool steers(std::string_view character);
unsigned code_point(std::string_view character);  // of a well-formed one

// For a message: at most `most` characters, control characters and bad bytes as \xNN.
std::string shown(std::string_view text, std::size_t most = 60);

}  // namespace casebound
