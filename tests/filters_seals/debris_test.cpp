#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <random>
#include <stdexcept>
#include <vector>

#include "science/debris.h"

using namespace casebound::filters_seals;

TEST_CASE("the table holds each finding once, in its own place, with a source") {
    for (std::size_t i = 0; i < debris_table().size(); ++i) {
        const DebrisRow& row = debris_table()[i];
        CHECK(static_cast<std::size_t>(row.finding) == i);
        CHECK(&debris_row(row.finding) == &row);
        CHECK_FALSE(row.reading_source.work.empty());
        CHECK(row.steps <= 0.0);
    }
    CHECK(debris_table().size() == 10);
}

TEST_CASE("thin grey paste is normal and moves nothing") {
    const std::array one{Debris::grey_paste_thin};
    const DebrisAnswer a = weigh_debris(0.6, one);
    CHECK(a.p_cheap_fix == Approx(0.6));
    CHECK_FALSE(a.stop_and_decide);
    CHECK(a.weakest.kind == Evidence::common_practice);
}

TEST_CASE("steel pieces and black flakes weigh most and reopen the decision") {
    for (const Debris d : {Debris::steel_pieces, Debris::black_flakes}) {
        const std::array one{d};
        const DebrisAnswer a = weigh_debris(0.6, one);
        CHECK(a.p_cheap_fix == Approx(1.5 / 9.5));  // odds 1.5 halved three times
        CHECK(a.stop_and_decide);
        CHECK(a.weakest.kind == Evidence::memory);
    }
}

TEST_CASE("order of weight: steel and black over brass and aluminium over varnish over thick paste") {
    const auto steps = [](Debris d) { return debris_row(d).steps; };
    CHECK(steps(Debris::steel_pieces) < steps(Debris::brass_flakes));
    CHECK(steps(Debris::brass_flakes) == steps(Debris::aluminium_glitter));
    CHECK(steps(Debris::brass_flakes) < steps(Debris::varnish_film));
    CHECK(steps(Debris::varnish_film) < steps(Debris::grey_paste_thick));
    CHECK(steps(Debris::grey_paste_thick) < steps(Debris::grey_paste_thin));
}

TEST_CASE("the assembly plug says the pan has probably never been off, and harms nothing") {
    const std::array one{Debris::loose_plug_with_oring};
    const DebrisAnswer a = weigh_debris(0.3, one);
    CHECK(a.p_cheap_fix == Approx(0.3));
    CHECK(a.readings[0].find("never been off") != std::string::npos);
}

TEST_CASE("sealant strings and plastic bits ask for a look without moving the odds") {
    const std::array both{Debris::sealant_strings, Debris::plastic_bits};
    const DebrisAnswer a = weigh_debris(0.5, both);
    CHECK(a.p_cheap_fix == Approx(0.5));
    CHECK(a.look_next.size() == 2);
}

TEST_CASE("the same finding twice counts once") {
    const std::array once{Debris::brass_flakes};
    const std::array twice{Debris::brass_flakes, Debris::brass_flakes};
    CHECK(weigh_debris(0.6, twice).p_cheap_fix == weigh_debris(0.6, once).p_cheap_fix);
}

TEST_CASE("an unopened pan changes nothing and says that nobody has looked") {
    const DebrisAnswer a = weigh_debris(0.6, {});
    CHECK(a.p_cheap_fix == Approx(0.6));
    REQUIRE(a.look_next.size() == 1);
    CHECK(a.look_next[0] == "nobody has looked in the pan");
}

TEST_CASE("a probability outside 0 to 1 is refused; certainty stays certain") {
    CHECK_THROWS_WITH(weigh_debris(1.5, {}), "probability: got 1.5: valid range is 0 to 1");
    CHECK_THROWS_AS(shift_odds(-0.1, 0), std::domain_error);
    CHECK(shift_odds(0.0, -3) == 0.0);
    CHECK(shift_odds(1.0, -3) == 1.0);
}

// A look into the pan: p .35, P(good|works) .9, P(good|not) .4 moves to .548 or
// .082; each is a likelihood ratio, so a shift of log2 of it in steps.
TEST_CASE("likelihood ratios 0.9/0.4 and 0.1/0.6 move 0.35 to 0.548 and 0.082") {
    CHECK(shift_odds(0.35, std::log2(0.9 / 0.4)) == Approx(0.548).margin(0.0005));
    CHECK(shift_odds(0.35, std::log2(0.1 / 0.6)) == Approx(0.082).margin(0.0005));
}

TEST_CASE("more findings never raise the chance, and it stays a probability") {
    std::mt19937 random(91);
    std::uniform_real_distribution<double> prior(0, 1);
    std::uniform_int_distribution<int> which(0, 9);
    for (int i = 0; i < 5000; ++i) {
        const double p = prior(random);
        std::vector<Debris> found;
        double last = p;
        for (int n = 0; n < 6; ++n) {
            found.push_back(static_cast<Debris>(which(random)));
            const double now = weigh_debris(p, found).p_cheap_fix;
            REQUIRE(now <= last + 1e-12);
            REQUIRE(now >= 0.0);
            last = now;
        }
    }
}

TEST_CASE("a chance is told in words") {
    CHECK(chance_word(0.7) == "likely");
    CHECK(chance_word(0.4) == "possible");
    CHECK(chance_word(0.1) == "unlikely");
}
