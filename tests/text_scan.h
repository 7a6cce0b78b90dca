// Finding words in source text, for tests that hold rules about files. (<regex> does not compile without
// warnings under GCC 12's sanitizers.)
#pragma once

#include <string>
#include <string_view>
#include <vector>

inline bool is_word_character(char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

// Is `word` in `text`, and not as a part of a longer word?
inline bool has_word(std::string_view text, std::string_view word) {
    for (auto at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
        const auto end = at + word.size();
        if ((at == 0 || !is_word_character(text[at - 1])) && (end == text.size() || !is_word_character(text[end])))
            return true;
    }
    return false;
}

// What stands between each `start` and the next `stop`.
inline std::vector<std::string> all_between(std::string_view text, std::string_view start, char stop) {
    std::vector<std::string> found;
    for (auto at = text.find(start); at != std::string_view::npos; at = text.find(start, at + 1)) {
        const auto from = at + start.size();
        found.emplace_back(text.substr(from, text.find(stop, from) - from));
    }
    return found;
}
