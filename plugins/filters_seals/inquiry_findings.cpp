// `findings`: which of the findings told speak of trouble, and what the evidence still lacks. Names no cause.
#include <string>
#include <string_view>

#include "inquiries.h"

namespace casebound::filters_seals {
namespace {

struct Trouble {
    std::string_view attribute, values;  // values: those that speak of trouble, between bars
    const char* words;
};

constexpr Trouble troubles[] = {
    {"pan_debris", "|grey_paste_thick|brass_flakes|steel_pieces|black_flakes|aluminium_glitter|varnish_film|plastic_bits|sealant_strings|", "what lies in the pan"},
    {"leak_at", "|pan_rail|drain_plug|selector_shaft|case_connector|cooler_line|dipstick_tube|output_shaft|", "wet at"},
    {"old_gasket_state", "|damaged|", "old gasket"},
};

bool among(std::string_view values, std::string_view text) {
    return !text.empty() && values.find("|" + std::string(text) + "|") != std::string_view::npos;
}

SourceNote told_note(const Told& told) {
    const bool seen = told.evidence == "measured" || told.evidence == "read";
    return {seen ? Evidence::measured : Evidence::memory, "told: " + told.evidence + " " + told.date};
}

Answer answer_findings(const Given&, const Services& services) {
    Answer answer;
    if (services.vehicle == nullptr) {
        answer.verdict = Verdict::not_recorded;
        answer.headline = "Cannot tell: findings are told about a vehicle.";
        answer.next.emplace_back("Name one with --for.");
        return answer;
    }
    for (const auto& told : services.vehicle->told())
        for (const auto& trouble : troubles)
            if (told.attribute == trouble.attribute && among(trouble.values, told.text))
                answer.lines.push_back({trouble.words, told.text, told_note(told)});
    for (const auto& told : services.vehicle->told())
        if (told.attribute == "seals_in_bore" && told.number.value_or(0) > 1)
            answer.lines.push_back({"seals found up the bore", told.text + ", stacked: an old one was left in", told_note(told)});
    answer.verdict = answer.lines.empty() ? Verdict::not_recorded : Verdict::check_first;
    answer.headline = answer.lines.empty() ? "Nothing told of pan, filter and seals speaks of trouble." : "Something told of pan, filter and seals speaks of trouble.";
    return answer;
}

}  // namespace

std::vector<Inquiry> finding_inquiries() { return {{"findings", "Which findings about pan, filter and seals speak of trouble", {}, answer_findings}}; }

}  // namespace casebound::filters_seals
