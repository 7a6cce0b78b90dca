// What a domain's inquiry `findings` answers: which of the findings told speak of trouble. Names no cause. Part of
// the contract; core asks this inquiry of every domain that has it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/contract/plugin.h"

namespace casebound {

struct Trouble {
    std::string_view attribute, values;  // values: those that speak of trouble, between bars: "|low|high|"
    const char* words;
};

inline SourceNote told_note(const Told& told) {
    const bool seen = told.evidence == "measured" || told.evidence == "read";
    return {seen ? Evidence::measured : Evidence::memory, "told: " + told.evidence + " " + told.date};
}

// `of`: what the domain looks after, in words. `more` may add a line for a finding that a list of values cannot judge.
inline Answer told_trouble(const Services& services, const std::vector<Trouble>& troubles, const std::string& of,
                           void (*more)(const Told&, std::vector<AnswerLine>&) = nullptr) {
    Answer answer;
    if (services.vehicle == nullptr) {
        answer.verdict = Verdict::not_recorded;
        answer.headline = "Cannot tell: findings are told about a vehicle.";
        answer.next.emplace_back("Name one with --for.");
        return answer;
    }
    for (const auto& told : services.vehicle->told()) {
        if (more) more(told, answer.lines);
        for (const auto& trouble : troubles)
            if (told.attribute == trouble.attribute)
                for (const auto& seen : told.seen())
                    if (!seen.empty() && trouble.values.find("|" + seen + "|") != std::string_view::npos)
                        answer.lines.push_back({trouble.words, seen, told_note(told)});
    }
    answer.verdict = answer.lines.empty() ? Verdict::not_recorded : Verdict::check_first;
    answer.headline = (answer.lines.empty() ? "Nothing told of " : "Something told of ") + of + " speaks of trouble.";
    return answer;
}

}  // namespace casebound
