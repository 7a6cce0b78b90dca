// The swap test of two like solenoids, and how an element is sold, reached and paid for.
#include <algorithm>

#include "core/contract/answer_lines.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/holds.h"
#include "rows/seen.h"
#include "science/swap_test.h"

namespace casebound::solenoids {
namespace {

// ---------------------------------------------------------------- swap test

bool in_block(const GearboxFamily& family, const std::string& element) {
    for (const auto& service : family.services_of(element))
        if (service.serviced_as == "block_with_plate" || service.serviced_as == "valve_body" ||
            service.serviced_as == "unit_only")
            return true;
    return false;
}

bool graded(const GearboxFamily& family, const std::string& element) {
    for (const auto& service : family.services_of(element))
        if (service.calibration == "graded") return true;
    return false;
}

const Element& named(const GearboxFamily& family, const std::string& name, const char* input) {
    const auto* element = family.element(name);
    if (element == nullptr) refuse(input, name, "elements of " + family.title + ": " + listed(family.element_names()));
    return *element;
}

// What is recorded of the two elements; what is given by hand beats it.
SwapSetup setup_of(const Given& given, const std::optional<GearboxFamily>& family, Answer& answer) {
    SwapSetup setup;
    if (family && !family->elements.empty()) {
        const auto& one = named(*family, given.text("element"), "element");
        const auto& other = named(*family, given.text("with"), "with");
        if (!one.group.empty() && !other.group.empty()) setup.same_part = one.group == other.group;
        if (!family->services_of(one.name).empty() || !family->services_of(other.name).empty())
            setup.within_block = in_block(*family, one.name) || in_block(*family, other.name);
        setup.graded = graded(*family, one.name) || graded(*family, other.name);
        answer.lines.push_back(
            text_line(one.name, one.group.empty() ? "part not recorded" : one.group, row_source(one.origin)));
        answer.lines.push_back(
            text_line(other.name, other.group.empty() ? "part not recorded" : other.group, row_source(other.origin)));
    }
    if (given.has("same-part")) setup.same_part = given.yes("same-part");
    if (given.has("in-block")) setup.within_block = given.yes("in-block");
    if (given.has("grade")) setup.grade = given.text("grade");
    if (given.has("other-grade")) setup.other_grade = given.text("other-grade");
    setup.graded |= setup.grade.has_value();
    return setup;
}

const char* advice_words(SwapAdvice advice) {
    switch (advice) {
        case SwapAdvice::possible: return "The two may be exchanged";
        case SwapAdvice::possible_after_relearning:
            return "The two may be exchanged, and the controller must learn them again";
        case SwapAdvice::not_possible: return "The two cannot be exchanged";
        case SwapAdvice::cannot_tell: break;
    }
    return "Cannot tell yet whether the two may be exchanged";
}

std::optional<SwapOutcome> outcome_of(const Given& given) {
    if (given.has("result")) {
        const auto& text = given.text("result");
        return text == "moves_with_part" ? SwapOutcome::moved
               : text == "stays"         ? SwapOutcome::stayed
               : text == "both"          ? SwapOutcome::both
                                         : SwapOutcome::neither;
    }
    if (!given.has("code-before") || !given.has("codes-after") || given.text("with").size() != 1) return std::nullopt;
    const auto before = codes_from(given.text("code-before"));
    const auto after = given.text("codes-after") == "none" ? std::vector<Code>{}
                                                           : codes_from(given.text("codes-after"));
    return before.empty() ? std::nullopt : outcome_from_codes(before.front(), given.text("with")[0], after);
}

void add_expected(Answer& answer, const Given& given) {
    if (!given.has("code-before") || given.text("with").size() != 1) return;
    const auto before = codes_from(given.text("code-before"));
    if (before.empty()) return;
    if (const auto moved = code_if_moved(before.front(), given.text("with")[0]))
        answer.lines.push_back(
            text_line("if it moves with the part, expect", described(*moved),
                      {Evidence::standard, "SAE J2012 / ISO 15031-6, as published lists agree on it"}));
}

std::string causes_text(const std::vector<Cause>& causes) {
    std::vector<std::string> texts;
    for (const auto cause : causes) texts.emplace_back(word(cause));
    return listed(texts);
}

void read_outcome(Answer& answer, SwapOutcome outcome) {
    const auto reading = read_swap(outcome);
    answer.headline = reading.meaning + ".";
    answer.headline.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(answer.headline.front())));
    if (!reading.points_to.empty()) answer.lines.push_back(text_line("points to", causes_text(reading.points_to)));
    if (!reading.speaks_against.empty())
        answer.lines.push_back(text_line("speaks against", causes_text(reading.speaks_against)));
    answer.verdict = outcome == SwapOutcome::moved || outcome == SwapOutcome::stayed ? Verdict::fits
                                                                                     : Verdict::check_first;
}

Answer answer_swap_test(const Given& given, const Services& services) {
    auto answer = Answer::judging(Verdict::fits);
    const auto found = family_for(given, services);
    if (given.text("element") == given.text("with"))
        refuse("with", given.text("with"), "another element than the suspected one");
    const auto swap = may_swap(setup_of(given, found.family, answer));
    answer.lines.push_back(text_line("exchange", std::string(advice_words(swap.advice)) + ": " + swap.reason));
    answer.headline = std::string(advice_words(swap.advice)) + ": " + swap.reason + ".";
    answer.verdict = swap.advice == SwapAdvice::possible       ? Verdict::fits
                     : swap.advice == SwapAdvice::not_possible ? Verdict::does_not_fit
                                                               : Verdict::check_first;
    for (const auto& need : swap.with_it) answer.next.push_back("With it: " + need + ".");
    add_expected(answer, given);
    if (const auto outcome = outcome_of(given)) read_outcome(answer, *outcome);
    else if (swap.advice != SwapAdvice::not_possible)
        answer.next.emplace_back("Afterwards tell the codes again: codes-after.");
    answer.cautions = {"no compressed air at the face; springs and balls may drop; count out, count in"};
    return answer;
}

Inquiry swap_test() {
    return {"swap-test",
            "Two functions that share a part: may they be exchanged, what to expect, and what the outcome means",
            {gearbox_input(), required(text_input("element", "the suspected element")),
             required(text_input("with", "the element to exchange it with")),
             yes_no_input("same-part", "do the two functions use one part?"),
             yes_no_input("in-block", "are they moulded into a block?"),
             text_input("grade", "grade stamped on the suspected part"),
             text_input("other-grade", "grade stamped on the other"),
             helped(text_input("code-before", "the code before the exchange"), "\"P0751\""),
             helped(text_input("codes-after", "codes after it, or none"), "\"P0756\""),
             told(choice_input("result", "what happened, when no code tells",
                               {"moves_with_part", "stays", "both", "neither"}),
                  "swap_result")},
            answer_swap_test,
            "gearbox=tarn-4 element=A with=B"};
}

// ---------------------------------------------------------------- service

const char* service_words(const std::string& serviced_as) {
    if (serviced_as == "single") return "one by itself";
    if (serviced_as == "set") return "as a set";
    if (serviced_as == "block_with_plate") return "as a block with its plate";
    if (serviced_as == "valve_body") return "with the valve body";
    return serviced_as == "unit_only" ? "with the whole unit only" : "not recorded";
}

const char* access_words(const std::string& access) {
    if (access == "outside") return "from outside";
    if (access == "pan_off") return "pan off";
    if (access == "pan_and_filter_off") return "pan and filter off";
    if (access == "valve_body_off") return "valve body off";
    return access == "unit_out" ? "gearbox out" : "not recorded";
}

bool has_calibration(const Service& service) { return service.calibration == "block_code"; }

std::vector<Service> services_of(const Given& given, const FamilyFound& found) {
    if (given.has("serviced-as"))
        return {{given.text("element"),
                 given.text("serviced-as"),
                 "",
                 given.text_or("calibration"),
                 "",
                 given.text_or("access"),
                 {}}};
    return found.family ? found.family->services_of(given.text("element")) : std::vector<Service>{};
}

std::optional<double> total_cost(const Given& given, const Service& service) {
    if (!given.has("price")) return std::nullopt;
    const double labour = given.maybe_number("hours").value_or(0) * given.maybe_number("hour-rate").value_or(0);
    const double loading = has_calibration(service) ? given.maybe_number("calibration-price").value_or(0) : 0;
    return given.number("price") + labour + given.maybe_number("consumables").value_or(0) + loading;
}

void add_service(Answer& answer, const Given& given, const Service& service) {
    const auto source = service.origin.pack.empty() ? given.source("serviced-as") : row_source(service.origin);
    answer.lines.push_back(text_line("sold",
                                     std::string(service_words(service.serviced_as)) +
                                         (service.order_role.empty() ? "" : ": order the " + service.order_role),
                                     source));
    answer.lines.push_back(text_line("reached", access_words(service.access), source));
    answer.lines.push_back(
        text_line("calibration",
                  has_calibration(service)          ? "a code to load into the controller; " + service.calibration_words
                  : service.calibration == "graded" ? "graded: the same grade; " + service.calibration_words
                  : service.calibration.empty()     ? "nobody has said whether it carries a code or a grade"
                                                    : "none",
                  source));
    if (const auto total = total_cost(given, service))
        answer.lines.push_back(measure_line("cost, as sold here", *total, "", 2, given.source("price")));
    if (has_calibration(service) && given.has("price") && !given.has("calibration-price"))
        answer.next.emplace_back("Ask what loading the calibration code costs: it is a line of its own.");
    if (service.access == "pan_off" || service.access == "pan_and_filter_off" || service.access == "valve_body_off")
        answer.next.emplace_back(
            "With the pan off: filter, gasket, seal of the case connector and fluid belong on the list.");
}

// A code that somebody has read, by hand or told: "unreadable" is none.
bool code_read(const Given& given, const Services& services) {
    if (given.has("block-code") && given.value("block-code").from == From::by_hand)
        return given.text("block-code") != "unreadable";
    return services.vehicle != nullptr && code_is_read(*services.vehicle);
}

// A code to load or a grade to match blocks the order until it is read.
bool code_open(const Given& given, const Services& services, const Service& service) {
    if (service.calibration.empty()) return !given.has("grade") && !code_read(given, services);
    if (service.calibration == "graded") return !given.has("grade");
    return has_calibration(service) && !code_read(given, services);
}

Answer answer_service(const Given& given, const Services& services) {
    const auto found = family_for(given, services);
    const auto records = services_of(given, found);
    if (records.empty() && !found.family && !given.has("serviced-as")) return family_missing(found);
    auto answer = Answer::judging(Verdict::fits);
    bool blocked = false;
    for (const auto& record : records) {
        add_service(answer, given, record);
        blocked |= code_open(given, services, record);
    }
    std::vector<std::string> ways;
    for (const auto& record : records)
        if (std::find(ways.begin(), ways.end(), service_words(record.serviced_as)) == ways.end())
            ways.emplace_back(service_words(record.serviced_as));
    answer.lower(records.empty()   ? Verdict::not_recorded
                 : ways.size() > 1 ? Verdict::sources_disagree
                 : blocked         ? Verdict::check_first
                                   : Verdict::fits);
    if (records.empty())
        answer.headline = "How " + given.text("element") +
                          " is sold is not recorded: look for bolts or moulding before ordering.";
    else
        answer.headline = given.text("element") + " is sold " + listed(ways, " or, by another source, ") +
                          (blocked ? "; read its calibration first." : ".");
    if (blocked)
        answer.next.insert(
            answer.next.begin(),
            "Before ordering, read the calibration code or grade: on the tag on the case and on the part.");
    answer.cautions = {"copy the code before the old block leaves the house; a wrong one can harm the gearbox"};
    if (!blocked) answer.cautions.clear();
    return answer;
}

Inquiry service() {
    return {"service",
            "How an element is sold, reached and calibrated, and what that costs",
            {gearbox_input(), required(text_input("element", "the element")),
             choice_input("serviced-as", "by hand: smallest thing that can be bought",
                          {"single", "set", "block_with_plate", "valve_body", "unit_only"}),
             choice_input("access", "by hand: what must come off",
                          {"outside", "pan_off", "pan_and_filter_off", "valve_body_off", "unit_out"}),
             choice_input("calibration", "by hand: calibration", {"none", "graded", "block_code"}),
             told(text_input("block-code", "calibration code as read"), "block_code"),
             text_input("grade", "grade as stamped"), money_input("price", "price of what is sold"),
             money_input("calibration-price", "price of loading the code"), hours_input("hours", "hours to fit it"),
             hour_rate_input(), money_input("consumables", "fluid, filter, seals")},
            answer_service,
            "gearbox=weir-6 element=C1"};
}

}  // namespace

std::vector<Inquiry> part_inquiries() { return {swap_test(), service()}; }

}  // namespace casebound::solenoids
