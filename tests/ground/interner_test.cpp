// Texts kept once each, small tables and such as lie on large pages alike.
#include <catch2/catch.hpp>

#include <string>
#include <vector>

#include "core/ground/interner.h"

using namespace casebound;

TEST_CASE("every text has one number, whatever it holds, and keeps it as the table grows") {
    Interner texts;
    const auto text = [](std::size_t i) {
        return std::to_string(i * 7919) + std::string(i % 50, 'x') + (i % 3 ? "" : std::string(1, '\0'));
    };
    constexpr std::size_t count = 300'000;
    std::vector<NameId> ids;
    for (std::size_t i = 0; i < count; ++i) ids.push_back(texts.id(text(i)));
    REQUIRE(texts.size() == count + 1);
    for (std::size_t i = 0; i < count; ++i) {
        if (texts.text(ids[i]) != text(i) || texts.id(text(i)) != ids[i] || texts.find(text(i)) != ids[i]) FAIL(i);
    }
    CHECK(texts.find("never seen") == 0);
    CHECK(texts.id("") == 0);
    CHECK(texts.text(0).empty());
    // The beginning of a text and the text are two, and one larger than a block is kept whole.
    const std::string large(20'000'000, 'y');
    CHECK(texts.text(texts.id(large)) == large);
    CHECK(texts.find(std::string_view(large).substr(1)) == 0);
}

TEST_CASE("a vector that moves to large pages and on keeps what it holds") {
    LargeVector<std::uint32_t> numbers;
    for (std::uint32_t i = 0; i < 3'000'000; ++i) numbers.push_back(i);
    for (std::uint32_t i = 0; i < numbers.size(); ++i)
        if (numbers[i] != i) FAIL(i);
    const LargeVector<std::uint32_t> copy = numbers;
    CHECK(copy == numbers);
    numbers = {};
    CHECK(copy.back() == 2'999'999);
}
