// A claim made a million times: Catch's assertions are slow by the million, so only a failure is asserted.
#pragma once

#include <catch2/catch.hpp>

#include <string>
#include <type_traits>

// `story` says what it was about: a text, or a call that gives one.
template <class Story> void must(bool holds, const std::string& claim, const Story& story) {
    if (holds) return;
    if constexpr (std::is_invocable_v<Story>) UNSCOPED_INFO(story());
    else UNSCOPED_INFO(story);
    FAIL(claim);
}
