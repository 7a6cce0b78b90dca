#include "science/cause_tests.h"

#include <algorithm>
#include <functional>

#include "core/contract/text.h"
#include "science/code_test.h"

namespace casebound::solenoids {
namespace {

constexpr double one_of_the_others = 0.25;  // of the patterns nobody predicts: the one that was told

struct TestBuilder {
    const GearboxFamily& family;
    const std::vector<Suspect>& suspects;
    const Seen& seen;
    const Vocabulary& words;
    std::vector<CauseTest> tests{};

    Attribute attribute(const std::string& name) const {
        for (const auto& one : words.attributes)
            if (one.name == name) return one;
        Attribute made;
        made.name = name;
        return made;
    }

    // Two outcomes, the chance of the first by suspect, and the causes that the second speaks for.
    void two_way(Attribute what, std::vector<std::string> outcomes, std::optional<std::size_t> outcome,
                 const std::function<double(const Suspect&)>& first, std::vector<Cause> second = {}) {
        CauseTest test{{std::move(what), std::move(outcomes), {}}, outcome, {{}, std::move(second)}};
        for (const auto& suspect : suspects) {
            const double chance = first(suspect);
            test.test.chance.push_back({chance, 1 - chance});
        }
        tests.push_back(std::move(test));
    }

    // ------------------------------------------------------------ codes

    // Not every controller watches its supply: that it reports nothing says nothing, so this counts only when it does.
    void add_supply_code() {
        if (!seen.supply_reported()) return;
        Attribute what = attribute("codes");
        what.name = "supply_code";
        two_way(what, {"not reported", "reported open"}, 1,
                [](const Suspect& suspect) {
                    return suspect.cause == Cause::shared_feed      ? .40
                           : suspect.cause == Cause::controller     ? .70
                           : suspect.cause == Cause::internal_plate ? .85
                                                                    : .97;
                },
                {Cause::shared_feed});
    }

    // A sensor that the controller believes, or the controller itself; that they report nothing says nothing.
    void add_sensor_code() {
        if (std::none_of(seen.codes.begin(), seen.codes.end(),
                         [](const SeenCode& code) { return code.of_controller_or_sensor(); }))
            return;
        Attribute what = attribute("codes");
        what.name = "sensor_code";
        two_way(what, {"not reported", "reported"}, 1,
                [](const Suspect& suspect) {
                    return suspect.cause == Cause::controller       ? .40
                           : suspect.cause == Cause::shared_feed    ? .90
                           : suspect.cause == Cause::internal_plate ? .90
                                                                    : .99;
                },
                {Cause::controller});
    }

    // ------------------------------------------------------------ gears

    std::string default_pattern(std::size_t gears) const {
        return family.fail_safe.default_gear.empty()
                   ? ""
                   : pattern_text(std::vector<std::string>(gears, family.fail_safe.default_gear));
    }

    // What a place that holds no element makes of the gears: as commanded, the default gear throughout, another.
    std::array<double, 3> without_held(const Suspect& suspect) const {
        switch (suspect.cause) {
            case Cause::controller: return {.20, .50, .30};
            case Cause::fluid: return {.50, .10, .40};
            case Cause::clutch_or_seal: return {.30, .05, .65};
            default: return {.90, .08, .02};
        }
    }

    double chance_of_told(const Suspect& suspect, const std::vector<Observation>& observations) const {
        if (suspect.held) {
            const auto told = agreement(family.table, *suspect.held, observations);
            return told == Agreement::agrees ? .95 : told == Agreement::cannot_tell ? .40 : .02;
        }
        const auto [commanded, rest, other] = without_held(suspect);
        const auto all_get = [&](const std::function<bool(const Observation&)>& holds) {
            return std::all_of(observations.begin(), observations.end(), holds);
        };
        if (all_get([](const Observation& one) { return one.gear == one.commanded; })) return commanded;
        if (all_get([&](const Observation& one) { return one.gear == family.fail_safe.default_gear; }))
            return seen.phase == Phase::in_fail_safe ? .90 : std::max(rest, suspect.several ? .95 : 0.0);
        return other * one_of_the_others;
    }

    void add_gears_seen() {
        const auto observations = seen.observations();
        const auto told = seen.obtained.empty() ? "slip in " + pattern_text(seen.slipping)
                                                : pattern_text(seen.obtained);
        two_way(attribute("gears_obtained"), {told, "another pattern"}, 0,
                [&](const Suspect& suspect) { return chance_of_told(suspect, observations); });
    }

    Chances pattern_row(const Suspect& suspect, const std::vector<std::string>& outcomes,
                        const std::vector<std::string>& commanded, const GearboxState& before) const {
        Chances row(outcomes.size(), 0.0);
        if (suspect.held) {
            at(row, outcomes, pattern_text(family.table, *suspect.held, commanded, before)) += .95;
            at(row, outcomes, "another pattern") += .05;
            return row;
        }
        const auto [as_commanded, rest, other] = without_held(suspect);
        const auto default_text = default_pattern(commanded.size());
        at(row, outcomes, pattern_text(commanded)) += as_commanded;
        at(row, outcomes, default_text.empty() ? "another pattern" : default_text) += rest;
        at(row, outcomes, "another pattern") += other;
        return row;
    }

    void add_gears_asked() {
        const auto commanded = forward_gears(family.table);
        const GearboxState before{Phase::before_fail_safe, "", {}};
        std::vector<std::string> outcomes{pattern_text(commanded)};
        const auto add = [&](const std::string& text) {
            if (!text.empty() && std::find(outcomes.begin(), outcomes.end(), text) == outcomes.end())
                outcomes.push_back(text);
        };
        add(default_pattern(commanded.size()));
        for (const auto& suspect : suspects)
            if (suspect.held) add(pattern_text(family.table, *suspect.held, commanded, before));
        add("another pattern");
        Attribute what = attribute("gears_obtained");
        if (!seen.observations().empty()) {
            what.name = "gears_before_fail_safe";
            what.title = "gears obtained before fail-safe";
            what.how = "Cycle the ignition, drive, and note the gear for each one commanded before the gears go.";
            what.minutes = 25;
        }
        CauseTest test{{what, outcomes, {}}, {}};
        for (const auto& suspect : suspects)
            test.test.chance.push_back(pattern_row(suspect, outcomes, commanded, before));
        tests.push_back(std::move(test));
    }

    void add_gears() {
        if (family.table.gears.empty()) return;
        const bool told = !seen.observations().empty();
        if (told) add_gears_seen();
        if (!told || may_be_fail_safe(seen)) add_gears_asked();
    }

    // ------------------------------------------------------------ readings

    Attribute coil_words(const std::string& name) const {
        const auto* element = family.element(name);
        const std::string known = element ? element->coil_attribute : "";
        Attribute what = attribute(known.empty() ? "coil_a" : known);
        if (known.empty()) what.name = "coils " + name;
        what.title = "coil of " + name;
        what.how = "Coil of " + name + ": measure at the case connector, leads subtracted; note the temperature.";
        return what;
    }

    void add_coil(const std::string& name) {
        std::optional<std::size_t> outcome;
        bool done = false;
        if (const auto* coil = seen.coil(name)) {
            const auto answer = coil->answer();
            done =
                true;  // measured: without temperature, limits or a clear result it says nothing, and is not asked again here
            if (answer && answer->verdict != CoilVerdict::borderline)
                outcome = answer->verdict == CoilVerdict::pass ? 0 : 1;
            if (outcome == 1 && seen.connector_bad() && !seen.fails_at_part(name))
                outcome.reset();  // through water or a bent pin it says nothing of the coil
        }
        if (done && !outcome) return;
        two_way(coil_words(name), {"in limits", "out of limits"}, outcome,
                [&](const Suspect& suspect) {
                    if (suspect.several) return suspect.cause == Cause::internal_plate ? .50 : .90;
                    if (suspect.element != name) return .97;
                    return suspect.cause == Cause::coil ? .15 : suspect.cause == Cause::internal_plate ? .50 : .97;
                },
                {Cause::coil});
    }

    void add_at_part(const std::string& name) {
        const auto* coil = seen.coil(name);
        std::optional<std::size_t> outcome;
        if (coil && coil->at_part_ohm) {
            const auto where = where_between(coil->ohm, *coil->at_part_ohm);
            if (where == WhereBetween::borderline) return;
            outcome = where == WhereBetween::coil ? 0 : 1;
        }
        Attribute what = attribute("coil_a_at_part");
        what.name = "coils-at-part " + name;
        what.title = "coil of " + name + " at the part against the case connector";
        what.how = "Pan off: measure " + name + " at its own pins and compare with the case connector.";
        two_way(what, {"same", "differs"}, outcome,
                [&](const Suspect& suspect) {
                    const bool in_between = suspect.cause == Cause::internal_plate &&
                                            (suspect.several || suspect.element == name);
                    return in_between                     ? .15
                           : suspect.cause == Cause::coil ? .99
                                                          : .97;  // a bad coil reads alike at both ends
                },
                {Cause::internal_plate});
    }

    // What falls at the case connector is at fault by itself; behind it, only what draws too much pulls it down.
    void add_feed() {
        std::optional<std::size_t> outcome;
        if (seen.feed_v) outcome = seen.feed_falls() ? 1 : 0;
        two_way(attribute("feed_under_load"), {"holds", "falls"}, outcome,
                [](const Suspect& suspect) {
                    return suspect.cause == Cause::shared_feed      ? .10
                           : suspect.cause == Cause::internal_plate ? .97
                           : suspect.cause == Cause::controller     ? .95
                                                                    : .99;
                },
                {Cause::shared_feed});
        std::optional<std::size_t> fuse;
        if (seen.fuse) fuse = *seen.fuse == "sound" ? 0 : 1;
        two_way(attribute("feed_fuse"), {"sound", "blown"}, fuse,
                [](const Suspect& suspect) { return suspect.cause == Cause::shared_feed ? .75 : .99; },
                {Cause::shared_feed});
    }

    void add_connector() {
        std::optional<std::size_t> outcome;
        if (seen.connector) outcome = *seen.connector == "clean" ? 0 : 1;
        two_way(attribute("connector_state"), {"clean", "not clean"}, outcome,
                [](const Suspect& suspect) {
                    return suspect.cause == Cause::shared_feed      ? .30
                           : suspect.cause == Cause::internal_plate ? .75
                           : suspect.cause == Cause::coil           ? .92
                                                                    : .95;
                },
                {Cause::shared_feed});
    }

    void add_fluid() {
        std::optional<std::size_t> outcome;
        if (seen.fluid_level) outcome = *seen.fluid_level == "right" ? 0 : 1;
        Attribute what;
        what.name = "fluid_level";
        what.title = "fluid level";
        what.how = "Check the fluid level as the maker says: temperature, lever and engine, vehicle level.";
        what.minutes = 15;
        two_way(what, {"right", "wrong"}, outcome,
                [](const Suspect& suspect) {
                    return suspect.cause == Cause::fluid             ? .05
                           : suspect.cause == Cause::clutch_or_seal  ? .60
                           : suspect.cause == Cause::valve_or_debris ? .75
                                                                     : .90;
                },
                {Cause::fluid});
    }

    // The first elements that share a part.
    std::vector<std::string> swappable() const {
        for (const auto& name : family.element_names())
            if (const auto twins = twins_of(family, name); !twins.empty()) return {name, twins.front()};
        return {};
    }

    void add_swap() {
        const bool possible = !swappable().empty();
        if (!possible && !seen.swap) return;
        std::optional<std::size_t> outcome;
        if (seen.swap) outcome = *seen.swap == "moves_with_part" ? 0 : 1;
        Attribute what = attribute("swap_result");
        if (possible) what.how = "Change " + listed(swappable(), " and ") + " over, the same part, and drive again.";
        two_way(what, {"moves with the part", "stays"}, outcome, [&](const Suspect& suspect) {
            const bool exchanged = !possible || !twins_of(family, suspect.element).empty();
            return suspect.in_part && exchanged ? .90 : .05;
        });
        tests.back().speaks_for.front() = {Cause::coil, Cause::valve_or_debris};
    }

    void add_ignition() {
        std::optional<std::size_t> outcome;
        if (seen.gears_back) outcome = *seen.gears_back ? 0 : 1;
        two_way(attribute("gears_back"), {"come back", "stay away"}, outcome, [](const Suspect& suspect) {
            return suspect.cause == Cause::valve_or_debris                                   ? .45
                   : suspect.cause == Cause::clutch_or_seal || suspect.cause == Cause::fluid ? .35
                                                                                             : .60;
        });
    }

    std::vector<CauseTest> all() && {
        if (auto codes = code_test(family, suspects, seen, attribute("codes"))) tests.push_back(std::move(*codes));
        add_supply_code(), add_sensor_code(), add_gears();
        for (const auto& name : family.element_names()) add_coil(name), add_at_part(name);
        add_feed(), add_connector(), add_fluid(), add_swap(), add_ignition();
        return std::move(tests);
    }
};

}  // namespace

std::string pattern_text(const std::vector<std::string>& obtained) { return listed(obtained, "-"); }

std::string pattern_text(const ApplyTable& table, const Fault& fault, const std::vector<std::string>& commanded,
                         const GearboxState& gearbox) {
    std::vector<std::string> texts;
    for (const auto& gear : commanded) texts.push_back(outcome_text(predict(table, fault, gear, gearbox)));
    return pattern_text(texts);
}

std::vector<CauseTest> cause_tests(const GearboxFamily& family, const std::vector<Suspect>& suspects, const Seen& seen,
                                   const Vocabulary& words) {
    return TestBuilder{family, suspects, seen, words}.all();
}

}  // namespace casebound::solenoids
