#include "science/clunk.h"

namespace casebound::stabilisers {
namespace {

bool yes(std::optional<bool> seen) { return seen.value_or(false); }
bool no(std::optional<bool> seen) { return seen && !*seen; }

// What the road says, when no hand has found play.
Suspect by_road(const Clunk& clunk) {
    if (no(clunk.quiet_with_links_off) || clunk.when == When::both_wheels || clunk.when == When::braking)
        return Suspect::not_the_bar;
    if (yes(clunk.quiet_with_links_off)) return Suspect::link_or_bush;
    if (clunk.when == When::steering) return Suspect::steering_or_strut;
    return no(clunk.link_play) ? Suspect::past_the_links : Suspect::feel_for_play_first;
}

}  // namespace

Suspect suspect_of(const Clunk& clunk) {
    if (yes(clunk.ball_joint_play)) return Suspect::ball_joint_first;
    if (yes(clunk.link_play)) return Suspect::link;
    if (yes(clunk.bush_play)) return Suspect::bush;
    if (yes(clunk.strut_top_play)) return Suspect::strut_top;
    if (yes(clunk.boot_torn)) return Suspect::link_worn_soon;
    return by_road(clunk);
}

}  // namespace casebound::stabilisers
