// Viscosity classes: SAE J306 (2005, February 2019), SAE J300 (January 2015),
// ISO 3448, JASO M315.
#include <catch2/catch.hpp>

#include <cmath>
#include <fstream>
#include <set>
#include <sstream>

#include "plugins/transmission_fluids/science/grades.h"

using namespace casebound::transmission_fluids;
using Catch::Matchers::Contains;

namespace {

constexpr auto gear_2005 = OilScale::j306_2005;
constexpr auto gear_2019 = OilScale::j306_2019;
constexpr auto engine = OilScale::j300_2015;
using Names = std::vector<std::string_view>;

GradeVerdict verdict(OilScale scale, std::string_view offered, std::string_view wanted) {
    return grade_covers(oil_grade(scale, offered), oil_grade(scale, wanted)).verdict;
}

const ViscosityClass& row(OilScale scale, std::string_view name) {
    for (const auto& one : viscosity_classes(scale))
        if (one.name == name) return one;
    throw std::out_of_range(std::string(name));
}

}  // namespace

TEST_CASE("7.5 mm2/s at 100 °C is an 80 in the 2005 edition and a 75 in the 2019 one") {
    CHECK(hot_classes_at(gear_2005, 7.5) == Names{"80"});
    CHECK(hot_classes_at(gear_2019, 7.5) == Names{"75"});
}

TEST_CASE("gear oil limits include the lower and exclude the upper end") {
    // SAE J306, February 2019.
    struct Limit {
        double kv;
        std::string_view name;
    };
    for (const Limit& l : {Limit{3.8, "65"},
                           {5.0, "70"},
                           {6.5, "75"},
                           {8.5, "80"},
                           {11.0, "85"},
                           {13.5, "90"},
                           {18.5, "110"},
                           {24.0, "140"},
                           {32.5, "190"},
                           {41.0, "250"},
                           {90.0, "250"}}) {
        CAPTURE(l.kv);
        CHECK(hot_classes_at(gear_2019, l.kv) == Names{l.name});
    }
    CHECK(hot_classes_at(gear_2019, 18.4999) == Names{"90"});
    CHECK(hot_classes_at(gear_2019, 3.79).empty());
    // SAE J306, 2005: no 65, 70, 75.
    for (const Limit& l :
         {Limit{7.0, "80"}, {11.0, "85"}, {13.5, "90"}, {18.5, "110"}, {24.0, "140"}, {32.5, "190"}, {41.0, "250"}}) {
        CAPTURE(l.kv);
        CHECK(hot_classes_at(gear_2005, l.kv) == Names{l.name});
    }
    CHECK(hot_classes_at(gear_2005, 32.4) == Names{"140"});
    CHECK(hot_classes_at(gear_2005, 6.9).empty());
}

TEST_CASE("the winter limits changed between the editions of SAE J306") {
    CHECK(row(gear_2005, "70W").kv100_min_mm2_s == 4.1);
    CHECK(row(gear_2019, "70W").kv100_min_mm2_s == 3.8);
    CHECK(row(gear_2005, "75W").kv100_min_mm2_s == 4.1);
    CHECK(row(gear_2019, "75W").kv100_min_mm2_s == 3.8);
    CHECK(row(gear_2005, "80W").kv100_min_mm2_s == 7.0);
    CHECK(row(gear_2019, "80W").kv100_min_mm2_s == 8.5);
    CHECK(row(gear_2019, "85W").kv100_min_mm2_s == 11.0);
}

TEST_CASE("a gear oil keeps a winter class by temperature and by viscosity") {
    CHECK(keeps_gear_winter_class(gear_2019, "75W", -40, 15) == true);
    CHECK(keeps_gear_winter_class(gear_2019, "75W", -39, 15) == false);
    CHECK(keeps_gear_winter_class(gear_2019, "70W", -55, 3.8) == true);
    CHECK(keeps_gear_winter_class(gear_2019, "80W", -26, 8.4) == false);
    CHECK(keeps_gear_winter_class(gear_2019, "85W", -12, 11.0) == true);
    CHECK_FALSE(keeps_gear_winter_class(gear_2005, "75W", -40, 15).has_value());
}

TEST_CASE("the overlapping engine oil classes are told apart by high-shear viscosity") {
    // SAE J300, January 2015: 6.5 mm2/s is no 8, may be 12 or 16, and is no 20.
    CHECK(hot_classes_at(engine, 6.5) == Names{"12", "16"});
    CHECK(hot_classes_at(engine, 6.5, 2.1) == Names{"12"});
    CHECK(hot_classes_at(engine, 6.5, 2.3) == Names{"12", "16"});
    CHECK(hot_classes_at(engine, 6.5, 1.9).empty());
    CHECK(hot_classes_at(engine, 9.3) == Names{"30"});
    CHECK(hot_classes_at(engine, 12.5, 3.5) == Names{"40"});
    CHECK(hot_classes_at(engine, 26.1).empty());
}

TEST_CASE("engine oil hot limits are those of January 2015") {
    struct Limit {
        std::string_view name;
        double from, below, hths;
    };
    for (const Limit& l : {Limit{"8", 4.0, 6.1, 1.7},
                           {"12", 5.0, 7.1, 2.0},
                           {"16", 6.1, 8.2, 2.3},
                           {"20", 6.9, 9.3, 2.6},
                           {"30", 9.3, 12.5, 2.9},
                           {"40", 12.5, 16.3, 3.5},
                           {"50", 16.3, 21.9, 3.7},
                           {"60", 21.9, 26.1, 3.7}}) {
        CAPTURE(l.name);
        CHECK(row(engine, l.name).kv100_min_mm2_s == l.from);
        CHECK(row(engine, l.name).kv100_below_mm2_s == l.below);
        CHECK(row(engine, l.name).hths_min_mpas == l.hths);
    }
}

TEST_CASE("engine oil winter limits are those of January 2015") {
    struct Limit {
        std::string_view name;
        double ccs, ccs_c, mrv_c, kv;
    };
    for (const Limit& l : {Limit{"0W", 6200, -35, -40, 3.8},
                           {"5W", 6600, -30, -35, 3.8},
                           {"10W", 7000, -25, -30, 4.1},
                           {"15W", 7000, -20, -25, 5.6},
                           {"20W", 9500, -15, -20, 5.6},
                           {"25W", 13000, -10, -15, 9.3}}) {
        CAPTURE(l.name);
        CHECK(row(engine, l.name).cranking_max_mpas == l.ccs);
        CHECK(row(engine, l.name).cranking_c == l.ccs_c);
        CHECK(row(engine, l.name).pumping_max_mpas == 60000);
        CHECK(row(engine, l.name).pumping_c == l.mrv_c);
        CHECK(keeps_engine_winter_class(l.name, l.ccs, 60000, l.kv));
        CHECK_FALSE(keeps_engine_winter_class(l.name, l.ccs + 1, 60000, l.kv));
        CHECK_FALSE(keeps_engine_winter_class(l.name, l.ccs, 60001, l.kv));
        CHECK_FALSE(keeps_engine_winter_class(l.name, l.ccs, 60000, l.kv - 0.01));
    }
}

TEST_CASE("a 40 needs 3.5 mPa s with a light winter class and 3.7 otherwise") {
    for (const char* light : {"0W-40", "5W-40", "10W-40"}) CHECK(hths_min_mpas(oil_grade(engine, light)) == 3.5);
    for (const char* heavy : {"15W-40", "20W-40", "25W-40", "40"})
        CHECK(hths_min_mpas(oil_grade(engine, heavy)) == 3.7);
    CHECK_FALSE(hths_min_mpas(oil_grade(engine, "10W")));
    CHECK_FALSE(hths_min_mpas(oil_grade(gear_2019, "90")));
}

TEST_CASE("a colder winter class covers a warmer one, never the reverse") {
    CHECK(verdict(gear_2019, "75W-90", "80W-90") == GradeVerdict::covers);
    CHECK(verdict(gear_2019, "80W-90", "75W-90") == GradeVerdict::does_not_cover);
    CHECK(verdict(gear_2019, "75W-90", "90") == GradeVerdict::covers);
    CHECK(verdict(gear_2019, "90", "75W-90") == GradeVerdict::does_not_cover);
    CHECK(verdict(gear_2019, "75W-90", "80W") == GradeVerdict::covers);
    CHECK(verdict(engine, "5W-30", "10W-30") == GradeVerdict::covers);
    CHECK(verdict(engine, "0W-20", "0W-20") == GradeVerdict::same);
}

TEST_CASE("another class when hot is never covered") {
    CHECK(verdict(gear_2019, "75W-110", "75W-90") == GradeVerdict::does_not_cover);
    CHECK(verdict(engine, "5W-20", "5W-30") == GradeVerdict::does_not_cover);
}

TEST_CASE("a winter-only oil does not prove enough viscosity for a warmer winter class") {
    CHECK(verdict(gear_2019, "75W", "80W") == GradeVerdict::does_not_cover);
    CHECK(verdict(gear_2019, "75W-75", "80W") == GradeVerdict::does_not_cover);
}

TEST_CASE("a 0W-8 may be thinner when hot than a 10W-8 allows") {
    const auto answer = grade_covers(oil_grade(engine, "0W-8"), oil_grade(engine, "10W-8"));
    CHECK(answer.verdict == GradeVerdict::does_not_cover);
    CHECK_THAT(answer.why, Contains("from 4 against 4.1 mm2/s"));
}

TEST_CASE("a pair of classes that no oil can keep is refused") {
    CHECK_THROWS_WITH(oil_grade(gear_2019, "85W-80"), Contains("85W asks for 11 mm2/s, 80 for less"));
    CHECK_THROWS_AS(oil_grade(gear_2019, "80W-75"), std::domain_error);
    CHECK_NOTHROW(oil_grade(gear_2005, "80W-80"));
}

TEST_CASE("a 10W-40 does not cover a 15W-40, whose high-shear limit is higher") {
    const auto answer = grade_covers(oil_grade(engine, "10W-40"), oil_grade(engine, "15W-40"));
    CHECK(answer.verdict == GradeVerdict::does_not_cover);
    CHECK_THAT(answer.why, Contains("3.5 against 3.7"));
    CHECK(verdict(engine, "15W-40", "20W-40") == GradeVerdict::covers);
}

TEST_CASE("engine and gear numbers are separate scales") {
    const auto answer = grade_covers(oil_grade(engine, "50"), oil_grade(gear_2019, "90"));
    CHECK(answer.verdict == GradeVerdict::not_comparable);
    CHECK_THAT(answer.why, Contains("separate scales"));
}

TEST_CASE("a class whose limits moved between editions is not the same class") {
    const auto across = [](std::string_view label) {
        return grade_covers(oil_grade(gear_2005, label), oil_grade(gear_2019, label)).verdict;
    };
    CHECK(across("80") == GradeVerdict::not_comparable);
    CHECK(across("80W-90") == GradeVerdict::not_comparable);
    CHECK(across("90") == GradeVerdict::same);
}

TEST_CASE("covering is in keeping with the limits it stands for") {
    // Every pair of every scale: transitive, and antisymmetric but for the same grade.
    for (const OilScale scale : {gear_2005, gear_2019, engine}) {
        std::vector<OilGrade> grades;
        for (const auto& a : viscosity_classes(scale)) {
            grades.push_back(oil_grade(scale, a.name));
            if (!a.winter) continue;
            for (const auto& b : viscosity_classes(scale))
                if (!b.winter && a.kv100_min_mm2_s < b.kv100_below_mm2_s.value_or(1000))
                    grades.push_back(oil_grade(scale, std::string(a.name) + "-" + std::string(b.name)));
        }
        const auto serves = [](const OilGrade& a, const OilGrade& b) {
            return grade_covers(a, b).verdict != GradeVerdict::does_not_cover;
        };
        int broken = 0;
        for (const auto& a : grades)
            for (const auto& b : grades) {
                if (!serves(a, b)) continue;
                if (serves(b, a) && grade_covers(a, b).verdict != GradeVerdict::same) ++broken;
                for (const auto& c : grades) broken += serves(b, c) && !serves(a, c);
            }
        CHECK(broken == 0);
    }
}

TEST_CASE("labels that are no grade of the scale are refused with its classes") {
    CHECK_THROWS_WITH(oil_grade(gear_2005, "75W-65"), Contains("SAE J306, 2005 grade: got 75W-65: valid range is"));
    CHECK_THROWS_WITH(oil_grade(gear_2019, "5W-30"), Contains("70W, 75W, 80W, 85W, 65"));
    for (const char* bad : {"", "-", "90-75W", "75W-", "-90", "75W-90-110", "75W-80W", "90-90", "w75"})
        CHECK_THROWS_AS(oil_grade(gear_2019, bad), std::domain_error);
    CHECK_THROWS_WITH(keeps_gear_winter_class(gear_2019, "90", -40, 15), Contains("70W to 85W"));
    CHECK_THROWS_WITH(keeps_gear_winter_class(engine, "0W", -40, 15), Contains("SAE J306"));
    CHECK_THROWS_AS(keeps_engine_winter_class("0W", 6000, std::nan(""), 5), std::domain_error);
    CHECK_THROWS_AS(hot_classes_at(gear_2019, 0), std::domain_error);
}

TEST_CASE("every ISO 3448 class spans 10 % either side of its middle") {
    CHECK(iso_classes().size() == 18);
    for (const IsoClass& c : iso_classes()) {
        CAPTURE(c.vg);
        CHECK(c.min_mm2_s == Approx(0.9 * c.mid_mm2_s));
        CHECK(c.max_mm2_s == Approx(1.1 * c.mid_mm2_s));
        CHECK(iso_vg_at(c.mid_mm2_s) == c.vg);
        CHECK(iso_vg_at(c.min_mm2_s) == c.vg);
        CHECK(iso_vg_at(c.max_mm2_s) == c.vg);
    }
}

TEST_CASE("a viscosity between two ISO classes belongs to none") {
    CHECK_FALSE(iso_vg_at(38));  // above 35.2, below 41.4
    CHECK_FALSE(iso_vg_at(1.9));
    CHECK_FALSE(iso_vg_at(1651));
    CHECK_THROWS_AS(iso_vg_at(0), std::domain_error);
}

TEST_CASE("JASO M315 classes are names without limits, and are never ranked") {
    CHECK(jaso_m315_limits == "limits not available");
    CHECK(std::set<std::string_view>(jaso_m315_classes().begin(), jaso_m315_classes().end()) ==
          std::set<std::string_view>{"1-A13", "1-A-LV13", "2-A13"});
    CHECK(jaso_m315_compare("1-A13", "1-A13").verdict == GradeVerdict::same);
    const auto answer = jaso_m315_compare("2-A13", "1-A13");
    CHECK(answer.verdict == GradeVerdict::not_comparable);
    CHECK_THAT(answer.why, Contains("limits not available"));
    CHECK_THROWS_WITH(jaso_m315_compare("1-A", "1-A13"),
                      "JASO M315 class: got 1-A: valid range is 1-A13, 1-A-LV13, 2-A13");
}

// J300 stands twice: here, where it computes, and as rows of another domain, which is not always loaded. They are one.
TEST_CASE("the rows of SAE J300 that are shipped are the classes computed with") {
    std::ifstream file(std::string(CASEBOUND_SOURCE_DIR) + "/seed-data/service_fluids/service_fluids_viscosities.csv");
    std::string line;
    REQUIRE(std::getline(file, line));
    REQUIRE(line.rfind("viscosity,beside,winter,cranking_mpas,cranking_c,pumping_c,kv100_min_mm2_s", 0) == 0);
    std::size_t rows = 0;
    for (; std::getline(file, line); ++rows) {
        std::vector<std::string> cells(1);
        for (const char c : line) {
            if (c == ',') cells.emplace_back();
            else cells.back() += c;
        }
        INFO(line);
        const auto& one = row(engine, cells[0]);
        const auto same = [](const std::string& text, std::optional<double> value) {
            return text.empty() ? !value : value && std::stod(text) == Approx(*value);
        };
        CHECK(same(cells[3], one.cranking_max_mpas));
        CHECK(same(cells[4], one.cranking_c));
        CHECK(same(cells[5], one.pumping_c));
        CHECK(same(cells[6], one.kv100_min_mm2_s));
        CHECK(same(cells[7], one.kv100_below_mm2_s));
    }
    CHECK(rows == 15);
}
