// Position and kind: what one mount may stand in for.
#include <catch2/catch.hpp>

#include <algorithm>
#include <vector>

#include "plugins/mounts/science/mount_kind.h"

using namespace casebound::mounts;
using Catch::Matchers::Contains;

namespace {

Mount mount(Kind kind, Connection connection, Position position = Position::left) {
    Mount one;
    one.position = position;
    one.kind = kind;
    one.connection = connection;
    return one;
}

Mount hydraulic() { return mount(Kind::hydraulic, Connection::none); }
Mount solid() { return mount(Kind::solid, Connection::none); }

Mount with_hose(double hose_mm) {
    Mount one = mount(Kind::switched_vacuum, Connection::hose);
    one.hose_mm = hose_mm;
    return one;
}

}  // namespace

TEST_CASE("left is not right, even where they look alike") {
    Mount right = hydraulic();
    right.position = Position::right;
    const auto answer = may_replace(hydraulic(), right);
    CHECK(answer.verdict == Replacement::no);
    CHECK_THAT(answer.reasons.front(), Contains("right is not left"));
}

TEST_CASE("a position nobody has told is cannot tell, with what to do") {
    Mount offered = hydraulic();
    offered.position = Position::unknown;
    const auto answer = may_replace(hydraulic(), offered);
    CHECK(answer.verdict == Replacement::cannot_tell);
    CHECK_FALSE(answer.look_first.empty());
}

TEST_CASE("solid and hydraulic bolt up but differ, both ways") {
    CHECK(may_replace(hydraulic(), solid()).verdict == Replacement::bolts_up_but);
    CHECK(may_replace(solid(), hydraulic()).verdict == Replacement::bolts_up_but);
    CHECK(may_replace(hydraulic(), hydraulic()).verdict == Replacement::same_kind);
    CHECK(may_replace(solid(), solid()).verdict == Replacement::same_kind);
}

TEST_CASE("a leaking hydraulic mount whose hose nobody looked for") {
    // Scenario: left hydraulic mount leaks; offers are a hydraulic and a solid
    // one. Solid differs whatever is found; hydraulic waits for a look.
    const Mount wanted = mount(Kind::hydraulic, Connection::unknown);
    const auto solid_offer = may_replace(wanted, solid());
    CHECK(solid_offer.verdict == Replacement::bolts_up_but);
    CHECK_FALSE(solid_offer.look_first.empty());
    const auto hydraulic_offer = may_replace(wanted, hydraulic());
    CHECK(hydraulic_offer.verdict == Replacement::cannot_tell);
    CHECK(hydraulic_offer.look_first.front() == "hose or plug at the mount");
}

TEST_CASE("a hose at a hydraulic mount makes it the switched kind") {
    CHECK(shown_kind(mount(Kind::hydraulic, Connection::hose)) == Kind::switched_vacuum);
    CHECK(shown_kind(mount(Kind::hydraulic, Connection::plug)) == Kind::switched_electric);
    const auto answer = may_replace(mount(Kind::hydraulic, Connection::hose), hydraulic());
    CHECK(answer.verdict == Replacement::bolts_up_but);
    CHECK(answer.note_required);
}

TEST_CASE("a switched mount is never replaced by a plain one without a note") {
    for (Kind plain : {Kind::solid, Kind::hydraulic}) {
        const auto answer = may_replace(with_hose(6), mount(plain, Connection::none));
        CHECK(answer.verdict == Replacement::bolts_up_but);
        CHECK(answer.note_required);
        CHECK_THAT(answer.reasons.front(), Contains("fault code"));
    }
}

TEST_CASE("switched for plain stays in its rest state and needs a note") {
    const auto answer = may_replace(hydraulic(), with_hose(6));
    CHECK(answer.verdict == Replacement::bolts_up_but);
    CHECK(answer.note_required);
}

TEST_CASE("switched for switched needs the connection to be known and equal") {
    CHECK(may_replace(with_hose(6), with_hose(6)).verdict == Replacement::same_kind);
    CHECK(may_replace(with_hose(6), with_hose(4)).verdict == Replacement::no);
    const auto open = may_replace(with_hose(6), mount(Kind::switched_vacuum, Connection::hose));
    CHECK(open.verdict == Replacement::cannot_tell);
    Mount plug = mount(Kind::switched_electric, Connection::plug);
    plug.pins = 2;
    Mount other = plug;
    CHECK(may_replace(plug, other).verdict == Replacement::same_kind);
    other.pins = 3;
    CHECK(may_replace(plug, other).verdict == Replacement::no);
}

TEST_CASE("a tie-rod stands in for nothing that carries weight") {
    CHECK(may_replace(hydraulic(), mount(Kind::tie_rod, Connection::none)).verdict == Replacement::no);
    CHECK(may_replace(mount(Kind::tie_rod, Connection::none), solid()).verdict == Replacement::no);
}

TEST_CASE("a kind that contradicts its connection is unknown") {
    CHECK(shown_kind(mount(Kind::solid, Connection::hose)) == Kind::unknown);
    CHECK(shown_kind(mount(Kind::switched_vacuum, Connection::plug)) == Kind::unknown);
    CHECK(shown_kind(mount(Kind::switched_electric, Connection::none)) == Kind::unknown);
}

TEST_CASE("over every pair of mounts the answer keeps the rules") {
    std::vector<Mount> all;
    for (int kind = 0; kind < 7; ++kind)
        for (int connection = 0; connection < 4; ++connection)
            for (int position = 0; position < 7; ++position)
                all.push_back(mount(static_cast<Kind>(kind), static_cast<Connection>(connection),
                                    static_cast<Position>(position)));
    for (const Mount& wanted : all)
        for (const Mount& offered : all) {
            const auto answer = may_replace(wanted, offered);
            const bool known = wanted.position != Position::unknown && offered.position != Position::unknown;
            if (known && wanted.position != offered.position) REQUIRE(answer.verdict == Replacement::no);
            if (answer.verdict == Replacement::same_kind) REQUIRE(shown_kind(wanted) == shown_kind(offered));
            if (answer.verdict == Replacement::cannot_tell) REQUIRE_FALSE(answer.look_first.empty());
            if (answer.verdict == Replacement::bolts_up_but && is_switched(shown_kind(wanted)))
                REQUIRE(answer.note_required);
            REQUIRE_FALSE(answer.reasons.empty());
        }
}

TEST_CASE("at the bench what differs and what is not known are told apart") {
    Mount old_one = hydraulic();
    old_one.stud_thread_mm = 10;
    old_one.stud_length_mm = 32;
    old_one.bracket = Bracket::separate;
    Mount new_one = old_one;
    new_one.stud_thread_mm = 12;
    const auto lines = bench_differences(old_one, new_one);
    REQUIRE(lines.size() == 2);
    CHECK(lines[0].what == "stud thread");
    CHECK(lines[0].known);
    CHECK(lines[1].what == "locating pin");
    CHECK_FALSE(lines[1].known);
}

TEST_CASE("every enumerator has a word") {
    CHECK(word(Position::torque) == "torque");
    CHECK(word(Kind::tie_rod) == "tie-rod");
    CHECK(word(Connection::plug) == "plug");
    CHECK(word(Bracket::separate) == "separate");
}
