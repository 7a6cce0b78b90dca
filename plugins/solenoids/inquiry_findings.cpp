// `findings`: which of the findings told speak of trouble, and what the evidence still lacks. Names no cause.
#include <string>
#include <string_view>

#include "code_evidence.h"
#include "inquiries.h"

namespace casebound::solenoids {
namespace {

struct Trouble {
    std::string_view attribute, values;  // values: those that speak of trouble, between bars
    const char* words;
};

constexpr Trouble troubles[] = {
    {"connector_state", "|wet|oily|corroded|pins_spread|", "case connector"},
    {"feed_fuse", "|blown|", "fuse of the gearbox controller"},
    {"gearbox_noise", "|whine_with_engine|whine_with_speed|rumble|grind|buzz|", "noise of the gearbox"},
    {"swap_result", "|moves_with_part|", "swap of two like solenoids"},
};

bool among(std::string_view values, std::string_view text) {
    return !text.empty() && values.find("|" + std::string(text) + "|") != std::string_view::npos;
}

SourceNote told_note(const Told& told) {
    const bool seen = told.evidence == "measured" || told.evidence == "read";
    return {seen ? Evidence::measured : Evidence::memory, "told: " + told.evidence + " " + told.date};
}

// 1 2 3 ... one after the other, as far as there are gears, is what a sound gearbox gives.
bool in_order(const std::string& gears) {
    int expected = 1, gear = 0;
    for (const char c : gears + "-") {
        if (c >= '0' && c <= '9') gear = gear * 10 + (c - '0');
        else if (c != '-' && c != ' ') return false;
        else if (gear != expected++) return false;
        else gear = 0;
    }
    return true;
}

bool speaks_of_trouble(const Told& told) {
    return (told.attribute == "codes" && told.text != "none") || told.attribute == "slips_in" || (told.attribute == "gears_obtained" && !in_order(told.text));
}

const char* words_of(std::string_view attribute) { return attribute == "codes" ? "codes stored" : attribute == "slips_in" ? "slips in gear" : "gears obtained for 1, 2, 3 ..."; }

Answer answer_findings(const Given&, const Services& services) {
    Answer answer;
    if (services.vehicle == nullptr) {
        answer.verdict = Verdict::not_recorded;
        answer.headline = "Cannot tell: findings are told about a vehicle.";
        answer.next.emplace_back("Name one with --for.");
        return answer;
    }
    for (const auto& told : services.vehicle->told()) {
        if (speaks_of_trouble(told)) answer.lines.push_back({words_of(told.attribute), told.text, told_note(told)});
        for (const auto& trouble : troubles)
            if (told.attribute == trouble.attribute && among(trouble.values, told.text)) answer.lines.push_back({trouble.words, told.text, told_note(told)});
    }
    answer.cautions = code_cautions(*services.vehicle);
    answer.verdict = answer.lines.empty() ? Verdict::not_recorded : Verdict::check_first;
    answer.headline = answer.lines.empty() ? "Nothing told of gears, codes and circuits speaks of trouble." : "Something told of gears, codes and circuits speaks of trouble.";
    return answer;
}

}  // namespace

std::vector<Inquiry> finding_inquiries() { return {{"findings", "Which findings about gears, codes and circuits speak of trouble, and what the codes are worth", {}, answer_findings}}; }

}  // namespace casebound::solenoids
