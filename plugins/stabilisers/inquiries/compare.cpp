// One link beside another: what is recorded of each, what the vehicle shows, what is in the hand.
#include <utility>

#include "core/contract/comparison.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/records.h"

namespace casebound::stabilisers {
namespace {

std::vector<Input> inputs_of(const std::string& which, const std::string& whose) {
    return {key_of(text_input(which, "interchange group or item of " + whose), "stabilisers_links"),
            choice_input(which + "-axle", "axle of " + whose, choices_of(axle_words)),
            choice_input(which + "-side", "side of " + whose, choices_of(side_words)),
            choice_input(which + "-ends", "ends of " + whose, choices_of(ends_words)),
            number_input(which + "-thread", "thread of " + whose + ", 10 for M10", "mm", 5, 24),
            number_input(which + "-pitch", "pitch of " + whose, "mm", 0.5, 3),
            number_input(which + "-length", "length of " + whose + " between centres", "mm", 30, 700),
            number_input(which + "-angle", "angle between the studs of " + whose, "deg", 0, 180)};
}

struct LinkInHand : PartInHand {
    Link part{};

    void take_by_hand() {
        value("-axle", axle_words, part.place.axle);
        value("-side", side_words, part.place.side);
        value("-ends", ends_words, part.ends);
        for (const auto& [name, field] : {std::pair{"-thread", &Link::thread_mm},
                                          {"-pitch", &Link::pitch_mm},
                                          {"-length", &Link::length_mm},
                                          {"-angle", &Link::angle_deg}})
            number(name, part.*field);
    }
};

void fill(Link& old, const Link& seen) {
    if (old.ends == Ends::unknown) old.ends = seen.ends;
    fill_gaps(old, seen, {&Link::thread_mm, &Link::pitch_mm, &Link::length_mm, &Link::angle_deg});
}

Answer answer_compare(const Given& given, const Services& services) {
    return beside_the_old<LinkInHand>(
        given, services, "stabilisers_links", link_of_row, link_seen, fill,
        "axle, side, ends, thread, pitch, length and angle",
        "alike: thread within 0.3 mm, pitch 0.1 mm, length 2 mm, angle 5 degrees; from memory");
}

}  // namespace

Inquiry compare_inquiry() {
    return {"compare", "The new link beside the old one: axle, side, ends, thread, pitch, length, angle",
            inputs_of_both(inputs_of, "link"), answer_compare, "old-thread=10mm new-thread=12mm"};
}

}  // namespace casebound::stabilisers
