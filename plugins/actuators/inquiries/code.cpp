// A code as read: what its letter, digit and failure type say, and where to look first. Names no part.
#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/telling.h"

namespace casebound::actuators {
namespace {

SourceNote form_source() { return from_memory("form of a code, from memory of the open standard"); }

const char* system_said(char letter) {
    return letter == 'B' ? "body" : letter == 'C' ? "chassis" : letter == 'P' ? "engine and gearbox" : "network";
}

// 0 is the standard's own, 1 the maker's; 2 and 3 depend on the letter.
const char* owner_said(char letter, char digit) {
    if (digit == '0' || (letter == 'P' && digit == '2')) return "the open list";
    if (digit == '1' || letter != 'P') return "the maker's own list";
    return "the open list or the maker's";
}

const char* look_first(std::string_view points_at) {
    if (points_at == "wiring") return "Wires, plug and supply first: measure at the plug under load.";
    if (points_at == "feedback") return "The feedback first: reference, wiper and track.";
    if (points_at == "door_or_gear") return "The door first: take the actuator off and turn it by hand.";
    if (points_at == "teaching") return "Teach the stops first.";
    if (points_at == "control_unit") return "The control unit and its data first.";
    return "The failure type narrows nothing down: begin with the door by hand.";
}

Answer answer_code(const Given& given, const Services& services) {
    const auto code = code_of(given.text("code"));
    if (!code) refuse("code", given.text("code"), "a code as the tester prints it: B1081 or B1081-71");
    auto answer = Answer::computing();
    const auto source = fed_by(form_source(), given, {"code"});
    answer.lines = {text_line("system", system_said(code->code[0]), source),
                    text_line("whose list says what it means", owner_said(code->code[0], code->code[1]), source)};
    answer.cautions = {"a code names a circuit or a door, never a part: nothing is ordered for it alone"};
    if (code->failure_type.empty()) {
        answer.headline = "No failure type was read: the two digits behind the hyphen narrow it down.";
        answer.next = {"Read it with a tester that shows them, as in B1081-71."};
        return answer;
    }
    const auto& rows = services.facts.rows("actuators_failure_types", "failure_type", code->failure_type);
    if (rows.empty()) {
        answer.lower(Verdict::not_recorded);
        answer.headline = "Failure type " + code->failure_type + " is in no list that is loaded.";
        answer.next = {"Load the reference pack of actuators, or read the maker's list."};
        return answer;
    }
    const auto& row = rows.front();
    answer.lines.push_back(text_line("failure type " + code->failure_type, cell(row, "words"), row_source(row)));
    answer.headline = "It failed so: " + cell(row, "words") + ". " + look_first(row.text("points_at"));
    answer.next = {look_first(row.text("points_at"))};
    return answer;
}

}  // namespace

Inquiry code_inquiry() {
    return {"code",
            "A code as read: whose list it is in, how it failed, and where to look first",
            {required(told(text_input("code", "code, with the two digits behind the hyphen"), "actuator_code"))},
            answer_code,
            "code=B1081-71"};
}

}  // namespace casebound::actuators
