// A bush on its bar, and a rubber that is tightened while the wheel hangs.
#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/records.h"
#include "science/bar.h"

namespace casebound::stabilisers {
namespace {

const char* bush_headline(BushAnswer found) {
    switch (found) {
        case BushAnswer::too_large: return "Too large for this bar: it knocks from the first day.";
        case BushAnswer::too_small: return "Too small for this bar: it does not close, or it is torn by its clamp.";
        case BushAnswer::bar_worn: return "The bar is worn thin under its bush: a new bush knocks there too.";
        case BushAnswer::for_this_bar: break;
    }
    return "For this bar.";
}

Answer answer_bush(const Given& given, const Services&) {
    const auto under_mm = given.maybe_number("under");
    const auto found = bush_on_bar(given.number("for-bar"), given.number("bar"), under_mm);
    auto answer = Answer::judging(Verdict::fits);
    if (found == BushAnswer::bar_worn) answer.lower(Verdict::check_first);
    else if (found != BushAnswer::for_this_bar) answer.lower(Verdict::does_not_fit);
    else if (!under_mm) answer.next.push_back("Measure the bar under the old bush too: it wears there.");
    answer.headline = bush_headline(found);
    answer.lines = {measure_line("the bush is for", given.number("for-bar"), "mm", 1, given.source("for-bar")),
                    measure_line("the bar beside the bush", given.number("bar"), "mm", 1, given.source("bar"))};
    if (under_mm)
        answer.lines.push_back(measure_line("the bar under the bush", *under_mm, "mm", 1, given.source("under")));
    answer.lines.push_back(text_line(
        "bush on the bar", bush_headline(found),
        fed_by(from_memory("bushes come in steps of 1 mm, from memory"), given, {"for-bar", "bar", "under"})));
    answer.assumptions = {"within 0.5 mm is the same bar, from memory; a maker's limit replaces it"};
    answer.cautions = {"no oil or grease on plain rubber; soap water, or what the maker names"};
    return answer;
}

Answer answer_twist(const Given& given, const Services&) {
    auto answer = Answer::computing();
    const double degrees = twist_deg(given.number("arm"), given.number("droop"));
    const auto source = fed_by(computed("asin(droop / arm), level at ride height"), given, {"arm", "droop"});
    answer.headline = "Tightened while the wheel hangs, the rubber stands twisted by " + fixed(degrees, 1) +
                      " degrees whenever the vehicle stands on its wheels.";
    answer.lines = {measure_line("twist at ride height", degrees, "deg", 1, source)};
    answer.next = {"Put the weight on the wheels, on ramps or a pit, roll it once, then give the last turn."};
    answer.assumptions = {"the arm is level at ride height, and the rubber turns with the arm"};
    answer.cautions = {
        "no figure here says how much a rubber bears: a ball stud does not mind, an eye with rubber does"};
    return answer;
}

}  // namespace

Inquiry bush_inquiry() {
    return {"bush",
            "A bush of the stabiliser bar against the bar as measured, and whether the bar is worn under it",
            {key_of(text_input("bush", "interchange group or item of the bush"), "stabilisers_bushes"),
             required(recorded(number_input("for-bar", "diameter of the bar that the bush is for", "mm", 8, 60),
                               "stabilisers_bushes", "bar_mm")),
             required(found_by(number_input("bar", "diameter of the bar beside the bush", "mm", 8, 60),
                               "Wipe the bar beside its bush and measure it with a calliper.")),
             number_input("under", "diameter of the bar under the old bush", "mm", 8, 60)},
            answer_bush,
            "for-bar=24mm bar=26mm"};
}

Inquiry twist_inquiry() {
    return {
        "twist",
        "How far a rubber bush stands twisted when its bolt was tightened with the wheel hanging",
        {required(number_input("arm", "length of the arm from its bush to where the wheel moves it", "mm", 50, 1500)),
         required(found_by(number_input("droop", "how far the wheel hangs below ride height", "mm", 0, 1500),
                           "Measure from wheel centre to wing edge, standing and hanging; take the difference."))},
        answer_twist,
        "arm=300mm droop=150mm"};
}

}  // namespace casebound::stabilisers
