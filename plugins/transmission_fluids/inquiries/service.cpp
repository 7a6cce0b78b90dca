// service-due, fluid-condition: whether the fluid is still within its interval, and what it looks and smells like as
// evidence. Never supplies an interval, and never names a faulty part.
#include <array>
#include <cctype>
#include <charconv>
#include <chrono>
#include <cmath>

#include "answer_parts.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "known.h"
#include "on_vehicle.h"
#include "rows/findings.h"
#include "science/service_due.h"

namespace casebound::transmission_fluids {

namespace {

using std::chrono::year_month_day;

constexpr const char* intervals = "transmission_fluids_intervals";
constexpr double usual_severe_factor = 0.6;

std::string date_text(year_month_day date) {
    std::string text = std::to_string(static_cast<int>(date.year()));
    for (const unsigned part : {static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day())})
        text += (part < 10 ? "-0" : "-") + std::to_string(part);
    return text;
}

// YYYY-MM-DD, or YYYY-MM for its first day: the earlier reading makes the earlier date due.
year_month_day date_from(std::string_view what, const std::string& text) {
    std::array<int, 3> parts{0, 0, 1};
    const char* at = text.data();
    const char* const end = at + text.size();
    const std::size_t count = text.size() == 7 ? 2 : 3;
    bool good = text.size() == 7 || text.size() == 10;
    for (std::size_t i = 0; i < count && good; ++i) {
        const char* const stop = at + (i == 0 ? 4 : 2);
        good = stop <= end && std::from_chars(at, stop, parts[i]).ptr == stop && (stop == end || *stop == '-');
        at = stop == end ? stop : stop + 1;
    }
    const year_month_day date{std::chrono::year(parts[0]), std::chrono::month(static_cast<unsigned>(parts[1])),
                              std::chrono::day(static_cast<unsigned>(parts[2]))};
    if (!good || !date.ok()) refuse(what, text, "a month or a day, written 2021-03 or 2021-03-15");
    return date;
}

bool on_record(const Services& services, std::string_view column) {
    for (const auto& held : rows_on_vehicle(services, intervals))
        if (!held.row.text(column).empty()) return true;
    return false;
}

std::optional<double> interval_part(const Wanted& wanted, const Given& given, const Services& services,
                                    Answer& answer) {
    if (!given.has(wanted.input) && !on_record(services, wanted.column)) return std::nullopt;
    return known_number(wanted, given, services, answer);
}

ServiceInterval interval_of(const Given& given, const Services& services, Answer& answer) {
    ServiceInterval interval;
    interval.km = interval_part({"interval", intervals, "interval_km", "interval", "km", 0, "the maker's distance."},
                                given, services, answer);
    const auto months = interval_part(
        {"interval_age", intervals, "interval_months", "interval by age", "months", 0, "the maker's age."}, given,
        services, answer);
    if (months) interval.months = whole("interval by age", *months);
    for (const auto& held : rows_on_vehicle(services, intervals))
        if (!held.row.text("words").empty())
            answer.lines.push_back(
                line("the source's words", std::string(held.row.text("words")), source_of(held.row)));
    return interval;
}

double factor_in_severe_use(const Given& given, const Services& services, Answer& answer) {
    const auto known = known_number_if_any(
        {"severe_factor", intervals, "severe_factor", "factor in severe use", "", 2, ""}, given, services, answer);
    if (known) return *known;
    answer.assumptions.push_back("Severe use: both intervals times 0.6; 0.5 to 0.67 is common practice, no source.");
    return usual_severe_factor;
}

double severe_factor(const Given& given, const Services& services, Answer& answer) {
    if (!given.has("severe"))
        answer.next.push_back(
            "Say whether use is severe: towing, short trips, hills and deliveries shorten both intervals.");
    return given.yes("severe") ? factor_in_severe_use(given, services, answer) : 1;
}

LastService last_service(const Given& given) {
    LastService last;
    last.odometer_km = given.maybe_number("last_at");
    if (given.has("last_changed")) last.date = date_from("last change", given.text("last_changed"));
    return last;
}

void say_distance(const ServiceDue& due, Answer& answer) {
    if (!due.next_km) return;
    answer.lines.push_back(
        line("next at", *due.next_km, "km", 0, resting_on(computed("last service + interval x factor"), answer)));
    answer.lines.push_back(line(*due.km_left < 0 ? "overdue by distance" : "left by distance", std::abs(*due.km_left),
                                "km", 0, resting_on(computed("last service + interval x factor"), answer)));
    if (due.date_by_distance)
        answer.lines.push_back(line("that is about", date_text(*due.date_by_distance),
                                    resting_on(computed("at the distance of a year that is given"), answer)));
}

void say_age(const ServiceDue& due, Answer& answer) {
    if (due.date_by_age)
        answer.lines.push_back(line(*due.days_left < 0 ? "overdue by age since" : "due by age",
                                    date_text(*due.date_by_age),
                                    resting_on(computed("last service + interval x factor"), answer)));
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
            lower(answer, Verdict::not_recorded);
            answer.headline = answer.headline.empty() ? "No interval is stated; that is not the same as never."
                                                      : answer.headline + " is no interval, and not the same as never.";
            answer.next.push_back("Judge it by the fluid itself: `fluid-condition`.");
            return;
        case DueState::history_unknown:
            lower(answer, Verdict::check_first);
            answer.headline = "Due now: when it was last changed is not known.";
            answer.next.push_back("Look for an invoice or a service book; without one count it as due.");
            return;
        case DueState::overdue:
            lower(answer, Verdict::does_not_fit);
            answer.headline = overdue_text(due);
            return;
        case DueState::due_today:
            lower(answer, Verdict::does_not_fit);
            answer.headline = "Due today.";
            return;
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
                      const ServiceNow& now, const Given& given, const Services& services, Answer& answer) {
    Answer factor_said;
    const double factor = factor_in_severe_use(given, services, factor_said);
    const auto severe = service_due(interval, last, now, factor);
    lower(answer, Verdict::check_first);
    answer.lines.insert(answer.lines.end(), factor_said.lines.begin(), factor_said.lines.end());
    answer.lines.push_back(line("in severe use, times " + quantity_text(factor, ""), state_text(severe),
                                resting_on(computed("last service + interval x factor"), answer)));
    answer.assumptions.insert(answer.assumptions.end(), factor_said.assumptions.begin(), factor_said.assumptions.end());
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
    lower(answer, Verdict::check_first);
    answer.headline.pop_back();
    answer.headline += " by " + by + "; whether the maker states an interval by " + other + " too is not known.";
    answer.next.push_back("Look for an interval by " + other + " in the handbook, whichever comes first counts.");
}

// Words stand in the headline where the record has nothing but words.
void head_with_words(const Services& services, Answer& answer) {
    for (const auto& held : rows_on_vehicle(services, intervals))
        if (!held.row.text("words").empty()) answer.headline = "\"" + std::string(held.row.text("words")) + "\"";
}

// The same words beside another source's interval.
void add_words_without_interval(const Services& services, Answer& answer) {
    for (const auto& held : rows_on_vehicle(services, intervals))
        if (!held.row.text("words").empty() && held.row.text("interval_km").empty() &&
            held.row.text("interval_months").empty())
            answer.headline += " One source says \"" + std::string(held.row.text("words")) +
                               "\"; that is no interval, and not never.";
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

Answer answer_service_due(const Given& given, const Services& services) {
    Answer answer;
    auto interval = interval_of(given, services, answer);
    const double factor = severe_factor(given, services, answer);
    const bool stated = interval.km || interval.months;
    auto last = last_service(given);
    const auto now = service_now(given, interval, answer);
    if (!given.has("odometer")) last.odometer_km.reset();
    const auto due = service_due(interval, last, now, factor);
    say_distance(due, answer);
    say_age(due, answer);
    if (!stated) head_with_words(services, answer);
    say_state(due, answer);
    if (due.state == DueState::later && !given.has("severe"))
        weigh_severe_use(due, interval, last, now, given, services, answer);
    if (due.state == DueState::later) weigh_other_interval(interval, given, services, answer);
    if (stated && due.state == DueState::no_interval_stated)
        answer.headline = "Cannot tell yet: the distance covered is not known.";
    if (stated) add_words_without_interval(services, answer);
    if (!stated && answer.verdict == Verdict::not_recorded && services.vehicle == nullptr)
        answer.next.push_back("Give interval, interval_age or both, from the handbook.");
    return answer;
}

Inquiry service_due_inquiry() {
    return {"service-due",
            "Is the fluid still within its service interval, by distance and by age?",
            {number_input("interval", "service interval by distance", "km", 100, 1e6),
             number_input("interval_age", "service interval by age", "months", 1, 600),
             told(number_input("odometer", "distance covered now", "km", 0, 5e6), "odometer"),
             told(number_input("last_at", "distance at the last change", "km", 0, 5e6), "fluid_changed_at"),
             helped(told(text_input("last_changed", "month or day of the last change"), "fluid_changed"),
                    "2021-03 or 2021-03-15"),
             assumed(word_input(Input::Kind::date, "today", "day it is asked for"), "today"),
             number_input("km_per_year", "distance in a year", "km", 1, 500000),
             told(yes_no_input("severe", "severe use: towing, short trips, hills, deliveries"), "severe_use"),
             assumed(helped(choice_input("role", "which fluid", {"gearbox-fluid"}),
                            "the intervals on record are the gearbox's"),
                     "gearbox-fluid"),
             number_input("severe_factor", "what both intervals are multiplied by in severe use", "", 0.3, 1)},
            answer_service_due};
}

// ---------------------------------------------------------------- condition

Answer answer_fluid_condition(const Given& given, const Services&) {
    Answer answer;
    const auto said = [&](const char* input) { return given.has(input) ? given.text(input) : std::string(); };
    const auto reading = read_fluid_condition(
        observed_from(said("colour"), said("smell"), said("clarity"), said("feel")));
    const SourceNote source = common_practice();
    for (const auto& finding : reading.findings) {
        answer.lines.push_back(line(std::string(sign_words(finding.sign)), std::string(finding.because), source));
        answer.next.push_back(std::string(finding.next));
    }
    for (const auto name : reading.not_observed)
        answer.next.push_back("Look at the " + std::string(name) + " too: it has not been observed.");
    if (reading.findings.empty()) {
        lower(answer, Verdict::not_recorded);
        answer.headline = "Cannot tell: nothing about the fluid was observed.";
        return answer;
    }
    const auto worst = reading.findings.front();
    answer.headline = (reading.do_not_drive ? "Do not drive: " : "") + std::string(worst.because) + ".";
    answer.headline.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(answer.headline.front())));
    if (reading.do_not_drive) lower(answer, Verdict::does_not_fit);
    else if (worst.sign > FluidSign::normal_ageing || !reading.not_observed.empty())
        lower(answer, Verdict::check_first);
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
            answer_fluid_condition};
}

}  // namespace

std::vector<Inquiry> service_inquiries() { return {service_due_inquiry(), fluid_condition_inquiry()}; }

}  // namespace casebound::transmission_fluids
