#include "inquiries/inquiries.h"

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "rows/family.h"
#include "rows/seen.h"

namespace casebound::solenoids {
namespace {

TableKind kind_of(const Given& given) {
    return given.text_or("elements") == "friction_elements" ? TableKind::friction_elements : TableKind::solenoid_states;
}

}  // namespace

FamilyFound family_for(const Given& given, const Services& services) {
    if (given.has("apply")) return {family_by_hand(given.text("apply"), given.text_or("shared"), kind_of(given)), {}};
    FamilyFound found;
    if (given.has("gearbox")) found.candidates = split_at(given.text("gearbox"), '|');
    else if (services.vehicle != nullptr)
        for (const auto& value : services.vehicle->possible("gearbox")) found.candidates.push_back(value.text);
    if (found.candidates.size() == 1) found.family = read_family(services.facts, found.candidates.front());
    return found;
}

std::optional<GearboxFamily> family_from_codes(const Given& given) {
    const auto text = given.text_or("codes", "none");
    if (text == "none" || text.find('|') != std::string::npos) return std::nullopt;
    auto family = family_of_codes(codes_from(text));
    family.source = practice();
    return family.elements.empty() ? std::nullopt : std::optional(std::move(family));
}

Answer family_missing(const FamilyFound& found) {
    if (found.candidates.size() > 1) {
        auto answer = Answer::judging(Verdict::check_first);
        answer.headline = "Cannot tell yet: which gearbox family is it? Still possible: " + listed(found.candidates) +
                          ".";
        answer.next = {"Read the gearbox tag, or count gears and look at the pan outline."};
        return answer;
    }
    auto answer = Answer::judging(Verdict::not_recorded);
    answer.headline = found.candidates.empty()
                          ? "The gearbox family is not told."
                          : "Nothing is recorded of the gearbox family " + found.candidates.front() + ".";
    answer.next = {"Name the family with gearbox, or give its apply table by hand: apply=\"1:A+B 2:B 3:- 4:A\"."};
    return answer;
}

Input gearbox_input() { return told(text_input("gearbox", "gearbox family"), "gearbox"); }

std::vector<Input> family_inputs() {
    return {gearbox_input(),
            helped(text_input("apply", "apply table by hand: each gear with the elements that are on"),
                   "\"1:A+B 2:B 3:- 4:A\""),
            helped(text_input("shared", "what several elements have in common, by hand"), "\"feed:A+B\""),
            choice_input("elements", "what the elements of the table by hand are",
                         {"solenoid_states", "friction_elements"})};
}

}  // namespace casebound::solenoids
