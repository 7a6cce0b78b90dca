#include "science/conclusion.h"

#include <algorithm>

#include "core/contract/text.h"
#include "core/contract/valid_range.h"

namespace casebound::solenoids {
namespace {

bool among(const std::vector<std::string>& names, const std::string& name) {
    return std::find(names.begin(), names.end(), name) != names.end();
}

bool meet(const std::vector<std::string>& a, const std::vector<std::string>& b) {
    return std::any_of(a.begin(), a.end(), [&](const std::string& name) { return among(b, name); });
}

// The element a fault is about, or all that a lost node takes away.
std::vector<std::string> elements_of(const GearboxFamily& family, const Fault& fault) {
    if (fault.kind != FaultKind::node_lost) return {fault.subject};
    for (const auto& node : family.nodes)
        if (node.name == fault.subject) return node.elements;
    return {};
}

void name_by_gears(Named& named, const GearboxFamily& family, const Seen& seen) {
    const auto observations = seen.observations();
    if (family.table.gears.empty() || observations.empty()) return;
    const auto names = family.element_names();
    for (const auto& one : explain(family.table, observations)) {
        if (one.fault.kind == FaultKind::none || one.agreement != Agreement::agrees) continue;
        for (const auto& element : elements_of(family, one.fault))
            if (among(names, element)) add_once(named.by_gears, element);
    }
    if (seen.as_commanded()) named.by_gears.clear();
}

std::vector<std::string> labels_of(const Diagnosis& diagnosis, Cause cause) {
    std::vector<std::string> labels;
    for (const auto& place : diagnosis.places)
        if (place.cause == cause && place.share >= 0.05) labels.push_back(place.label);  // the likeliest first
    return labels;
}

// A place that more circuits run through lies nearer the feed, and is reached before one that fewer do: common
// practice, no source. A branch of the harness lies behind the case connector, with the pan off.
std::size_t circuits_through(const GearboxFamily& family, const std::string& label) {
    for (const auto& node : family.nodes)
        if ((node.title.empty() ? node.name : node.title) == label) return node.elements.size();
    return 0;
}

}  // namespace

bool Named::disagree() const { return !by_gears.empty() && !by_readings.empty() && !meet(by_readings, by_gears); }

bool Named::at(const std::string& element) const { return among(by_gears, element) || among(by_readings, element); }

Named named_by(const GearboxFamily& family, const Seen& seen) {
    Named named;
    name_by_gears(named, family, seen);
    const auto names = family.element_names();
    for (const auto& code : seen.codes)
        if (among(names, code.element)) add_once(named.by_readings, code.element);
    for (const auto& coil : seen.coils)
        if (coil.differs() || seen.fails_at_part(coil.element) || (coil.out() && !seen.connector_bad()))
            add_once(named.by_readings, coil.element);
    return named;
}

std::string connector_words(const Seen& seen) {
    return seen.connector == "pins_spread" ? "bad: its pins are spread" : seen.connector.value_or("");
}

std::string feed_words(const Seen& seen) {
    if (!seen.feed_falls()) return "the fuse of the gearbox controller is blown";
    return "the feed falls to " + number_text(*seen.feed_v) + " V under load, the battery is at " +
           number_text(seen.battery()) + " V";
}

std::string stop_headline(const Seen& seen) {
    const auto stop = stop_finding(seen);
    return stop ? "Stop: " + stop->words + ": " + stop->find_out + "." : "";
}

std::string connector_headline(const Seen& seen) {
    return "The connector first: it is " + connector_words(seen) +
           ". Dry and clean it, set its pins and seal right, clear the codes, drive, and read and measure again. Until "
           "then no code and no reading taken through it speaks of a part.";
}

std::string feed_headline(const Seen& seen) {
    return std::string(seen.feed_falls() ? "The feed first: " : "The fuse first: ") + feed_words(seen) +
           ". Find why, put it right, clear the codes, drive, and read again. Until then no code speaks of a part.";
}

std::string shared_headline(const GearboxFamily& family, const Seen& seen, const Diagnosis& diagnosis) {
    auto places = labels_of(diagnosis, Cause::shared_feed);
    if (places.size() > 3) places.resize(3);  // the likeliest
    std::stable_sort(places.begin(), places.end(), [&](const std::string& a, const std::string& b) {
        return circuits_through(family, a) > circuits_through(family, b);
    });
    for (auto& place : labels_of(diagnosis, Cause::internal_plate)) places.push_back(std::move(place));
    if (places.size() > 3) places.resize(3);
    if (places.empty()) places.emplace_back("feed, fuse, ground, case connector");
    return "Do not order solenoids: " + shared_words(seen) +
           ". Look first at what they share: " + listed(places, "; ") + ".";
}

Conclusion::Conclusion(const GearboxFamily& family, const Seen& seen, const Diagnosis& diagnosis)
    : family_(family), seen_(seen), diagnosis_(diagnosis), named_(named_by(family, seen)) {}

bool Conclusion::swappable(const std::string& element) const {
    const auto names = family_.element_names();
    const bool recorded = std::any_of(names.begin(), names.end(),
                                      [&](const std::string& name) { return !twins_of(family_, name).empty(); });
    return !recorded || !twins_of(family_, element).empty();
}

bool Conclusion::proven(const std::string& element) const {
    return seen_.fails_at_part(element) || (seen_.swap_moved() && swappable(element));
}

bool Conclusion::spoken_for(const std::string& element) const {
    return seen_.coil_out(element) || seen_.stuck_code(element) || (seen_.swap_moved() && swappable(element));
}

// Whether all that speaks of the element went through a connector that is bad, or that nobody has looked into.
bool Conclusion::connector_first(const std::string& element) const {
    if (proven(element)) return false;
    const auto* coil = seen_.coil(element);
    const auto judged = coil ? coil->answer() : std::nullopt;
    const bool read_through = seen_.electrical() || (judged && judged->verdict != CoilVerdict::pass);
    return seen_.connector_bad() || (!seen_.connector && read_through);
}

bool Conclusion::harness_speaks() const {
    return diagnosis_.said(Cause::internal_plate) == Word::likely ||
           std::any_of(seen_.coils.begin(), seen_.coils.end(), [](const SeenCoil& coil) { return coil.differs(); });
}

// What stands before the order whatever the diagnosis says; released where nothing does.
Standing Conclusion::first_obstacle(const std::string& element) const {
    const auto* coil = seen_.coil(element);
    const bool proven_here = proven(element);
    if (stop_finding(seen_)) return Standing::stop;
    if (seen_.feed_fails() && !proven_here) return Standing::feed;
    if (seen_.connector_bad() && !proven_here) return Standing::connector_bad;
    if (seen_.shared_suspected()) return Standing::shared;
    if (seen_.swap_stayed() && swappable(element)) return Standing::stayed;
    if (coil && coil->differs()) return Standing::harness;
    if (named_.disagree()) return Standing::disagree;
    if (seen_.fluid_wrong() && !proven_here) return Standing::fluid;
    if (!named_.at(element) && !proven_here) return Standing::elsewhere;
    if (connector_first(element)) return Standing::connector_unseen;
    if (seen_.electrical() && !seen_.feed_v && !proven_here) return Standing::feed_unseen;
    return Standing::released;
}

Standing Conclusion::standing(const std::string& element) const {
    if (const auto first = first_obstacle(element); first != Standing::released) return first;
    if (!diagnosis_.contradiction.empty() || !spoken_for(element)) return Standing::undecided;
    if (likely_in(diagnosis_.at_solenoid) != element) return Standing::undecided;
    const bool electrical = seen_.coil_out(element) || seen_.swap_moved();
    return electrical || seen_.fluid_level ? Standing::released : Standing::fluid_unseen;
}

std::optional<std::string> Conclusion::part() const {
    const auto likely = likely_in(diagnosis_.at_solenoid);
    if (!likely) return std::nullopt;
    const auto stands = standing(*likely);
    return stands == Standing::released || stands == Standing::fluid_unseen ? likely : std::nullopt;
}

// What several circuits share, as far as nobody here has tested it yet: attribute and word.
std::vector<std::pair<std::string, std::string>> Conclusion::shared_untested() const {
    std::vector<std::pair<std::string, std::string>> all;
    if (!seen_.told(SeenWhat::feed)) all.emplace_back("feed_under_load", "feed");
    if (!seen_.told(SeenWhat::fuse)) all.emplace_back("feed_fuse", "fuse");
    if (!seen_.told(SeenWhat::connector)) all.emplace_back("connector_state", "case connector");
    return all;
}

// Once feed, fuse and connector are sound, the harness is left: a coil that reads otherwise at its own pins shows it.
std::vector<std::string> Conclusion::coils_to_measure() const {
    std::vector<std::string> all;
    for (const auto& name : seen_.failed_circuits()) {
        const auto* element = family_.element(name);
        if (element == nullptr || element->coil_attribute.empty()) continue;
        const auto* coil = seen_.coil(name);
        if (coil == nullptr || coil->hearsay) all.push_back(element->coil_attribute);
        if (coil == nullptr || !coil->at_part_ohm || coil->at_part_hearsay)
            all.push_back(element->coil_attribute + "_at_part");
    }
    return all;
}

std::vector<std::string> Conclusion::shared_to_find_out() const {
    std::vector<std::string> all;
    for (const auto& [attribute, word] : shared_untested()) all.push_back(attribute);
    if (all.empty()) all = coils_to_measure();
    all.emplace_back("codes");
    return all;
}

// Of what would point at a solenoid, what is not told yet; all of it anew where nothing told does.
std::vector<std::string> Conclusion::to_point_at(const std::string& element) const {
    const auto* known = family_.element(element);
    std::vector<std::string> all;
    if (!seen_.told(SeenWhat::codes)) all.emplace_back("codes");
    if (!seen_.told(SeenWhat::gears)) all.emplace_back("gears_obtained");
    if (known != nullptr && !known->coil_attribute.empty() && seen_.coil(element) == nullptr)
        all.push_back(known->coil_attribute);
    return all.empty() || seen_.as_commanded() ? std::vector<std::string>{"codes", "gears_obtained"} : all;
}

// ---------------------------------------------------------------- in words

std::string Conclusion::nothing_points_at(const std::string& element) const {
    if (seen_.as_commanded()) return "every gear driven was obtained as commanded: nothing points at it";
    if (seen_.coil_passes(element)) return "its coil is in limits, and nothing points at it";
    return seen_.no_codes ? "no code is stored, and nothing points at it" : "nothing points at it";
}

std::string Conclusion::test_what_is_shared() const {
    std::vector<std::string> words;
    for (const auto& [attribute, word] : shared_untested()) words.push_back(word);
    const std::string then = ", put right what fails, clear the codes, drive and read again";
    if (words.empty())
        return "test the ground, and measure the coils at the case connector and at their own pins" + then;
    words.insert(words.end() - (words.back() == "case connector" ? 1 : 0), "ground");
    const auto last = words.back();
    words.pop_back();
    return "test " + listed(words) + " and " + last + then;
}

std::string Conclusion::reason(Standing stands, const std::string& element) const {
    switch (stands) {
        case Standing::released: return "";
        case Standing::stop: return stop_finding(seen_)->words;
        case Standing::shared: return shared_words(seen_) + ": what they share comes first";
        case Standing::feed: return feed_words(seen_);
        case Standing::connector_bad: return "the case connector is " + connector_words(seen_);
        case Standing::stayed:
            return "the fault stayed when two like solenoids were exchanged: its circuit, or its valve in the body";
        case Standing::harness:
            return "the coil of " + element + " reads otherwise at its own pins: the harness or plate between";
        case Standing::disagree: return "gears and readings speak of different ones";
        case Standing::fluid: return "the fluid level is " + *seen_.fluid_level;
        case Standing::elsewhere: return nothing_points_at(element);
        case Standing::connector_unseen: return "nobody has looked into the case connector";
        case Standing::feed_unseen: return "its feed is not tested under load";
        case Standing::fluid_unseen: return "the fluid level is not known, and a low one does the same";
        case Standing::undecided: break;
    }
    return "what causes it is not decided";
}

std::string Conclusion::until(Standing stands, const std::string& element) const {
    switch (stands) {
        case Standing::released: return "";
        case Standing::stop: return stop_finding(seen_)->find_out;
        case Standing::shared: return test_what_is_shared();
        case Standing::feed: return "find why, put it right, clear the codes, drive and read again";
        case Standing::connector_bad:
            return "put it right, clear the codes, drive and read again; then tell connector state clean";
        case Standing::stayed: return "follow the circuit to the controller, and look at the valve";
        case Standing::harness: return "mend what lies between, and measure again";
        case Standing::disagree:
            return "measure again at the part, and note the gears after an ignition cycle, before fail-safe";
        case Standing::fluid: return "put the level right, drive and read again; then tell fluid level right";
        case Standing::elsewhere:
            return seen_.as_commanded() ? "note gears and codes when the fault is there"
                                        : "find out what points at it: codes, gears, its coil";
        case Standing::connector_unseen: return "unplug the case connector and look at both halves";
        case Standing::feed_unseen: return "load the feed and measure at the case connector";
        case Standing::fluid_unseen: return "check the fluid level";
        case Standing::undecided: break;
    }
    return seen_.coil_passes(element) ? "load its circuit; where two like solenoids are there, exchange them and drive"
                                      : "measure its coil at the case connector and at its own pins";
}

std::vector<std::string> Conclusion::to_find_out(Standing stands, const std::string& element) const {
    const auto* known = family_.element(element);
    const auto coil = known && !known->coil_attribute.empty() ? std::vector{known->coil_attribute}
                                                              : std::vector<std::string>{};
    switch (stands) {
        case Standing::released: return {};
        case Standing::stop: return stop_finding(seen_)->attributes;
        case Standing::shared: return shared_to_find_out();
        case Standing::feed: return {"feed_under_load", "feed_fuse", "codes"};
        case Standing::connector_bad:
        case Standing::connector_unseen: return {"connector_state"};
        case Standing::stayed: return {"swap_result"};
        case Standing::harness:
        case Standing::disagree: return coil;
        case Standing::fluid:
        case Standing::fluid_unseen: return {"fluid_level"};
        case Standing::elsewhere: return to_point_at(element);
        case Standing::feed_unseen: return {"feed_under_load"};
        case Standing::undecided: break;
    }
    return seen_.coil_passes(element) ? std::vector<std::string>{"swap_result"} : coil;
}

// What the fault is looked for on: codes, else gears, else a coil, else whatever was seen.
SourceNote Conclusion::what_speaks() const {
    for (const auto what : {SeenWhat::codes, SeenWhat::gears, SeenWhat::slips})
        if (seen_.how.count(what) != 0) return seen_.source(what);
    if (!seen_.coils.empty()) return seen_.coils.front().source;
    return seen_.how.empty() ? SourceNote{} : seen_.how.begin()->second.source;
}

SourceNote Conclusion::rests_on(Standing stands, const std::string& element) const {
    switch (stands) {
        case Standing::stop: return seen_.source(stop_finding(seen_)->what);
        case Standing::feed: return seen_.source(seen_.feed_falls() ? SeenWhat::feed : SeenWhat::fuse);
        case Standing::connector_bad: return seen_.source(SeenWhat::connector);
        case Standing::stayed: return seen_.source(SeenWhat::swap);
        case Standing::harness: return seen_.coil(element)->source;
        case Standing::fluid: return seen_.source(SeenWhat::fluid_level);
        default: return what_speaks();
    }
}

Judgement Conclusion::judgement(const std::string& element) const {
    const auto stands = standing(element);
    return {stands, reason(stands, element), until(stands, element), to_find_out(stands, element),
            rests_on(stands, element)};
}

Judgement judge_order(const std::string& element, const Conclusion& all, const Conclusion& firm) {
    auto judged = all.judgement(element);
    if (!judged.released()) return judged;
    auto again = firm.judgement(element);
    if (again.released()) return again;
    again.reason = "what speaks for it is only assumed, or said by a seller: " + again.reason;
    again.hearsay = true;
    return again;
}

}  // namespace casebound::solenoids
