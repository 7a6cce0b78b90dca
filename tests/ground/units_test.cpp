#include <catch2/catch.hpp>

#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <map>
#include <string>
#include <vector>

#include "core/ground/units.h"

using namespace casebound;
using Catch::Matchers::Contains;

namespace {

std::string fault(std::string_view text, std::string_view unit) {
    try {
        quantity_in(text, unit);
    } catch (const UnitFault& refused) { return refused.what(); }
    return "accepted";
}

// Our label and what the Debian program `units` (2.22) calls it.
const std::map<std::string, std::string> outside_names = {{"mm", "mm"},
                                                          {"cm", "cm"},
                                                          {"m", "m"},
                                                          {"km", "km"},
                                                          {"in", "inch"},
                                                          {"ft", "foot"},
                                                          {"mi", "mile"},
                                                          {"thou", "mil"},
                                                          {"mm2", "mm^2"},
                                                          {"cm2", "cm^2"},
                                                          {"m2", "m^2"},
                                                          {"in2", "inch^2"},
                                                          {"L", "liter"},
                                                          {"ml", "ml"},
                                                          {"cm3", "cm^3"},
                                                          {"US gal", "usgallon"},
                                                          {"US qt", "usquart"},
                                                          {"US pt", "uspint"},
                                                          {"US fl oz", "usfluidounce"},
                                                          {"imp gal", "brgallon"},
                                                          {"imp qt", "brquart"},
                                                          {"imp pt", "brpint"},
                                                          {"imp fl oz", "brfluidounce"},
                                                          {"kg", "kg"},
                                                          {"g", "gram"},
                                                          {"lb", "pound"},
                                                          {"avdp oz", "ounce"},
                                                          {"N", "N"},
                                                          {"kN", "kN"},
                                                          {"lbf", "lbf"},
                                                          {"kgf", "kgf"},
                                                          {"N m", "N m"},
                                                          {"lbf ft", "lbf foot"},
                                                          {"in lbf", "inch lbf"},
                                                          {"kgf m", "kgf m"},
                                                          {"N/mm", "N/mm"},
                                                          {"kN/m", "kN/m"},
                                                          {"N/m", "N/m"},
                                                          {"lbf/in", "lbf/inch"},
                                                          {"kPa", "kPa"},
                                                          {"bar", "bar"},
                                                          {"psi", "psi"},
                                                          {"MPa", "MPa"},
                                                          {"Pa", "Pa"},
                                                          {"1/K", "1/K"},
                                                          {"1/degC", "1/degC"},
                                                          {"1/degF", "1/degF"},
                                                          {"mm2/s", "mm^2/s"},
                                                          {"cSt", "centistokes"},
                                                          {"mPa s", "mPa s"},
                                                          {"cP", "centipoise"},
                                                          {"Pa s", "Pa s"},
                                                          {"kg/m3", "kg/m^3"},
                                                          {"kg/L", "kg/liter"},
                                                          {"g/ml", "g/ml"},
                                                          {"g/cm3", "g/cm^3"},
                                                          {"ohm", "ohm"},
                                                          {"kohm", "kiloohm"},
                                                          {"Mohm", "megaohm"},
                                                          {"mohm", "milliohm"},
                                                          {"V", "V"},
                                                          {"mV", "mV"},
                                                          {"A", "A"},
                                                          {"mA", "mA"},
                                                          {"W", "W"},
                                                          {"kW", "kW"},
                                                          {"Hz", "Hz"},
                                                          {"kHz", "kHz"},
                                                          {"rpm", "1/minute"},
                                                          {"1/min", "1/minute"},
                                                          {"min", "minute"},
                                                          {"s", "second"},
                                                          {"h", "hour"},
                                                          {"ms", "ms"},
                                                          {"d", "day"},
                                                          {"months", "month"},
                                                          {"years", "year"},
                                                          {"km/h", "km/hour"},
                                                          {"m/s", "m/s"},
                                                          {"mph", "mile/hour"},
                                                          {"deg", "degree"},
                                                          {"%", "percent"}};

struct Asked {
    double value;
    std::string from, to, have, want;
};

std::vector<double> ask_units(const std::vector<Asked>& asked) {
    char name[] = "/tmp/casebound-units-XXXXXX";
    const int file = mkstemp(name);
    REQUIRE(file >= 0);
    std::ofstream questions(name);
    for (const auto& one : asked) questions << one.have << '\n' << one.want << '\n';
    questions.close();
    std::vector<double> answers;
    FILE* pipe = popen((std::string("units -q -t -o %.17g < ") + name).c_str(), "r");
    REQUIRE(pipe);
    char line[256];
    while (std::fgets(line, sizeof line, pipe)) answers.push_back(std::strtod(line, nullptr));
    const int status = pclose(pipe);
    std::remove(name);
    INFO("install the Debian package `units`: this comparison is required");
    REQUIRE(status == 0);
    return answers;
}

void compare(const std::vector<Asked>& asked) {
    const auto answers = ask_units(asked);
    REQUIRE(answers.size() == asked.size());
    for (std::size_t i = 0; i < asked.size(); ++i) {
        INFO(asked[i].have << " in " << asked[i].want);
        CHECK(converted(asked[i].value, asked[i].from, asked[i].to) == Approx(answers[i]).epsilon(1e-14).margin(1e-13));
    }
}

}  // namespace

TEST_CASE("conversions that are exact by definition come out exact") {
    // Inch, pound and standard gravity by definition; US gallon 231 in3, quart 1/4, pint 1/8 of it (NIST Handbook 44, App. C).
    CHECK(converted(1, "in", "mm") == 25.4);
    CHECK(converted(1, "mi", "km") == 1.609344);
    CHECK(converted(1, "US gal", "L") == 3.785411784);
    CHECK(converted(1, "US qt", "L") == 0.946352946);
    CHECK(converted(1, "US pt", "L") == 0.473176473);
    CHECK(converted(1, "US fl oz", "ml") == 29.5735295625);
    CHECK(converted(1, "lbf", "N") == 4.4482216152605);
    CHECK(converted(1, "lbf ft", "N m") == 1.3558179483314004);
    CHECK(converted(1, "in lbf", "N m") == 0.1129848290276167);
    CHECK(converted(1, "kgf", "N") == 9.80665);
    CHECK(converted(1, "psi", "kPa") == Approx(6.894757293168361).epsilon(1e-15));  // repeats
    CHECK(converted(1, "psi", "bar") == Approx(0.068947572931684).epsilon(1e-13));
    CHECK(converted(1, "lb", "kg") == 0.45359237);
    CHECK(converted(1, "imp qt", "L") == 1.1365225);  // Weights and Measures Act 1985 (UK), gallon 4.54609 L
    CHECK(converted(1, "imp pt", "L") == 0.56826125);
}

TEST_CASE("a widely copied US gallon of 3.785306 L is not the one used") {
    CHECK(converted(1, "US gal", "L") - 3.785306 > 1e-4);
}

TEST_CASE("temperatures are points on their scales: F = 1.8 C + 32, K = C + 273.15") {
    CHECK(quantity_in("-40 F", "degC") == -40);
    CHECK(quantity_in("212 F", "degC") == 100);
    CHECK(quantity_in("100F", "degC") == Approx(37.0 + 7.0 / 9).epsilon(1e-15));
    CHECK(converted(100, "degC", "degF") == 212);
    CHECK(converted(0, "degC", "K") == 273.15);
    CHECK(converted(-40, "C", "F") == -40);
}

TEST_CASE("torque marked in inch pounds reads as newton metres") {
    // Common practice, no source: 65, 89 and 106 in lb are printed beside 7.3, 10.1 and 12.0 N m.
    CHECK(plain_number(quantity_in("65 in-lb", "N m"), 1) == "7.3");
    CHECK(plain_number(quantity_in("89 in\u00b7lbf", "N m"), 1) == "10.1");
    CHECK(plain_number(quantity_in("106 lbf in", "N m"), 1) == "12");
    CHECK(quantity_in("1 ft lb", "N m") == Approx(12 * quantity_in("1 in lb", "N m")).epsilon(1e-15));
}

TEST_CASE("a bare number is in the unit that is wanted, and a labelled one is converted") {
    CHECK(quantity_in("38", "mm") == 38);
    CHECK(quantity_in(" 38 mm ", "mm") == 38);
    CHECK(quantity_in("38mm", "mm") == 38);
    CHECK(quantity_in("1.5 in", "mm") == 38.1);
    CHECK(quantity_in("2 US qt", "L") == 1.892705892);
    CHECK(quantity_in("4.7 kohm", "ohm") == 4700);
    CHECK(quantity_in("-5", "degC") == -5);
    CHECK(quantity_in("\u22125", "degC") == -5);
    CHECK(quantity_in("+.5", "mm") == 0.5);
    CHECK(quantity_in("1.2e3", "mm") == 1200);
    CHECK(quantity_in("90 min", "h") == 1.5);
    CHECK(quantity_in("60 %", "") == 0.6);
    CHECK(quantity_in("60", "%") == 60);
}

TEST_CASE("inch fractions are read as they are written on the tool") {
    CHECK(quantity_in("3/8 in", "mm") == 9.525);
    CHECK(quantity_in("1 1/2 in", "mm") == 38.1);
    CHECK(quantity_in("1-1/2\"", "mm") == 38.1);
    CHECK(fault("1/0 in", "mm") != "accepted");
}

TEST_CASE("the same unit may be spelled in several ways") {
    const std::vector<std::pair<std::string, std::string>> same = {
        {"1 \u03a9", "ohm"},     {"1 \u2126", "ohm"},
        {"1 Ohm", "ohm"},        {"1 \u00b0C", "degC"},
        {"1 deg C", "degC"},     {"1 C", "degC"},
        {"1 N\u00b7m", "N m"},   {"1 Nm", "N m"},
        {"1 N.m", "N m"},        {"1 mm\u00b2/s", "mm2/s"},
        {"1 mm^2/s", "mm2/s"},   {"1 cSt", "mm2/s"},
        {"1 cP", "mPa s"},       {"1 mPa\u00b7s", "mPa s"},
        {"1 litre", "L"},        {"1 l", "L"},
        {"1 KM", "km"},          {"1 MM", "mm"},
        {"1 1/min", "rpm"},      {"1 kN/m", "N/mm"},
        {"1 cm3", "ml"},         {"1 cc", "ml"},
        {"1 \u00b0", "deg"},     {"1 inch", "in"},
        {"1 US quart", "US qt"}, {"1 U.S. quarts", "US qt"},
        {"1 us qt", "US qt"},    {"1 Imperial pint", "imp pt"},
        {"1 UK gal", "imp gal"}, {"1 US fl. oz", "US fl oz"},
        {"1 ft-lb", "lbf ft"},   {"1 lbs", "lb"},
        {"1 PSI", "psi"}};
    for (const auto& [text, unit] : same) {
        INFO(text << " in " << unit);
        CHECK(quantity_in(text, unit) == Approx(1).epsilon(1e-15));
    }
}

TEST_CASE("milli and mega are never exchanged by a change of case") {
    CHECK(quantity_in("1 mohm", "ohm") == 0.001);
    CHECK(quantity_in("1 Mohm", "ohm") == 1e6);
    CHECK(quantity_in("1 MPa", "kPa") == 1000);
    CHECK_THAT(fault("1 mpa", "kPa"), Contains("not a known unit"));
    CHECK_THAT(fault("1 MV", "V"), Contains("not a known unit"));
    CHECK_THAT(fault("1 MA", "A"), Contains("not a known unit"));
}

TEST_CASE("an unlabelled quart, pint, gallon or ounce is refused with what to write") {
    CHECK(fault("2 quarts", "L") ==
          "\"2 quarts\" where L is wanted: \"quarts\": a US and an imperial quart differ: "
          "write \"US qt\" (0.946352946 L) or \"imp qt\" (1.1365225 L)");
    CHECK_THAT(fault("2 qt", "L"), Contains("\"US qt\"") && Contains("\"imp qt\""));
    CHECK_THAT(fault("1 pt", "L"), Contains("0.473176473 L") && Contains("0.56826125 L"));
    CHECK_THAT(fault("1 Gallon", "L"), Contains("3.785411784 L") && Contains("4.54609 L"));
    CHECK_THAT(fault("8 oz", "ml"),
               Contains("\"US fl oz\" (29.5735295625 ml)") && Contains("\"imp fl oz\"") && Contains("\"avdp oz\""));
    CHECK_THAT(fault("8 oz", "g"), Contains("\"avdp oz\" (28.349523125 g)"));
    CHECK_THAT(fault("8 fl oz", "L"), Contains("\"imp fl oz\" (28.4130625 ml)"));
}

TEST_CASE("a comma is refused, because it means two things") {
    CHECK_THAT(fault("1,5 in", "mm"), Contains("write \"1.5 in\"") && !Contains("or \"15"));
    CHECK_THAT(fault("92,400 km", "km"), Contains("write \"92.400 km\" or \"92400 km\""));
    CHECK_THAT(fault("1,234,567", "km"), Contains("write \"1234567\""));
}

TEST_CASE("a unit of another quantity is refused, naming both and what may be written") {
    CHECK(fault("38 kg", "mm") ==
          "\"38 kg\" where mm is wanted: kg is a mass, and a length is wanted: write mm, cm, m, km, in, ft, mi, thou");
    CHECK_THAT(fault("5 Hz", "rpm"), Contains("a frequency") && Contains("a turning speed"));
    CHECK_THAT(fault("30 d", "months"), Contains("a time"));
    CHECK_THAT(fault("17 mm", ""), Contains("where a plain number is wanted"));
}

TEST_CASE("what is not a number with a unit is refused") {
    for (const std::string text : {"", " ", "mm", "about 38 mm", "38 mmm", "0x10 mm", "inf", "nan mm", "1e999 mm",
                                   "38 40 mm", "1 500 mm", "--5 mm", "1.2.3 mm", "3/ in", "38 mm deep"}) {
        INFO(text);
        CHECK_THAT(fault(text, "mm"), Contains("write "));
    }
}

TEST_CASE("a unit nobody has defined takes bare numbers and its own name, nothing else") {
    CHECK_FALSE(known_unit("cu"));
    CHECK(quantity_in("12.5", "cu") == 12.5);
    CHECK(quantity_in("12.5 cu", "cu") == 12.5);
    CHECK_THAT(fault("12.5 kg", "cu"), Contains("\"cu\" is not a known unit"));
    CHECK(units_like("cu").empty());
}

TEST_CASE("every unit a domain may ask for is known") {
    for (const std::string unit : {"mm", "L",    "ml",    "N m",  "degC", "mm2/s", "mPa s", "ohm",    "min", "h",
                                   "s",  "km",   "kg",    "V",    "mV",   "A",     "mA",    "Hz",     "rpm", "%",
                                   "",   "N/mm", "kg/m3", "g/ml", "kPa",  "deg",   "km/h",  "months", "1/K", "N"}) {
        INFO(unit);
        CHECK(known_unit(unit));
    }
}

TEST_CASE("numbers print without trailing zeros and without a negative nothing") {
    CHECK(plain_number(38) == "38");
    CHECK(plain_number(38.10) == "38.1");
    CHECK(plain_number(0.1 + 0.2) == "0.3");
    CHECK(plain_number(-0.0000001) == "0");
    CHECK(plain_number(-0.4, 0) == "0");
    CHECK(plain_number(-0.0) == "0");
    CHECK_FALSE(std::signbit(quantity_in("-0 mm", "mm")));
    CHECK_FALSE(std::signbit(quantity_in("-0 mm", "cm")));
    CHECK(plain_number(100, 0) == "100");
    CHECK(plain_number(5.25, 1) == "5.2");  // half to even, as the number is stored
    CHECK(plain_number(-1.50, 2) == "-1.5");
}

TEST_CASE("every pair of units agrees with the Debian program `units`") {
    std::vector<Asked> asked;
    for (const auto& [from, from_name] : outside_names)
        for (const auto& to : units_like(from)) {
            INFO(to << " has no counterpart in this test");
            REQUIRE(outside_names.count(to) == 1);
            for (const char* value : {"1", "7.3", "92400"})
                asked.push_back({std::strtod(value, nullptr), from, to, std::string(value) + " " + from_name,
                                 outside_names.at(to)});
        }
    CHECK(asked.size() > 900);
    compare(asked);
}

TEST_CASE("temperatures agree with the Debian program `units`") {
    const std::map<std::string, std::string> scale = {{"degC", "tempC"}, {"degF", "tempF"}, {"K", "tempK"}};
    std::vector<Asked> asked;
    for (const auto& [from, from_name] : scale)
        for (const auto& [to, to_name] : scale)
            for (const char* value : {"0", "20", "98.6", "167", "300"})
                asked.push_back({std::strtod(value, nullptr), from, to, from_name + "(" + value + ")", to_name});
    compare(asked);
}
