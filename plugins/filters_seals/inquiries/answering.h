// What an inquiry was asked with, and the lines it answers with. A value knows where it comes from; one that is
// only assumed, hearsay or from memory never carries a firm verdict.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "rows/reading.h"
#include "science/judgement.h"

namespace casebound::filters_seals {

// A number given by hand, told of the vehicle, or stated in a row of a pack.
struct Quantity {
    std::optional<double> value;
    SourceNote source{Evidence::memory, "nobody has said"};
    bool doubtful = false;  // assumed, only said by a seller, or from memory

    std::optional<Toleranced> within(double off_by) const {
        return value ? std::optional(about(*value, off_by)) : std::nullopt;
    }
};

struct Asked {
    const Given& given;
    const Services& services;

    // By hand or told first; then the cell of the row.
    Quantity quantity(std::string_view name, const std::optional<Row>& row = {}, std::string_view column = {}) const;
    // The same for a word; "" when nobody has said.
    std::string word(std::string_view name, const std::optional<Row>& row = {}, std::string_view column = {}) const;
    SourceNote source(std::string_view name) const;
    bool doubtful(std::string_view name) const;
    std::optional<bool> yes_or_no(std::string_view name) const;

    // The row of `table` for the group or item named by the input; throws std::domain_error when it is named and
    // has none.
    std::optional<Row> row(std::string_view name, std::string_view table, std::string_view what) const;
};

// The first row of the line that surely applies, for a role; nothing when none does.
std::optional<Row> bore_of_line(const Services& services, std::string_view role);

Verdict verdict_of(Judgement judgement);

// A verdict that rests on a doubtful value is at best `check_first`, and says so in `next`.
void settle(Answer& answer, Judgement judgement, std::initializer_list<std::pair<std::string_view, Quantity>> used);

AnswerLine text_line(std::string label, std::string value, SourceNote source = {});
AnswerLine mm_line(std::string label, double value_mm, SourceNote source, int decimals = 2);
AnswerLine finding_line(std::string label, const Finding& finding, const SourceNote& also = {Evidence::law, ""});

std::string span_text(Stacked value, std::string_view unit);  // "5 mm (4 to 6)"
std::string span_text(Range value, std::string_view unit);    // "3 to 10 mm"
std::string sentence(std::string_view text);                  // "Measure the neck."
std::vector<std::string> sentences(const std::vector<std::string>& texts);
std::string joined(const std::vector<std::string>& texts, std::string_view between = ", ");

Input number_input(std::string name, std::string title, std::string unit, double min, double max);
Input text_input(std::string name, std::string title);
Input choice_input(std::string name, std::string title, std::vector<std::string> choices);
Input yes_no_input(std::string name, std::string title);
Input from_vehicle(Input input, std::string attribute);
Input or_else(Input input, std::string fallback);

inline constexpr std::string_view kSizeIsNotAll =
    "A size is not all of a seal: compare rubber, lip and form with the old one.";

}  // namespace casebound::filters_seals
