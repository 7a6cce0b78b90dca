#include <catch2/catch.hpp>
#include <random>
#include <stdexcept>

#include "science/stack.h"

using namespace casebound::filters_seals;

namespace {

FilterStack exact_stack(double pan, double filter, double neck, double depth, double old_seal) {
    return {exactly(pan), exactly(filter), exactly(neck), exactly(depth), old_seal};
}

Window measured_window(double low, double high) { return {{low, high}, {Evidence::measured, "old pair"}}; }

}  // namespace

// Worked stack: neck 38 mm, depth 12 mm; pans 38 and 58 mm, filters 33 and
// 52 mm, old seal 9 mm (invented vehicle, arithmetic by hand).
TEST_CASE("a neck of 38 mm over a seal 12 mm up engages 26 mm, with a 9 mm old seal 17 mm") {
    CHECK(engagement_mm(exactly(38), exactly(12), 0).nominal == 26.0);
    CHECK(engagement_mm(exactly(38), exactly(12), 9).nominal == 17.0);
    const StackAnswer clear = examine_stack(exact_stack(38, 33, 38, 12, 0));
    const StackAnswer stacked = examine_stack(exact_stack(38, 33, 38, 12, 9));
    CHECK(clear.engagement_mm->nominal == 26.0);
    CHECK(clear.cautions.empty());
    CHECK(stacked.engagement_mm->nominal == 17.0);
    CHECK(stacked.gap_mm->nominal == -4.0);
    REQUIRE(stacked.cautions.size() == 1);
    CHECK(stacked.cautions[0].find("never press a new one on an old one") != std::string::npos);
}

TEST_CASE("a shallow filter in a shallow pan leaves 5 mm, inside the default window, but memory stays open") {
    const StackAnswer a = examine_stack(exact_stack(38, 33, 38, 12, 0));
    CHECK(a.gap_mm->nominal == 5.0);
    CHECK(a.place == GapPlace::inside_window);
    CHECK(a.gap.judgement == Judgement::check_first);
    CHECK(a.gap.source.kind == Evidence::memory);
}

TEST_CASE("a shallow filter in a deep pan leaves 25 mm: the pick-up may uncover") {
    const StackAnswer a = examine_stack(exact_stack(58, 33, 38, 12, 0));
    CHECK(a.gap_mm->nominal == 25.0);
    CHECK(a.place == GapPlace::above_window);
    CHECK(a.gap.reason.find("uncover") != std::string::npos);
}

TEST_CASE("a deep filter in a shallow pan leaves -14 mm: the pan will not close, whatever the window says") {
    const StackAnswer a = examine_stack(exact_stack(38, 52, 38, 12, 0));
    CHECK(a.gap_mm->nominal == -14.0);
    CHECK(a.place == GapPlace::will_not_close);
    CHECK(a.gap.judgement == Judgement::does_not_fit);
    CHECK(a.overall == Judgement::does_not_fit);
    CHECK(a.gap.reason == "gap -14 mm: the pan will not close");
}

TEST_CASE("the old pair, measured with a margin, overrides the default window and may be firm") {
    const Window w = window_from_old_pair(exactly(58), exactly(33), 2.0);
    CHECK(w.allowed.low == 23.0);
    CHECK(w.allowed.high == 27.0);
    CHECK(w.source.kind == Evidence::measured);
    CHECK(examine_stack(exact_stack(58, 33, 38, 12, 0), w).gap.judgement == Judgement::fits);
    CHECK(examine_stack(exact_stack(58, 52, 38, 12, 0), w).gap.judgement == Judgement::does_not_fit);
}

TEST_CASE("an old pair without a margin of its own stays from memory") {
    const Window w = window_from_old_pair(exactly(38), exactly(33));
    CHECK(w.allowed.low == 1.5);
    CHECK(w.allowed.high == 8.5);
    CHECK(w.source.kind == Evidence::memory);
}

TEST_CASE("the ruler's error on the old pair makes the edges of its window unsure") {
    const Window w = window_from_old_pair(about(58, 1), about(33, 0.5), 2.0);
    CHECK(w.edge_unsure == Approx(1.5));
    CHECK(examine_stack(exact_stack(58, 33, 38, 12, 0), w).gap.judgement == Judgement::fits);
    CHECK(examine_stack(exact_stack(59, 33, 38, 12, 0), w).gap.judgement == Judgement::check_first);
}

TEST_CASE("tolerances add up at both ends of the gap") {
    const Stacked gap = gap_mm(about(38, 1), Toleranced{33, 0.5, 0.25}, 0);
    CHECK(gap.min == Approx(3.75));
    CHECK(gap.nominal == 5.0);
    CHECK(gap.max == Approx(6.5));
}

TEST_CASE("a neck that does not reach is a firm no, one that reaches asks how much is enough") {
    CHECK(examine_stack(exact_stack(38, 33, 12, 12, 0)).engagement.judgement == Judgement::does_not_fit);
    CHECK(examine_stack(exact_stack(38, 33, 38, 12, 0)).engagement.judgement == Judgement::check_first);
    CHECK(examine_stack(exact_stack(38, 33, 38, 12, 0), default_gap_window(), measured_window(20, 30))
              .engagement.judgement == Judgement::fits);
    CHECK(examine_stack(exact_stack(38, 33, 38, 12, 0), default_gap_window(), measured_window(27, 30))
              .engagement.judgement == Judgement::does_not_fit);
}

TEST_CASE("each missing length is named, the bore first") {
    const StackAnswer a = examine_stack({});
    REQUIRE(a.measure_next.size() == 5);
    CHECK(a.measure_next[0].find("look up the bore") != std::string::npos);
    CHECK_FALSE(a.gap_mm);
    CHECK_FALSE(a.engagement_mm);
    CHECK(a.place == GapPlace::unknown);
    CHECK(a.overall == Judgement::check_first);
}

TEST_CASE("a bore nobody has looked into makes no firm yes") {
    FilterStack s = exact_stack(38, 33, 38, 12, 0);
    const Window gap = measured_window(3, 10), reach = measured_window(20, 30);
    CHECK(examine_stack(s, gap, reach).overall == Judgement::fits);
    s.old_seal_left_mm.reset();
    CHECK(examine_stack(s, gap, reach).overall == Judgement::check_first);
    s.pan_depth_mm = exactly(30);
    CHECK(examine_stack(s, gap, reach).overall == Judgement::does_not_fit);
}

TEST_CASE("lengths out of physical range are refused by name") {
    CHECK_THROWS_WITH(examine_stack(exact_stack(412, 33, 38, 12, 0)),
                      "pan depth: got 412 mm: valid range is 1 to 300 mm");
    CHECK_THROWS_WITH(examine_stack(exact_stack(38, 0, 38, 12, 0)),
                      "filter height: got 0 mm: valid range is 1 to 300 mm");
    CHECK_THROWS_WITH(examine_stack(exact_stack(38, 33, -1, 12, 0)),
                      "neck length: got -1 mm: valid range is 0 to 200 mm");
    CHECK_THROWS_WITH(examine_stack(exact_stack(38, 33, 38, 201, 0)),
                      "depth to seal: got 201 mm: valid range is 0 to 200 mm");
    CHECK_THROWS_WITH(examine_stack(exact_stack(38, 33, 38, 12, -9)),
                      "old seal height: got -9 mm: valid range is 0 to 50 mm");
    CHECK_THROWS_AS(window_from_old_pair(exactly(38), exactly(33), -1.0), std::domain_error);
}

TEST_CASE("a tighter stack never turns does-not-fit into fits") {
    std::mt19937 random(41);
    std::uniform_real_distribution<double> pan(20, 80), filter(15, 70), tol(0, 6), shrink(0, 1);
    int firm = 0;
    for (int i = 0; i < 20000; ++i) {
        FilterStack wide = exact_stack(1, 1, 38, 12, 0);
        wide.pan_depth_mm = about(pan(random), tol(random));
        wide.filter_height_mm = about(filter(random), tol(random));
        FilterStack tight = wide;
        const double f = shrink(random);
        tight.pan_depth_mm = about(wide.pan_depth_mm->nominal, f * wide.pan_depth_mm->plus);
        tight.filter_height_mm = about(wide.filter_height_mm->nominal, f * wide.filter_height_mm->plus);
        const Window w = measured_window(3, 25), reach = measured_window(20, 30);
        const Judgement before = examine_stack(wide, w, reach).overall;
        if (before == Judgement::check_first) continue;
        ++firm;
        REQUIRE(examine_stack(tight, w, reach).overall == before);
    }
    CHECK(firm > 1000);
}

TEST_CASE("leaving out any length never gives fits, and a no that is left holds for every value of it") {
    std::mt19937 random(42);
    std::uniform_real_distribution<double> length(10, 60), seal(0, 20);
    std::uniform_int_distribution<int> which(0, 4);
    const Window w = measured_window(3, 10), reach = measured_window(5, 30);
    for (int i = 0; i < 20000; ++i) {
        FilterStack full = exact_stack(length(random), length(random), length(random), length(random), 0);
        if (i % 2 == 0) full.old_seal_left_mm = seal(random);
        FilterStack part = full;
        switch (which(random)) {
            case 0: part.pan_depth_mm.reset(); break;
            case 1: part.filter_height_mm.reset(); break;
            case 2: part.neck_length_mm.reset(); break;
            case 3: part.depth_to_seal_mm.reset(); break;
            default: part.old_seal_left_mm.reset(); break;
        }
        const Judgement known = examine_stack(part, w, reach).overall;
        REQUIRE(known != Judgement::fits);
        if (known == Judgement::does_not_fit) REQUIRE(examine_stack(full, w, reach).overall == Judgement::does_not_fit);
    }
}

TEST_CASE("a deeper pan never lessens the gap, a higher old seal never adds to gap or engagement") {
    std::mt19937 random(43);
    std::uniform_real_distribution<double> pan(20, 80), more(0, 10);
    for (int i = 0; i < 5000; ++i) {
        const double p = pan(random), step = more(random), h = more(random);
        REQUIRE(gap_mm(exactly(p + step), exactly(33), h).nominal >= gap_mm(exactly(p), exactly(33), h).nominal);
        REQUIRE(gap_mm(exactly(p), exactly(33), h + step).nominal <= gap_mm(exactly(p), exactly(33), h).nominal);
        REQUIRE(engagement_mm(exactly(p), exactly(12), h + step).max <= engagement_mm(exactly(p), exactly(12), h).max);
    }
}
