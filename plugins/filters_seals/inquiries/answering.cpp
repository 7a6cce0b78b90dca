#include "inquiries/answering.h"

#include <algorithm>
#include <cmath>

namespace casebound::filters_seals {
namespace {

bool contains(std::string_view text, std::string_view part) { return text.find(part) != std::string_view::npos; }

double thousandths(double value) { return std::round(1000 * value) / 1000; }

std::string with_unit(double value, std::string_view unit) {
    return unit.empty() ? shown(value) : shown(value) + " " + std::string(unit);
}

// Core's words: "given", "assumed", "told of NAME: measured DATE", "every configuration of NAME left".
Evidence evidence_of(std::string_view origin, const Services& services) {
    if (origin == "assumed" || contains(origin, ": assumed") || contains(origin, "seller said"))
        return Evidence::memory;
    if (!contains(origin, "every configuration")) return Evidence::measured;
    Evidence weakest = Evidence::law;
    if (services.vehicle)
        for (const auto& row : services.facts.rows("configurations", "line", services.vehicle->line()))
            weakest = std::max(weakest, row.origin.evidence);
    return weakest == Evidence::law ? Evidence::memory : weakest;
}

}  // namespace

SourceNote Asked::source(std::string_view name) const {
    if (!given.has(name)) return {Evidence::memory, "nobody has said"};
    const auto& origin = given.values.find(name)->second.origin;
    return {evidence_of(origin, services), origin};
}

bool Asked::doubtful(std::string_view name) const {
    return given.has(name) && source(name).evidence == Evidence::memory;
}

Quantity Asked::quantity(std::string_view name, const std::optional<Row>& row, std::string_view column) const {
    if (given.has(name)) return {given.number(name), source(name), doubtful(name)};
    if (!row || !row->number(column)) return {};
    return {row->number(column), row_note(*row), row->origin.evidence == Evidence::memory};
}

std::string Asked::word(std::string_view name, const std::optional<Row>& row, std::string_view column) const {
    if (given.has(name)) return given.text(name);
    return row ? std::string(row->text(column)) : std::string();
}

std::optional<bool> Asked::yes_or_no(std::string_view name) const {
    return given.has(name) ? std::optional(given.yes(name)) : std::nullopt;
}

std::optional<Row> Asked::row(std::string_view name, std::string_view table, std::string_view what) const {
    if (!given.has(name)) return std::nullopt;
    auto found = recorded(services.facts, table, given.text(name));
    if (!found)
        refuse(name, given.text(name), "a group or an item that a loaded pack records as a " + std::string(what));
    return found;
}

std::optional<Row> bore_of_line(const Services& services, std::string_view role) {
    for (auto& row : rows_of_line(services, "filters_seals_bores"))
        if (row.text("role") == role && applies(row.text("condition"), services.vehicle) == Applies::yes) return row;
    return std::nullopt;
}

Verdict verdict_of(Judgement judgement) {
    switch (judgement) {
        case Judgement::fits: return Verdict::fits;
        case Judgement::check_first: return Verdict::check_first;
        case Judgement::does_not_fit: return Verdict::does_not_fit;
    }
    return Verdict::check_first;
}

void settle(Answer& answer, Judgement judgement, std::initializer_list<std::pair<std::string_view, Quantity>> used) {
    answer.verdict = verdict_of(judgement);
    for (const auto& [what, quantity] : used) {
        if (!quantity.value || !quantity.doubtful) continue;
        answer.verdict = Verdict::check_first;
        answer.next.push_back("Check the " + std::string(what) + " here: so far it is " + quantity.source.title + ".");
    }
}

AnswerLine text_line(std::string label, std::string value, SourceNote source) {
    return {std::move(label), std::move(value), std::move(source)};
}

AnswerLine mm_line(std::string label, double value_mm, SourceNote source, int decimals) {
    return {std::move(label), Measure{value_mm, "mm", decimals}, std::move(source)};
}

AnswerLine finding_line(std::string label, const Finding& finding, const SourceNote& also) {
    return {std::move(label), finding.reason, weaker(note(finding.source), also)};
}

std::string span_text(Stacked value, std::string_view unit) {
    const std::string nominal = with_unit(thousandths(value.nominal), unit);
    return value.min == value.max
               ? nominal
               : nominal + " (" + shown(thousandths(value.min)) + " to " + shown(thousandths(value.max)) + ")";
}

std::string span_text(Range value, std::string_view unit) {
    const std::string high = with_unit(thousandths(value.high), unit);
    return value.low == value.high ? high : shown(thousandths(value.low)) + " to " + high;
}

std::string sentence(std::string_view text) {
    std::string out(text);
    if (!out.empty() && out.front() >= 'a' && out.front() <= 'z')
        out.front() = static_cast<char>(out.front() - 'a' + 'A');
    if (!out.empty() && out.back() != '.' && out.back() != '?') out += '.';
    return out;
}

std::vector<std::string> sentences(const std::vector<std::string>& texts) {
    std::vector<std::string> out;
    for (const auto& text : texts) out.push_back(sentence(text));
    return out;
}

std::string joined(const std::vector<std::string>& texts, std::string_view between) {
    std::string out;
    for (const auto& text : texts) out.append(out.empty() ? "" : between).append(text);
    return out;
}

Input number_input(std::string name, std::string title, std::string unit, double min, double max) {
    Input input{Input::Kind::number, std::move(name), std::move(title), std::move(unit), min, max};
    return input;
}

Input text_input(std::string name, std::string title) {
    Input input{Input::Kind::text, std::move(name), std::move(title), ""};
    return input;
}

Input choice_input(std::string name, std::string title, std::vector<std::string> choices) {
    Input input{Input::Kind::choice, std::move(name), std::move(title), ""};
    input.choices = std::move(choices);
    return input;
}

Input yes_no_input(std::string name, std::string title) {
    Input input{Input::Kind::yes_no, std::move(name), std::move(title), ""};
    return input;
}

Input from_vehicle(Input input, std::string attribute) {
    input.attribute = std::move(attribute);
    return input;
}

Input or_else(Input input, std::string fallback) {
    input.fallback = std::move(fallback);
    return input;
}

}  // namespace casebound::filters_seals
