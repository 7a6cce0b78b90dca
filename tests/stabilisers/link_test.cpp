// One link against another, the bar in its bush, the twist of a rubber, and what a clunk points at.
#include <catch2/catch.hpp>

#include <random>
#include <stdexcept>

#include "plugins/stabilisers/science/bar.h"
#include "plugins/stabilisers/science/clunk.h"
#include "plugins/stabilisers/science/link.h"

using namespace casebound::stabilisers;

namespace {

Link front_left() { return {{Axle::front, Side::left}, Ends::two_studs, 10, 1.5, 280, 0}; }

std::optional<Weight> weight_against(const Link& offered) { return heaviest(differences(front_left(), offered)); }

template <class Change> std::optional<Weight> weight_with(Change change) {
    auto link = front_left();
    change(link);
    return weight_against(link);
}

}  // namespace

TEST_CASE("two links that measure alike have no difference, and either side is both sides") {
    CHECK_FALSE(weight_against(front_left()));
    CHECK_FALSE(weight_with([](Link& link) { link.place.side = Side::either; }));
    CHECK_FALSE(weight_with([](Link& link) { link.length_mm = 281.9; }));
}

TEST_CASE("axle, side, ends and thread refuse; pitch and angle need something") {
    CHECK(weight_with([](Link& link) { link.place.axle = Axle::rear; }) == Weight::no);
    CHECK(weight_with([](Link& link) { link.place.side = Side::right; }) == Weight::no);
    CHECK(weight_with([](Link& link) { link.ends = Ends::long_bolt; }) == Weight::no);
    CHECK(weight_with([](Link& link) { link.thread_mm = 12; }) == Weight::no);
    CHECK(weight_with([](Link& link) { link.pitch_mm = 1.25; }) == Weight::needs_something);
    CHECK(weight_with([](Link& link) { link.angle_deg = 90; }) == Weight::needs_something);
}

TEST_CASE("a length more than 2 mm apart needs its pair, more than 10 mm apart it is another link") {
    // Limits from memory.
    CHECK(weight_with([](Link& link) { link.length_mm = 284; }) == Weight::needs_something);
    CHECK(weight_with([](Link& link) { link.length_mm = 290; }) == Weight::needs_something);
    CHECK(weight_with([](Link& link) { link.length_mm = 291; }) == Weight::no);
    CHECK(weight_with([](Link& link) { link.length_mm = 269; }) == Weight::no);
}

TEST_CASE("what is not known is asked for, and never makes a difference lighter") {
    // Generated: blanking any one figure of a link that is refused, or needs something, never leaves it alike.
    std::mt19937 random(42);
    for (int i = 0; i < 300; ++i) {
        auto link = front_left();
        if (random() % 2) link.length_mm = 284;
        if (random() % 2) link.pitch_mm = 1.25;
        const auto before = weight_against(link);
        std::optional<double> Link::*const fields[]{&Link::thread_mm, &Link::pitch_mm, &Link::length_mm,
                                                    &Link::angle_deg};
        auto blanked = link;
        blanked.*fields[random() % 4] = std::nullopt;
        CHECK(weight_against(blanked));
        if (!before) CHECK(weight_against(blanked) == Weight::not_known);
    }
    CHECK(weight_against({}) == Weight::not_known);
}

TEST_CASE("the angle counts between two studs only") {
    Link eye{{Axle::rear, Side::either}, Ends::stud_and_eye, 10, 1.5, 120, {}};
    CHECK(differences(eye, eye).empty());
}

TEST_CASE("a clunk over both wheels alike is no link, unless a hand has found play") {
    Clunk clunk;
    CHECK(suspect_of(clunk) == Suspect::feel_for_play_first);
    clunk.when = When::both_wheels;
    CHECK(suspect_of(clunk) == Suspect::not_the_bar);
    clunk.link_play = true;
    CHECK(suspect_of(clunk) == Suspect::link);
    clunk.ball_joint_play = true;
    CHECK(suspect_of(clunk) == Suspect::ball_joint_first);
}

TEST_CASE("quiet without the links names link or bush; as loud without them, neither") {
    Clunk clunk;
    clunk.link_play = false;
    clunk.quiet_with_links_off = true;
    CHECK(suspect_of(clunk) == Suspect::link_or_bush);
    clunk.quiet_with_links_off = false;
    CHECK(suspect_of(clunk) == Suspect::not_the_bar);
    clunk.bush_play = true;
    CHECK(suspect_of(clunk) == Suspect::bush);
}

TEST_CASE("links that were felt and have no play are not felt again") {
    Clunk clunk;
    clunk.when = When::one_wheel;
    clunk.link_play = false;
    CHECK(suspect_of(clunk) == Suspect::past_the_links);
    clunk.bush_play = clunk.strut_top_play = false;
    CHECK(suspect_of(clunk) == Suspect::past_the_links);
    clunk.quiet_with_links_off = true;
    CHECK(suspect_of(clunk) == Suspect::link_or_bush);
}

TEST_CASE("a torn boot, a strut top and the steering each stand by themselves") {
    Clunk boot, top, turning;
    boot.boot_torn = true;
    top.strut_top_play = true;
    turning.when = When::steering;
    CHECK(suspect_of(boot) == Suspect::link_worn_soon);
    CHECK(suspect_of(top) == Suspect::strut_top);
    CHECK(suspect_of(turning) == Suspect::steering_or_strut);
    CHECK(speaks_for_a_link(boot));
    CHECK_FALSE(speaks_for_a_link(top));
}

TEST_CASE("a bush is for the bar within half a millimetre, and a bar worn under it is said") {
    // Limit from memory.
    CHECK(bush_on_bar(24, 24.5, {}) == BushAnswer::for_this_bar);
    CHECK(bush_on_bar(24, 24.6, {}) == BushAnswer::too_small);
    CHECK(bush_on_bar(24, 23.4, {}) == BushAnswer::too_large);
    CHECK(bush_on_bar(24, 24, 23.5) == BushAnswer::for_this_bar);
    CHECK(bush_on_bar(24, 24, 23.4) == BushAnswer::bar_worn);
    CHECK_THROWS_AS(bush_on_bar(24, 2.4, {}), std::domain_error);
}

TEST_CASE("half the arm is 30 degrees, and no wheel hangs lower than its arm is long") {
    CHECK(twist_deg(300, 150) == Approx(30));
    CHECK(twist_deg(300, 0) == 0);
    CHECK(twist_deg(300, 300) == Approx(90));
    CHECK_THROWS_WITH(twist_deg(300, 301), "droop: got 301 mm: valid range is 0 to 300 mm");
}
