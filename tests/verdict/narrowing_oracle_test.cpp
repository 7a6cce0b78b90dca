// What is told, met with generated lines: contradictions are always refused and name who contradicts whom,
// consistent tellings never are, and telling more only makes a verdict more precise.
#include <iostream>

#include "tests/must.h"
#include "tests/refusal.h"
#include "tests/verdict/oracle_engine.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

bool any(const Where& on) { return std::find(on.begin(), on.end(), true) != on.end(); }

std::vector<PlainFact> chosen(const std::vector<PlainFact>& facts, unsigned mask) {
    std::vector<PlainFact> some;
    for (std::size_t i = 0; i < facts.size(); ++i)
        if (mask >> i & 1) some.push_back(facts[i]);
    return some;
}

// Facts of some smallest set that leaves nothing: every subset is tried.
std::vector<bool> guilty(const PlainCatalog& plain, const std::vector<PlainFact>& facts) {
    std::vector<bool> result(facts.size());
    for (unsigned mask = 1; mask < 1u << facts.size(); ++mask) {
        if (any(left_by(plain, chosen(facts, mask)))) continue;
        bool smallest = true;
        for (std::size_t i = 0; i < facts.size(); ++i)
            if (mask >> i & 1) smallest = smallest && any(left_by(plain, chosen(facts, mask & ~(1u << i))));
        for (std::size_t i = 0; smallest && i < facts.size(); ++i)
            if (mask >> i & 1) result[i] = true;
    }
    return result;
}

std::string said(const PlainFact& fact) {
    return fmt::format("{}={} ({} 2026-11-25)", fact.attribute, fact.right_side, tell_evidence_words(fact.evidence));
}

// Facts that no vehicle need have: anything its attributes can be, each for another attribute.
std::vector<PlainFact> wild_facts(Dice& dice, const PlainCatalog& plain) {
    std::vector<PlainFact> facts;
    std::set<std::string> seen;
    for (auto count = dice.between(2, 5); count > 0; --count)
        if (auto fact = some_fact(dice, plain, std::nullopt); seen.insert(fact.attribute).second)
            facts.push_back(std::move(fact));
    return facts;
}

// May the verdict become this when more is told?
bool more_precise(Verdict before, Verdict after) {
    switch (before) {
        case Verdict::check_first: return true;
        case Verdict::sources_disagree:
        case Verdict::not_recorded:
            return after == Verdict::sources_disagree || after == Verdict::not_recorded ||
                   after == Verdict::does_not_fit;
        default: return after == before;  // fits, none needed and does not fit stay
    }
}

// A line of the configurations written out, and what comes of telling.
struct Line {
    explicit Line(const std::vector<std::string>& rows) {
        PlainCatalog plain;
        for (const auto& text : rows) plain.configuration_rows.emplace_back(text, std::nullopt);
        bench.put_catalog(plain);
        catalog = bench.open();
        line = catalog->line("oracle-line");
    }
    std::string refused(const std::vector<std::pair<std::string, std::string>>& told) const {
        return refusal([&] { left(told); }).text;
    }
    std::size_t left(const std::vector<std::pair<std::string, std::string>>& told) const {
        std::vector<ToldFact> facts;
        for (const auto& [attribute, text] : told)
            facts.push_back(told_fact(attribute, text, TellEvidence::measured, "2026-11-25"));
        return narrow(*line, catalog->vocabularies(), facts).left.count();
    }

    Bench bench;
    std::unique_ptr<Catalog> catalog;
    const LineModel* line = nullptr;
};

}  // namespace

TEST_CASE("contradictory tellings are always refused, with the facts that exclude each other named and no others") {
    Bench bench;
    std::size_t refused = 0, impossible = 0, accepted = 0, innocent = 0;
    for (int n = 0; n < 4000; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 5000000);
        Sizes sizes;
        sizes.attributes_low = 3;
        sizes.applications_high = 0;
        const auto plain = some_catalog(dice, sizes);
        const Opened opened(bench, plain);
        const auto facts = wild_facts(dice, plain);
        const auto text = refusal_of(opened, facts);
        const bool consistent = any(left_by(plain, facts));
        must((text == "") == consistent, "refused exactly when nothing is left", text);
        accepted += consistent;
        if (consistent) continue;
        std::vector<PlainFact> alone;
        for (const auto& fact : facts)
            if (!any(fact.on)) alone.push_back(fact);
        if (!alone.empty()) {
            ++impossible;
            const bool named = std::any_of(alone.begin(), alone.end(), [&](const PlainFact& fact) {
                return text.rfind(fact.attribute + "=" + fact.right_side + ": ", 0) == 0;
            });
            must(named, "the impossible value is named", text);
            continue;
        }
        ++refused;
        const auto culprits = guilty(plain, facts);
        for (std::size_t i = 0; i < facts.size(); ++i) {
            innocent += !culprits[i];
            must((text.find(said(facts[i])) != std::string::npos) == culprits[i],
                 said(facts[i]) + " is named exactly when it is part of a contradiction", text);
        }
    }
    std::cout << "narrowing: " << refused << " contradictions and " << impossible << " impossible values refused, "
              << accepted << " consistent tellings accepted, " << innocent << " facts rightly not named\n";
    CHECK(refused > 200);
    CHECK(impossible > 200);
    CHECK(accepted > 200);
    CHECK(innocent > 100);
}

TEST_CASE("what is true of one vehicle is never refused") {
    Bench bench;
    for (int n = 0; n < 3000; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 6000000);
        Sizes sizes;
        sizes.applications_high = 0;
        const auto plain = some_catalog(dice, sizes);
        const Opened opened(bench, plain);
        const auto truth_at = dice.below(plain.configurations.size());
        const auto facts = some_facts(dice, plain, 6, truth_at);
        const auto text = refusal_of(opened, facts);
        must(text == "", "the truth is never refused", text);
        must(opened.where(opened.narrowed(facts).left)[truth_at], "the truth is never ruled out", "");
    }
}

TEST_CASE("telling more never takes back a fits, a none needed or a does not fit") {
    Bench bench;
    std::map<std::pair<Verdict, Verdict>, std::size_t> steps;
    for (int n = 0; n < 4000; ++n) {
        Dice dice(static_cast<std::uint64_t>(n) + 7000000);
        const auto plain = some_catalog(dice);
        const Opened opened(bench, plain);
        const auto facts = some_facts(dice, plain, 5, dice.below(plain.configurations.size()));
        std::map<std::string, Verdict> before;
        std::map<std::string, Verdict> groups_before;
        for (std::size_t told = 0; told <= facts.size(); ++told) {
            const auto narrowing = opened.narrowed({facts.begin(), facts.begin() + static_cast<std::ptrdiff_t>(told)});
            const auto judge = opened.judge(narrowing);
            for (const auto& role : plain_roles()) {
                const auto answer = judge.role(role);
                const auto [at, fresh] = before.emplace(role, answer.verdict);
                if (!fresh) {
                    ++steps[{at->second, answer.verdict}];
                    must(more_precise(at->second, answer.verdict), "a verdict only becomes more precise",
                         fmt::format("{} to {}", verdict_name(at->second), verdict_name(answer.verdict)));
                    at->second = answer.verdict;
                }
                for (const auto& group : answer.groups) {
                    const auto [known, first] = groups_before.emplace(role + group.key, group.verdict);
                    const bool stays = known->second != Verdict::fits && known->second != Verdict::does_not_fit;
                    must(first || stays || group.verdict == known->second,
                         "a group's fits or does not fit is never taken back", group.key);
                    known->second = group.verdict;
                }
            }
        }
    }
    const auto from_check = steps[{Verdict::check_first, Verdict::fits}] +
                            steps[{Verdict::check_first, Verdict::none_needed}];
    CHECK(from_check > 100);
    CHECK(steps[{Verdict::fits, Verdict::fits}] > 100);
    CHECK(steps[{Verdict::does_not_fit, Verdict::does_not_fit}] > 100);
    CHECK(steps[{Verdict::none_needed, Verdict::none_needed}] > 100);
}

TEST_CASE("a value no configuration has is refused with what there is") {
    const Line line({"engine=2.0; pan_depth=38 mm", "engine=2.6; pan_depth=52 mm"});
    CHECK(line.refused({{"pan_depth", "45 mm"}}) ==
          "pan_depth=45 mm: no Oracle line was recorded with it: it has 38 mm, 52 mm; measure again, or correct the "
          "pack");
    CHECK(line.refused({{"pan_depth", "deep"}}).rfind("pan_depth=deep: ", 0) == 0);
    CHECK(line.refused({{"pan_deph", "38 mm"}}) == "pan_deph: no such attribute: did you mean pan_depth?");
}

TEST_CASE("a contradiction says what would be left without each of its facts, and leaves the others out") {
    const Line line({"engine=2.0; pan_depth=38 mm; drive=2wd", "engine=2.6; pan_depth=52 mm; drive=2wd"});
    const auto text = line.refused({{"engine", "2.0"}, {"pan_depth", "52 mm"}, {"drive", "2wd"}});
    CHECK(text.find("engine=2.0 (measured 2026-11-25) excludes the 1 left by the others") != std::string::npos);
    CHECK(text.find("without it: pan_depth=52 mm") != std::string::npos);
    CHECK(text.find("without it: pan_depth=38 mm") != std::string::npos);
    const auto way_out = text.find("casebound note ");  // a row of the vehicle as it is, with all of it
    REQUIRE(way_out != std::string::npos);
    CHECK(text.substr(0, way_out).find("drive=2wd") == std::string::npos);
    CHECK(text.find("drive=2wd", way_out) != std::string::npos);
    CHECK(text.find("nothing was recorded") != std::string::npos);
}

TEST_CASE("a measured number agrees within the attribute's tolerance and not beyond it") {
    const Line line({"engine=2.0; pan_depth=38 mm", "engine=2.6; pan_depth=52 mm"});
    CHECK(line.left({{"pan_depth", "39.5 mm"}}) == 1);
    CHECK(line.left({{"pan_depth", "36.5 mm"}}) == 1);
    CHECK(line.left({{"pan_depth", "1 1/2 in"}}) == 1);  // 38.1 mm
    CHECK(line.refused({{"pan_depth", "39.6 mm"}}) != "");
    CHECK(line.left({{"pan_depth", "36..53 mm"}}) == 2);
}

TEST_CASE("a finding, and an attribute of other lines, narrow nothing") {
    const Line line({"engine=2.0; drive=2wd", "engine=2.6; drive=2wd"});
    CHECK(line.left({{"knock", "yes"}, {"hose", "no"}}) == 2);
    CHECK(line.refused({{"hose", "maybe"}}) != "");
}

TEST_CASE("a line of which no configuration is recorded is open: nothing told of it is refused but what cannot be") {
    const Line line({});
    CHECK(line.refused({{"engine", "2.0"}}) == "");
    CHECK(line.left({}) == 1);
    CHECK(line.left({{"engine", "2.0"}}) == 1);  // no statement speaks of it
    CHECK(line.refused({{"no_such", "2.0"}}).find("no such attribute") != std::string::npos);
}
