#include "rows/telling.h"

#include <algorithm>

namespace casebound::actuators {
namespace {

bool is_hex(char c) { return (c >= '0' && c <= '9') || (c >= 'A' && c <= 'F'); }
bool all_hex(std::string_view text) { return std::all_of(text.begin(), text.end(), is_hex); }

std::string plain(std::string_view text) {
    std::string kept;
    for (char c : text) {
        if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
        if (c != ' ' && c != '-' && c != ':') kept += c;
    }
    return kept;
}

}  // namespace

bool is_failure_type(std::string_view text) { return text.size() == 2 && all_hex(text); }

std::optional<Code> code_of(std::string_view text) {
    const auto kept = plain(text);
    if (kept.size() != 5 && kept.size() != 7) return std::nullopt;
    const std::string_view all(kept);
    const bool system = all[0] == 'P' || all[0] == 'B' || all[0] == 'C' || all[0] == 'U';
    if (!system || all[1] < '0' || all[1] > '3' || !all_hex(all.substr(2))) return std::nullopt;
    return Code{kept.substr(0, 5), kept.substr(5)};
}

Telling telling(std::string_view attribute, std::string_view text, const Services&) {
    Telling telling;
    if (attribute != "actuator_code" || text == "none") return telling;
    const auto code = code_of(text);
    if (!code)
        telling.faults.push_back(std::string(text) +
                                 " is no code: write a letter of B, C, P or U, a digit from 0 to 3, and three more, as "
                                 "in B1081 or B1081-71");
    else telling.text = code->failure_type.empty() ? code->code : code->code + "-" + code->failure_type;
    return telling;
}

}  // namespace casebound::actuators
