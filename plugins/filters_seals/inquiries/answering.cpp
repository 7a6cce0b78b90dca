#include "inquiries/answering.h"

namespace casebound::filters_seals {

Verdict verdict_of(Judgement judgement) {
    switch (judgement) {
        case Judgement::fits: return Verdict::fits;
        case Judgement::check_first: return Verdict::check_first;
        case Judgement::does_not_fit: return Verdict::does_not_fit;
    }
    return Verdict::check_first;
}

bool is_doubtful(const Given& given, std::string_view name) {
    return given.has(name) && (given.hearsay(name) || given.source(name).evidence == Evidence::memory);
}

void ask_to_check(Answer& answer, std::string_view words, const SourceNote& source) {
    answer.verdict = Verdict::check_first;
    answer.next.push_back("Check the " + std::string(words) + " here: so far it is " + source.title + ".");
}

Answer judged(Judgement judgement, const Given& given,
              std::initializer_list<std::pair<std::string_view, std::string_view>> used) {
    Answer answer = Answer::judging(verdict_of(judgement));
    for (const auto& [name, words] : used)
        if (is_doubtful(given, name)) ask_to_check(answer, words, given.source(name));
    return answer;
}

bool by_hand(const Given& given, std::string_view name) {
    const auto at = given.values.find(name);
    return at != given.values.end() && at->second.from == From::by_hand;
}

const Row* named_row(const Given& given, const Services& services, std::string_view name, std::string_view table) {
    return given.has(name) ? row_of_group(services.facts, table, given.text(name)) : nullptr;
}

std::optional<Toleranced> within(const Given& given, std::string_view name, double off_by) {
    const auto value = given.maybe_number(name);
    return value ? std::optional(about(*value, off_by)) : std::nullopt;
}

SourceNote weakest_of(const Given& given, std::initializer_list<std::string_view> names) {
    SourceNote out = nothing_used();
    for (const auto name : names)
        if (given.has(name)) out = weaker(std::move(out), given.source(name));
    return out;
}

AnswerLine mm_line(std::string label, double value_mm, SourceNote source, int decimals) {
    return measure_line(std::move(label), value_mm, "mm", decimals, std::move(source));
}

AnswerLine finding_line(std::string label, const Finding& finding, const SourceNote& also) {
    return text_line(std::move(label), finding.reason, weaker(note(finding.source), also));
}

void add_given_mm(Answer& answer, const Given& given, std::string_view name, std::string label, int decimals) {
    const auto* value = given.find(name);
    if (value && value->from != From::recorded)
        answer.lines.push_back(mm_line(std::move(label), value->numbers.at(0), value->source, decimals));
}

Input bore_input(Input input, std::string_view column, std::string_view how) {
    return found_by(recorded(std::move(input), "filters_seals_bores", std::string(column), {{"role", "role"}}),
                    std::string(how));
}

Input bore_role_input(std::string_view usual) {
    return assumed(text_input("role", "whose bore, where the vehicle's is recorded"), std::string(usual));
}

}  // namespace casebound::filters_seals
