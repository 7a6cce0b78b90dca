// A washer in the hand against the thread of the plug.
#include "science/washer.h"

#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/records.h"

namespace casebound::service_fluids {
namespace {

const char* headline_of(WasherAnswer found) {
    if (found == WasherAnswer::too_tight) return "It does not go over the thread.";
    return found == WasherAnswer::too_wide ? "Too wide: it lies beside the middle and leaks."
                                           : "It goes over the thread; its rim must lie on the pan all round.";
}

Answer answer_washer(const Given& given, const Services&) {
    const auto found = washer_on(given.number("inside"), given.number("thread"));
    auto answer = Answer::judging(found == WasherAnswer::goes_on ? Verdict::fits : Verdict::does_not_fit);
    answer.headline = headline_of(found);
    answer.lines = {text_line(
        "hole of " + with_unit(given.number("inside"), "mm") + " over M" + number_text(given.number("thread")),
        headline_of(found), fed_by(from_memory("up to 1.5 mm wider, from memory"), given, {"inside", "thread"}))};
    if (found != WasherAnswer::goes_on) return answer;
    const auto form = given.text_or("form");
    if (form.empty()) answer.next.push_back("Say what it is made of: a crush washer goes on once.");
    if (form == "crush") answer.cautions.push_back("a crush washer goes on once: new each time");
    if (form == "copper")
        answer.cautions.push_back("copper hardens: new each time, or heat it red and let it cool in water");
    answer.cautions.push_back("look for the old washer on the pan: two on each other leak");
    return answer;
}

std::vector<Input> asked() {
    return {key_of(text_input("washer", "interchange group or item of the washer"), washers),
            required(recorded(number_input("inside", "hole of the washer", "mm", 3, 60), washers, "inside_mm")),
            required(
                found_by(told(number_input("thread", "thread of the plug, 14 for M14", "mm", 3, 60), "oil_plug_thread"),
                         "Measure it with a calliper.")),
            recorded(choice_input("form", "what it is", {"copper", "aluminium", "crush", "bonded", "plain_rubber"}),
                     washers, "form")};
}

}  // namespace

Inquiry washer_inquiry() {
    return {"washer", "A washer on a drain plug, by hole and thread, and whether it goes on again", asked(),
            answer_washer, "inside=14.2mm thread=14mm"};
}

}  // namespace casebound::service_fluids
