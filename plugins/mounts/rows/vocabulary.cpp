#include "rows/vocabulary.h"

#include "core/contract/attribute_rows.h"
#include "core/contract/domain_words.h"

namespace casebound::mounts {
namespace {

// What a measure can be, here and below: common practice, no source.

std::vector<Attribute> identities() {
    return {
        choice_of({"solid", "hydraulic", "switched_vacuum", "switched_electric", "active"}, "mount_kind",
                  "kind of the engine mounts",
                  "Look from above with a torch: rubber block (solid), closed cup (hydraulic), cup with hose or plug "
                  "(switched).",
                  6),
        yes_or_no("mount_hose", "vacuum hose at an engine mount",
                  "Feel around each engine mount for a thin hose or its stub.", 4),
        yes_or_no("mount_plug", "electric plug at an engine mount", "Feel around each engine mount for a plug.", 4),
        choice_of({"integral", "separate"}, "mount_bracket", "bracket of the engine mounts",
                  "Look whether mount and bracket are one piece (integral) or bolted together (separate).", 5),
        when_raised(bolt_thread_of(4, 30, "mount_stud", "thread of the mount stud, 10 for M10",
                                   "Measure the stud's thread with a calliper or a thread gauge.", 8)),
        when_opened(within(3, 250,
                           number_of("mm", 1, "mount_stud_length", "free length of the mount stud",
                                     "Take the mount off and measure the stud above its plate.", 60))),
        when_raised(yes_or_no("mount_pin", "locating pin on the mount",
                              "Look with a mirror beside the stud for a pin and its hole.", 8)),
        when_raised(counted(1, 16,
                            number_of("", 0, "gearbox_mount_bolts", "bolts of the gearbox mount",
                                      "Count the bolts from below between mount and crossmember.", 3))),
        yes_or_no("torque_mount_fitted", "torque mount fitted",
                  "Look for a link between engine and body, above or below.", 3),
    };
}

std::vector<Attribute> observations() {
    return {
        choice_of({"dry", "left", "right", "both"}, "mount_leak", "fluid at an engine mount",
                  "Look for black wet streaks under each mount.", 5),
        choice_of({"smooth", "in_gear", "in_neutral", "always"}, "idle_shake", "shake at idle",
                  "Warm engine, brake held: neutral, then drive.", 4),
        usually(450, 1200,
                within(50, 12000,
                       number_of("rpm", 20, "idle_speed", "idle speed in gear",
                                 "Read it with a code reader; misfire and low idle imitate a mount.", 4))),
        choice_of({"right", "low"}, "idle_against_maker", "idle in gear against the maker's figure",
                  "Read it with a code reader, brake held, and compare it with the sticker or the handbook.", 4),
        yes_or_no("misfire", "misfire",
                  "Read the misfire counters, or switch off one cylinder at a time: each must drop the idle alike.", 5),
        when_raised(yes_or_no("exhaust_touches", "exhaust touches the body",
                              "Engine cold: rock the exhaust, pry it gently at each hanger, and look for bright rubbed "
                              "spots.",
                              6)),
        when_raised(
            yes_or_no("driveline_play", "play in a drive shaft or its joint",
                      "Engine off, on stands, wheels chocked: turn each shaft to and fro by hand and feel where "
                      "it moves.",
                      8)),
        yes_or_no("shift_clunk", "clunk from drive to reverse",
                  "Brake held, nobody in the path: drive, neutral, reverse.", 3),
        within(1, 2000,
               number_of("mm", 1, "engine_height_left", "engine height, left",
                         "Measure from a fixed point of the body to the engine, left.", 6)),
        within(1, 2000,
               number_of("mm", 1, "engine_height_right", "engine height, right",
                         "Measure from the mirrored point of the body to the engine, right.", 6)),
        when_raised(choice_of({"sound", "cracked", "separated", "split"}, "mount_rubber", "state of the mount rubber",
                              "Look with a torch; lever gently and watch for a gap.", 8)),
    };
}

// The lengths within the tolerances of the attributes; of a free height, common practice.
DecidedBy mount_decided() {
    return {"mounts_mounts",
            {{"position", "position"},
             {"kind", "kind"},
             {"connection", "hose or plug"},
             {"bracket", "bracket"},
             {"stud_thread_mm", "thread of the stud, mm", 0.3},
             {"stud_length_mm", "length of the stud, mm", 1},
             {"locating_pin", "locating pin"},
             {"height_mm", "height, mm", 2}}};
}

}  // namespace

Vocabulary vocabulary() {
    return vocabulary_of(
        together({identities(), as_findings(observations())}),
        {{"engine-mount",
          "engine mount",
          StandIns::may_be_offered,
          {{"engine-mount-left", "engine mount, left"},
           {"engine-mount-right", "engine mount, right"},
           {"engine-mount-front", "engine mount, front"},
           {"engine-mount-rear", "engine mount, rear"}},
          "each",
          mount_decided()},
         {"gearbox-mount",
          "gearbox mount",
          StandIns::may_be_offered,
          {{"gearbox-mount", "gearbox mount"}},
          "each",
          mount_decided()},
         {"torque-mount",
          "torque mount",
          StandIns::may_be_offered,
          {{"torque-mount", "torque mount"}},
          "each",
          mount_decided()},
         {"mount-bracket",
          "mount bracket",
          StandIns::may_be_offered,
          {{"mount-bracket-left", "mount bracket, left"}, {"mount-bracket-right", "mount bracket, right"}}},
         {"mount-bolt",
          "mount bolt",
          StandIns::may_be_offered,
          {{"engine-mount-bolts", "engine mount bolts"},
           {"gearbox-mount-bolts", "gearbox mount bolts"},
           {"torque-mount-bolts", "torque mount bolts"}}},
         {"mount-nut", "mount nut", StandIns::may_be_offered, {{"engine-mount-nuts", "engine mount nuts"}}},
         {"mount-hose", "vacuum hose of a mount", StandIns::may_be_offered, {{"mount-hose", "mount vacuum hose"}}}});
}

}  // namespace casebound::mounts
