#include "rows/vocabulary.h"

#include "core/contract/attribute_rows.h"
#include "core/contract/domain_words.h"
#include "science/bar.h"

namespace casebound::stabilisers {
namespace {

// What a measure can be, here and below: common practice, no source.

std::vector<Attribute> of_axle(Axle axle) {
    const std::string there(axle_words[static_cast<std::size_t>(axle)]);
    const auto title = [&](const char* what) { return std::string(what) + ", " + there; };
    const auto name = [&](const char* what) { return at_axle(what, axle); };
    return {
        when_raised(choice_of({"two_studs", "stud_and_eye", "two_eyes", "long_bolt"}, name("link_ends"),
                              title("ends of the stabiliser link"),
                              "Look at both ends: a threaded stud, an eye with a bolt through it, or one long bolt "
                              "through rubber washers.",
                              2)),
        when_raised(bolt_thread_of(5, 24, name("link_thread"), title("thread of the link, 10 for M10"),
                                   "Measure the thread that stands out of the nut with a calliper.", 3)),
        when_raised(within(0.5, 3,
                           number_of("mm", 0.1, name("link_pitch"), title("pitch of the link's thread"),
                                     "Hold a thread gauge to it, or measure ten turns and divide by ten.", 4))),
        when_raised(within(30, 700,
                           number_of("mm", 2, name("link_length"), title("length of the link between its centres"),
                                     "Measure from the middle of one end to the middle of the other.", 3))),
        when_opened(within(0, 180,
                           number_of("deg", 5, name("link_angle"), title("angle between the studs of the link"),
                                     "Take the link off, hold it upright and look along the rod: 0 both one way, 180 "
                                     "opposite ways.",
                                     30))),
        when_raised(within(8, 60,
                           number_of("mm", bar_within_mm, name("bar_diameter"), title("diameter of the stabiliser bar"),
                                     "Wipe the bar beside its bush and measure it with a calliper, twice, a quarter "
                                     "turn apart.",
                                     5))),
    };
}

std::vector<std::string> none_or_wheels() {
    auto all = wheels();
    all.insert(all.begin(), "none");
    return all;
}

std::vector<Attribute> observations() {
    return {
        several("none", choice_of(none_or_wheels(), "clunk_at", "clunk over bumps at",
                                  "Drive slowly over a rough road, windows open, a helper listening at each wheel arch "
                                  "from inside.",
                                  6)),
        choice_of({"one_wheel", "both_wheels", "steering", "braking"}, "clunk_when", "when it clunks",
                  "Drive one wheel over a low board, then both wheels of the axle together; then turn at rest; then "
                  "brake.",
                  8),
        when_raised(several("none", choice_of(none_or_wheels(), "link_play", "play of a link by hand",
                                              "On ramps, both wheels of the axle standing at one height: grip the link "
                                              "at each end and shake it along its stud; have the bar free of load.",
                                              6))),
        when_raised(several("none", choice_of(none_or_wheels(), "link_boot_torn", "torn boot of a link",
                                              "Look round each ball of the link with a torch: split rubber, grease "
                                              "outside, rust.",
                                              4))),
        when_raised(choice_of({"none", "front", "rear", "both"}, "bar_bush_play", "bar moves in its bush",
                              "On ramps: push the bar up and down beside each clamp and watch the rubber.", 5)),
        when_raised(yes_or_no("ball_joint_play", "play of a ball joint that holds the wheel",
                              "Wheel off the ground on a stand: lever under the tyre and watch the joint, not the "
                              "wheel.",
                              8)),
        yes_or_no("strut_top_play", "play at the top of a strut",
                  "Lay a finger on the top of the strut while a helper rocks the vehicle.", 4),
        when_opened(yes_or_no("quiet_with_links_off", "quiet with both links of the axle off the bar",
                              "Take both links of the axle off the bar, tie them up, and drive slowly on a yard: it "
                              "leans more.",
                              45)),
    };
}

KindInPlaces both_axles(std::string kind, std::string title, const char* place, const char* place_title,
                        DecidedBy decided = {}) {
    return {std::move(kind),
            std::move(title),
            StandIns::may_be_offered,
            {{std::string(place) + "-front", std::string(place_title) + ", front"},
             {std::string(place) + "-rear", std::string(place_title) + ", rear"}},
            "each",
            std::move(decided)};
}

// The lengths within the tolerances of the attributes.
DecidedBy link_decided() {
    return {"stabilisers_links",
            {{"axle", "axle"},
             {"side", "side"},
             {"ends", "ends"},
             {"thread_mm", "thread, mm", 0.3},
             {"pitch_mm", "pitch, mm", 0.1},
             {"length_mm", "length between centres, mm", 2},
             {"angle_deg", "angle between the studs, degrees", 5, true}}};
}

}  // namespace

std::string at_axle(std::string_view attribute, Axle axle) {
    return std::string(attribute).append("_").append(axle_words[static_cast<std::size_t>(axle)]);
}

const std::vector<std::string>& wheels() {
    static const std::vector<std::string> all{"front_left", "front_right", "rear_left", "rear_right"};
    return all;
}

Vocabulary vocabulary() {
    return vocabulary_of(
        together({of_axle(Axle::front), of_axle(Axle::rear), as_findings(observations())}),
        {{"stabiliser-link",
          "stabiliser link",
          StandIns::may_be_offered,
          {{"link-front-left", "stabiliser link, front left"},
           {"link-front-right", "stabiliser link, front right"},
           {"link-rear-left", "stabiliser link, rear left"},
           {"link-rear-right", "stabiliser link, rear right"}},
          "each",
          link_decided()},
         both_axles("bar-bush", "bush of the stabiliser bar", "bar-bushes", "bushes of the stabiliser bar",
                    {"stabilisers_bushes",
                     {{"axle", "axle"}, {"bar_mm", "diameter of the bar, mm", bar_within_mm}, {"form", "form"}}}),
         both_axles("link-nut", "nut of a stabiliser link", "link-nuts", "nuts of the stabiliser links"),
         both_axles("bar-clamp-bolt", "bolt of a bar clamp", "bar-clamp-bolts", "bolts of the bar clamps")});
}

}  // namespace casebound::stabilisers
