// One link beside another: what is recorded of each, what the vehicle shows, what is in the hand.
#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/records.h"

namespace casebound::stabilisers {
namespace {

std::vector<std::string> choices_of(const std::string_view* first, std::size_t count) {
    return {first + 1, first + count};
}

std::vector<Input> inputs_of(const std::string& which, const std::string& whose) {
    return {key_of(text_input(which, "interchange group or item of " + whose), "stabilisers_links"),
            choice_input(which + "-axle", "axle of " + whose, choices_of(axle_words.data(), axle_words.size())),
            choice_input(which + "-side", "side of " + whose, choices_of(side_words.data(), side_words.size())),
            choice_input(which + "-ends", "ends of " + whose, choices_of(ends_words.data(), ends_words.size())),
            number_input(which + "-thread", "thread of " + whose + ", 10 for M10", "mm", 5, 24),
            number_input(which + "-pitch", "pitch of " + whose, "mm", 0.5, 3),
            number_input(which + "-length", "length of " + whose + " between centres", "mm", 30, 700),
            number_input(which + "-angle", "angle between the studs of " + whose, "deg", 0, 180)};
}

struct Hand {
    const Given& given;
    std::string which;
    Link link{};
    std::optional<SourceNote> source{};

    void rests_on(const SourceNote& more) { source = source ? weaker(*source, more) : more; }

    template <class Value, std::size_t N>
    void word(const char* part, const std::array<std::string_view, N>& words, Value& field) {
        if (!given.has(which + part)) return;
        field = value_of<Value>(given.text(which + part), words);
        rests_on(given.source(which + part));
    }
    void number(const char* part, std::optional<double>& field) {
        if (!given.has(which + part)) return;
        field = given.number(which + part);
        rests_on(given.source(which + part));
    }
    void take_by_hand() {
        word("-axle", axle_words, link.place.axle);
        word("-side", side_words, link.place.side);
        word("-ends", ends_words, link.ends);
        number("-thread", link.thread_mm);
        number("-pitch", link.pitch_mm);
        number("-length", link.length_mm);
        number("-angle", link.angle_deg);
    }
};

Hand hand_of(const Given& given, const Services& services, const std::string& which) {
    Hand hand{given, which};
    const auto* row = given.has(which) ? row_of_group(services.facts, "stabilisers_links", given.text(which)) : nullptr;
    if (row) {
        hand.link = link_of_row(*row);
        hand.rests_on(row_source(*row));
    }
    hand.take_by_hand();
    return hand;
}

// What was told of the axle fills what neither the hand nor a record says of the old link.
void fill_from_vehicle(Hand& old, const VehicleView* vehicle) {
    const auto seen = link_seen(vehicle, old.link.place);
    if (!seen.source) return;
    auto& link = old.link;
    if (link.ends == Ends::unknown) link.ends = seen.link.ends;
    for (auto field : {&Link::thread_mm, &Link::pitch_mm, &Link::length_mm, &Link::angle_deg})
        if (!(link.*field)) link.*field = seen.link.*field;
    old.rests_on(*seen.source);
}

std::string headline_of(const std::vector<Difference>& all, std::optional<Weight> most) {
    if (!most) return "Alike in axle, side, ends, thread, pitch, length and angle.";
    std::string text;
    for (const auto& one : all)
        if (one.weight == *most) text.append(text.empty() ? "" : "; ").append(one.what);
    if (*most == Weight::no) return "Not this one: it differs in " + text + ".";
    return *most == Weight::needs_something ? "It goes only with care: " + text + "."
                                            : "Cannot tell yet: not known of both: " + text + ".";
}

Answer answer_compare(const Given& given, const Services& services) {
    auto old = hand_of(given, services, "old");
    const auto offered = hand_of(given, services, "new");
    fill_from_vehicle(old, services.vehicle);
    const auto all = differences(old.link, offered.link);
    const auto most = heaviest(all);
    auto answer = Answer::judging(!most                 ? Verdict::fits
                                  : *most == Weight::no ? Verdict::does_not_fit
                                                        : Verdict::check_first);
    answer.headline = headline_of(all, most);
    const auto source = weaker(old.source.value_or(practice()), offered.source.value_or(practice()));
    for (const auto& one : all) {
        answer.lines.push_back(text_line(one.what, one.says, source));
        if (one.weight == Weight::not_known) answer.next.push_back("Find out of both: " + one.what + ".");
    }
    if (all.empty()) answer.lines.push_back(text_line("differences", "none", source));
    answer.assumptions = {"alike: thread within 0.3 mm, pitch 0.1 mm, length 2 mm, angle 5 degrees; from memory"};
    answer.cautions = {"alike in the hand is no application: a parts list decides what the vehicle takes"};
    return answer;
}

}  // namespace

Inquiry compare_inquiry() {
    auto inputs = inputs_of("old", "the old link");
    for (auto& input : inputs_of("new", "the new link")) inputs.push_back(std::move(input));
    return {"compare", "The new link beside the old one: axle, side, ends, thread, pitch, length, angle",
            std::move(inputs), answer_compare};
}

}  // namespace casebound::stabilisers
