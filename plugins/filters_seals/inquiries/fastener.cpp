// A pan bolt: what its torque clamps with, whether the torque is sensible in the unit it was read in, and whether
// the old bolt may go back. Stages stay stages.
#include <algorithm>
#include <charconv>
#include <cmath>

#include "inquiries/answering.h"
#include "inquiries/inquiries.h"
#include "science/fastener.h"

namespace casebound::filters_seals {
namespace {

// Coarse pitch of ISO 262, from memory; only where nobody gives one.
std::optional<double> coarse_pitch_mm(double diameter_mm) {
    for (const auto& [diameter, pitch] :
         {std::pair{5.0, 0.8}, std::pair{6.0, 1.0}, std::pair{8.0, 1.25}, std::pair{10.0, 1.5}, std::pair{12.0, 1.75}})
        if (diameter == diameter_mm) return pitch;
    return std::nullopt;
}

// "M6x20": the diameter.
std::optional<double> diameter_of(std::string_view bolt) {
    double value = 0;
    if (bolt.empty() || bolt.front() != 'M') return std::nullopt;
    const auto [end, error] = std::from_chars(bolt.data() + 1, bolt.data() + bolt.size(), value);
    return error == std::errc{} ? std::optional(value) : std::nullopt;
}

// Text, because core takes a bare number to be in N m: here the unit itself is in doubt, and one is required.
std::optional<LabelledTorque> torque_given(const Given& given) {
    if (!given.has("torque")) return std::nullopt;
    const auto torque = torque_from_text(given.text("torque"));
    if (!torque)
        refuse("torque", given.text("torque"),
               "a number with its unit, such as \"10 N m\", \"89 in lbf\" or \"7 ft lbf\"; units N m, lbf in, lbf ft");
    return torque;
}

struct Bolt {
    std::optional<std::vector<Stage>> stages;
    std::optional<LabelledTorque> torque_as_given;
    std::optional<double> torque_nm, diameter_mm;
    SourceNote torque_source, diameter_source;
};

std::optional<std::vector<Stage>> stages_given(const Given& given) {
    if (!given.has("tightening")) return std::nullopt;
    const auto stages = stages_from_text(given.text("tightening"));
    if (!stages)
        refuse("tightening", given.text("tightening"),
               "stages with their units, such as \"9 N m\" or \"5 N m + 60 deg\"");
    return stages;
}

Bolt bolt_of(const Given& given) {
    Bolt bolt;
    bolt.stages = stages_given(given);
    bolt.torque_as_given = torque_given(given);
    if (const auto& torque = bolt.torque_as_given) {
        bolt.torque_nm = to_newton_metre(torque->value, torque->unit);
        bolt.torque_source = given.source("torque");
    } else if (bolt.stages && bolt.stages->front().kind == Stage::Kind::torque_nm) {
        bolt.torque_nm = bolt.stages->front().value;
        bolt.torque_source = given.source("tightening");
    }
    const char* const thread = given.has("diameter") ? "diameter" : "bolt";
    bolt.diameter_mm = given.has("diameter") ? given.maybe_number("diameter") : diameter_of(given.text_or("bolt"));
    bolt.diameter_source = given.source(thread);
    return bolt;
}

void add_preload(Answer& answer, const Bolt& bolt, const Given& given) {
    Grid grid{"Clamp force at this torque, kN; tightening by torque alone scatters by 25 %",
              {"state of the thread", "K", "least", "nominal", "most"},
              {},
              {}};
    std::vector<std::pair<std::string, double>> states{{"lubricated", kNutFactorLubricated},
                                                       {"as received steel", kNutFactorAsReceived},
                                                       {"dry or rusty", kNutFactorDry}};
    if (given.has("nut_factor")) states = {{"as given", given.number("nut_factor")}};
    for (const auto& [state, factor] : states) {
        const Stacked force = preload_with_scatter_kn(factor, *bolt.torque_nm, *bolt.diameter_mm);
        const auto kn = [](double value) {
            return shown(static_cast<double>(static_cast<long>(value * 100 + 0.5)) / 100);
        };
        grid.rows.push_back({state, shown(factor), kn(force.min), kn(force.nominal), kn(force.max)});
    }
    answer.grids.push_back(std::move(grid));
    answer.lines.push_back(text_line("clamp force", "torque / (K x diameter), per bolt",
                                     {Evidence::common_practice, "published engineering texts, T = K F d", {}}));
}

// The torque that was read, against the usual one: what a person must see first.
std::string senseless_headline(const TorqueSense& sense, TorqueUnit given_unit) {
    const double times = sense.as_labelled_nm / sense.usual_nm;
    const auto tenths = [](double value) { return shown(std::round(10 * value) / 10); };
    const bool inch_as_foot = given_unit == TorqueUnit::foot_pound &&
                              std::find(sense.perhaps.begin(), sense.perhaps.end(), TorqueUnit::inch_pound) !=
                                  sense.perhaps.end();
    if (inch_as_foot)
        return "Read the torque again: inch pounds read as foot pounds are a factor of 12. As typed it is " +
               tenths(sense.as_labelled_nm) + " N·m, in inch pounds " + tenths(sense.as_labelled_nm / 12) +
               " N·m; this bolt usually takes about " + tenths(sense.usual_nm) + ".";
    const std::string share = times >= 1 ? shown(std::round(times)) + " times"
                                         : shown(std::round(100 * times)) + " % of";
    std::string out = "Read the torque again: " + tenths(sense.as_labelled_nm) + " N·m is about " + share +
                      " what this bolt usually takes (" + tenths(sense.usual_nm) + " N·m)";
    for (const TorqueUnit one : sense.perhaps) out += "; was it " + std::string(text(one)) + "?";
    return sense.perhaps.empty() ? out + "." : out;
}

// False when the torque asks to be read again; the headline then says so.
bool add_sense(Answer& answer, const Bolt& bolt, const Given& given) {
    const double diameter = *bolt.diameter_mm;
    const auto pitch = given.has("pitch") ? given.maybe_number("pitch") : coarse_pitch_mm(diameter);
    if (!pitch) {
        answer.next.push_back("Measure the pitch, and the torque can be checked against the thread.");
        return true;
    }
    if (!given.has("pitch"))
        answer.assumptions.push_back("Pitch " + shown(*pitch) + " mm: ISO 262 coarse series, from memory.");
    const auto torque = bolt.torque_as_given.value_or(LabelledTorque{*bolt.torque_nm, TorqueUnit::newton_metre});
    const TorqueSense sense = torque_sense(torque.value, torque.unit, {diameter, *pitch});
    answer.lines.push_back(
        text_line("sensible", sense.say, {Evidence::memory, "usual torque of class 8.8, from memory", {}}));
    if (!sense.sensible) {
        answer.cautions.push_back(sentence(sense.say));
        answer.headline = senseless_headline(sense, torque.unit) + " " + answer.headline;
    }
    return sense.sensible;
}

Verdict verdict_on(const BoltAnswer& advice) {
    if (advice.advice == BoltAdvice::new_bolt) return Verdict::does_not_fit;
    return advice.advice == BoltAdvice::look_first ? Verdict::check_first : Verdict::fits;
}

void add_bolt_lines(Answer& answer, const Bolt& bolt, const Given& given) {
    if (const auto* stages = given.find("tightening"); stages && stages->from != From::recorded)
        answer.lines.push_back(text_line("tightening", text(*bolt.stages), stages->source));
    if (const auto* sequence = given.find("sequence"); sequence && sequence->from != From::recorded)
        answer.lines.push_back(text_line("order of the bolts", sequence->text, sequence->source));
    if (bolt.torque_nm) answer.lines.push_back(measure_line("torque", *bolt.torque_nm, "N m", 1, bolt.torque_source));
    if (bolt.diameter_mm) answer.lines.push_back(mm_line("thread", *bolt.diameter_mm, bolt.diameter_source, 1));
}

Answer answer_bolt(const Given& given, const Services&) {
    const Bolt bolt = bolt_of(given);
    const auto allowed = given.has("data_allow_reuse") ? std::optional(given.yes("data_allow_reuse")) : std::nullopt;
    const BoltAnswer advice = examine_bolt(bolt.stages, given.yes("loosened"), allowed);
    Answer answer = Answer::judging(verdict_on(advice));
    answer.headline = sentence(advice.say);
    answer.lines.push_back(text_line("the old bolt", advice.say, note(advice.source)));
    add_bolt_lines(answer, bolt, given);
    if (bolt.torque_nm && bolt.diameter_mm) {
        add_preload(answer, bolt, given);
        if (!add_sense(answer, bolt, given)) answer.lower(Verdict::check_first);
    }
    answer.cautions.push_back(
        "Inch pounds read as foot pounds are twelve times the torque: the bolt breaks or the case strips.");
    if (bolt.stages && bolt.stages->size() > 1)
        answer.cautions.push_back("Tighten stage by stage; two angles are not one of their sum.");
    return answer;
}

}  // namespace

std::vector<Inquiry> fastener_inquiries() {
    constexpr const char* table = "filters_seals_flanges";
    return {
        {"pan-bolt",
         "A pan bolt: clamp force, whether its torque is sensible, whether it may go back",
         {text_input("torque", "torque, with its unit: 10 N m, 89 in lbf, 7 ft lbf"),
          number_input("diameter", "thread diameter", "mm", 1, 100),
          recorded(helped(text_input("bolt", "thread and length of the bolt"), "such as M6x20"), table, "bolt"),
          number_input("pitch", "thread pitch", "mm", 0.2, 10),
          found_by(recorded(helped(text_input("tightening", "tightening, stages in order"), "such as 5 N m + 60 deg"),
                            table, "tightening"),
                   "read it in the maker's data for this gearbox."),
          recorded(text_input("sequence", "order of the bolts"), table, "sequence"),
          assumed(yes_no_input("loosened", "the bolt has been loosened"), "yes"),
          yes_no_input("data_allow_reuse", "what the service data say of reuse; leave out when they say nothing"),
          number_input("nut_factor", "nut factor K; else the three usual ones", "", 0.05, 0.6)},
         answer_bolt,
         "torque=\"89 lbf in\" diameter=6mm"}};
}

}  // namespace casebound::filters_seals
