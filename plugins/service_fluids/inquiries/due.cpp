// Engine oil and coolant: within their interval, by distance, time and use? Never supplies an interval.
#include "science/due.h"

#include <cmath>

#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"

namespace casebound::service_fluids {
namespace {

Change change_of(const Given& given, double factor) {
    Change change;
    change.interval_km = given.maybe_number("interval");
    if (const auto months = given.maybe_number("interval-time")) change.interval_months = static_cast<int>(*months);
    change.last_at_km = given.maybe_number("last-at");
    change.odometer_km = given.maybe_number("odometer");
    if (given.has("last-changed")) change.last = day_from("last change", given.text("last-changed"));
    change.today = day_from("today", given.text("today"));
    change.factor = factor;
    return change;
}

SourceNote source_of(const Given& given) {
    return fed_by(computed("last change + interval x factor"), given,
                  {"interval", "interval-time", "last-at", "last-changed", "odometer"});
}

void say_left(Answer& answer, const Due& due, const SourceNote& source, const std::string& use) {
    if (due.km_left)
        answer.lines.push_back(measure_line((*due.km_left < 0 ? "overdue by distance" : "left by distance") + use,
                                            std::abs(*due.km_left), "km", 0, source));
    if (due.day)
        answer.lines.push_back(text_line((*due.days_left < 0 ? "overdue by time since" : "due by time") + use,
                                         day_text(*due.day), source));
}

std::string left_text(const Due& due) {
    if (!due.day) return fixed(*due.km_left, 0) + " km left";
    if (!due.km_left) return "until " + day_text(*due.day);
    return fixed(*due.km_left, 0) + " km left or until " + day_text(*due.day) + ", whichever comes first";
}

std::string overdue_text(const Due& due) {
    const bool by_km = due.km_left.value_or(1) <= 0, by_day = due.days_left.value_or(1) <= 0;
    return std::string(by_km ? "by distance, " + fixed(-*due.km_left, 0) + " km over" : "") +
           (by_km && by_day ? ", and " : "") + (by_day ? "by time since " + day_text(*due.day) : "");
}

void judge(Answer& answer, const Due& due) {
    switch (due.state) {
        case DueState::no_interval:
            return conclude(answer, Verdict::not_recorded, "No interval is stated; that is not the same as never.",
                            "Read it in the handbook and give interval, interval-time or both.");
        case DueState::history_unknown:
            return conclude(answer, Verdict::check_first, "Due now: when it was last changed is not known.",
                            "Look for a tag, an invoice or a service book; without one count it as due.");
        case DueState::overdue: return conclude(answer, Verdict::does_not_fit, "Due " + overdue_text(due) + ".");
        case DueState::later: answer.headline = "Not due yet: " + left_text(due) + ".";
    }
}

// Nobody has said how it is used: then hard use is the other end of the range.
void weigh_use(Answer& answer, const Given& given, double factor) {
    const auto hard = due_of(change_of(given, factor));
    say_left(answer, hard, source_of(given), ", in hard use");
    answer.lower(Verdict::check_first);
    answer.headline = hard.state == DueState::later ? "Not due yet, nor in hard use: then " + left_text(hard) + "."
                                                    : "Not due in normal use, due in hard use: which was it?";
    answer.next.push_back("Say whether use is hard: short trips, towing, hills, dust and long idling.");
}

// 0.5: common practice, no source.
double hard_factor(Answer& answer, const Given& given) {
    if (const auto known = given.maybe_number("factor")) return *known;
    answer.assumptions.push_back("hard use halves both intervals: common practice, no source");
    return 0.5;
}

Answer answer_due(const Given& given, const Services& services, const char* table) {
    auto answer = Answer::judging(Verdict::fits);
    for (const auto& row : rows_here(services, table))
        if (row->stated("words"))
            answer.lines.push_back(
                text_line("the source's words" + row.where(), cell(*row, "words"), row_source(*row)));
    const bool undecided = given.undecided.count("interval") + given.undecided.count("interval-time") != 0;
    if (undecided && !given.has("interval") && !given.has("interval-time")) {
        answer.lower(Verdict::check_first);
        answer.headline = "Cannot tell yet: the records of the interval differ.";
        return answer;
    }
    const double factor = given.yes("hard") ? hard_factor(answer, given) : 1;
    const auto due = due_of(change_of(given, factor));
    say_left(answer, due, source_of(given), "");
    judge(answer, due);
    if (due.state == DueState::later && !given.has("hard")) weigh_use(answer, given, hard_factor(answer, given));
    return answer;
}

// Both are shown below each other: the headline says which.
Answer named(Answer answer, const char* fluid) {
    answer.headline = std::string(fluid) + ": " + answer.headline;
    return answer;
}
Answer answer_oil_due(const Given& given, const Services& services) {
    return named(answer_due(given, services, "service_fluids_oil_changes"), "Engine oil");
}
Answer answer_coolant_due(const Given& given, const Services& services) {
    return named(answer_due(given, services, "service_fluids_coolant_changes"), "Coolant");
}

// `at` and `month`: the attributes of the last change.
std::vector<Input> due_inputs(const char* table, const char* at, const char* month) {
    return {
        recorded(number_input("interval", "interval by distance", "km", 100, 1e6), table, "interval_km"),
        recorded(whole(number_input("interval-time", "interval by time", "months", 1, 600)), table, "interval_months"),
        recorded(number_input("factor", "what both are multiplied by in hard use", "", 0.3, 1), table, "severe_factor"),
        told(number_input("odometer", "distance covered now", "km", 0, 5e6), "odometer"),
        told(number_input("last-at", "distance at the last change", "km", 0, 5e6), at),
        helped(told(text_input("last-changed", "month or day of the last change"), month), "2021-03 or 2021-03-15"),
        assumed(word_input(Input::Kind::date, "today", "day it is asked for"), "today"),
        told(yes_no_input("hard", "hard use: short trips, towing, hills, dust, long idling"), "severe_use")};
}

}  // namespace

Inquiry oil_due() {
    return {"oil-due", "Is the engine oil still within its interval, by distance, time and use?",
            due_inputs("service_fluids_oil_changes", "engine_oil_changed_at", "engine_oil_changed"), answer_oil_due,
            "odometer=89000km last-at=80000km --for bookvan"};
}

Inquiry coolant_due() {
    return {"coolant-due", "Is the coolant still within its interval, by distance, time and use?",
            due_inputs("service_fluids_coolant_changes", "coolant_changed_at", "coolant_changed"), answer_coolant_due,
            "--for bookvan"};
}

std::vector<ServiceInquiry> services_due() {
    return {{"engine-oil", oil_due(), "today", "last-changed", "last-at", "odometer", ""},
            {"coolant", coolant_due(), "today", "last-changed", "last-at", "odometer", ""}};
}

}  // namespace casebound::service_fluids
