#include "inquiries/clearance.h"

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "science/clearance.h"

namespace casebound::new_domain {
namespace {

// Core has filled the inputs, by hand, from what was told or from the pack, and shows where each comes from.
Answer answered(const Given& given, const Services&) {
    auto answer = Answer::judging(Verdict::fits);
    if (!given.has("length") || !given.has("space")) {
        answer.lower(Verdict::check_first);
        answer.headline = "Cannot tell yet: it takes the length of the part and the space for it.";
        return answer;
    }
    const double room_mm = clearance_mm(given.number("space"), given.number("length"));
    const bool tight = room_mm<least_clearance_mm, loose = room_mm> most_clearance_mm;
    if (tight || loose) answer.lower(Verdict::does_not_fit);
    answer.headline = tight   ? "Take a shorter part: this one does not go in."
                      : loose ? "Take a longer part: this one is loose."
                              : "This part goes in.";
    answer.lines = {measure_line("clearance", room_mm, "mm", 1, weaker(given.source("length"), given.source("space")))};
    answer.next = {"Hold the part into its place before the old one is thrown away."};
    return answer;
}

}  // namespace

Inquiry clearance() {
    return {"clearance",
            "How much room a part has in its place",
            {key_of(text_input("part", "the part, or its part number"), "new_domain_parts"),
             found_by(
                 recorded(number_input("length", "length of the part", "mm", 1, 3000), "new_domain_parts", "length_mm"),
                 "measure the part over all"),
             found_by(recorded(told(number_input("space", "space for it", "mm", 1, 3000), "new_domain_space"),
                               "new_domain_places", "space_mm"),
                      "measure between the two brackets")},
            answered};
}

}  // namespace casebound::new_domain
