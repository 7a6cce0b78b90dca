// `findings`: which of the findings told speak of trouble, and what the evidence still lacks. Names no cause.
#include <algorithm>
#include <string>

#include "rows/findings.h"
#include "core/contract/told_trouble.h"
#include "inquiries/inquiries.h"

namespace casebound::solenoids {
namespace {

// 1 2 3 ... one after the other, as far as there are gears, and then reverse, is what a sound gearbox gives.
bool in_order(std::string gears) {
    if (gears.size() > 2 && gears.compare(gears.size() - 2, 2, "-R") == 0) gears.resize(gears.size() - 2);
    int expected = 1, gear = 0;
    for (const char c : gears + "-") {
        if (c >= '0' && c <= '9') gear = gear * 10 + (c - '0');
        else if (c != '-' && c != ' ') return false;
        else if (gear != expected++) return false;
        else gear = 0;
    }
    return true;
}

bool is_coil(std::string_view attribute) { return attribute.rfind("coil_", 0) == 0; }

bool speaks_of_trouble(const Told& told) {
    return (told.attribute == "codes" && told.text != "none") ||
           (told.attribute == "slips_in" && told.text != "none") || (is_coil(told.attribute) && told.text == "open") ||
           (told.attribute == "gears_obtained" && !in_order(told.text));
}

std::string words_of(const std::string& attribute) {
    if (is_coil(attribute)) {
        auto words = attribute;
        std::replace(words.begin(), words.end(), '_', ' ');
        return words + ", an open circuit";
    }
    return attribute == "codes"      ? "codes stored"
           : attribute == "slips_in" ? "slips in gear"
                                     : "gears obtained for 1, 2, 3 ...";
}

void gears_and_codes(const Told& told, std::vector<AnswerLine>& lines) {
    if (speaks_of_trouble(told)) lines.push_back({words_of(told.attribute), told.text, told_note(told)});
}

Answer answer_findings(const Given&, const Services& services) {
    Answer answer = told_trouble(
        services,
        {
            {"connector_state", "|wet|oily|corroded|pins_spread|", "case connector"},
            {"feed_fuse", "|blown|", "fuse of the gearbox controller"},
            {"gearbox_noise", "|whine_with_engine|whine_with_speed|rumble|grind|buzz|", "noise of the gearbox"},
            {"swap_result", "|moves_with_part|", "swap of two like solenoids"},
        },
        "gears, codes and circuits", gears_and_codes);
    if (services.vehicle) answer.cautions = code_cautions(*services.vehicle);
    return answer;
}

}  // namespace

std::vector<Inquiry> finding_inquiries() {
    return {{"findings",
             "Which findings about gears, codes and circuits speak of trouble, and what the codes are worth",
             {},
             answer_findings}};
}

}  // namespace casebound::solenoids
