// Colours: marks in a text that count no column, outlast wrapping, and cannot be written by what is typed or read.
#include <catch2/catch.hpp>

#include <string>

#include "core/ground/colour.h"
#include "core/ground/outlet.h"
#include "core/ground/text_layout.h"

using namespace casebound;

namespace {

struct Colours {
    Colours() { use_colours(true); }
    ~Colours() { use_colours(false); }
};

std::string shown(std::string_view text) { return with_colours(text, harmless); }

}  // namespace

TEST_CASE("while colours are off a coloured text is the text") {
    CHECK(coloured(Meaning::good, "ok") == "ok");
    CHECK(shown(coloured(Meaning::stop, "!!")) == "!!");
}

TEST_CASE("each meaning has its own colour, and the words stay") {
    const Colours on;
    CHECK(shown(coloured(Meaning::good, "ok")) == "\x1b[32mok\x1b[0m");
    CHECK(shown(coloured(Meaning::check, "CHECK FIRST") + ": x") == "\x1b[33mCHECK FIRST\x1b[0m: x");
    CHECK(shown(coloured(Meaning::stop, "!!")) == "\x1b[1;31m!!\x1b[0m");
}

TEST_CASE("a colour counts no column, in a table and when a text is wrapped") {
    const Colours on;
    CHECK(display_width(coloured(Meaning::good,
                                 "\xc2\xb0"
                                 "C")) == 2);
    Table table({"", ""});
    table.row({coloured(Meaning::good, "ok"), "a"});
    table.row({"none", "b"});
    CHECK(shown(table.text()) == "  \x1b[32mok\x1b[0m    a\n  none  b\n");
    CHECK(shown(wrapped(coloured(Meaning::check, "CHECK FIRST") + ": the pan", 0, 2, 10)) ==
          "\x1b[33mCHECK\n  FIRST\x1b[0m:\n  the pan\n");
}

TEST_CASE("what is typed or read colours nothing") {
    const Colours on;
    const auto marked = coloured(Meaning::stop, "x");
    CHECK(shown("\x1b[31mred") == "\\u001b[31mred");
    for (const char other : {'\x80', '\x8f', '\xbf'}) {  // of the same form, with another word
        const auto forged = std::string(marked.find('x') - 1, other) + "\x83x";
        CHECK(shown(forged).find('\x1b') == std::string::npos);
    }
}

TEST_CASE("a page is 80 columns wide until another width is set, and never under 40 or over 100") {
    CHECK(page_width() == 80);
    const auto widest = [](const std::string& text) {
        std::size_t most = 0;
        for (std::size_t at = 0; at < text.size();) {
            const auto end = text.find('\n', at);
            most = std::max(most, end - at);
            at = end + 1;
        }
        return most;
    };
    std::string words;
    for (int i = 0; i < 100; ++i) words += "abc ";
    for (const auto& [asked, given] : {std::pair{60, 59}, {7, 39}, {1000, 99}, {80, 79}}) {
        use_page_width(static_cast<std::size_t>(asked));
        CHECK(widest(wrapped(words)) == static_cast<std::size_t>(given));  // words of three and a blank
    }
    use_page_width(usual_width);
    CHECK(dashed("left_over") == "left-over");
}
