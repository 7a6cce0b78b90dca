// What comes off to reach an actuator, how long that takes with the airbag's waiting time and the teaching, and where
// it then is.
#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/records.h"
#include "rows/vocabulary.h"

namespace casebound::actuators {
namespace {

struct Sum {
    double minutes{};
    bool open{};  // a row counted that only may hold
    SourceNote source{Evidence::law, ""};

    void add(const HeldRow& row, double more) {
        minutes += more;
        open |= row.holds == Holds::open;
        source = weaker(source, row_source(*row));
    }
};

void add_teaching(Answer& answer, Sum& sum, const Services& services, Place place) {
    for (const auto& row : rows_at(services, "actuators_teachings", place)) {
        if (row->text("method") == "none") continue;
        const auto minutes = row->number("minutes");
        answer.lines.push_back(text_line("teach afterwards",
                                         (row->stated("words") ? cell(*row, "words") : said(row->text("method"))) +
                                             (minutes ? ", " + quantity_text(*minutes, "min") : "") + row.where(),
                                         row_source(*row)));
        if (minutes) sum.add(row, *minutes);
    }
}

Answer answer_way_in(const Given& given, const Services& services) {
    const auto place = place_given(given);
    const auto rows = rows_at(services, "actuators_ways_in", place);
    auto answer = Answer::computing();
    if (rows.empty()) {
        answer.lower(Verdict::not_recorded);
        answer.headline = "Not recorded what comes off to reach it: write it down when you have been there.";
        answer.next = {
            "casebound note VEHICLE ways-in function=... side=... step=1 comes_off=... minutes=... "
            "beside_airbag=yes"};
        return answer;
    }
    Sum sum;
    for (const auto& row : rows) {
        sum.add(row, row->need_number("minutes"));
        answer.lines.push_back(
            text_line(cell(*row, "step") + ".",
                      cell(*row, "comes_off") + ", " + quantity_text(row->need_number("minutes"), "min") +
                          (row->yes("beside_airbag") ? "; beside an airbag" : "") +
                          (row->stated("place") ? "; it sits " + cell(*row, "place") : "") + row.where(),
                      row_source(*row)));
    }
    if (const auto wait = airbag_wait(services, place)) {
        answer.cautions.push_back(wait->text);
        if (wait->minutes) {
            sum.minutes += *wait->minutes;
            sum.source = weaker(sum.source, wait->source);
            answer.lines.push_back(measure_line("battery off, waiting", *wait->minutes, "min", 0, wait->source));
        } else answer.lower(Verdict::check_first);
    }
    add_teaching(answer, sum, services, place);
    answer.lines.push_back(measure_line("in all", sum.minutes, "min", 0, weaker(sum.source, computed("added up"))));
    if (sum.open) answer.lower(Verdict::check_first);
    answer.headline = "The " + place_said(place) + ": " + std::to_string(rows.size()) +
                      (rows.size() == 1 ? " step" : " steps") + " off and on again, " + fixed(sum.minutes, 0) +
                      " min in all" + (sum.open ? ", if every step is needed on this vehicle." : ".");
    answer.cautions.push_back("clips of trim break in the cold: warm the cabin first");
    return answer;
}

}  // namespace

Inquiry way_in_inquiry() {
    return {"way-in",
            "What comes off to reach an actuator, how long it takes, and where it then is",
            {required(place_input())},
            answer_way_in,
            "place=temperature_left --for bookvan"};
}

}  // namespace casebound::actuators
