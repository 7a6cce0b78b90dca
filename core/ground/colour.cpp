#include "core/ground/colour.h"

#include "core/ground/secret.h"

namespace casebound {

namespace {

bool& switched_on() {
    static bool on = false;
    return on;
}

constexpr char end_mark = '\x80';

char mark_of(Meaning meaning) {
    switch (meaning) {
        case Meaning::good: return '\x81';
        case Meaning::check: return '\x82';
        case Meaning::stop: break;
    }
    return '\x83';
}

std::string_view for_terminal(char mark) {
    switch (mark) {
        case '\x81': return "\x1b[32m";    // green
        case '\x82': return "\x1b[33m";    // yellow
        case '\x83': return "\x1b[1;31m";  // bold red
        default: return "\x1b[0m";
    }
}

// Continuation bytes without a first byte: no text of UTF-8 has them, and no column is counted for them.
const std::string& word_of_this_run() {
    static const std::string word = [] {
        std::string bytes;
        for (const char digit : new_secret())
            bytes += static_cast<char>(0x80 + (digit <= '9' ? digit - '0' : digit - 'a' + 10));
        return bytes;
    }();
    return word;
}

}  // namespace

void use_colours(bool on) { switched_on() = on; }

std::string coloured(Meaning meaning, std::string_view text) {
    if (!switched_on()) return std::string(text);
    const auto& word = word_of_this_run();
    return word + mark_of(meaning) + std::string(text) + word + end_mark;
}

std::string with_colours(std::string_view text, std::string (*plain)(std::string_view)) {
    if (!switched_on()) return plain(text);
    const auto& word = word_of_this_run();
    std::string out;
    for (;;) {
        const auto at = text.find(word);
        out += plain(text.substr(0, at));
        if (at == std::string_view::npos || at + word.size() == text.size()) return out;
        out += for_terminal(text[at + word.size()]);
        text.remove_prefix(at + word.size() + 1);
    }
}

}  // namespace casebound
