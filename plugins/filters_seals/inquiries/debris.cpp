// What lies in the pan, weighed as evidence on whether a small repair is enough.
#include <cmath>

#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "rows/pack_words.h"
#include "rows/reading.h"
#include "science/debris.h"

namespace casebound::filters_seals {
namespace {

std::vector<Debris> findings_of(const Given& given) {
    std::vector<Debris> found;
    if (!given.has("found")) return found;
    for (const auto& word : given.items("found")) {
        const auto one = debris_from(word);
        if (!one) refuse("found", word, listed(debris_words()));
        found.push_back(*one);
    }
    return found;
}

std::string steps_text(double steps) {
    if (steps == 0) return "no weight";
    return "odds " + std::string(steps < 0 ? "halved " : "doubled ") + shown(std::abs(steps)) +
           (std::abs(steps) == 1 ? " time" : " times");
}

std::string chance_clause(double p) {
    const std::string word(chance_word(p));
    return word == "possible" ? "a small repair may be enough" : "a small repair is " + word + " to be enough";
}

std::string debris_headline(const DebrisAnswer& result, bool looked) {
    if (!looked) return "Nobody has looked in the pan: the chance stays as it was.";
    if (!result.stop_and_decide) return sentence("by what lies in the pan, " + chance_clause(result.p_cheap_fix));
    return "Stop and decide again before buying anything: " + chance_clause(result.p_cheap_fix) + ".";
}

Answer answer_debris(const Given& given, const Services& services) {
    const auto found = findings_of(given);
    const auto recorded_rows = debris_rows(services.facts.rows("filters_seals_debris"));
    const DebrisAnswer result = weigh_debris(given.number("prior") / 100, found, recorded_rows);
    Answer answer = Answer::judging(Verdict::check_first);  // evidence moves a chance, it settles nothing
    answer.headline = debris_headline(result, !found.empty());
    answer.lines.push_back(measure_line("chance before", given.number("prior"), "%", 0, given.source("prior")));
    for (const Debris one : found) {
        const DebrisRow& row = debris_as_recorded(one, recorded_rows);
        answer.lines.push_back(text_line(std::string(row.found),
                                         std::string(row.reads_as) + "; " + steps_text(row.steps),
                                         note(row.reading_source)));
    }
    answer.lines.push_back(measure_line("chance after", 100 * result.p_cheap_fix, "%", 0,
                                        weaker(note(result.weakest), given.source("prior"))));
    answer.assumptions.push_back("The weights are from memory: each -1 halves the odds, each finding counts once.");
    answer.next = sentences(result.look_next);
    answer.cautions.push_back("Debris points; it never condemns or clears a gearbox by itself.");
    return answer;
}

}  // namespace

std::vector<Inquiry> debris_inquiries() {
    const Input found = helped(word_input(Input::Kind::text_list, "found", "what lies in the pan, one or more"),
                               listed(debris_words()));
    return {
        {"pan-debris",
         "What lies in the pan, as evidence with its weight",
         {told(found, "pan_debris"),
          assumed(number_input("prior", "chance that a small repair is enough, before looking", "%", 0, 100), "50 %")},
         answer_debris,
         "found=grey_paste_thin"}};
}

}  // namespace casebound::filters_seals
