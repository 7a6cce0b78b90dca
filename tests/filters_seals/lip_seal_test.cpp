#include <array>
#include <catch2/catch.hpp>
#include <random>
#include <stdexcept>

#include "science/lip_seal.h"

using namespace casebound::filters_seals;

// ISO 6194-1, press-fit allowance over the nominal bore, mm.
TEST_CASE("press-fit allowance and roundness, every published row, at and just past its end") {
    struct Row {
        double over, to, metal_min, metal_max, rubber_min, rubber_max, round;
    };
    const std::array<Row, 6> rows{{{0, 50, .10, .20, .15, .30, .25},
                                   {50, 80, .13, .23, .20, .35, .35},
                                   {80, 120, .15, .25, .20, .35, .50},
                                   {120, 180, .18, .28, .25, .45, .65},
                                   {180, 300, .20, .30, .25, .45, .80},
                                   {300, 500, .23, .35, .30, .55, 1.00}}};
    for (const Row& r : rows)
        for (const double bore : {r.over + 0.001, r.to}) {
            INFO("bore " << bore);
            CHECK(press_fit_allowance_mm(bore, LipCasing::metal).low == r.metal_min);
            CHECK(press_fit_allowance_mm(bore, LipCasing::metal).high == r.metal_max);
            CHECK(press_fit_allowance_mm(bore, LipCasing::rubber_covered).low == r.rubber_min);
            CHECK(press_fit_allowance_mm(bore, LipCasing::rubber_covered).high == r.rubber_max);
            CHECK(roundness_max_mm(bore) == r.round);
        }
}

TEST_CASE("a rubber covered seal for a 50 mm bore measures 50.15 to 50.30 mm, 0.111 to 0.300 mm tight in H8") {
    const Range od = seal_od_mm(50, LipCasing::rubber_covered);
    CHECK(od.low == Approx(50.15));
    CHECK(od.high == Approx(50.30));
    const Stacked tight = interference_mm({50.15, 0, 0.15}, {50, 0, *bore_h8_upper_mm(50)});
    CHECK(tight.min == Approx(0.111));
    CHECK(tight.max == Approx(0.300));
}

// ISO 286-2.
TEST_CASE("H8 bore and h11 shaft deviations, every published row") {
    struct Row {
        double to, h8, h11;
    };
    const std::array<Row, 13> rows{{{3, 0, -0.06},
                                    {6, 0, -0.075},
                                    {10, .022, -0.09},
                                    {18, .027, -0.11},
                                    {30, .033, -0.13},
                                    {50, .039, -0.16},
                                    {80, .046, -0.19},
                                    {120, .054, -0.22},
                                    {180, .063, -0.25},
                                    {250, .072, -0.29},
                                    {315, .081, -0.32},
                                    {400, .089, -0.36},
                                    {500, .097, -0.40}}};
    double over = 0;
    for (const Row& r : rows) {
        for (const double size : {over + 0.001, r.to}) {
            INFO("size " << size);
            CHECK(shaft_h11_lower_mm(size) == r.h11);
            if (r.h8 > 0) CHECK(bore_h8_upper_mm(size) == r.h8);
            else CHECK_FALSE(bore_h8_upper_mm(size));
        }
        over = r.to;
    }
}

TEST_CASE("width tolerance is 0.20 to 10 mm and 0.30 above") {
    CHECK(width_tolerance_mm(7) == 0.20);
    CHECK(width_tolerance_mm(10) == 0.20);
    CHECK(width_tolerance_mm(10.01) == 0.30);
}

// ISO 6194-1 / DIN 3760, printed values; t1 is 0.85 b except at 12 mm.
TEST_CASE("housing depths as printed; other widths are not recorded") {
    const std::array<HousingDepth, 6> rows{
        {{7, 5.95, 7.3}, {8, 6.8, 8.3}, {10, 8.5, 10.3}, {12, 10.3, 12.3}, {15, 12.75, 15.3}, {20, 17, 20.3}}};
    for (const HousingDepth& r : rows) {
        const auto found = housing_depth(r.width_mm);
        REQUIRE(found);
        CHECK(found->t1_min_mm == r.t1_min_mm);
        CHECK(found->t2_min_mm == r.t2_min_mm);
        if (r.width_mm != 12) CHECK(found->t1_min_mm == Approx(0.85 * r.width_mm));
    }
    CHECK_FALSE(housing_depth(9));
}

TEST_CASE("sizes outside the tables are refused, with the range") {
    CHECK_THROWS_WITH(press_fit_allowance_mm(501, LipCasing::metal), "bore: got 501 mm: valid range is 0 to 500 mm");
    CHECK_THROWS_AS(shaft_h11_lower_mm(-1), std::domain_error);
    CHECK_THROWS_AS(width_tolerance_mm(0), std::domain_error);
    CHECK_THROWS_AS(examine_hat_seal({exactly(600), {}, {}, {}}), std::domain_error);
    CHECK_THROWS_AS(lip_seals_like({}, {exactly(0), {}, {}}), std::domain_error);
}

TEST_CASE("a hat seal no wider than its bore drops out: a firm no without any window") {
    const HatSealAnswer a = examine_hat_seal({exactly(31.2), exactly(31.2), exactly(25), exactly(24)});
    CHECK(a.press.judgement == Judgement::does_not_fit);
    CHECK(a.overall == Judgement::does_not_fit);
}

TEST_CASE("a lip no smaller than the neck is a leak path") {
    const HatSealAnswer a = examine_hat_seal({exactly(31.4), exactly(31.2), exactly(25), exactly(25.1)});
    CHECK(a.lip.judgement == Judgement::does_not_fit);
    CHECK(a.lip.reason.find("leak path") != std::string::npos);
}

TEST_CASE("a hat seal inside the windows from memory still asks; with measured windows it fits") {
    const HatSeal seal{exactly(31.45), exactly(31.2), exactly(25), exactly(24)};
    CHECK(examine_hat_seal(seal).overall == Judgement::check_first);
    const Window press{{0.1, 0.4}, {Evidence::measured, "old seal"}};
    const Window lip{{0.5, 1.5}, {Evidence::measured, "old seal"}};
    CHECK(examine_hat_seal(seal, press, lip).overall == Judgement::fits);
}

TEST_CASE("an unmeasured hat seal names what to measure and settles nothing") {
    const HatSealAnswer a = examine_hat_seal({});
    CHECK(a.measure_next.size() == 4);
    CHECK(a.overall == Judgement::check_first);
    CHECK_FALSE(a.press_mm);
}

namespace {

// Invented rows, d1 x d2 x b.
const std::array<LipSealSize, 4> kRows{
    {{"35x50x8", 35, 50, 8}, {"35x52x8", 35, 52, 8}, {"35x50x10", 35, 50, 10}, {"38x50x8", 38, 50, 8}}};

}  // namespace

TEST_CASE("shaft, bore and width measured within their tolerances find the one size") {
    const auto found = lip_seals_like(kRows, {about(34.92, 0.02), about(50.02, 0.01), about(8.05, 0.05)});
    REQUIRE(found.size() == 1);
    CHECK(found[0].size->name == "35x50x8");
    CHECK(found[0].judgement == Judgement::fits);
}

TEST_CASE("without the width two sizes remain, and neither is called") {
    const auto found = lip_seals_like(kRows, {about(34.92, 0.02), about(50.02, 0.01), std::nullopt});
    REQUIRE(found.size() == 2);
    for (const LipSealMatch& m : found) CHECK(m.judgement == Judgement::check_first);
}

TEST_CASE("two seals of one size are told apart by something else, so neither is called") {
    const std::array<LipSealSize, 2> rows{{{"left lip", 35, 50, 8}, {"right lip", 35, 50, 8}}};
    const auto found = lip_seals_like(rows, {about(34.92, 0.02), about(50.02, 0.01), about(8.05, 0.05)});
    REQUIRE(found.size() == 2);
    for (const LipSealMatch& m : found) CHECK(m.judgement == Judgement::check_first);
}

TEST_CASE("a worn shaft below h11 finds nothing") {
    CHECK(lip_seals_like(kRows, {exactly(34.80), exactly(50.02), exactly(8)}).empty());
}

TEST_CASE("a measurement over the edge of a tolerance keeps the size but does not call it") {
    const auto found = lip_seals_like(kRows, {about(35.0, 0.05), about(50.02, 0.01), exactly(8)});
    REQUIRE(found.size() == 1);
    CHECK(found[0].judgement == Judgement::check_first);
}

TEST_CASE("a tighter measurement never brings a seal back, nor loses one that fits") {
    std::mt19937 random(71);
    std::uniform_real_distribution<double> d1(34.5, 38.5), d2(49.5, 52.5), b(7.5, 10.5), tol(0, 0.6), shrink(0, 1);
    int found = 0, firm = 0;
    for (int i = 0; i < 20000; ++i) {
        const double f = shrink(random), t = tol(random);
        const bool near = i % 2 == 0;
        const double shaft = near ? 34.92 : d1(random), bore = near ? 50.02 : d2(random),
                     width = near ? 8.0 : b(random);
        const double u = near ? t / 10 : t;
        const auto wide = lip_seals_like(kRows, {about(shaft, u), about(bore, u / 10), about(width, u)});
        const auto tight = lip_seals_like(kRows, {about(shaft, f * u), about(bore, f * u / 10), about(width, f * u)});
        REQUIRE(tight.size() <= wide.size());
        found += wide.empty() ? 0 : 1;
        if (wide.size() == 1 && wide[0].judgement == Judgement::fits) {
            ++firm;
            REQUIRE((tight.size() == 1 && tight[0].judgement == Judgement::fits));
        }
    }
    CHECK(found > 1000);
    CHECK(firm > 1000);
}

TEST_CASE("unknown measurements never give a firm verdict on a hat seal or a size") {
    std::mt19937 random(72);
    std::uniform_real_distribution<double> od(31, 32), neck(24, 26);
    std::uniform_int_distribution<int> which(0, 3);
    const Window any{{0.0, 5.0}, {Evidence::measured, "old seal"}};
    for (int i = 0; i < 5000; ++i) {
        const HatSeal full{exactly(od(random)), exactly(od(random)), exactly(neck(random)), exactly(neck(random))};
        HatSeal part = full;
        switch (which(random)) {
            case 0: part.seal_od_mm.reset(); break;
            case 1: part.bore_mm.reset(); break;
            case 2: part.neck_mm.reset(); break;
            default: part.lip_id_mm.reset(); break;
        }
        const Judgement known = examine_hat_seal(part, any, any).overall;
        REQUIRE(known != Judgement::fits);
        if (known == Judgement::does_not_fit)
            REQUIRE(examine_hat_seal(full, any, any).overall == Judgement::does_not_fit);
    }
    const std::array<LipSealSize, 1> one{{{"35x50x8", 35, 50, 8}}};
    CHECK(lip_seals_like(one, {exactly(34.92), exactly(50.02), std::nullopt})[0].judgement == Judgement::check_first);
    CHECK(lip_seals_like(one, {})[0].judgement == Judgement::check_first);
}

TEST_CASE("deviations and allowances never shrink as the size grows") {
    for (double d = 7; d < 499; d += 0.5) {
        REQUIRE(*bore_h8_upper_mm(d + 0.5) >= *bore_h8_upper_mm(d));
        REQUIRE(shaft_h11_lower_mm(d + 0.5) <= shaft_h11_lower_mm(d));
        REQUIRE(press_fit_allowance_mm(d + 0.5, LipCasing::metal).low >=
                press_fit_allowance_mm(d, LipCasing::metal).low);
        REQUIRE(roundness_max_mm(d + 0.5) >= roundness_max_mm(d));
    }
}

TEST_CASE("a bore is of the whole millimetre whose H8 holds it, and the press fit goes by that") {
    // ISO 286-2: H8 of 50 mm is 0 to 0.039. ISO 6194-1: a rubber-covered seal for a 50 mm bore has 50.15 to 50.30.
    CHECK(nominal_bore_mm(50.03, 0) == 50);
    CHECK(nominal_bore_mm(50, 0) == 50);
    CHECK(nominal_bore_mm(50.045, 0.01) == 50);
    CHECK(nominal_bore_mm(49.99, 0.02) == 50);
    CHECK_FALSE(nominal_bore_mm(50.06, 0.01));
    CHECK_FALSE(nominal_bore_mm(49.95, 0.02));
    const auto wanted = seal_od_mm(*nominal_bore_mm(50.03, 0.0), LipCasing::rubber_covered);
    CHECK(wanted.low == Approx(50.15));
    CHECK(wanted.high == Approx(50.30));
    CHECK(press_fit_allowance_mm(50.03, LipCasing::rubber_covered).low == 0.20);  // what the measure itself would give
}

TEST_CASE("the section shows what was measured, across and to scale, and nothing that was not") {
    CHECK_FALSE(seal_picture({std::nullopt, 30.0, 22.0, 21.2}));
    CHECK_FALSE(seal_picture({30.2, std::nullopt, std::nullopt, 21.2}));
    const auto picture = seal_picture({30.0, 30.2, std::nullopt, std::nullopt});
    REQUIRE(picture);
    CHECK(
        picture->text_equivalent ==
        "Across the bore, to scale; heights are not. The bore is 30 mm. The seal is 30.2 mm outside, 0.2 mm more than "
        "the bore: it is tight there.");
    std::vector<std::string> measures;
    for (const auto& shape : picture->shapes)
        if (shape.kind == casebound::Shape::Kind::line) {
            measures.push_back(shape.label);
            CHECK(shape.width == Approx(-2 * shape.x));  // about the middle
        }
    CHECK(measures == std::vector<std::string>{"bore 30 mm", "seal outside 30.2 mm"});
}
