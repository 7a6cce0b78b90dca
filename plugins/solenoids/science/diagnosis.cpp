#include "science/diagnosis.h"

#include <algorithm>

namespace casebound::solenoids {
namespace {

Word word_of(Cause cause, double share, const std::set<Cause>& spoken_for) {
    return std::min(word_for(std::min(1.0, share)), spoken_for.count(cause) != 0 ? Word::likely : Word::possible);
}

struct Inquest {
    const Reasoner& reasoner;
    std::vector<Suspect> suspects;
    std::vector<Hypothesis> hypotheses{};
    std::vector<SeenTest> seen{};
    std::vector<ProbableTest> asked{};
    std::map<std::string, std::vector<std::vector<Cause>>> speaks_for{};

    Ranking rank(const std::vector<SeenTest>& with, const std::vector<ProbableTest>& asking) const {
        return reasoner.rank(expand(hypotheses, with, asking), findings(with));
    }

    std::map<Cause, double> by_cause(const Ranking& ranking) const {
        std::map<Cause, double> sums;
        for (const auto cause : all_causes) sums[cause] = 0;
        for (const auto& place : ranking.places) sums[suspect(place.label).cause] += place.share;
        return sums;
    }

    const Suspect& suspect(const std::string& label) const {
        return *std::find_if(suspects.begin(), suspects.end(), [&](const Suspect& one) { return one.label == label; });
    }

    // The gain of a test does not hinge on the other tests still to be done, so each is asked about by itself.
    std::vector<Ranking::Question> questions() const {
        std::vector<Ranking::Question> all;
        for (const auto& test : asked)
            for (auto& question : rank(seen, {test}).questions)
                if (question.attribute == test.attribute.name) all.push_back(std::move(question));
        std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) {
            return a.gain_bits / a.minutes > b.gain_bits / b.minutes;
        });
        return all;
    }

    const ProbableTest& test_named(const std::string& name) const {
        return *std::find_if(asked.begin(), asked.end(),
                             [&](const ProbableTest& one) { return one.attribute.name == name; });
    }

    // How the words would change with each outcome of a test that has two.
    void add_changes(Diagnosis& diagnosis, const std::string& name) const {
        const auto& test = test_named(name);
        if (test.outcomes.size() != 2) return;
        for (std::size_t outcome = 0; outcome < 2; ++outcome) {
            auto with = seen;
            with.push_back({test, outcome});
            auto spoken_for = diagnosis.spoken_for;
            for (const auto cause : speaks_for.at(name).at(outcome)) spoken_for.insert(cause);
            for (const auto& [cause, share] : by_cause(rank(with, {}))) {
                const auto now = diagnosis.said(cause), then = word_of(cause, share, spoken_for);
                if (now != Word::unlikely && then != now)
                    diagnosis.changes[cause].push_back({test.attribute.title, test.outcomes[outcome], then});
            }
        }
    }
};

void add_elements(Diagnosis& diagnosis, const Inquest& inquest, const Ranking& ranking) {
    for (const auto& place : ranking.places) {
        const auto& suspect = inquest.suspect(place.label);
        diagnosis.places.push_back({place.label, suspect.cause, place.share});
        if (suspect.cause == Cause::shared_feed || suspect.element.empty()) continue;
        diagnosis.by_element[suspect.element] += place.share;
        if (suspect.cause == Cause::coil || suspect.cause == Cause::valve_or_debris)
            diagnosis.at_solenoid[suspect.element] += place.share;
        if (suspect.in_part) diagnosis.in_part[suspect.element] += place.share;
    }
}

// What was seen met with every place; what can still be done stays in the inquest.
Diagnosis places_of(Inquest& inquest, std::vector<CauseTest> tests) {
    for (const auto& suspect : inquest.suspects) inquest.hypotheses.push_back({suspect.label, suspect.weight});
    Diagnosis diagnosis;
    for (auto& test : tests) {
        test.speaks_for.resize(test.test.outcomes.size());
        inquest.speaks_for[test.test.attribute.name] = test.speaks_for;
        if (!test.seen) inquest.asked.push_back(std::move(test.test));
        else {
            diagnosis.spoken_for.insert(test.speaks_for[*test.seen].begin(), test.speaks_for[*test.seen].end());
            inquest.seen.push_back({std::move(test.test), *test.seen});
        }
    }
    const auto ranking = inquest.rank(inquest.seen, {});
    diagnosis.contradiction = ranking.contradiction;
    diagnosis.by_cause = inquest.by_cause(ranking);
    add_elements(diagnosis, inquest, ranking);
    return diagnosis;
}

}  // namespace

Word Diagnosis::said(Cause cause) const { return word_of(cause, by_cause.at(cause), spoken_for); }

std::optional<std::string> likely_in(const std::map<std::string, double>& shares) {
    for (const auto& [name, share] : shares)
        if (word_for(std::min(1.0, share)) == Word::likely) return name;
    return std::nullopt;
}

Diagnosis diagnose_places(const GearboxFamily& family, const Seen& seen, const Reasoner& reasoner,
                          const Vocabulary& words) {
    Inquest inquest{reasoner, suspects(family)};
    return places_of(inquest, cause_tests(family, inquest.suspects, seen, words));
}

Diagnosis diagnose(const GearboxFamily& family, const Seen& seen, const Reasoner& reasoner, const Vocabulary& words) {
    Inquest inquest{reasoner, suspects(family)};
    auto diagnosis = places_of(inquest, cause_tests(family, inquest.suspects, seen, words));
    if (!diagnosis.contradiction.empty()) return diagnosis;
    diagnosis.questions = inquest.questions();
    for (const auto& question : diagnosis.questions) inquest.add_changes(diagnosis, question.attribute);
    return diagnosis;
}

}  // namespace casebound::solenoids
