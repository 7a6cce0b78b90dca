#include "science/code_list.h"

#include <algorithm>
#include <cctype>

namespace casebound::solenoids {
namespace {

std::string lowered(std::string_view text) {
    std::string low(text);
    std::transform(low.begin(), low.end(), low.begin(),
                   [](char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); });
    return low;
}

bool has(const std::string& text, std::string_view part) { return text.find(part) != std::string::npos; }

CodeClass class_in(const std::string& low) {
    if (has(low, "stuck on")) return CodeClass::stuck_on;
    if (has(low, "stuck off")) return CodeClass::stuck_off;
    if (has(low, "electrical")) return CodeClass::electrical;
    return has(low, "intermittent") ? CodeClass::intermittent : CodeClass::circuit;
}

bool names_function(const std::string& low, Function function) {
    if (function == Function::shift_solenoid) return has(low, "shift solenoid");
    if (function == Function::converter_clutch) return has(low, "converter clutch circuit");
    return function == Function::pressure_control && has(low, "pressure control solenoid");
}

// The first solenoid of its function often goes without its letter.
bool names_letter(const std::string& low, const std::string& which) {
    if (which.empty()) return true;
    const std::string letter = "solenoid " + lowered(which);
    return has(low + " ", letter + " ") || (which == "A" && !has(low, "solenoid b") && !has(low, "solenoid c"));
}

bool is_text_of(const std::string& low, Code code) {
    const auto known = meaning(code);
    return known && names_function(low, known->function) && names_letter(low, known->which) &&
           class_in(low) == known->kind;
}

// Decimal neighbours: P0749 comes before P0750.
Code stepped(Code code, int by) {
    const std::string digits = code_text(code).substr(1);
    if (digits.find_first_not_of("0123456789") != std::string::npos) return code;
    std::string next = std::to_string(std::stoi(digits) + by);
    next.insert(0, 4 - std::min<std::size_t>(4, next.size()), '0');
    return read_code("P" + next).value_or(code);
}

bool is_judged(Code code) {
    const auto known = meaning(code);
    return known && (known->function == Function::shift_solenoid || known->function == Function::converter_clutch ||
                     known->function == Function::pressure_control);
}

ListVerdict verdict_of(const ListJudgement& judged) {
    if (judged.judged < 5) return ListVerdict::too_short_to_say;
    if (2 * judged.own > judged.judged) return ListVerdict::agrees;
    return 2 * judged.neighbour > judged.judged ? ListVerdict::shifted : ListVerdict::disagrees;
}

void judge_row(ListJudgement& judged, const CodeRow& row) {
    if (looks_damaged(row.text)) judged.damaged.push_back(row.code);
    if (!is_judged(row.code)) return;
    const std::string low = lowered(row.text);
    ++judged.judged;
    if (is_text_of(low, row.code)) ++judged.own;
    else if (is_text_of(low, stepped(row.code, -1)) || is_text_of(low, stepped(row.code, 1))) ++judged.neighbour;
}

}  // namespace

bool looks_damaged(std::string_view text) {
    const auto digits = std::min(text.find_first_not_of("0123456789"), text.size());
    return digits == 5;
}

ListJudgement judge_list(const std::vector<CodeRow>& rows) {
    ListJudgement judged{ListVerdict::too_short_to_say, 0, 0, 0, {}};
    for (const CodeRow& row : rows) judge_row(judged, row);
    judged.verdict = verdict_of(judged);
    return judged;
}

}  // namespace casebound::solenoids
