// The shorthand that domains are written in: what differs, what follows from it, and what a check says.
#include <catch2/catch.hpp>

#include "core/contract/advice.h"
#include "core/contract/comparison.h"
#include "core/contract/examiner.h"
#include "core/contract/row_checker.h"
#include "tests/fakes.h"

using namespace casebound;
using casebound::tests::FakeFacts;
using casebound::tests::FakeVehicle;

namespace {

const SourceNote by_hand{Evidence::measured, "by hand"};

Given given_of(const std::vector<std::pair<std::string, std::string>>& values) {
    Given given;
    for (const auto& [name, text] : values) {
        auto& value = given.values[name];
        value.text = text;
        value.source = by_hand;
        if (const auto number = Cell("", text).number) value.numbers = {*number};
    }
    return given;
}

struct TwiceOver : RowChecker {
    using RowChecker::RowChecker;
    std::vector<RowFault> run() {
        each_at_odds(facts_.rows("waits"), "minutes", "line ", " says otherwise", [](const Row& a, const Row& b) {
            return alike_in(a, b, {"line", "source"}) && a.text("minutes") != b.text("minutes");
        });
        return faults_;
    }
};

}  // namespace

TEST_CASE("a difference weighs by the heaviest, a gap less than any") {
    Comparison found;
    CHECK_FALSE(heaviest(found.all));
    CHECK_FALSE(found.further_apart("pitch", {}, 1.5, 0.1));
    CHECK(heaviest(found.all) == Weight::not_known);
    CHECK_FALSE(found.further_apart("thread", 10.0, 10.3, 0.31));  // alike: nothing is added
    CHECK(found.all.size() == 1);
    CHECK(found.further_apart("length", 278.0, 310.0, 2) == 32.0);
    found.add("length", "310 mm", "278 mm", "askew", Weight::needs_something);
    CHECK(found.all.back().says == "310 mm offered, 278 mm wanted: askew");
    found.add("axle", "the other axle", Weight::no);
    CHECK(heaviest(found.all) == Weight::no);
}

TEST_CASE("an answer out of differences: the heaviest is the headline, each gap is to be found out") {
    const Difference gap{"pitch", "not known of both", Weight::not_known};
    const Difference care{"length", "2 mm more", Weight::needs_something}, other{"axle", "rear", Weight::no};
    const auto verdict = [](const Answer& answer) { return *answer.verdict; };

    const auto alike = answer_of({}, "axle and length", by_hand);
    CHECK(verdict(alike) == Verdict::fits);
    CHECK(alike.headline == "Alike in axle and length.");
    const auto open = answer_of({gap}, "axle", by_hand);
    CHECK(verdict(open) == Verdict::check_first);
    CHECK(open.headline == "Cannot tell yet: not known of both: pitch.");
    CHECK(open.next == std::vector<std::string>{"Find out of both: pitch."});
    const auto careful = answer_of({gap, care}, "axle", by_hand);
    CHECK(verdict(careful) == Verdict::check_first);
    CHECK(careful.headline == "It goes only with care: length.");
    CHECK(careful.next.size() == 1);
    const auto not_this = answer_of({gap, care, other}, "axle", by_hand);
    CHECK(verdict(not_this) == Verdict::does_not_fit);
    CHECK(not_this.headline == "Not this one: it differs in axle.");
    for (const auto& answer : {alike, open, careful, not_this}) {
        CHECK(answer.cautions.size() == 1);  // alike is no application
        for (const auto& line : answer.lines) CHECK(line.source.evidence == Evidence::measured);
    }
}

TEST_CASE("an opinion is only ever lowered by a difference") {
    Opinion opinion;
    put(opinion, {"axle", "rear", Weight::no});
    put(opinion, {"pitch", "", Weight::not_known});
    CHECK(opinion.at_most == Verdict::does_not_fit);
    CHECK(opinion.reasons.size() == 2);
    CHECK(opinion.conditions == std::vector<std::string>{"compare at the bench: pitch"});
}

TEST_CASE("a row of stand-ins is wrong only where no care helps, and not once it is withdrawn") {
    FakeFacts facts;
    facts.table("arms", "group_key,length\na,278\nb,310\nc,\n");
    facts.table("stand_ins",
                "wanted,offered,relation,withdrawn\na,b,supersedes,\na,b,excludes,\na,b,supersedes,2026\n"
                "a,c,supersedes,\na,nobody,supersedes,\n");
    const auto differ = [](const Row& wanted, const Row& offered) {
        Comparison found;
        if (found.further_apart("length", wanted.number("length"), offered.number("length"), 2))
            found.add("length", "askew", Weight::no);
        return found.all;
    };
    std::vector<std::string> said;
    for (const auto& edge : facts.rows("stand_ins"))
        for (auto& fault : faults_of_stand_in(facts, "arms", edge, differ)) said.push_back(fault);
    CHECK(said == std::vector<std::string>{"b for a: length: askew: remove the row, or write excludes"});
}

TEST_CASE("a part in the hand keeps what is not given, and rests on the weakest of what is") {
    const auto given = given_of({{"old-thread", "10"}, {"old-ends", "two"}});
    PartInHand hand{given, "old"};
    std::optional<double> thread, pitch = 1.5;
    std::string note = "as recorded";
    hand.word("-note", note);
    CHECK_FALSE(hand.source);
    hand.rests_on({Evidence::maker, "a list"});
    hand.number("-thread", thread);
    hand.number("-pitch", pitch);
    CHECK(thread == 10.0);
    CHECK(pitch == 1.5);
    CHECK(note == "as recorded");
    CHECK(hand.source->evidence == Evidence::measured);

    enum class Ends { unknown, one, two } ends = Ends::unknown;
    constexpr std::array<std::string_view, 3> words{"", "one", "two"};
    hand.value("-ends", words, ends);
    CHECK(ends == Ends::two);
    CHECK(value_of<Ends>("three", words) == Ends::unknown);
    CHECK(choices_of(words) == std::vector<std::string>{"one", "two"});
}

TEST_CASE("an examination asks once, and only where there is something to choose") {
    FakeFacts facts;
    const Engine engine;
    FakeVehicle vehicle;
    vehicle.may_be("pan_depth", {"41 mm", "61 mm"}).may_be("year", {"2007"});
    const Services services{facts, engine, &vehicle};
    const Candidate candidate{"pan-filter", "g", ""};
    Examiner examiner{candidate, services};
    CHECK(examiner.can_tell("pan_depth"));
    CHECK(examiner.can_tell("pan_depth"));
    CHECK(examiner.can_tell("year"));
    CHECK_FALSE(examiner.can_tell("plug"));
    CHECK(examiner.result.questions == std::vector<std::string>{"pan_depth"});
    examiner.warn("never on a jack", practice());
    examiner.warn("never on a jack", practice());
    CHECK(examiner.result.cautions.size() == 1);
}

TEST_CASE("a check says only what is wrong in its own pack, at the later of two rows") {
    FakeFacts facts;
    const std::string header = "line,minutes,source\n";
    facts.table("waits", header + "van,2,book\n", Evidence::maker, "other");
    facts.table("waits", header + "van,5,book\nvan,5,paper\nbus,7,book\n", Evidence::maker, "mine");
    const auto faults = TwiceOver(facts, "mine").run();
    REQUIRE(faults.size() == 1);
    CHECK(faults[0].what == "line 2 says otherwise");
    CHECK(faults[0].origin.line == 3);
    CHECK(TwiceOver(facts, "other").run().empty());
}

TEST_CASE("advice shows what it was given, and is no firmer than the weakest of it") {
    const Advice advice{Verdict::fits, "Replace it.", "Feel the other one."};
    const auto given = given_of({{"play", "yes"}});
    Advised advised(advice, given, {"play", "boot"});
    CHECK(given.maybe_yes("play") == true);
    CHECK_FALSE(given.maybe_yes("boot").has_value());
    CHECK(advised.answer.lines.size() == 1);
    CHECK(advised.source.evidence == Evidence::common_practice);
    advised.rests_on(from_memory("9 V"));
    advised.say_what_it_points_at();
    CHECK(advised.answer.lines.back().source.evidence == Evidence::memory);
    CHECK(advised.answer.next == std::vector<std::string>{"Feel the other one."});
}
