// Where the feedback says that the door stands, against what was commanded; and where it stands at both stops, against
// what is recorded.
#include "science/feedback.h"

#include <cmath>

#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/records.h"
#include "rows/vocabulary.h"

namespace casebound::actuators {
namespace {

SourceNote share_source(const Given& given) {
    return fed_by(computed("share = signal / reference"), given, {"signal", "reference"});
}

// The stops by hand, else as recorded at that place; none where the rows left differ.
struct Stops {
    double first, last;
    SourceNote source;
    std::string first_said, last_said;
};
std::optional<Stops> stops_of(const Given& given, const Services& services) {
    if (given.has("first-stop") && given.has("last-stop"))
        return Stops{given.number("first-stop"), given.number("last-stop"),
                     weaker(given.source("first-stop"), given.source("last-stop")), "first", "last"};
    std::optional<Stops> only;
    for (const auto& row : rows_at(services, "actuators_end_stops", place_given(given))) {
        const Stops here{row->need_number("first_pct"), row->need_number("last_pct"), row_source(*row),
                         cell(*row, "first_stop"), cell(*row, "last_stop")};
        if (only && (only->first != here.first || only->last != here.last)) return std::nullopt;
        only = here;
    }
    return only;
}

struct Said {
    Verdict verdict;
    const char *headline, *next;
};
Said said_of(Stand stand, bool commanded) {
    switch (stand) {
        case Stand::where_commanded:
            return commanded ? Said{Verdict::fits, "It stands where it was commanded.",
                                    "If the air is wrong all the same, look at the lever of the door."}
                             : Said{Verdict::check_first, "It stands between its stops.",
                                    "Give the commanded position too: command=60."};
        case Stand::short_of_it:
            return {Verdict::check_first, "It stands short of where it was commanded.",
                    "Take it off and turn the door by hand: stuck, or is it the gear?"};
        case Stand::past_it:
            return {Verdict::check_first, "It stands past where it was commanded.",
                    "Teach the stops; if it stays so, take it off and run it off its door."};
        case Stand::beyond_a_stop:
            return {Verdict::check_first, "It stands beyond a stop: the lever slipped or broke, or another is fitted.",
                    "Look at the lever, and compare the actuator with what is recorded."};
        case Stand::no_signal: break;
    }
    return {Verdict::check_first, "No track reads so: the wire of the signal is broken or shorted.",
            "Unplug it and measure the track between its outer pins, and the wiper against both."};
}

Answer answer_feedback(const Given& given, const Services& services) {
    const double share = share_pct(given.number("signal"), given.number("reference"));
    const auto stops = stops_of(given, services);
    const auto command = given.maybe_number("command");
    const double position = stops ? position_pct(share, stops->first, stops->last) : 50;
    const auto stand = stand_of(share, position, stops ? command : std::nullopt);
    auto answer = Answer::judging(Verdict::fits);
    answer.lines = {measure_line("share of the reference", share, "%", 1, share_source(given))};
    if (!stops && stand != Stand::no_signal) {
        answer.lower(Verdict::not_recorded);
        answer.headline = "The share is " + fixed(share, 1) + " %; where the stops lie is not recorded.";
        answer.next = {"Run it to both stops and write down the shares, or give first-stop and last-stop."};
        return answer;
    }
    const auto says = said_of(stand, command.has_value());
    answer.lower(says.verdict);
    answer.headline = says.headline;
    answer.next = {says.next};
    if (stops) {
        const auto source = weaker(share_source(given), stops->source);
        answer.lines.push_back(text_line("stops",
                                         stops->first_said + " " + fixed(stops->first, 1) + " %, " + stops->last_said +
                                             " " + fixed(stops->last, 1) + " %",
                                         stops->source));
        answer.lines.push_back(measure_line("position between the stops", position, "%", 1, source));
        if (command) {
            const auto apart = fed_by(weaker(source, from_memory("at rest within 5 %, from memory")), given,
                                      {"command"});
            answer.lines.push_back(measure_line("commanded", *command, "%", 1, given.source("command")));
            answer.lines.push_back(measure_line("apart", position - *command, "%", 1, apart));
        }
    }
    answer.assumptions = {"it has come to rest; within 5 % of the travel is where it was commanded, from memory"};
    answer.cautions = {"probe from behind the plug, with a pin that spreads no contact"};
    return answer;
}

Answer answer_stops(const Given& given, const Services& services) {
    const double reference = given.number("reference");
    const double first = share_pct(given.number("first"), reference), last = share_pct(given.number("last"), reference);
    const auto stops = stops_of(given, services);
    auto answer = Answer::judging(Verdict::fits);
    const auto source = fed_by(computed("share = signal / reference"), given, {"first", "last", "reference"});
    answer.lines = {measure_line("at the first stop", first, "%", 1, source),
                    measure_line("at the last stop", last, "%", 1, source)};
    if (!stops) {
        answer.lower(Verdict::not_recorded);
        answer.headline = "Measured: " + fixed(first, 1) + " % and " + fixed(last, 1) +
                          " % of the reference; nothing is recorded to compare with.";
        answer.next = {"Write it down: casebound note VEHICLE end-stops ..., measured here."};
        return answer;
    }
    const double at_first = position_pct(first, stops->first, stops->last);
    const double at_last = position_pct(last, stops->first, stops->last);
    const auto against = weaker(source, stops->source);
    answer.lines.push_back(measure_line("stops short at the first, of the travel", at_first, "%", 1, against));
    answer.lines.push_back(measure_line("stops short at the last, of the travel", 100 - at_last, "%", 1, against));
    if (const auto travel = given.maybe_number("travel"))
        answer.lines.push_back(measure_line("travel now", turned_deg(first, last, stops->first, stops->last, *travel),
                                            "deg", 1, fed_by(against, given, {"travel"})));
    const bool short_of = at_first > rest_within_pct || at_last < 100 - rest_within_pct;
    const bool beyond = at_first < -rest_within_pct || at_last > 100 + rest_within_pct;
    if (short_of || beyond) answer.lower(Verdict::check_first);
    answer.headline = beyond     ? "It runs past a recorded stop: the lever slipped or broke, or the stop is gone."
                      : short_of ? "It stops short: something is in the door's way, or teeth are missing."
                                 : "Both stops are where they are recorded.";
    if (short_of) answer.next = {"Take it off: if it reaches both stops off its door, the door is in the way."};
    if (beyond) answer.next = {"Look at the lever, and turn the door by hand from stop to stop."};
    answer.assumptions = {"within 5 % of the travel is the same stop, from memory"};
    return answer;
}

std::vector<Input> with_stops(std::vector<Input> inputs) {
    inputs.push_back(helped(number_input("first-stop", "share at the first stop, as recorded", "%", 0, 100),
                            "filled from the rows of the vehicle's line where it is left out"));
    inputs.push_back(number_input("last-stop", "share at the last stop, as recorded", "%", 0, 100));
    return inputs;
}

Input reference_input() {
    return required(found_by(number_input("reference", "between the outer pins of the track, plugged in", "V", 1, 32),
                             "Plug on, meter across plus and minus of the track; often 5 V."));
}

}  // namespace

Inquiry feedback_inquiry() {
    return {"feedback", "Where the feedback says that the door stands, against what was commanded",
            with_stops({place_input(),
                        required(found_by(number_input("signal", "of the wiper against minus", "V", 0, 40),
                                          "Plug on, probe the wiper from behind, minus at the same plug.")),
                        reference_input(),
                        found_by(number_input("command", "commanded position, of the travel", "%", 0, 100),
                                 "Read the commanded position with the tester, or set a stop: 0 or 100.")}),
            answer_feedback, "signal=2.5V reference=5V command=50"};
}

Inquiry end_stops_inquiry() {
    return {"end-stops",
            "Where the feedback stands at both stops, against what is recorded: short, past, or as it should",
            with_stops({place_input(), required(number_input("first", "signal at the first stop", "V", 0, 40)),
                        required(number_input("last", "signal at the last stop", "V", 0, 40)), reference_input(),
                        number_input("travel", "travel of the shaft as recorded", "deg", 1, 720)}),
            answer_stops, "first=0.5V last=4.3V reference=5V travel=90deg"};
}

}  // namespace casebound::actuators
