#include <array>
#include <catch2/catch.hpp>
#include <random>
#include <stdexcept>

#include "science/ring_size.h"

using namespace casebound::filters_seals;

// ISO 3601-1:2012, class B, equation A.1.
TEST_CASE("class B tolerance of the inside diameter at 3, 10, 25 and 100 mm") {
    CHECK(class_b_id_tolerance_mm(3) == Approx(0.1356).margin(0.00005));
    CHECK(class_b_id_tolerance_mm(10) == Approx(0.1902).margin(0.00005));
    CHECK(class_b_id_tolerance_mm(25) == Approx(0.3016).margin(0.00005));
    CHECK(class_b_id_tolerance_mm(100) == Approx(0.8249).margin(0.00005));
    CHECK_THROWS_WITH(class_b_id_tolerance_mm(0), "O-ring inside diameter: got 0 mm: valid range is 0.3 to 2000 mm");
}

// AS568 numbers in inch, as published: ID, its tolerance, section.
TEST_CASE("built-in sizes agree with AS568 in inch to the rounding of ISO 3601-1") {
    struct Inch {
        const char* number;
        double id, tolerance, section;
    };
    const std::array<Inch, 6> published{{{"010", .239, .005, .070},
                                         {"112", .487, .005, .103},
                                         {"214", .984, .010, .139},
                                         {"325", 1.475, .015, .210},
                                         {"425", 4.475, .033, .275},
                                         {"910", .755, .009, .097}}};
    for (const Inch& row : published) {
        const RingSize* found = ring_by_number(built_in_ring_sizes(), row.number);
        REQUIRE(found != nullptr);
        INFO(row.number);
        CHECK(found->id_mm.nominal == Approx(row.id * 25.4).margin(0.0051));
        CHECK(found->id_mm.plus == Approx(row.tolerance * 25.4).margin(0.0051));
        CHECK(found->section_mm.nominal == Approx(row.section * 25.4).margin(0.0051));
    }
}

TEST_CASE("a number not among the rows is not found, and nothing near is put in its place") {
    CHECK(ring_by_number(built_in_ring_sizes(), "215") == nullptr);
    CHECK(ring_by_number(built_in_ring_sizes(), "14") == nullptr);
    CHECK(ring_by_number({}, "214") == nullptr);
}

TEST_CASE("24.99 by 3.53 is 214; the same inside diameter alone leaves 120 open") {
    const auto both = rings_like(built_in_ring_sizes(), about(25.0, 0.05), about(3.5, 0.05));
    REQUIRE(both.size() == 1);
    CHECK(both[0].size->number == "214");
    CHECK(both[0].judgement == Judgement::fits);
    const auto id_only = rings_like(built_in_ring_sizes(), about(25.0, 0.05), std::nullopt);
    REQUIRE(id_only.size() == 2);
    CHECK(id_only[0].size->number == "214");
    CHECK(id_only[1].size->number == "120");
    for (const RingMatch& m : id_only) CHECK(m.judgement == Judgement::check_first);
}

TEST_CASE("nothing measured rules nothing out and settles nothing") {
    const auto all = rings_like(built_in_ring_sizes(), std::nullopt, std::nullopt);
    CHECK(all.size() == built_in_ring_sizes().size());
    for (const RingMatch& m : all) CHECK(m.judgement == Judgement::check_first);
    const std::array<RingSize, 1> one{{{"214", about(24.99, 0.25), about(3.53, 0.10), ""}}};
    CHECK(rings_like(one, std::nullopt, std::nullopt)[0].judgement == Judgement::check_first);
    CHECK(rings_like(one, exactly(25), std::nullopt)[0].judgement == Judgement::check_first);
}

TEST_CASE("a ring that two rows both hold is called by neither") {
    const std::array<RingSize, 2> rows{
        {{"near", about(25.0, 0.25), about(3.53, 0.10), ""}, {"far", about(25.3, 0.25), about(3.53, 0.10), ""}}};
    const auto found = rings_like(rows, about(25.1, 0.02), about(3.53, 0.02));
    REQUIRE(found.size() == 2);
    CHECK(found[0].size->number == "near");
    for (const RingMatch& m : found) CHECK(m.judgement == Judgement::check_first);
}

TEST_CASE("a size between the rows finds nothing") {
    CHECK(rings_like(built_in_ring_sizes(), about(30, 0.1), about(3.53, 0.05)).empty());
}

TEST_CASE("a measurement out of physical range is refused") {
    CHECK_THROWS_AS(rings_like(built_in_ring_sizes(), exactly(0.1), std::nullopt), std::domain_error);
    CHECK_THROWS_AS(rings_like(built_in_ring_sizes(), std::nullopt, exactly(101)), std::domain_error);
}

TEST_CASE("a tighter measurement never brings a row back, nor loses one that fits") {
    std::mt19937 random(61);
    std::uniform_real_distribution<double> id(4, 45), cs(1.5, 5.5), tol(0, 3), shrink(0, 1);
    const auto holds = [](const std::vector<RingMatch>& list, const RingSize* size) {
        for (const RingMatch& m : list)
            if (m.size == size) return true;
        return false;
    };
    for (int i = 0; i < 5000; ++i) {
        const double f = shrink(random), a = tol(random), b = tol(random) / 3, d = id(random), s = cs(random);
        const auto wide = rings_like(built_in_ring_sizes(), about(d, a), about(s, b));
        const auto tight = rings_like(built_in_ring_sizes(), about(d, f * a), about(s, f * b));
        for (const RingMatch& m : tight) REQUIRE(holds(wide, m.size));
        if (wide.size() == 1 && wide[0].judgement == Judgement::fits)
            REQUIRE((tight.size() == 1 && tight[0].judgement == Judgement::fits));
    }
}

TEST_CASE("class B tolerance rises with diameter") {
    for (double d = 0.5; d < 1999; d *= 1.1) REQUIRE(class_b_id_tolerance_mm(d * 1.0005) > class_b_id_tolerance_mm(d));
}
