// The lines an inquiry answers with, and a verdict that is no firmer than what it was asked with: a value that is only
// assumed, hearsay or from memory never carries a firm one.
#pragma once

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "science/judgement.h"

namespace casebound::filters_seals {

Verdict verdict_of(Judgement judgement);

// Assumed, only said by a seller, or from memory.
bool is_doubtful(const Given& given, std::string_view name);

// At best `check_first`, and `next` asks for it by its words.
void ask_to_check(Answer& answer, std::string_view words, const SourceNote& source);

// Judged so, but at best `check_first` where one of the inputs used is doubtful, and then `next` asks for it by its
// words.
Answer judged(Judgement judgement, const Given& given,
              std::initializer_list<std::pair<std::string_view, std::string_view>> used);

// Typed by the person, and not taken from a row or the vehicle. Does not count as asked.
bool by_hand(const Given& given, std::string_view name);
// The row of the group or item that the input names; nullptr when it names none. Core has refused a name without one.
const Row* named_row(const Given& given, const Services& services, std::string_view name, std::string_view table);
std::optional<Toleranced> within(const Given& given, std::string_view name, double off_by);

// What an answer rests on where nothing has been used yet.
inline SourceNote nothing_used() { return {Evidence::law, "", {}}; }
SourceNote weakest_of(const Given& given, std::initializer_list<std::string_view> names);

AnswerLine mm_line(std::string label, double value_mm, SourceNote source, int decimals = 2);
AnswerLine finding_line(std::string label, const Finding& finding, const SourceNote& also = nothing_used());
// A length as given. Core itself shows what it took from a row.
void add_given_mm(Answer& answer, const Given& given, std::string_view name, std::string label, int decimals = 2);

// A length of the vehicle's bore, on record or measured, and whose bore that is.
Input bore_input(Input input, std::string_view column, std::string_view how);
Input bore_role_input(std::string_view usual);

inline constexpr std::string_view kSizeIsNotAll =
    "A size is not all of a seal: compare rubber, lip and form with the old one.";

}  // namespace casebound::filters_seals
