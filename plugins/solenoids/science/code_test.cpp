#include "science/code_test.h"

#include <algorithm>

namespace casebound::solenoids {
namespace {

constexpr double one_of_its_own = 0.95;  // of a code's class: it names the element that is at fault

struct CodeTest {
    const GearboxFamily& family;
    const std::vector<Suspect>& suspects;
    const Seen& seen;

    struct Outcomes {
        std::vector<std::string> labels;
        std::vector<std::vector<Cause>> speaks_for;
        void add(std::string label, std::vector<Cause> causes = {}) {
            labels.push_back(std::move(label));
            speaks_for.push_back(std::move(causes));
        }
    };

    // A lone circuit code names a circuit and speaks for no cause.
    Outcomes code_outcomes() const {
        Outcomes outcomes;
        for (const auto& name : family.element_names()) {
            outcomes.add(name + " electrical");
            outcomes.add(name + " stuck off", {Cause::valve_or_debris});
            outcomes.add(name + " stuck on", {Cause::valve_or_debris});
        }
        outcomes.add("several electrical", {Cause::shared_feed});
        outcomes.add("several stuck", {Cause::valve_or_debris});
        outcomes.add("ratio only");
        outcomes.add("none");
        return outcomes;
    }

    std::optional<std::string> code_outcome() const {
        const auto failed = seen.failed_circuits();
        if (seen.supply_reported() || failed.size() > 1) return "several electrical";
        if (failed.size() == 1) return failed.front() + " electrical";
        std::vector<std::string> stuck;
        bool ratio = false;
        for (const auto& code : seen.codes) {
            if (code.stuck())
                stuck.push_back(code.element + (code.kind == CodeClass::stuck_on ? " stuck on" : " stuck off"));
            ratio |= code.kind == CodeClass::ratio;
        }
        if (stuck.size() == 1) return stuck.front();
        if (stuck.size() > 1) return "several stuck";
        if (ratio) return "ratio only";
        return seen.no_codes ? std::optional<std::string>("none") : std::nullopt;
    }

    static const char* stuck_word(const Suspect& suspect) {
        return suspect.held && suspect.held->kind == FaultKind::stuck_on ? " stuck on" : " stuck off";
    }

    // `mass` for the suspect's own element where it has one, the rest evenly over all.
    void spread(Chances& row, const std::vector<std::string>& outcomes, const Suspect& suspect,
                const std::vector<std::string>& endings, const std::string& own_ending, double mass) const {
        const auto names = family.element_names();
        const bool own = std::find(names.begin(), names.end(), suspect.element) != names.end();
        if (own) at(row, outcomes, suspect.element + own_ending) += mass * one_of_its_own;
        const double each = mass * (own ? 1 - one_of_its_own : 1) / static_cast<double>(names.size() * endings.size());
        for (const auto& name : names)
            for (const auto& ending : endings) at(row, outcomes, name + ending) += each;
    }

    // A shared feed cannot store the codes of circuits that do not run through it. Of a function that the family's
    // table has not, nobody has said that it does not.
    bool explains_all(const Suspect& suspect) const {
        const auto node = std::find_if(family.nodes.begin(), family.nodes.end(),
                                       [&](const Node& one) { return one.name == suspect.element; });
        if (node == family.nodes.end()) return true;
        const auto failed = seen.failed_circuits();
        const auto names = family.element_names();
        const auto among = [](const std::vector<std::string>& all, const std::string& name) {
            return std::find(all.begin(), all.end(), name) != all.end();
        };
        return std::all_of(failed.begin(), failed.end(),
                           [&](const std::string& name) { return among(node->elements, name) || !among(names, name); });
    }

    // A single wire or track behaves as a coil does; a plate as a whole takes several away.
    CodeChances chances_of(const Suspect& suspect) const {
        auto chances = assumed_code_chances().at(static_cast<std::size_t>(suspect.cause));
        if (suspect.cause == Cause::internal_plate)
            chances = suspect.several ? CodeChances{.05, .89, .01, .01, .04} : assumed_code_chances().front();
        if (suspect.cause == Cause::shared_feed && (!suspect.several || !explains_all(suspect)))
            chances = {.80, .05, .03, .05, .07};
        return chances;
    }

    Chances code_row(const Suspect& suspect, const std::vector<std::string>& outcomes) const {
        Chances row(outcomes.size(), 0.0);
        const auto [one, several, stuck, ratio, none] = chances_of(suspect);
        const double together = suspect.element.empty() ? 0.5 : 0.05;  // of stuck codes: more than one
        at(row, outcomes, "several electrical") += several;
        at(row, outcomes, "several stuck") += stuck * together;
        at(row, outcomes, "ratio only") += ratio;
        at(row, outcomes, "none") += none;
        spread(row, outcomes, suspect, {" electrical"}, " electrical", one);
        spread(row, outcomes, suspect, {" stuck off", " stuck on"}, stuck_word(suspect), stuck * (1 - together));
        return row;
    }

    std::optional<CauseTest> test(Attribute what) const {
        if (family.element_names().empty()) return std::nullopt;
        auto outcomes = code_outcomes();
        CauseTest test{{std::move(what), outcomes.labels, {}}, {}, std::move(outcomes.speaks_for)};
        for (const auto& suspect : suspects) test.test.chance.push_back(code_row(suspect, outcomes.labels));
        if (const auto outcome = code_outcome()) {
            const auto found = std::find(outcomes.labels.begin(), outcomes.labels.end(), *outcome);
            if (found == outcomes.labels.end()) return std::nullopt;  // about an element this family has not
            test.seen = static_cast<std::size_t>(found - outcomes.labels.begin());
        }
        return test;
    }
};

}  // namespace

std::optional<CauseTest> code_test(const GearboxFamily& family, const std::vector<Suspect>& suspects, const Seen& seen,
                                   Attribute what) {
    return CodeTest{family, suspects, seen}.test(std::move(what));
}

double& at(Chances& row, const std::vector<std::string>& outcomes, const std::string& outcome) {
    return row.at(static_cast<std::size_t>(std::find(outcomes.begin(), outcomes.end(), outcome) - outcomes.begin()));
}

}  // namespace casebound::solenoids
