// Our arithmetic against two programs written by others: Debian `units` for
// conversions and `bc -l` for formulas. A missing program fails the test.
#include <catch2/catch.hpp>
#include <cstdio>
#include <cstdlib>
#include <memory>
#include <random>
#include <sstream>
#include <string>
#include <vector>

#include "science/fastener.h"
#include "science/oring.h"
#include "science/ring_size.h"
#include "tests/bc_calculator.h"

using namespace casebound::filters_seals;
using casebound::tests::plain;
using casebound::tests::run_bc;

namespace {

constexpr int kCases = 60;

// What the other program will read back, so that both sides take the same number.
double as_text_reads(double value) { return std::strtod(plain(value).c_str(), nullptr); }

struct Close {
    void operator()(std::FILE* f) const { pclose(f); }
};

// One number per output line. REQUIREs that the program ran and gave `count`.
std::vector<double> numbers_from(const std::string& command, std::size_t count) {
    const std::unique_ptr<std::FILE, Close> pipe(popen(command.c_str(), "r"));
    REQUIRE(pipe);
    std::vector<double> out;
    char line[256];
    while (std::fgets(line, sizeof line, pipe.get())) {
        char* end = nullptr;
        const double value = std::strtod(line, &end);
        REQUIRE(end != line);
        out.push_back(value);
    }
    INFO(command.substr(0, 200));
    REQUIRE(out.size() == count);
    return out;
}

void require_program(const char* name) {
    INFO(name << " must be installed for this test");
    REQUIRE(std::system((std::string("command -v ") + name + " >/dev/null 2>&1").c_str()) == 0);
}

std::vector<double> ask_units(const std::vector<double>& values, const char* from, const char* to) {
    std::ostringstream command;
    command << "printf '%s\\n'";
    for (const double v : values) command << " '" << plain(v) << ' ' << from << "' '" << to << "'";
    command << " | units -q -t -o '%.16g'";
    return numbers_from(command.str(), values.size());
}

std::vector<double> generate(unsigned seed, double low, double high) {
    std::mt19937 random(seed);
    std::uniform_real_distribution<double> value(low, high);
    std::vector<double> out;
    for (int i = 0; i < kCases; ++i) out.push_back(as_text_reads(value(random)));
    return out;
}

}  // namespace

TEST_CASE("torque conversions agree with Debian units on generated values") {
    require_program("units");
    struct Pair {
        TorqueUnit unit;
        const char* name;
    };
    for (const Pair& p : {Pair{TorqueUnit::inch_pound, "inch lbf"}, Pair{TorqueUnit::foot_pound, "ft lbf"}}) {
        const auto values = generate(7, 0.01, 500);
        const auto metric = ask_units(values, p.name, "N m");
        const auto back = ask_units(values, "N m", p.name);
        for (std::size_t i = 0; i < values.size(); ++i) {
            CHECK(to_newton_metre(values[i], p.unit) == Approx(metric[i]).epsilon(1e-12));
            CHECK(from_newton_metre(values[i], p.unit) == Approx(back[i]).epsilon(1e-12));
        }
    }
}

TEST_CASE("T = K F d agrees with Debian units carrying the dimensions") {
    require_program("units");
    const auto preload = generate(8, 0.1, 100);
    const auto torque = ask_units(preload, "kN 0.2 12 mm", "N m");
    for (std::size_t i = 0; i < preload.size(); ++i)
        CHECK(torque_nm(0.2, preload[i], 12) == Approx(torque[i]).epsilon(1e-12));
}

TEST_CASE("class B tolerance agrees with bc on generated diameters") {
    const auto d = generate(9, 0.5, 600);
    std::vector<std::string> lines;
    for (const double v : d) lines.push_back("0.009*e(0.95*l(" + plain(v) + "))+0.11");
    const auto expected = run_bc(lines);
    for (std::size_t i = 0; i < d.size(); ++i)
        CHECK(class_b_id_tolerance_mm(d[i]) == Approx(expected[i]).epsilon(1e-12));
}

TEST_CASE("squeeze, stretch and fill agree with bc on generated glands") {
    const auto cs = generate(10, 1.5, 7), height = generate(11, 1, 7), width = generate(12, 2, 10);
    const auto id = generate(13, 5, 200), inner = generate(14, 5, 200);
    std::vector<std::string> lines;
    for (std::size_t i = 0; i < cs.size(); ++i) {
        lines.push_back("100*(" + plain(cs[i]) + "-" + plain(height[i]) + ")/" + plain(cs[i]));
        lines.push_back("100*(" + plain(inner[i]) + "-" + plain(id[i]) + ")/" + plain(id[i]));
        lines.push_back("100*a(1)*" + plain(cs[i]) + "^2/(" + plain(height[i]) + "*" + plain(width[i]) + ")");
    }
    const auto expected = run_bc(lines);
    for (std::size_t i = 0; i < cs.size(); ++i) {
        CHECK(squeeze_percent(cs[i], height[i]) == Approx(expected[3 * i]).epsilon(1e-10).margin(1e-9));
        CHECK(stretch_percent(id[i], inner[i]) == Approx(expected[3 * i + 1]).epsilon(1e-10).margin(1e-9));
        CHECK(fill_percent(cs[i], height[i], width[i]) == Approx(expected[3 * i + 2]).epsilon(1e-10));
    }
}

// bc finds the root of the torus volume by bisection, not by our Newton steps.
TEST_CASE("section loss agrees with bc: bisection for the torus, powers by logarithm") {
    const auto id = generate(15, 5, 200), cs = generate(16, 1, 7), stretch = generate(17, 1.001, 1.3);
    std::string bisect =
        "define t(d,s,i){auto a,b,m,v,n;v=(d+s)*s*s;a=0;b=s;for(n=0;n<70;n++){m=(a+b)/2;"
        "if((i+m)*m*m>v){b=m}else{a=m}};return((a+b)/2)}\n";
    std::vector<std::string> lines;
    std::vector<double> inner;
    for (std::size_t i = 0; i < id.size(); ++i) {
        inner.push_back(as_text_reads(id[i] * stretch[i]));
        const std::string d = plain(id[i]), s = plain(cs[i]), n = plain(inner[i]);
        lines.push_back(bisect + "t(" + d + "," + s + "," + n + ")");
        lines.push_back(s + "*sqrt(" + d + "/" + n + ")");
        lines.push_back(s + "*e(2/3*l(" + d + "/" + n + "))");
        bisect.clear();  // defined once, before its first use
    }
    const auto expected = run_bc(lines);
    for (std::size_t i = 0; i < id.size(); ++i) {
        const auto ours = [&](SectionLoss m) { return stretched_section_mm(id[i], cs[i], inner[i], m); };
        CHECK(ours(SectionLoss::torus_volume) == Approx(expected[3 * i]).epsilon(1e-12));
        CHECK(ours(SectionLoss::square_root) == Approx(expected[3 * i + 1]).epsilon(1e-12));
        CHECK(ours(SectionLoss::two_thirds_power) == Approx(expected[3 * i + 2]).epsilon(1e-12));
    }
}
