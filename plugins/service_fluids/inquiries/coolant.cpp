// Coolant: freezing point and share, how much to draw off, and whether two families are mixed.
#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/records.h"

namespace casebound::service_fluids {
namespace {

constexpr const char* coolant_volumes = "service_fluids_coolant_volumes";

// Below and above, a coolant no longer does what it is for: ASTM D3306, 40 to 60 % of concentrate.
constexpr double least_pct = 40, most_pct = 60;
const char* const poison = "coolant is sweet and poisons children and animals: catch it all, and hand it in";

Input base_input() {
    return assumed(choice_input("base", "the glycol", {"ethylene_glycol", "propylene_glycol"}), "ethylene_glycol");
}

SourceNote on_the_line(const Freezing& freezing, double glycol_pct, const Given& given, const char* input) {
    return fed_by(freezing.source_at(glycol_pct), given, {"base", input});
}

void say_outside(Answer& answer, const Freezing& freezing) {
    answer.lower(Verdict::not_recorded);
    if (freezing.points.size() < 2) {
        answer.headline = "Cannot tell: no freezing points are recorded for that glycol.";
        answer.next = {"Load the reference pack of service_fluids."};
        return;
    }
    answer.headline = "Outside what is recorded: " + fixed(freezing.points.front().glycol_pct, 0) + " to " +
                      fixed(freezing.points.back().glycol_pct, 0) + " % freeze between " +
                      fixed(freezing.points.front().freeze_c, 0) + " and " + fixed(freezing.points.back().freeze_c, 0) +
                      " °C.";
}

void say_usual_share(Answer& answer, double glycol_pct, const SourceNote& source) {
    if (glycol_pct >= least_pct && glycol_pct <= most_pct) return;
    answer.cautions.push_back(glycol_pct < least_pct ? "under 40 % it protects too little against rust"
                                                     : "over 60 % it carries less heat and freezes earlier again");
    answer.lines.push_back(text_line("usual share", "40 to 60 %", weaker(standard("ASTM D3306, 1.1"), source)));
}

Answer answer_freeze_point(const Given& given, const Services& services) {
    auto answer = Answer::computing();
    const auto freezing = freezing_of(services.facts, given.text("base"));
    const bool by_share = given.has("share");
    if (!by_share && !given.has("freeze"))
        refuse("share and freeze", "neither", "one of them: the share, or the freezing point on a refractometer");
    const char* input = by_share ? "share" : "freeze";
    const auto found = by_share ? freeze_at(freezing.points, given.number("share"))
                                : share_at(freezing.points, given.number("freeze"));
    if (!found) {
        say_outside(answer, freezing);
        return answer;
    }
    const double glycol_pct = by_share ? given.number("share") : *found;
    const auto source = on_the_line(freezing, glycol_pct, given, input);
    const double freeze_c = by_share ? *found : given.number("freeze");
    answer.headline = fixed(glycol_pct, 0) + " % of " + base_said(given.text("base")) + " freezes at about " +
                      fixed(freeze_c, 0) + " °C.";
    answer.lines = {measure_line("share of concentrate", glycol_pct, "%", 0, by_share ? given.source(input) : source),
                    measure_line("freezing point", freeze_c, "degC", 0, by_share ? source : given.source(input))};
    say_usual_share(answer, glycol_pct, source);
    answer.assumptions = {"the first ice; pure glycol, a maker's own table replaces it"};
    answer.cautions.push_back("a refractometer for one glycol reads the other wrong");
    return answer;
}

// ---------------------------------------------------------------- drawing off

struct Shares {
    double pct;
    SourceNote source;
};

// As a share by hand, else from a freezing point.
std::optional<Shares> share_of(const Given& given, const Freezing& freezing, const char* share, const char* freeze) {
    if (given.has(share)) return Shares{given.number(share), given.source(share)};
    if (!given.has(freeze)) return std::nullopt;
    const auto found = share_at(freezing.points, given.number(freeze));
    if (!found) return std::nullopt;
    return Shares{*found, on_the_line(freezing, *found, given, freeze)};
}

Answer not_enough(const char* what) {
    auto answer = Answer::computing();
    answer.lower(Verdict::not_recorded);
    answer.headline = std::string("Cannot tell yet: ") + what + " is not known.";
    answer.next = {"Give the share, or the freezing point on a refractometer, and how much the circuit holds."};
    return answer;
}

// More than the plug lets out at once takes two rounds: the rest stays in the block.
void say_rounds(Answer& answer, double draw_l, const Given& given) {
    if (!given.has("drained") || draw_l <= given.number("drained")) return;
    answer.cautions.push_back("the plug lets out " + fixed(given.number("drained"), 1) +
                              " L, the rest stays in the block: run it warm and draw off again");
}

Answer answer_draw_off(const Given& given, const Services& services) {
    const auto freezing = freezing_of(services.facts, given.text("base"));
    const auto have = share_of(given, freezing, "have", "freeze"),
               want = share_of(given, freezing, "want", "want-freeze");
    if (!have) return not_enough("what share is in the circuit");
    if (!given.has("total")) return not_enough("how much the circuit holds");
    const double want_pct = want ? want->pct : 50, fill_pct = given.has("fill")       ? given.number("fill")
                                                              : want_pct >= have->pct ? 100.0
                                                                                      : 0.0;
    const double total_l = given.number("total"), draw_l = draw_off_l(total_l, have->pct, want_pct, fill_pct);
    auto answer = Answer::computing();
    const auto source = fed_by(weaker(computed("V (want - have) / (fill - have)"), have->source), given,
                               {"total", "want", "want-freeze", "fill"});
    answer.headline = draw_l == 0 ? std::string("Nothing to draw off: it has the share that is wanted.")
                                  : "Draw off " + fixed(draw_l, 1) + " L and fill as much of " +
                                        (fill_pct == 0     ? std::string("distilled water")
                                         : fill_pct == 100 ? std::string("concentrate")
                                                           : "coolant at " + number_text(fill_pct) + " %") +
                                        ".";
    answer.lines = {measure_line("share that is in", have->pct, "%", 0, have->source),
                    measure_line("share that is wanted", want_pct, "%", 0, want ? want->source : practice()),
                    measure_line("draw off", draw_l, "L", 1, source)};
    if (const auto freeze_c = freeze_at(freezing.points, want_pct))
        answer.lines.push_back(
            measure_line("freezes then at", *freeze_c, "degC", 0, weaker(source, freezing.source_at(want_pct))));
    say_usual_share(answer, want_pct, source);
    say_rounds(answer, draw_l, given);
    if (!want) answer.assumptions.push_back("half concentrate, half water is wanted");
    answer.next = {"Draw it off cold, fill, bleed, run it warm with the heater on, let it cool, and measure again."};
    answer.cautions.insert(answer.cautions.end(), {"never open a hot circuit: it boils over you", poison});
    return answer;
}

// ---------------------------------------------------------------- mixing

Answer answer_mix(const Given& given, const Services& services) {
    const auto &offered = given.text("offered"), &present = given.text("present");
    const auto mixing = mixing_of(services.facts, offered, present);
    auto answer = Answer::judging(mixing.may ? Verdict::fits : Verdict::check_first);
    if (!mixing.may && mixing.source.row.line != 0) answer.lower(Verdict::does_not_fit);
    const auto source = fed_by(mixing.source, given, {"offered", "present", "coolant"});
    answer.headline = mixing.may ? "It may be poured in." : "Do not mix them: flush the whole circuit out first.";
    answer.lines = {text_line(family_said(offered) + " onto " + family_said(present), mixing.words, source)};
    if (!mixing.may) answer.next = {"To get home, distilled water alone harms nothing until the next frost."};
    answer.cautions = {"colour is no family: two makers dye two families alike", poison};
    return answer;
}

}  // namespace

Inquiry freeze_point_inquiry() {
    return {
        "freeze-point",
        "What a share of concentrate freezes at, or the share that a freezing point stands for",
        {base_input(), number_input("share", "concentrate in it, by volume", "%", 0, 100),
         found_by(told(number_input("freeze", "freezing point as measured", "degC", -80, 0), "coolant_freeze_point"),
                  "Put a cold drop on a refractometer for that glycol.")},
        answer_freeze_point,
        "share=50"};
}

Inquiry draw_off_inquiry() {
    return {"draw-off",
            "How much coolant to draw off and replace for another share, by share or by freezing point",
            {base_input(),
             recorded(number_input("total", "coolant in the circuit, heater and tank included", "L", 0.5, 100),
                      coolant_volumes, "total_l"),
             number_input("have", "share that is in, by volume", "%", 0, 100),
             told(number_input("freeze", "freezing point of what is in", "degC", -80, 0), "coolant_freeze_point"),
             number_input("want", "share that is wanted; 50 where nothing is given", "%", 0, 100),
             number_input("want-freeze", "freezing point that is wanted", "degC", -80, 0),
             number_input("fill", "share of what is filled: 100 concentrate, 50 ready to use, 0 water", "%", 0, 100),
             recorded(number_input("drained", "what the plug lets out", "L", 0.1, 100), coolant_volumes, "drained_l")},
            answer_draw_off,
            "total=8L have=33 want=50"};
}

Inquiry mix_inquiry() {
    return {
        "mix",
        "May one coolant be poured onto another? By inhibitor family, and only where a source says so",
        {key_of(text_input("coolant", "interchange group or item of the coolant in the hand"), coolants),
         required(recorded(choice_input("offered", "family that is poured in", family_names()), coolants, "family")),
         required(found_by(told(choice_input("present", "family in the circuit", family_names()), "coolant_family"),
                           "Read the label of the pack it was filled from, or the maker's name for it; the "
                           "colour tells nothing."))},
        answer_mix,
        "offered=organic present=hybrid_silicate"};
}

}  // namespace casebound::service_fluids
