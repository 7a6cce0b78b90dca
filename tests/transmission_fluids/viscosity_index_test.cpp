// Viscosity index: check values of ASTM D2270-10 (ISO 2909).
#include <catch2/catch.hpp>

#include <cmath>
#include <random>
#include <string>

#include "plugins/transmission_fluids/science/viscosity_index.h"

using namespace casebound::transmission_fluids;
using Catch::Matchers::Contains;

namespace {

struct Example {
    double kv40, kv100, l, h, index, index_by_equations;
};

// ASTM D2270-10: the first is the standard's own example of Procedure A (5.1.4),
// the second that of Procedure B (6.1.4). The others are recomputed from the
// formulas and Table 1; the last two columns are recomputed throughout.
const Example examples[] = {
    {73.30, 8.86, 119.94, 69.48, 92.42965, 92.426}, {22.83, 5.05, 41.11, 28.975, 156.42348, 156.461},
    {30, 5.23, 44.291, 30.721, 104.70013, 104.695}, {34.0, 7.1, 80.25, 49.61, 178.13962, 178.192},
    {29.6, 5.9, 56.2, 37.23, 148.46286, 148.463},   {1000, 100.0, 9604.00, 2772.00, 192.99754, 193.001},
};

}  // namespace

TEST_CASE("the viscosity index agrees with the examples of ASTM D2270") {
    for (const Example& e : examples) {
        CAPTURE(e.kv40, e.kv100);
        const auto index = viscosity_index(e.kv40, e.kv100);
        REQUIRE(index);
        CHECK(index->reference.l_mm2_s == Approx(e.l).margin(0.0005));
        CHECK(index->reference.h_mm2_s == Approx(e.h).margin(0.0005));
        CHECK(index->exact == Approx(e.index).margin(0.00001));
    }
}

TEST_CASE("the published index of Procedure A is met as a whole number") {
    CHECK(viscosity_index(73.30, 8.86)->whole == 92);  // ASTM D2270-10, 5.1.4: 92.43
    CHECK(viscosity_index(73.5, 8.86)->exact == Approx(92.03329).margin(0.00001));
    CHECK(viscosity_index(73.30, 8.86)->procedure == IndexProcedure::a);
    CHECK_FALSE(viscosity_index(73.30, 8.86)->n);
}

TEST_CASE("the published index of Procedure B is met as a whole number, not in its printed steps") {
    // ASTM D2270-10, 6.1.4 prints N = 0.14708 and 156.37 from an H rounded to 28.97.
    const auto index = viscosity_index(22.83, 5.05);
    CHECK(index->whole == 156);
    CHECK(index->procedure == IndexProcedure::b);
    CHECK(*index->n == Approx(0.14719).margin(0.00001));
    const auto printed = viscosity_index_against(22.83, 5.05, {41.11, 28.97});
    CHECK(*printed.n == Approx(0.14708).margin(0.00001));
    CHECK(printed.exact == Approx(156.37).margin(0.01));
    CHECK(printed.whole == 156);
}

TEST_CASE("N of Procedure B agrees with the recomputed examples") {
    CHECK(*viscosity_index(30, 5.23)->n == Approx(0.01436).margin(0.00001));
    CHECK(*viscosity_index(34.0, 7.1)->n == Approx(0.19276).margin(0.00001));
    CHECK(*viscosity_index(29.6, 5.9)->n == Approx(0.12921).margin(0.00001));
    CHECK(*viscosity_index(1000, 100)->n == Approx(0.22140).margin(0.00001));
}

TEST_CASE("the equations of Appendix X2 give nearly the same index") {
    for (const Example& e : examples) {
        CAPTURE(e.kv40, e.kv100);
        const auto index = viscosity_index_against(e.kv40, e.kv100, reference_from_equations(e.kv100));
        CHECK(index.exact == Approx(e.index_by_equations).margin(0.0006));
    }
}

TEST_CASE("an index below 2 mm2/s at 100 °C is not defined") {
    CHECK_FALSE(viscosity_index(10, 1.99));  // ASTM D2270-10, 5.1.1
    CHECK(viscosity_index(10, 2.0));
}

TEST_CASE("70.0 takes the table and 70.1 the formula, which do not meet") {
    CHECK(viscosity_index(1500, 70.0)->reference.l_mm2_s == 4905);  // Table 1, last row
    CHECK(viscosity_index(1500, 70.0)->reference.h_mm2_s == 1558);
    CHECK(reference_above_table(70.0).l_mm2_s == Approx(4903.87).margin(0.005));
    CHECK(reference_above_table(70.0).h_mm2_s == Approx(1557.66).margin(0.005));
    CHECK(viscosity_index(1500, 70.1)->reference.l_mm2_s ==
          Approx(0.8353 * 70.1 * 70.1 + 14.67 * 70.1 - 216));  // 5.1.2
}

TEST_CASE("Table 1 has 311 rows that rise, and its own rows come back unchanged") {
    const auto table = reference_table();
    REQUIRE(table.size() == 311);
    CHECK(table.front().kv100_mm2_s == table_from_mm2_s);
    CHECK(table.back().kv100_mm2_s == table_to_mm2_s);
    for (std::size_t i = 0; i < table.size(); ++i) {
        CAPTURE(table[i].kv100_mm2_s);
        CHECK(table[i].l_mm2_s > table[i].h_mm2_s);
        CHECK(reference_from_table(table[i].kv100_mm2_s).l_mm2_s == table[i].l_mm2_s);
        CHECK(reference_from_table(table[i].kv100_mm2_s).h_mm2_s == table[i].h_mm2_s);
        if (i == 0) continue;
        CHECK(table[i].kv100_mm2_s > table[i - 1].kv100_mm2_s);
        CHECK(table[i].l_mm2_s > table[i - 1].l_mm2_s);
        CHECK(table[i].h_mm2_s > table[i - 1].h_mm2_s);
    }
}

TEST_CASE("no row of Table 1 is mistyped: the Appendix X2 equations stay within 0.12 % of it") {
    double worst_l = 0, worst_h = 0;
    for (const ReferenceRow& row : reference_table()) {
        const ReferenceOils fit = reference_from_equations(row.kv100_mm2_s);
        worst_l = std::max(worst_l, std::abs(fit.l_mm2_s / row.l_mm2_s - 1));
        worst_h = std::max(worst_h, std::abs(fit.h_mm2_s / row.h_mm2_s - 1));
    }
    CHECK(worst_l == Approx(0.00096).margin(0.00001));  // at 30 mm2/s, recomputed
    CHECK(worst_h == Approx(0.00113).margin(0.00001));  // at 7.7 mm2/s, recomputed
}

TEST_CASE("an exact half rounds to the even whole number") {
    CHECK(round_half_even(92.5) == 92);
    CHECK(round_half_even(93.5) == 94);
    CHECK(round_half_even(-25.5) == -26);
    CHECK(round_half_even(-24.5) == -24);
    CHECK(round_half_even(92.4999) == 92);
    CHECK(round_half_even(92.5001) == 93);
}

TEST_CASE("reference oils have the indices they stand for") {
    for (const ReferenceRow& row : reference_table()) {
        CAPTURE(row.kv100_mm2_s);
        CHECK(viscosity_index(row.l_mm2_s, row.kv100_mm2_s)->whole == 0);
        CHECK(viscosity_index(row.h_mm2_s, row.kv100_mm2_s)->whole == 100);
    }
}

TEST_CASE("the thinner an oil at 40 °C, the higher its index") {
    std::mt19937_64 random(2270);
    std::uniform_real_distribution<double> hot(2.0, 120.0), ratio(1.5, 20.0);
    for (int i = 0; i < 2000; ++i) {
        const double kv100 = hot(random);
        const double kv40 = kv100 * ratio(random);
        CAPTURE(kv40, kv100);
        const auto thick = viscosity_index(kv40 * 1.01, kv100);
        const auto thin = viscosity_index(kv40, kv100);
        REQUIRE(thick);
        CHECK(thin->exact > thick->exact);
        CHECK((thin->procedure == IndexProcedure::b) == (thin->exact > 100));
        CHECK(std::abs(static_cast<double>(thin->whole) - thin->exact) <= 0.5);
    }
}

TEST_CASE("a viscosity at 100 °C that is not below the one at 40 °C is refused") {
    CHECK_THROWS_WITH(viscosity_index(5, 5.4),
                      "viscosity at 40 °C: got 5 mm2/s: valid range is more than 5.4 to 1000000 mm2/s");
    CHECK_THROWS_AS(viscosity_index(5.4, 5.4), std::domain_error);
}

TEST_CASE("viscosities that are not positive numbers are refused with the valid range") {
    CHECK_THROWS_WITH(viscosity_index(30, 0), Contains("valid range is more than 0 to 1000000"));
    CHECK_THROWS_AS(viscosity_index(30, -1), std::domain_error);
    CHECK_THROWS_WITH(viscosity_index(30, std::nan("")), Contains("got nan"));
    CHECK_THROWS_AS(viscosity_index(std::nan(""), 5), std::domain_error);
    CHECK_THROWS_AS(viscosity_index(2e6, 5), std::domain_error);
}
