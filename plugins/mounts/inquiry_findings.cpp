// `findings`: which of the findings told speak of trouble, and what the evidence still lacks. Names no cause.
#include <string>
#include <string_view>

#include "inquiries.h"

namespace casebound::mounts {
namespace {

struct Trouble {
    std::string_view attribute, values;  // values: those that speak of trouble, between bars
    const char* words;
};

constexpr Trouble troubles[] = {
    {"mount_leak", "|left|right|both|", "fluid at an engine mount"},
    {"idle_shake", "|in_gear|in_neutral|always|", "shake at idle"},
    {"misfire", "|yes|", "misfire"},
    {"shift_clunk", "|yes|", "clunk from drive to reverse"},
    {"mount_rubber", "|cracked|separated|split|", "mount rubber"},
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
    answer.verdict = answer.lines.empty() ? Verdict::not_recorded : Verdict::check_first;
    answer.headline = answer.lines.empty() ? "Nothing told of the mounts speaks of trouble." : "Something told of the mounts speaks of trouble.";
    return answer;
}

}  // namespace

std::vector<Inquiry> finding_inquiries() { return {{"findings", "Which findings about the mounts speak of trouble", {}, answer_findings}}; }

}  // namespace casebound::mounts
