// A clunk over bumps: what it points at, and what to feel by hand before anything is ordered.
#include "science/clunk.h"

#include <algorithm>
#include <iterator>
#include <utility>

#include "core/contract/advice.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/findings.h"
#include "rows/records.h"

namespace casebound::stabilisers {
namespace {

// By hand first, told of the vehicle where nothing is given.
ToldClunk seen_of(const Given& given, const Services& services) {
    auto seen = clunk_told(services.vehicle);
    auto& clunk = seen.clunk;
    if (given.has("when")) {
        const auto& when = given.text("when");
        clunk.when = when == "one_wheel"     ? When::one_wheel
                     : when == "both_wheels" ? When::both_wheels
                     : when == "steering"    ? When::steering
                                             : When::braking;
    }
    static constexpr std::pair<const char*, std::optional<bool> Clunk::*> felt[]{
        {"play", &Clunk::link_play},
        {"boot-torn", &Clunk::boot_torn},
        {"bush-play", &Clunk::bush_play},
        {"quiet-off", &Clunk::quiet_with_links_off},
        {"ball-joint", &Clunk::ball_joint_play},
        {"strut-top", &Clunk::strut_top_play}};
    for (const auto& [name, field] : felt)
        if (const auto value = given.maybe_yes(name)) clunk.*field = value;
    if (!clunk.link_play.value_or(false)) seen.play.clear();
    if (!clunk.boot_torn.value_or(false)) seen.torn.clear();
    return seen;
}

constexpr std::pair<Suspect, Advice> advice[]{
    {Suspect::ball_joint_first,
     {Verdict::check_first, "Do not drive it: a ball joint that holds the wheel has play; mend that first.",
      "Lever under the tyre once more and mark which joint moves."}},
    {Suspect::link,
     {Verdict::fits, "Replace the link that has play.",
      "Feel the other link of the axle the same way before ordering."}},
    {Suspect::bush,
     {Verdict::fits, "Replace the bushes of that bar; no link was felt to have play.",
      "Measure the bar beside the bush, and under it: a worn bar wears the new bush out."}},
    {Suspect::link_or_bush,
     {Verdict::check_first, "A link or a bush of the bar: it is quiet without the links, and no play was found.",
      "Shake the links in the hand while they are off, and push the bar up and down in its bushes."}},
    {Suspect::strut_top,
     {Verdict::check_first, "The top of the strut first: it has play, and no link was felt to have any.",
      "Feel each link for play by hand."}},
    {Suspect::not_the_bar,
     {Verdict::check_first, "Not the links: what clunks so loads neither link nor bar. Look elsewhere first.",
      "Look at the top of the strut, the shock absorber, the bushes of the arm, the brake caliper."}},
    {Suspect::steering_or_strut,
     {Verdict::check_first, "Look at the top of the strut and at the steering first.",
      "Lay a finger on the spring while a helper turns the wheel at rest."}},
    {Suspect::link_worn_soon,
     {Verdict::check_first, "A link with a torn boot wears out, and has no play that anyone has felt.",
      "Feel for play by hand; without play it is no cause of the clunk."}}};
constexpr Advice past_the_links{Verdict::check_first, "Cannot tell yet, but no link: each was felt, and none has play.",
                                "Take both links off the bar, tie them up, drive slowly on a yard, and listen."};
constexpr Advice feel_first{Verdict::check_first,
                            "Cannot tell yet: feel each link for play by hand before anything is ordered.",
                            "On ramps, both wheels of the axle at one height: grip the link at each end and shake it."};

// Past the links, the quickest that nobody has looked at.
Advice look_past(const Clunk& clunk) {
    auto past = past_the_links;
    if (!clunk.bush_play) past.next = "Push the bar up and down beside each clamp and watch the rubber.";
    else if (!clunk.strut_top_play)
        past.next = "Lay a finger on the top of the strut while a helper rocks the vehicle.";
    return past;
}

Advice advice_on(const Clunk& clunk) {
    const auto suspect = suspect_of(clunk);
    if (suspect == Suspect::past_the_links) return look_past(clunk);
    const auto* found = std::find_if(std::begin(advice), std::end(advice),
                                     [&](const auto& one) { return one.first == suspect; });
    return found == std::end(advice) ? feel_first : found->second;
}

void add_places(Answer& answer, const char* label, const std::vector<Place>& places, const SourceNote& source) {
    for (const auto& place : places)
        answer.lines.push_back(text_line(
            label, axle_said(place.axle) + " " + std::string(side_words[static_cast<std::size_t>(place.side)]),
            source));
}

// What sources say of the pair, at each axle where a link has play.
void add_pairs(Answer& answer, const ToldClunk& seen, const Services& services) {
    for (const auto& row : rows_here(services, "stabilisers_both_sides"))
        for (const auto& place : seen.play)
            if (value_of<Axle>(row->text("axle"), axle_words) == place.axle)
                answer.lines.push_back(
                    text_line("both links of the axle", cell(*row, "rule") + row.where(), row_source(*row)));
}

Answer answer_clunk(const Given& given, const Services& services) {
    const auto seen = seen_of(given, services);
    Advised advised(advice_on(seen.clunk), given,
                    {"when", "play", "boot-torn", "bush-play", "quiet-off", "ball-joint", "strut-top"});
    auto& answer = advised.answer;
    add_places(answer, "play of a link", seen.play, seen.source);
    add_places(answer, "torn boot of a link", seen.torn, seen.source);
    advised.rests_on(seen.source);
    advised.say_what_it_points_at();
    add_pairs(answer, seen, services);
    answer.assumptions = {"the bar works only when the two wheels of an axle move apart; the rest is common practice"};
    answer.cautions = {"on ramps with the wheels blocked, never under a vehicle that only a jack holds",
                       "with the links off it leans more: at walking pace, on a yard"};
    return std::move(answer);
}

std::vector<Input> asked() {
    return {
        told(choice_input("when", "when it clunks", {"one_wheel", "both_wheels", "steering", "braking"}), "clunk_when"),
        yes_no_input("play", "has a link play by hand, both wheels at one height?"),
        yes_no_input("boot-torn", "is the boot of a link torn?"),
        yes_no_input("bush-play", "does the bar move in a bush?"),
        told(yes_no_input("quiet-off", "is it quiet with both links off the bar?"), "quiet_with_links_off"),
        told(yes_no_input("ball-joint", "has a ball joint that holds the wheel play?"), "ball_joint_play"),
        told(yes_no_input("strut-top", "has the top of the strut play?"), "strut_top_play")};
}

}  // namespace

Inquiry clunk_inquiry() {
    return {"clunk", "A clunk over bumps: a link, a bush of the bar, or something that sounds like one", asked(),
            answer_clunk, "when=one_wheel play=yes"};
}

}  // namespace casebound::stabilisers
