#include <array>
#include <catch2/catch.hpp>
#include <random>
#include <stdexcept>

#include "science/oring.h"

using namespace casebound::filters_seals;

namespace {

// Worked piston gland, invented; ring AS568 214.
const Ring kRing214{about(24.99, 0.25), about(3.53, 0.10)};
const Gland kPiston{Toleranced{32.00, 0, 0.039}, Toleranced{26.00, 0.05, 0}, Toleranced{4.80, 0, 0.20}};

OringAnswer examine_piston(SectionLoss method) {
    return examine_gland(kRing214, kPiston, GlandUse::static_radial, method);
}

// Filter neck 25.0 mm, an exact ring that is not stretched.
OringAnswer neck_in_bore(double section, double bore) {
    return examine_gland({exactly(25.0), exactly(section)}, {exactly(bore), exactly(25.0), std::nullopt},
                         GlandUse::static_radial);
}

}  // namespace

TEST_CASE("a 3.53 mm ring on a 25 mm neck: 12.2 % in a 31.2 mm bore is low but published as enough") {
    const OringAnswer a = neck_in_bore(3.53, 31.2);
    CHECK(a.height_mm->nominal == Approx(3.10));
    CHECK(a.squeeze_percent->nominal == Approx(12.2).margin(0.05));
    CHECK(a.state == SqueezeState::sealed);
    CHECK(a.squeeze.judgement == Judgement::fits);
    CHECK(a.squeeze.reason.find("objects: O-ring design guide, static radial 15-25 %") != std::string::npos);
    CHECK(a.squeeze.reason.find("agrees: general seal-design guides") != std::string::npos);
}

TEST_CASE("the same ring in a 30.0 mm bore is squeezed 29.2 %") {
    CHECK(neck_in_bore(3.53, 30.0).squeeze_percent->nominal == Approx(29.2).margin(0.05));
}

TEST_CASE("the same ring in a 32.2 mm bore has -2.0 % squeeze: a leak path is the answer, not an error") {
    const OringAnswer a = neck_in_bore(3.53, 32.2);
    CHECK(a.squeeze_percent->nominal == Approx(-2.0).margin(0.05));
    CHECK(a.state == SqueezeState::leak_path);
    CHECK(a.squeeze.judgement == Judgement::does_not_fit);
    CHECK(a.overall == Judgement::does_not_fit);
    CHECK(a.squeeze.reason.find("leak path") != std::string::npos);
}

TEST_CASE("a 2.62 mm ring in the 31.2 mm bore has -18 % squeeze") {
    const OringAnswer a = neck_in_bore(2.62, 31.2);
    CHECK(a.squeeze_percent->nominal == Approx(-18.3).margin(0.05));
    CHECK(a.state == SqueezeState::leak_path);
}

TEST_CASE("worked piston gland: stretch and height with tolerances stacked") {
    const OringAnswer a = examine_piston(SectionLoss::none);
    CHECK(a.stretch_percent->nominal == Approx(4.042).margin(0.0005));
    CHECK(a.stretch_percent->min == Approx(2.813).margin(0.0005));
    CHECK(a.stretch_percent->max == Approx(5.093).margin(0.0005));
    CHECK(a.height_mm->nominal == Approx(3.000).margin(0.00005));
    CHECK(a.height_mm->min == Approx(3.000).margin(0.00005));
    CHECK(a.height_mm->max == Approx(3.0445).margin(0.00005));
    CHECK(a.stretch.judgement == Judgement::check_first);
    CHECK(a.stretch.reason.find("over 5 % is not recommended") != std::string::npos);
}

TEST_CASE("worked piston gland: squeeze and fill without section loss") {
    const OringAnswer a = examine_piston(SectionLoss::none);
    CHECK(a.squeeze_percent->nominal == Approx(15.014).margin(0.0005));
    CHECK(a.squeeze_percent->min == Approx(11.239).margin(0.0005));
    CHECK(a.squeeze_percent->max == Approx(17.355).margin(0.0005));
    CHECK(a.fill_percent->nominal == Approx(67.964).margin(0.0005));
    CHECK(a.fill_percent->max == Approx(71.869).margin(0.0005));
}

TEST_CASE("worked piston gland: the three section-loss methods differ and each is named") {
    struct Row {
        SectionLoss method;
        double section, squeeze, fill;
    };
    const std::array<Row, 3> rows{{{SectionLoss::torus_volume, 3.4725, 13.607, 65.767},
                                   {SectionLoss::square_root, 3.4608, 13.314, 65.324},
                                   {SectionLoss::two_thirds_power, 3.4380, 12.739, 64.466}}};
    for (const Row& row : rows) {
        const OringAnswer a = examine_piston(row.method);
        INFO(text(row.method));
        CHECK(a.method == row.method);
        CHECK(a.section_mm->nominal == Approx(row.section).margin(0.00006));
        CHECK(a.squeeze_percent->nominal == Approx(row.squeeze).margin(0.0006));
        CHECK(a.fill_percent->nominal == Approx(row.fill).margin(0.0006));
    }
    CHECK(text(SectionLoss::torus_volume) != text(SectionLoss::square_root));
}

TEST_CASE("the torus method keeps the volume of the ring") {
    std::mt19937 random(51);
    std::uniform_real_distribution<double> id(5, 200), cs(1, 7), stretch(0, 0.2);
    for (int i = 0; i < 5000; ++i) {
        const double d = id(random), s = cs(random), inner = d * (1 + stretch(random));
        const double thin = stretched_section_mm(d, s, inner, SectionLoss::torus_volume);
        REQUIRE((inner + thin) * thin * thin == Approx((d + s) * s * s).epsilon(1e-12));
        REQUIRE(thin <= s);
    }
}

TEST_CASE("a ring that is not stretched keeps its section, by every method") {
    for (const SectionLoss m :
         {SectionLoss::none, SectionLoss::torus_volume, SectionLoss::square_root, SectionLoss::two_thirds_power}) {
        CHECK(stretched_section_mm(25, 3.53, 25, m) == 3.53);
        CHECK(stretched_section_mm(25, 3.53, 24, m) == 3.53);
    }
}

TEST_CASE("a face gland squeezing 2.0 mm to 1.5 mm is 25 %, which both published face ranges accept") {
    CHECK(squeeze_percent(2.0, 1.5) == Approx(25.0));
    CHECK(read_squeeze({25, 25, 25}, GlandUse::static_face).judgement == Judgement::fits);
    CHECK(read_squeeze({29, 29, 29}, GlandUse::static_face).reason.find("objects: second") != std::string::npos);
}

// Depths from memory; the squeeze bands in percent follow from them exactly.
TEST_CASE("gland depth table: squeeze bands follow from the tolerances, for static and dynamic use") {
    struct Band {
        double static_min_in, static_max_in, static_min, static_max, dyn_min_in, dyn_max_in, dyn_min, dyn_max;
    };
    const std::array<Band, 5> expected{{{.015, .023, 22.4, 31.5, .010, .018, 14.9, 24.7},
                                        {.017, .025, 17.0, 23.6, .010, .018, 10.0, 17.0},
                                        {.022, .032, 16.3, 22.4, .012, .022, 8.9, 15.4},
                                        {.032, .045, 15.6, 20.9, .017, .030, 8.3, 14.0},
                                        {.040, .055, 14.9, 19.6, .029, .044, 10.8, 15.7}}};
    REQUIRE(gland_depths().size() == expected.size());
    CHECK(gland_depths_source().kind == Evidence::memory);
    for (std::size_t i = 0; i < expected.size(); ++i) {
        const GlandDepth& row = gland_depths()[i];
        const auto squeeze = [&](Range depth) {
            const auto mm = [](double inch) { return inch * 25.4; };
            const Toleranced cs = about(mm(row.section_in.nominal), mm(row.section_in.plus));
            return squeeze_percent(cs, Toleranced{mm(depth.low), 0, mm(depth.high - depth.low)});
        };
        const Stacked fixed = squeeze(row.static_depth_in), moving = squeeze(row.dynamic_depth_in);
        INFO("section in " << row.section_in.nominal);
        CHECK(fixed.min == Approx(expected[i].static_min).margin(0.05));
        CHECK(fixed.max == Approx(expected[i].static_max).margin(0.05));
        CHECK(moving.min == Approx(expected[i].dyn_min).margin(0.05));
        CHECK(moving.max == Approx(expected[i].dyn_max).margin(0.05));
        CHECK(row.section_in.min() - row.static_depth_in.high == Approx(expected[i].static_min_in));
        CHECK(row.section_in.max() - row.static_depth_in.low == Approx(expected[i].static_max_in));
        CHECK(row.section_in.min() - row.dynamic_depth_in.high == Approx(expected[i].dyn_min_in));
        CHECK(row.section_in.max() - row.dynamic_depth_in.low == Approx(expected[i].dyn_max_in));
    }
}

TEST_CASE("every squeeze range names its source, and each use has at least one whole range") {
    std::array<int, 4> whole{};
    for (const SqueezeGuidance& g : squeeze_guidance()) {
        CHECK_FALSE(g.source.work.empty());
        CHECK(g.source.kind != Evidence::memory);
        CHECK(g.percent.low < g.percent.high);
        if (!g.at_most) ++whole[static_cast<std::size_t>(g.use)];
    }
    for (const int n : whole) CHECK(n >= 1);
}

TEST_CASE("a ceiling alone approves nothing, and a broken ceiling asks") {
    CHECK(read_squeeze({5, 5, 5}, GlandUse::static_radial).judgement == Judgement::check_first);
    CHECK(read_squeeze({35, 35, 35}, GlandUse::static_radial).judgement == Judgement::check_first);
    CHECK(read_squeeze({20, 20, 20}, GlandUse::static_radial).judgement == Judgement::fits);
    CHECK(read_squeeze({18, 18, 18}, GlandUse::reciprocating).judgement == Judgement::check_first);
    CHECK(read_squeeze({12, 12, 12}, GlandUse::reciprocating).judgement == Judgement::fits);
}

TEST_CASE("a neck as wide as its bore does not enter, and no squeeze is made up for it") {
    const OringAnswer a = neck_in_bore(3.53, 24.0);
    CHECK(a.state == SqueezeState::does_not_enter);
    CHECK(a.overall == Judgement::does_not_fit);
    CHECK_FALSE(a.squeeze_percent);
}

TEST_CASE("a leak path only at the edge of the tolerances is a question") {
    const OringAnswer a = examine_gland({exactly(25), about(3.10, 0.05)}, {exactly(31.2), exactly(25), exactly(4)},
                                        GlandUse::static_radial);
    CHECK(a.state == SqueezeState::leak_path_possible);
    CHECK(a.squeeze.judgement == Judgement::check_first);
}

TEST_CASE("more rubber than groove does not fit") {
    const OringAnswer a = examine_gland({exactly(25), exactly(3.53)}, {exactly(30.6), exactly(25.5), exactly(3.0)},
                                        GlandUse::static_radial);
    CHECK(a.fill_percent->nominal > 100.0);
    CHECK(a.fill.judgement == Judgement::does_not_fit);
}

TEST_CASE("ring and gland out of physical range are refused") {
    CHECK_THROWS_WITH(examine_gland({exactly(25), exactly(0)}, kPiston, GlandUse::static_radial),
                      "O-ring section: got 0 mm: valid range is 0.3 to 100 mm");
    CHECK_THROWS_AS(examine_gland({exactly(-25), exactly(3.53)}, kPiston, GlandUse::static_radial), std::domain_error);
    CHECK_THROWS_AS(examine_gland(kRing214, {exactly(3000), exactly(26), {}}, GlandUse::static_radial),
                    std::domain_error);
    CHECK_THROWS_AS(squeeze_percent(0.0, 1.0), std::domain_error);
    CHECK_THROWS_AS(stretch_percent(0.0, 1.0), std::domain_error);
}

TEST_CASE("a tighter gland never turns does-not-fit into fits") {
    std::mt19937 random(52);
    std::uniform_real_distribution<double> cs(2.5, 4.0), bore(29, 33), tol(0, 0.3), inner(24.5, 26.5), shrink(0, 1);
    int firm = 0;
    for (int i = 0; i < 20000; ++i) {
        const double f = shrink(random);
        const Ring wide{about(24.99, tol(random)), about(cs(random), tol(random))};
        const Gland gland{about(bore(random), tol(random)), about(inner(random), tol(random)), about(5.0, tol(random))};
        const auto tighter = [&](const std::optional<Toleranced>& t) { return about(t->nominal, f * t->plus); };
        const Judgement before = examine_gland(wide, gland, GlandUse::static_radial).overall;
        const Judgement after = examine_gland(
                                    {tighter(wide.id_mm), tighter(wide.section_mm)},
                                    {tighter(gland.outer_mm), tighter(gland.inner_mm), tighter(gland.width_mm)},
                                    GlandUse::static_radial)
                                    .overall;
        if (before == Judgement::check_first) continue;
        ++firm;
        REQUIRE(after == before);
    }
    CHECK(firm > 300);
}

TEST_CASE("leaving out any measure never gives fits, and a no that is left holds for every value of it") {
    std::mt19937 random(53);
    std::uniform_real_distribution<double> id(20, 30), cs(1.5, 5), bore(22, 36), inner(22, 32), width(2, 8);
    std::uniform_int_distribution<int> which(0, 4);
    int fits = 0;
    for (int i = 0; i < 20000; ++i) {
        const Ring ring{exactly(id(random)), exactly(cs(random))};
        const Gland gland{exactly(bore(random)), exactly(inner(random)), exactly(width(random))};
        Ring ring_part = ring;
        Gland gland_part = gland;
        switch (which(random)) {
            case 0: ring_part.id_mm.reset(); break;
            case 1: ring_part.section_mm.reset(); break;
            case 2: gland_part.outer_mm.reset(); break;
            case 3: gland_part.inner_mm.reset(); break;
            default: gland_part.width_mm.reset(); break;
        }
        const OringAnswer part = examine_gland(ring_part, gland_part, GlandUse::static_radial);
        const OringAnswer full = examine_gland(ring, gland, GlandUse::static_radial);
        REQUIRE(part.overall != Judgement::fits);
        REQUIRE(part.measure_next.size() == 1);
        if (part.overall == Judgement::does_not_fit) REQUIRE(full.overall == Judgement::does_not_fit);
        if (full.overall == Judgement::fits) ++fits;
    }
    CHECK(fits > 10);
}

TEST_CASE("squeeze rises with section and falls with bore; stretch rises with the neck; fill falls with width") {
    std::mt19937 random(54);
    std::uniform_real_distribution<double> cs(2, 5), bore(29, 34), step(0.001, 0.5);
    for (int i = 0; i < 5000; ++i) {
        const double s = cs(random), b = bore(random), d = step(random);
        REQUIRE(neck_in_bore(s + d, b).squeeze_percent->nominal > neck_in_bore(s, b).squeeze_percent->nominal);
        REQUIRE(neck_in_bore(s, b + d).squeeze_percent->nominal < neck_in_bore(s, b).squeeze_percent->nominal);
        REQUIRE(stretch_percent(25, b + d) > stretch_percent(25, b));
        REQUIRE(fill_percent(s, 3, 5 + d) < fill_percent(s, 3, 5));
        REQUIRE(stretched_section_mm(25, s, 25 + d, SectionLoss::torus_volume) <
                stretched_section_mm(25, s, 25, SectionLoss::torus_volume));
    }
}

TEST_CASE("under 10 % may leak and over the ceiling is too much, whatever another range allows") {
    const auto at = [](double percent) { return Stacked{percent, percent, percent}; };
    CHECK(squeeze_reading(at(9.9), GlandUse::static_radial) == SqueezeReading::may_leak);
    CHECK(squeeze_reading(at(12), GlandUse::static_radial) == SqueezeReading::settled);
    CHECK(squeeze_reading(at(31), GlandUse::static_radial) == SqueezeReading::over_limit);
    CHECK(squeeze_reading(at(15), GlandUse::static_face) == SqueezeReading::unsettled);
    CHECK(squeeze_reading(at(6), GlandUse::rotary) == SqueezeReading::settled);  // 0-8 % is published for it
    CHECK(squeeze_reading(at(17), GlandUse::rotary) == SqueezeReading::over_limit);
    CHECK(squeeze_reading({9.5, 12, 14}, GlandUse::static_radial) == SqueezeReading::may_leak);
    CHECK(squeeze_ceiling(GlandUse::reciprocating)->percent.high == 16);
    CHECK(squeeze_ceiling(GlandUse::static_face) == nullptr);
}

TEST_CASE("without the ring's inside diameter the squeeze is at most that of the free section") {
    // MIL-G-5514G, 3.6.2: (3.53 - 3.00) / 3.53.
    const auto a = examine_gland({std::nullopt, exactly(3.53)}, {exactly(31), exactly(25), std::nullopt},
                                 GlandUse::static_radial);
    REQUIRE(a.squeeze_percent);
    CHECK(a.squeeze_percent->nominal == Approx(15.014).epsilon(1e-4));
    CHECK(a.squeeze.judgement == Judgement::check_first);
    CHECK_THAT(a.squeeze.reason, Catch::Contains("at most"));
    const auto loose = examine_gland({std::nullopt, exactly(2.62)}, {exactly(31.2), exactly(25), std::nullopt},
                                     GlandUse::static_radial);
    CHECK(loose.squeeze.judgement == Judgement::does_not_fit);  // no stretch makes it thicker
    CHECK(loose.state == SqueezeState::leak_path);
}
