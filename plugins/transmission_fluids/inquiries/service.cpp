// service-due, fluid-condition: whether the fluid is still within its interval, and what it looks and smells like as
// evidence. Never supplies an interval, and never names a faulty part.
#include <cctype>
#include <cmath>

#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/findings.h"
#include "science/service_due.h"

namespace casebound::transmission_fluids {

namespace {

constexpr double usual_severe_factor = 0.6;

bool on_record(const Services& services, std::string_view column) {
    const auto rows = rows_here(services, intervals);
    return std::any_of(rows.begin(), rows.end(), [&](const HeldRow& held) { return held->stated(column); });
}

ServiceInterval interval_of(const Given& given, const Services& services, Answer& answer) {
    ServiceInterval interval{given.maybe_number("interval"), std::nullopt};
    if (const auto months = given.maybe_number("interval_age")) interval.months = static_cast<int>(*months);
    for (const auto& held : rows_here(services, intervals))
        if (held->stated("words"))
            answer.lines.push_back(
                text_line("the source's words" + held.where(), cell(*held, "words"), row_source(*held)));
    return interval;
}

bool records_differ(const Given& given) {
    return given.undecided.count("interval") + given.undecided.count("interval_age") != 0;
}

SourceNote of_interval(const Given& given) {
    return fed_by(computed("last service + interval x factor"), given,
                  {"interval", "interval_age", "last_at", "last_changed", "odometer"});
}

double factor_in_severe_use(const Given& given, Answer& answer) {
    if (const auto known = given.maybe_number("severe_factor")) return *known;
    answer.assumptions.push_back("Severe use: both intervals times 0.6; 0.5 to 0.67 is common practice, no source.");
    return usual_severe_factor;
}

double severe_factor(const Given& given, Answer& answer) {
    if (!given.has("severe"))
        answer.next.push_back(
            "Say whether use is severe: towing, short trips, hills and deliveries shorten both intervals.");
    return given.yes("severe") ? factor_in_severe_use(given, answer) : 1;
}

LastService last_service(const Given& given) {
    LastService last;
    last.odometer_km = given.maybe_number("last_at");
    if (given.has("last_changed")) last.date = date_from("last change", given.text("last_changed"));
    return last;
}

void say_distance(const ServiceDue& due, const Given& given, Answer& answer) {
    if (!due.next_km) return;
    answer.lines.push_back(measure_line("next at", *due.next_km, "km", 0, of_interval(given)));
    answer.lines.push_back(measure_line(*due.km_left < 0 ? "overdue by distance" : "left by distance",
                                        std::abs(*due.km_left), "km", 0, of_interval(given)));
    if (due.date_by_distance)
        answer.lines.push_back(text_line("that is about", date_text(*due.date_by_distance),
                                         fed_by(computed("at the distance of a year that is given"), given,
                                                {"interval", "last_at", "odometer", "km_per_year"})));
}

void say_age(const ServiceDue& due, const Given& given, Answer& answer) {
    if (due.date_by_age)
        answer.lines.push_back(text_line(*due.days_left < 0 ? "overdue by age since" : "due by age",
                                         date_text(*due.date_by_age), of_interval(given)));
}

std::string overdue_text(const ServiceDue& due) {
    std::string text = "Overdue";
    if (due.km_left && *due.km_left < 0) text += " by " + quantity_text(-*due.km_left, "km", 0);
    if (due.days_left && *due.days_left < 0)
        text += (due.km_left && *due.km_left < 0 ? " and by age since " : " by age since ") +
                date_text(*due.date_by_age);
    return text + ".";
}

std::string next_text(const ServiceDue& due) {
    if (due.due) return "next about " + date_text(*due.due);
    return due.km_left ? quantity_text(*due.km_left, "km", 0) + " left" : "not due";
}

void say_state(const ServiceDue& due, Answer& answer) {
    switch (due.state) {
        case DueState::no_interval_stated:
            answer.lower(Verdict::not_recorded);
            answer.headline = answer.headline.empty() ? "No interval is stated; that is not the same as never."
                                                      : answer.headline + " is no interval, and not the same as never.";
            answer.next.push_back("Judge it by the fluid itself: `fluid-condition`.");
            return;
        case DueState::history_unknown:
            return conclude(answer, Verdict::check_first, "Due now: when it was last changed is not known.",
                            "Look for an invoice or a service book; without one count it as due.");
        case DueState::overdue: return conclude(answer, Verdict::does_not_fit, overdue_text(due));
        case DueState::due_today: return conclude(answer, Verdict::does_not_fit, "Due today.");
        case DueState::later: answer.headline = "Not due yet: " + next_text(due) + ".";
    }
}

std::string state_text(const ServiceDue& due) {
    if (due.state == DueState::later) return next_text(due);
    if (due.state == DueState::due_today) return "due today";
    std::string text = overdue_text(due);
    text.front() = 'o';
    text.pop_back();
    return text;
}

// Nobody has said how it is used: then "not due" is one end of a range, and both ends are shown.
void weigh_severe_use(const ServiceDue& normal, const ServiceInterval& interval, const LastService& last,
                      const ServiceNow& now, const Given& given, Answer& answer) {
    const double factor = factor_in_severe_use(given, answer);
    const auto severe = service_due(interval, last, now, factor);
    answer.lower(Verdict::check_first);
    answer.lines.push_back(text_line("in severe use, times " + quantity_text(factor, ""), state_text(severe),
                                     fed_by(of_interval(given), given, {"severe_factor"})));
    answer.headline = severe.state == DueState::later ? "Not due yet: " + state_text(severe) + " in severe use, " +
                                                            state_text(normal) + " in normal use; which was it?"
                                                      : "Not due in normal use (" + state_text(normal) + "), " +
                                                            state_text(severe) + " in severe use: which was it?";
}

// By hand one of the two intervals is no whole answer: the handbook may state the other as well.
void weigh_other_interval(const ServiceInterval& interval, const Given& given, const Services& services,
                          Answer& answer) {
    const bool recorded = on_record(services, "interval_km") || on_record(services, "interval_months");
    if (recorded || given.has("interval") == given.has("interval_age") || (!interval.km && !interval.months)) return;
    const std::string by = interval.km ? "distance" : "age", other = interval.km ? "age" : "distance";
    answer.lower(Verdict::check_first);
    answer.headline.pop_back();
    answer.headline += " by " + by + "; whether the maker states an interval by " + other + " too is not known.";
    answer.next.push_back("Look for an interval by " + other + " in the handbook, whichever comes first counts.");
}

// Words stand in the headline where the record has nothing but words.
void head_with_words(const Services& services, Answer& answer) {
    for (const auto& held : rows_here(services, intervals))
        if (held->stated("words")) answer.headline = "\"" + cell(*held, "words") + "\"";
}

// The same words beside another source's interval.
void add_words_without_interval(const Services& services, Answer& answer) {
    for (const auto& held : rows_here(services, intervals))
        if (held->stated("words") && !held->stated("interval_km") && !held->stated("interval_months"))
            answer.headline += " One source says \"" + cell(*held, "words") + "\"; that is no interval, and not never.";
}

// Without an odometer reading the distance cannot count; the age still does.
ServiceNow service_now(const Given& given, ServiceInterval& interval, Answer& answer) {
    ServiceNow now{0, date_from("today", given.text("today")), given.maybe_number("km_per_year")};
    if (const auto odometer = given.maybe_number("odometer")) {
        now.odometer_km = *odometer;
    } else if (interval.km) {
        missing(answer, "odometer", "read it; without it the distance cannot count.");
        interval.km.reset();
    }
    return now;
}

// What is due, once the interval is known.
void judge(const ServiceInterval& interval, const LastService& last, const ServiceNow& now, const Given& given,
           const Services& services, Answer& answer) {
    const auto due = service_due(interval, last, now, severe_factor(given, answer));
    say_distance(due, given, answer);
    say_age(due, given, answer);
    say_state(due, answer);
    if (due.state != DueState::later) return;
    if (!given.has("severe")) weigh_severe_use(due, interval, last, now, given, answer);
    weigh_other_interval(interval, given, services, answer);
}

Answer answer_service_due(const Given& given, const Services& services) {
    auto answer = Answer::judging(Verdict::fits);
    auto interval = interval_of(given, services, answer);
    const bool stated = interval.km || interval.months;
    auto last = last_service(given);
    const auto now = service_now(given, interval, answer);
    if (!given.has("odometer")) last.odometer_km.reset();
    if (!stated && records_differ(given)) {
        answer.lower(Verdict::check_first);
        answer.headline = "Cannot tell yet: the records of the interval differ.";
        return answer;
    }
    if (!stated) head_with_words(services, answer);
    judge(interval, last, now, given, services, answer);
    if (stated && !interval.km && !interval.months)
        answer.headline = "Cannot tell yet: the distance covered is not known.";
    if (stated) add_words_without_interval(services, answer);
    if (!stated && services.vehicle == nullptr)
        answer.next.push_back("Give interval, interval-age or both, from the handbook.");
    return answer;
}

Inquiry service_due_inquiry() {
    return {"service-due",
            "Is the fluid still within its service interval, by distance and by age?",
            {recorded(found_by(number_input("interval", "service interval by distance", "km", 100, 1e6),
                               "the maker's distance."),
                      intervals, "interval_km"),
             recorded(found_by(whole(number_input("interval_age", "service interval by age", "months", 1, 600)),
                               "the maker's age."),
                      intervals, "interval_months"),
             told(number_input("odometer", "distance covered now", "km", 0, 5e6), "odometer"),
             told(number_input("last_at", "distance at the last change", "km", 0, 5e6), "fluid_changed_at"),
             helped(told(text_input("last_changed", "month or day of the last change"), "fluid_changed"),
                    "2021-03 or 2021-03-15"),
             assumed(word_input(Input::Kind::date, "today", "day it is asked for"), "today"),
             number_input("km_per_year", "distance in a year", "km", 1, 500000),
             told(yes_no_input("severe", "severe use: towing, short trips, hills, deliveries"), "severe_use"),
             recorded(number_input("severe_factor", "what both intervals are multiplied by in severe use", "", 0.3, 1),
                      intervals, "severe_factor")},
            answer_service_due,
            "interval=60000km odometer=131800km last-at=80000km"};
}

// ---------------------------------------------------------------- condition

Answer answer_fluid_condition(const Given& given, const Services&) {
    auto answer = Answer::judging(Verdict::fits);
    const auto reading = read_fluid_condition(observed_from(given.text_or("colour"), given.text_or("smell"),
                                                            given.text_or("clarity"), given.text_or("feel")));
    const auto source = fed_by(practice(), given, {"colour", "smell", "clarity", "feel"});
    for (const auto& finding : reading.findings) {
        answer.lines.push_back(text_line(std::string(sign_words(finding.sign)), std::string(finding.because), source));
        answer.next.push_back(std::string(finding.next));
    }
    for (const auto name : reading.not_observed)
        answer.next.push_back("Look at the " + std::string(name) + " too: it has not been observed.");
    if (reading.findings.empty()) {
        answer.lower(Verdict::not_recorded);
        answer.headline = "Cannot tell: nothing about the fluid was observed.";
        return answer;
    }
    const auto worst = reading.findings.front();
    answer.headline = (reading.do_not_drive ? "Do not drive: " : "") + std::string(worst.because) + ".";
    answer.headline.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(answer.headline.front())));
    if (reading.do_not_drive) answer.lower(Verdict::does_not_fit);
    else if (worst.sign > FluidSign::normal_ageing || !reading.not_observed.empty()) answer.lower(Verdict::check_first);
    answer.cautions.push_back("Colour is no identity: it never says which fluid this is.");
    return answer;
}

Inquiry fluid_condition_inquiry() {
    return {"fluid-condition",
            "What colour, smell, clarity and feel of the fluid are evidence of",
            {told(choice_input("colour", "colour on white paper", {"red", "amber", "brown", "black", "milky"}),
                  "fluid_colour"),
             told(choice_input("smell", "smell", {"none", "varnish", "burnt"}), "fluid_smell"),
             told(choice_input("clarity", "against the light", {"clear", "cloudy", "metallic_sheen"}), "fluid_clarity"),
             told(choice_input("feel", "between gloved fingers, cooled", {"smooth", "gritty"}), "fluid_feel")},
            answer_fluid_condition,
            "colour=milky"};
}

}  // namespace

std::vector<ServiceInquiry> services_due() {
    return {{"gearbox-fluid", service_due_inquiry(), "today", "last_changed", "last_at", "odometer", "km_per_year"}};
}

std::vector<Inquiry> service_inquiries() { return {service_due_inquiry(), fluid_condition_inquiry()}; }

}  // namespace casebound::transmission_fluids
