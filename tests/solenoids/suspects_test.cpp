// Where a fault may sit, and probable tests as alternatives for core's possibilities engine.
#include <catch2/catch.hpp>

#include <algorithm>
#include <map>
#include <numeric>
#include <random>

#include "core/reason/reasoner.h"
#include "plugins/solenoids/rows/vocabulary.h"
#include "plugins/solenoids/science/alternatives.h"
#include "plugins/solenoids/science/diagnosis.h"
#include "plugins/solenoids/science/suspects.h"
#include "tests/solenoids/families.h"

using namespace casebound::solenoids;
using casebound::AlternativeTable;
using casebound::Attribute;
using casebound::Engine;
using casebound::Ranking;
using Catch::Matchers::Contains;

namespace {

ProbableTest test_named(const std::string& name, std::vector<std::string> outcomes,
                        std::vector<std::vector<double>> chance) {
    ProbableTest test{Attribute{}, std::move(outcomes), std::move(chance)};
    test.attribute.name = name;
    test.attribute.minutes = 10;
    return test;
}

std::map<std::string, double> shares_of(const std::vector<Hypothesis>& hypotheses, const std::vector<SeenTest>& seen) {
    const auto ranking = Engine().rank(expand(hypotheses, seen, {}), findings(seen));
    std::map<std::string, double> shares;
    for (const auto& place : ranking.places) shares[place.label] = place.share;
    return shares;
}

double total_weight(const AlternativeTable& table) {
    double sum = 0;
    for (const auto& one : table.alternatives) sum += one.weight;
    return sum;
}

GearboxFamily family(const ApplyTable& table) {
    GearboxFamily made;
    made.table = table;
    for (const auto& node : table.nodes) made.nodes.push_back({node.name, node.name, "", node.elements, {}});
    return made;
}

Diagnosis diagnosed(const Seen& seen) {
    return diagnose(family(casebound::tests::ash_4()), seen, Engine(), vocabulary());
}

SeenCode code(const char* text, const char* element, CodeClass kind) {
    return {*read_code(text), kind, element, "", {}};
}

}  // namespace

TEST_CASE("two unrelated electrical codes at once make what they share likely") {
    // Priors and likelihoods are assumptions from memory; posteriors derived: share = prior x likelihood / sum.
    const std::vector<Hypothesis> groups{
        {"coil", .30}, {"feed, connector, plate", .25}, {"hydraulic", .20}, {"clutch", .15}, {"controller", .10}};
    const auto codes = test_named("codes", {"several", "other"},
                                  {{.05, .95}, {.80, .20}, {.03, .97}, {.05, .95}, {.30, .70}});
    const auto shares = shares_of(groups, {{codes, 0}});
    CHECK(shares.at("coil") == Approx(.058).margin(.0005));
    CHECK(shares.at("feed, connector, plate") == Approx(.774).margin(.0005));
    CHECK(shares.at("hydraulic") == Approx(.023).margin(.0005));
    CHECK(shares.at("clutch") == Approx(.029).margin(.0005));
    CHECK(shares.at("controller") == Approx(.116).margin(.0005));
    CHECK(word_for(shares.at("feed, connector, plate")) == Word::likely);
    CHECK(word_for(shares.at("controller")) == Word::possible);
    CHECK(word_for(shares.at("coil")) == Word::unlikely);
}

TEST_CASE("the places of a family add up to the same five groups") {
    Seen seen;
    seen.codes = {code("P0753", "A", CodeClass::electrical), code("P0758", "B", CodeClass::electrical)};
    const auto diagnosis = diagnosed(seen);
    CHECK(diagnosis.by_cause.at(Cause::coil) == Approx(.058).margin(.005));
    CHECK(diagnosis.by_cause.at(Cause::shared_feed) + diagnosis.by_cause.at(Cause::internal_plate) ==
          Approx(.774).margin(.01));
    CHECK(diagnosis.by_cause.at(Cause::valve_or_debris) + diagnosis.by_cause.at(Cause::fluid) ==
          Approx(.023).margin(.005));
    CHECK(diagnosis.by_cause.at(Cause::clutch_or_seal) == Approx(.029).margin(.005));
    CHECK(diagnosis.by_cause.at(Cause::controller) == Approx(.116).margin(.005));
}

TEST_CASE("a stuck-off code with a good coil makes the coil unlikely and the valve likely") {
    // A held off, 18.4 ohm at 75 C.
    Seen seen;
    seen.codes = {code("P0751", "A", CodeClass::stuck_off)};
    seen.coils = {{"A", 18.4, 75.0, {}, OhmLimits{11, 16}, {}, {}}};
    const auto diagnosis = diagnosed(seen);
    CHECK(word_for(diagnosis.by_cause.at(Cause::coil)) == Word::unlikely);
    CHECK(word_for(diagnosis.by_cause.at(Cause::valve_or_debris)) == Word::likely);
    CHECK(word_for(diagnosis.by_element.at("A")) == Word::likely);
}

TEST_CASE("words begin at one half and one tenth") {
    CHECK(word_for(0.5) == Word::likely);
    CHECK(word_for(0.4999) == Word::possible);
    CHECK(word_for(0.1) == Word::possible);
    CHECK(word_for(0.0999) == Word::unlikely);
    CHECK(word(Word::possible) == "possible");
    CHECK_THROWS_AS(word_for(1.1), std::domain_error);
}

TEST_CASE("evidence that no hypothesis allows gives no places, only the contradiction") {
    const std::vector<Hypothesis> two{{"a", 1.0}, {"b", 1.0}};
    const std::vector<SeenTest> seen{{test_named("t", {"yes", "no"}, {{0, 1}, {0, 1}}), 0}};
    const auto ranking = Engine().rank(expand(two, seen, {}), findings(seen));
    CHECK(ranking.places.empty());
    CHECK_THAT(ranking.contradiction, Contains("t=yes"));
}

TEST_CASE("the assumed priors and every row of chances sum to one") {
    CHECK(std::accumulate(assumed_priors().begin(), assumed_priors().end(), 0.0) == Approx(1.0));
    for (const auto& row : assumed_code_chances()) CHECK(std::accumulate(row.begin(), row.end(), 0.0) == Approx(1.0));
    const auto made = family(casebound::tests::birch_6());
    double sum = 0;
    for (const auto& suspect : suspects(made)) sum += suspect.weight;
    CHECK(sum == Approx(1.0));
    for (const auto& test : cause_tests(made, suspects(made), Seen{}, vocabulary())) {
        INFO(test.test.attribute.name);
        CHECK_FALSE(test.seen);
        CHECK(test.test.attribute.minutes > 0);
        CHECK_FALSE(test.test.attribute.how.empty());
        for (const auto& row : test.test.chance) CHECK(std::accumulate(row.begin(), row.end(), 0.0) == Approx(1.0));
    }
}

TEST_CASE("no two places of a family carry the same label") {
    for (const auto& table : {casebound::tests::ash_4(), casebound::tests::birch_4(), casebound::tests::birch_6()}) {
        std::vector<std::string> labels;
        for (const auto& suspect : suspects(family(table))) labels.push_back(suspect.label);
        std::sort(labels.begin(), labels.end());
        CHECK(std::adjacent_find(labels.begin(), labels.end()) == labels.end());
    }
}

TEST_CASE("expansion keeps the weight of every hypothesis, whatever was seen and is asked") {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> chance(0.05, 0.95);
    const std::vector<Hypothesis> three{{"a", 1.0}, {"b", 2.0}, {"c", 3.0}};
    const auto any_test = [&](const std::string& name) {
        std::vector<std::vector<double>> rows;
        for (int i = 0; i < 3; ++i) {
            const double first = chance(random);
            rows.push_back({first, 1 - first});
        }
        return test_named(name, {"yes", "no"}, rows);
    };
    for (int round = 0; round < 50; ++round) {
        const auto table = expand(three, {{any_test("s"), random() % 2}, {any_test("t"), random() % 2}},
                                  {any_test("u")});
        std::map<std::string, double> weights;
        for (const auto& one : table.alternatives) weights[one.label] += one.weight;
        CHECK(weights.at("a") == Approx(1.0));
        CHECK(weights.at("b") == Approx(2.0));
        CHECK(weights.at("c") == Approx(3.0));
    }
}

TEST_CASE("narrowing by the engine is the product of priors and chances, scaled") {
    std::mt19937 random(6);
    std::uniform_real_distribution<double> chance(0.05, 0.95);
    for (int round = 0; round < 200; ++round) {
        std::vector<Hypothesis> hypotheses;
        std::vector<double> expected;
        for (int i = 0; i < 5; ++i) {
            hypotheses.push_back({std::string(1, static_cast<char>('a' + i)), chance(random)});
            expected.push_back(hypotheses.back().weight);
        }
        std::vector<SeenTest> seen;
        for (int t = 0; t < 4; ++t) {
            std::vector<std::vector<double>> rows;
            const std::size_t outcome = random() % 2;
            for (double& share : expected) {
                const double first = chance(random);
                rows.push_back({first, 1 - first});
                share *= rows.back()[outcome];
            }
            seen.push_back({test_named("t" + std::to_string(t), {"yes", "no"}, rows), outcome});
        }
        const double sum = std::accumulate(expected.begin(), expected.end(), 0.0);
        const auto shares = shares_of(hypotheses, seen);
        for (std::size_t i = 0; i < expected.size(); ++i)
            CHECK(shares.at(hypotheses[i].label) == Approx(expected[i] / sum));
    }
}

TEST_CASE("more evidence for a hypothesis never makes it less probable") {
    std::mt19937 random(7);
    std::uniform_real_distribution<double> share(0.01, 0.9);
    for (int i = 0; i < 200; ++i) {
        std::vector<Hypothesis> hypotheses;
        std::vector<std::vector<double>> rows;
        for (int c = 0; c < 5; ++c) {
            hypotheses.push_back({std::string(1, static_cast<char>('a' + c)), share(random)});
            const double first = share(random);
            rows.push_back({first, 1 - first});
        }
        const auto before = shares_of(hypotheses, {{test_named("t", {"yes", "no"}, rows), 0}});
        const std::size_t chosen = random() % rows.size();
        rows[chosen] = {rows[chosen][0] * 1.1, 1 - rows[chosen][0] * 1.1};
        const auto after = shares_of(hypotheses, {{test_named("t", {"yes", "no"}, rows), 0}});
        CHECK(after.at(hypotheses[chosen].label) > before.at(hypotheses[chosen].label));
    }
}

TEST_CASE("a seen test adds one alternative a hypothesis, an asked one multiplies them") {
    const std::vector<Hypothesis> two{{"a", 1.0}, {"b", 3.0}};
    const auto coin = test_named("t", {"yes", "no"}, {{.25, .75}, {0, 1}});
    const auto asked = expand(two, {}, {coin});
    REQUIRE(asked.alternatives.size() == 3);  // b never says yes
    CHECK(asked.alternatives[0].weight == Approx(0.25));
    const auto seen = expand(two, {{coin, 1}}, {});
    REQUIRE(seen.alternatives.size() == 3);
    CHECK(seen.alternatives[0].values == std::vector<std::string>{"otherwise"});
    CHECK(total_weight(seen) == Approx(4.0));
    CHECK(expand({{"a", 0.0}, {"b", 1.0}}, {}, {}).alternatives.size() == 1);
}

TEST_CASE("malformed tests are refused and explosions are stopped") {
    const std::vector<Hypothesis> two{{"a", 1.0}, {"b", 1.0}};
    CHECK_THROWS_WITH(expand(two, {}, {test_named("t", {"y", "n"}, {{.5, .6}, {1, 0}})}),
                      Contains("sum of chances in t"));
    CHECK_THROWS_WITH(expand(two, {}, {test_named("t", {"y", "n"}, {{1, 0}})}), Contains("rows of t"));
    CHECK_THROWS_WITH(expand(two, {}, {test_named("t", {"y", "n"}, {{1}, {1, 0}})}), Contains("outcomes of t"));
    CHECK_THROWS_AS(expand({{"a", -1.0}}, {}, {}), std::domain_error);
    const auto coin = test_named("t", {"y", "n"}, {{.5, .5}, {.5, .5}});
    CHECK_THROWS_WITH(expand(two, {}, std::vector<ProbableTest>(20, coin)), Contains("number of alternatives"));
    CHECK(expand(two, {}, std::vector<ProbableTest>(15, coin)).alternatives.size() == 65536);
}

TEST_CASE("the test asked first is worth most per minute, and none that was done is asked again") {
    Seen seen;
    seen.codes = {code("P0753", "A", CodeClass::electrical), code("P0758", "B", CodeClass::electrical)};
    seen.fuse = "sound";
    const auto diagnosis = diagnosed(seen);
    REQUIRE(diagnosis.questions.size() > 3);
    for (std::size_t i = 1; i < diagnosis.questions.size(); ++i)
        CHECK(diagnosis.questions[i - 1].gain_bits / diagnosis.questions[i - 1].minutes >=
              diagnosis.questions[i].gain_bits / diagnosis.questions[i].minutes);
    for (const auto& question : diagnosis.questions)
        CHECK((question.attribute != "feed_fuse" && question.attribute != "codes"));
}

TEST_CASE("what would change a word really changes it") {
    Seen seen;
    seen.codes = {code("P0753", "A", CodeClass::electrical), code("P0758", "B", CodeClass::electrical)};
    const auto diagnosis = diagnosed(seen);
    REQUIRE(diagnosis.changes.count(Cause::shared_feed));
    for (const auto& change : diagnosis.changes.at(Cause::shared_feed)) {
        if (change.test != "feed voltage under load") continue;
        auto after = seen;
        after.battery_v = 12.6;
        after.feed_v = change.outcome == "holds" ? 12.5 : 9.0;
        CHECK(word_for(diagnosed(after).by_cause.at(Cause::shared_feed)) == change.word);
    }
}
