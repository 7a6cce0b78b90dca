// Torque: the maker's figure where it is recorded; else computed from class, thread and friction, said to be weaker.
#include "core/contract/answer_words.h"
#include "core/contract/inquiry_inputs.h"
#include "inquiries/inquiries.h"
#include "rows/fasteners.h"
#include "rows/records.h"

namespace casebound::stabilisers {
namespace {

Thread thread_of(const Given& given) { return {given.number("thread"), given.number("pitch")}; }

Proof proof_given(const Given& given, const Services& services) {
    const auto& property_class = given.text("class");
    if (auto proof = proof_of(services.facts, property_class, given.number("thread"))) return *proof;
    refuse("class", property_class + " at M" + number_text(given.number("thread")),
           "one of casebound's class table for that thread, as marked on the head: load the reference pack of "
           "stabilisers");
}

SourceNote torque_source(const Given& given, const Proof& proof, const SourceNote& friction) {
    return weaker(
        fed_by(computed("T = K F d, F a share of the proof load"), given, {"thread", "pitch", "class", "share"}),
        weaker(proof.source, friction));
}

// Where friction is another than reckoned with, the same torque pulls harder or less hard.
void add_reached(Answer& answer, const Given& given, const Services& services, double mpa, double torque_nm,
                 const SourceNote& source) {
    for (const auto& [state, words] : {std::pair{"lubricated", "oiled"}, std::pair{"dry", "dry or rusty"}}) {
        const auto friction = friction_of(services.facts, state);
        if (!friction || given.text("state") == state) continue;
        const double share = share_reached(thread_of(given), mpa, torque_nm, friction->nut_factor);
        answer.lines.push_back(measure_line(std::string("proof load reached if the thread is ") + words, 100 * share,
                                            "%", 0, weaker(source, friction->source)));
        if (share > 1)
            answer.cautions.push_back(std::string("on a thread that is ") + words + " this torque stretches it");
    }
}

void compute(Answer& answer, const Given& given, const Services& services) {
    const auto proof = proof_given(given, services);
    const auto friction = friction_of(services.facts, given.text("state"));
    if (!friction)
        refuse("state", given.text("state"),
               "a state that the friction table has: load the reference pack of stabilisers");
    const auto torque = torque_for(thread_of(given), proof.mpa, given.number("share") / 100, friction->nut_factor);
    const auto source = torque_source(given, proof, friction->source);
    const double low = 1 - preload_scatter, high = 1 + preload_scatter;
    answer.lines.push_back(measure_line("proof stress", proof.mpa, "MPa", 0, proof.source));
    answer.lines.push_back(measure_line("stress area", stress_area_of(thread_of(given)), "mm2", 1, area_source()));
    answer.lines.push_back(measure_line("nut factor K", friction->nut_factor, "", 2, friction->source));
    answer.lines.push_back(measure_line("preload", torque.preload_n / 1000, "kN", 1, source));
    answer.lines.push_back(text_line(
        "preload, as torque alone scatters",
        fixed(low * torque.preload_n / 1000, 1) + " to " + fixed(high * torque.preload_n / 1000, 1) + " kN", source));
    answer.lines.push_back(measure_line("torque, computed", torque.torque_nm, "N·m", 0, source));
    add_reached(answer, given, services, proof.mpa, torque.torque_nm, source);
    if (answer.headline.empty())
        answer.headline = "About " + fixed(torque.torque_nm, 0) +
                          " N·m, computed, not the maker's: the maker's figure "
                          "replaces it.";
    answer.assumptions.push_back("a bolt or stud of that class in steel of its own strength");
    answer.cautions.push_back("of a lock nut, read off what turns it on before it seats, and add that");
}

// The maker's, for the place asked for; a row that holds on some configurations only is no answer yet. True where no
// torque is recorded and one is computed out of a row.
bool add_recorded(Answer& answer, const Given& given, const Services& services) {
    if (!given.has("axle")) return false;
    const auto axle = value_of<Axle>(given.text("axle"), axle_words);
    std::string only;
    bool open = false, computed = false;
    int makers = 0;
    for (const bool clamp : {false, true})
        for (const auto& row : fasteners_at(services, axle, clamp)) {
            if (given.has("place") && row->text("place") != given.text("place")) continue;
            const auto fastener = fastener_of(row, services.facts);
            answer.lines.push_back(text_line(fastener.what, fastener.tightening, fastener.source));
            computed |= is_computed(*row, services.facts);
            if (!row->number("torque_nm")) continue;
            open |= row.holds == Holds::open;
            only = fastener.what + ": " + fastener.tightening;
            ++makers;
        }
    if (makers == 0) return computed;
    if (open) answer.lower(Verdict::check_first);
    answer.headline = open         ? "As recorded, but which row holds is not known yet: see the conditions."
                      : makers > 1 ? "As recorded for this line, each fastener by itself."
                                   : "As recorded: " + only + ".";
    return false;
}

void say_not_recorded(Answer& answer, bool computed) {
    answer.lower(Verdict::not_recorded);
    answer.headline = computed ? "No torque of the maker's is recorded: what stands below is computed from thread and "
                                 "class, and the maker's replaces it."
                               : "No torque is recorded, and none can be computed without thread, pitch and class.";
    answer.next = {computed ? "Look the maker's torque up before the nut is tightened."
                            : "Measure thread and pitch, and read the class off the head: 8.8, 10.9."};
}

Answer answer_torque(const Given& given, const Services& services) {
    auto answer = Answer::computing();
    const bool computed = add_recorded(answer, given, services);
    const bool enough = given.has("thread") && given.has("pitch") && given.has("class");
    if (enough) compute(answer, given, services);
    else if (answer.headline.empty()) say_not_recorded(answer, computed);
    answer.cautions.push_back("where a rubber twists: last turn with the weight on the wheels, at ride height");
    answer.cautions.push_back("hold the ball stud still by its flats or socket while the nut turns, or its boot tears");
    return answer;
}

Answer answer_proof_load(const Given& given, const Services& services) {
    auto answer = Answer::computing();
    const auto proof = proof_given(given, services);
    const double load_kn = proof_load_of(thread_of(given), proof.mpa) / 1000;
    const auto source = weaker(fed_by(area_source(), given, {"thread", "pitch", "class"}), proof.source);
    answer.headline = "It carries " + fixed(load_kn, 1) + " kN before it stretches for good.";
    answer.lines = {measure_line("stress area", stress_area_of(thread_of(given)), "mm2", 1, area_source()),
                    measure_line("proof stress", proof.mpa, "MPa", 0, proof.source),
                    measure_line("proof load", load_kn, "kN", 1, source)};
    for (const auto& row : services.facts.rows("stabilisers_threads"))
        if (row.number("thread_mm") == given.number("thread") && row.number("pitch_mm") == given.number("pitch"))
            answer.lines.push_back(
                measure_line("stress area, as printed", row.need_number("stress_area_mm2"), "mm2", 1, row_source(row)));
    return answer;
}

}  // namespace

Input thread_input() { return number_input("thread", "thread, 10 for M10", "mm", 3, 39); }
Input pitch_input() {
    return found_by(number_input("pitch", "pitch of the thread", "mm", 0.3, 4), "Hold a thread gauge to it.");
}
Input class_input() {
    return found_by(
        choice_input("class", "property class of bolt or stud", {"4.6", "4.8", "5.8", "8.8", "9.8", "10.9", "12.9"}),
        "Read it off the head or the end of the stud; without a mark, take none.");
}
SourceNote area_source() { return standard("ISO 898-1, As = pi/4 (d - 0.9382 P)^2"); }

Inquiry torque_inquiry() {
    return {"torque",
            "The maker's torque where it is recorded, else one computed from thread, class and friction",
            {choice_input("axle", "axle, for what is recorded of the vehicle", {"front", "rear"}),
             choice_input("place", "only this joint of what is recorded", {"link_to_bar", "link_to_wheel", "clamp"}),
             thread_input(), pitch_input(), class_input(),
             assumed(choice_input("state", "state of thread and face", {"as_received", "lubricated", "dry"}),
                     "as_received"),
             assumed(number_input("share", "share of the proof load", "%", 1, 90), "70")},
            answer_torque,
            "thread=12mm pitch=1.75mm class=8.8"};
}

Inquiry proof_load_inquiry() {
    return {"proof-load",
            "What a bolt or stud of a property class carries before it stretches for good",
            {required(thread_input()), required(pitch_input()), required(class_input())},
            answer_proof_load,
            "thread=16mm pitch=2mm class=8.8"};
}

}  // namespace casebound::stabilisers
