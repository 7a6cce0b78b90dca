#pragma once
// A clunk over bumps: is it a link, a bush of the bar, or something else that sounds like one? Common practice, no
// source, save the first rule, which is how the bar works. Condemns no part that nobody has moved by hand.

#include <cstdint>
#include <optional>

namespace casebound::stabilisers {

// The bar twists only when the two wheels of an axle move apart: over a bump that lifts both alike it turns in its
// bushes and loads no link.
enum class When : std::uint8_t { not_said, one_wheel, both_wheels, steering, braking };

struct Clunk {
    When when = When::not_said;
    std::optional<bool> link_play{}, boot_torn{}, bush_play{};  // felt or looked at; absent: nobody did
    std::optional<bool> quiet_with_links_off{};
    std::optional<bool> ball_joint_play{}, strut_top_play{};
};

enum class Suspect : std::uint8_t {
    ball_joint_first,    // holds the wheel: it comes before every link
    link,                // play by hand
    bush,                // the bar moves in it, and no link has play
    link_or_bush,        // quiet without the links, and no play found yet
    strut_top,           // play there, none in a link
    not_the_bar,         // with both wheels alike, at braking, or as loud with the links off
    steering_or_strut,   // at the wheel's turning
    link_worn_soon,      // a torn boot, no play yet
    past_the_links,      // each was felt and none has play: bush, strut top, then the links off
    feel_for_play_first  // nothing that decides was looked at
};

Suspect suspect_of(const Clunk& clunk);

// May a link be ordered for what was found?
constexpr bool speaks_for_a_link(const Clunk& clunk) {
    return clunk.link_play.value_or(false) || clunk.boot_torn.value_or(false);
}

}  // namespace casebound::stabilisers
