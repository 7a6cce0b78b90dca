// One link beside another: what is recorded of each, what the vehicle shows, what is in the hand.
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
        number("-thread", part.thread_mm);
        number("-pitch", part.pitch_mm);
        number("-length", part.length_mm);
        number("-angle", part.angle_deg);
    }
};

// What was told of the axle fills what neither the hand nor a record says of the old link.
void fill_from_vehicle(LinkInHand& old, const VehicleView* vehicle) {
    const auto seen = link_seen(vehicle, old.part.place);
    if (!seen.source) return;
    auto& link = old.part;
    if (link.ends == Ends::unknown) link.ends = seen.link.ends;
    for (auto field : {&Link::thread_mm, &Link::pitch_mm, &Link::length_mm, &Link::angle_deg})
        if (!(link.*field)) link.*field = seen.link.*field;
    old.rests_on(*seen.source);
}

Answer answer_compare(const Given& given, const Services& services) {
    auto old = in_hand<LinkInHand>(given, services, "old", "stabilisers_links", link_of_row);
    const auto offered = in_hand<LinkInHand>(given, services, "new", "stabilisers_links", link_of_row);
    fill_from_vehicle(old, services.vehicle);
    auto answer = answer_of(differences(old.part, offered.part), "axle, side, ends, thread, pitch, length and angle",
                            weaker(old.source.value_or(practice()), offered.source.value_or(practice())));
    answer.assumptions = {"alike: thread within 0.3 mm, pitch 0.1 mm, length 2 mm, angle 5 degrees; from memory"};
    return answer;
}

}  // namespace

Inquiry compare_inquiry() {
    auto inputs = inputs_of("old", "the old link");
    for (auto& input : inputs_of("new", "the new link")) inputs.push_back(std::move(input));
    return {"compare", "The new link beside the old one: axle, side, ends, thread, pitch, length, angle",
            std::move(inputs), answer_compare, "old-thread=10mm new-thread=12mm"};
}

}  // namespace casebound::stabilisers
