#include "answer_parts.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace casebound::transmission_fluids {

std::string rounded(double value, int decimals) {
    std::array<char, 400> text{};
    const auto end =
        std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed, decimals).ptr;
    const std::string result{text.data(), end};
    return result.find_first_not_of("-0.") == std::string::npos && result.front() == '-' ? result.substr(1) : result;
}

std::string quantity_text(double value, std::string_view unit, int decimals) {
    std::string text = rounded(value, decimals);
    if (text.find('.') != std::string::npos) {
        text.erase(text.find_last_not_of('0') + 1);
        if (text.back() == '.') text.pop_back();
    }
    return unit.empty() ? text : text.append(" ").append(unit);
}

SourceNote standard(std::string title) { return {Evidence::standard, std::move(title)}; }
SourceNote law(std::string title) { return {Evidence::law, std::move(title)}; }
SourceNote from_memory(std::string title) { return {Evidence::memory, std::move(title)}; }

SourceNote common_practice(std::string_view detail) {
    SourceNote note;
    if (!detail.empty()) note.title.append(": ").append(detail);
    return note;
}

SourceNote source_of(const Row& row) {
    const Origin& at = row.origin;
    return {at.evidence, at.pack + ", " + at.file + ":" + std::to_string(at.line) + ": " + at.source};
}

SourceNote weaker(const SourceNote& a, const SourceNote& b) { return b.evidence > a.evidence ? b : a; }

SourceNote resting_on(const SourceNote& formula, const SourceNote& input) {
    return {weaker(formula, input).evidence, formula.title + "; " + input.title};
}

SourceNote resting_on(SourceNote formula, const Answer& answer) {
    for (const auto& fed : answer.lines) formula.evidence = std::max(formula.evidence, fed.source.evidence);
    return formula;
}

SourceNote computed(std::string_view how) { return {Evidence::common_practice, std::string("computed: ").append(how)}; }

SourceNote given_by_hand() { return {Evidence::measured, "given by hand"}; }

AnswerLine line(std::string label, double value, std::string unit, int decimals, SourceNote source) {
    return {std::move(label), Measure{value, std::move(unit), decimals}, std::move(source)};
}

AnswerLine line(std::string label, std::string text, SourceNote source) {
    return {std::move(label), std::move(text), std::move(source)};
}

void lower(Answer& answer, Verdict at_most) { answer.verdict = std::max(answer.verdict, at_most); }

void missing(Answer& answer, std::string_view input, std::string_view how) {
    lower(answer, Verdict::not_recorded);
    answer.next.push_back(std::string("Give ").append(input).append(": ").append(how));
}

int whole(std::string_view what, double value) {
    if (std::trunc(value) != value) refuse(what, number_text(value), "a whole number");
    return static_cast<int>(value);
}

std::string price_text(double hundredths) { return rounded(hundredths / 100, 2); }

}  // namespace casebound::transmission_fluids
