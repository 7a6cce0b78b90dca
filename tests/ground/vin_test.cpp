#include <catch2/catch.hpp>

#include <array>
#include <random>
#include <string>
#include <vector>

#include "core/ground/vin.h"

using namespace casebound;
using Catch::Matchers::Contains;

namespace {

constexpr std::string_view permitted = "0123456789ABCDEFGHJKLMNPRSTUVWXYZ";

VinReading north(std::string_view vin, std::optional<bool> light = true, int newest = 2039) {
    return read_vin(vin, {VinMarket::north_america, light, newest});
}

std::string texts(const VinReading& reading) {
    std::string all;
    for (const auto& finding : reading.findings) all += (finding.error ? "error: " : "note: ") + finding.text + "\n";
    return all;
}

// An invented number of the given year code and position 7, with the right check digit.
std::string made_up(char position_7, char year_code) {
    std::string vin = "00AAA0?00?A000001";
    vin[6] = position_7;
    vin[9] = year_code;
    vin[8] = *vin_check_digit(vin);
    return vin;
}

// 49 CFR 565.15(c), Table III, once more and independently: the value is the place in its row.
int table_iii(char c) {
    if (c >= '0' && c <= '9') return c - '0';
    const std::array<std::string_view, 3> rows = {"ABCDEFGH", "JKLMN.P.R", ".STUVWXYZ"};
    for (const auto row : rows)
        if (const auto at = row.find(c); at != std::string_view::npos) return static_cast<int>(at) + 1;
    return -1;
}

}  // namespace

TEST_CASE("the check digit is that of the published examples") {
    // Published examples: 49 CFR 565 Table V (earlier edition), the agency's outline for new manufacturers, and two
    // that circulate widely. Real maker codes; nothing about a maker is read from them.
    CHECK(vin_check_digit("1G4AH59H45G118341") == '4');  // 411 = 37 x 11 + 4
    CHECK(vin_check_digit("1J9RP1A36A1644345") == '6');  // 314 = 28 x 11 + 6
    CHECK(vin_check_digit("1M8GDM9AXKP042788") == 'X');  // 351
    CHECK(vin_check_digit("11111111111111111") == '1');  // the sum of the weights, 89
    CHECK(north("1M8GDM9AXKP042788").check_holds == true);
}

TEST_CASE("the check digit of invented numbers takes every value") {
    for (const std::string vin : {"00AAA00605A000002", "00AAA0A91LA000001", "00AAA0A82LA000001", "00AAA0A73LA000001",
                                  "00AAA0A64LA000001", "00AAA0A55LA000001", "00AAA0A46LA000001", "00AAA0A37LA000001",
                                  "00AAA0A28LA000001", "00AAA0A19LA000001", "00AAA0A0XLA000001"}) {
        INFO(vin);
        CHECK(vin_check_digit(vin) == vin[8]);
        CHECK_FALSE(north(vin).error());
    }
}

TEST_CASE("an altered number fails, and in North America that is an error") {
    CHECK(vin_check_digit("1M8GDM9AXKP042789") == '1');  // 353; published example, last digit altered
    const auto reading = north("1M8GDM9A1KP042788");     // published example, check digit altered
    CHECK(reading.check_holds == false);
    CHECK(reading.error());
    CHECK(reading.model_years.empty());
    CHECK_THAT(texts(reading),
               Contains("error: position 9 is 1, the other sixteen give X: misread or altered: read it again"));
}

TEST_CASE("elsewhere, and where the market is not told, a failed check digit is a note") {
    const auto elsewhere = read_vin("00AAA0A81LA000001", {VinMarket::elsewhere});
    CHECK(elsewhere.check_holds == false);
    CHECK_FALSE(elsewhere.error());
    CHECK_THAT(texts(elsewhere), Contains("note: position 9 is 1") && Contains("required for North America only"));
    const auto not_told = read_vin("00AAA0A81LA000001");
    CHECK_FALSE(not_told.error());
    CHECK_THAT(texts(not_told), Contains("if it was made for North America, it is misread or altered"));
}

TEST_CASE("the check digit cannot see A taken for J") {
    // Both have the value 1 in 49 CFR 565.15(c), Table III.
    CHECK(vin_check_digit("00AAA0A91LA000001") == vin_check_digit("00JAA0A91LA000001"));
    CHECK_FALSE(north("00JAA0A91LA000001").error());
}

TEST_CASE("I, O and Q are refused anywhere, with what they may be") {
    CHECK_THAT(texts(north("1M8GDM9AXKPO42788")),
               Contains("error: position 12: O is never in a VIN: read it again, it may be a 0"));
    CHECK_THAT(texts(north("1M8GDM9AXKPI42788")),
               Contains("position 12: I is never in a VIN: read it again, it may be a 1"));
    CHECK_THAT(texts(read_vin("1M8GDM9AXKPQ42788", {VinMarket::elsewhere})), Contains("error: position 12: Q"));
    CHECK_THAT(texts(read_vin("00AAA0A91LA00\xc3\xa4"
                              "01")),
               Contains("this character is never in a VIN"));
    CHECK_FALSE(vin_check_digit("1M8GDM9AXKPO42788"));
}

TEST_CASE("another length than 17 is an error in North America and a note elsewhere") {
    CHECK_THAT(texts(north("1M8GDM9AXKP04278")), Contains("error: 16 characters, a VIN has 17"));
    CHECK_FALSE(read_vin("1M8GDM9AXKP04278", {VinMarket::elsewhere}).error());
    const auto nothing = north("");
    CHECK_FALSE(nothing.well_formed);
    CHECK_FALSE(nothing.check_holds);
    CHECK_THAT(texts(nothing), Contains("0 characters"));
}

TEST_CASE("spaces, hyphens and lower case do not matter, and no letter is guessed into a digit") {
    CHECK(normal_vin(" 00aaa-0a91 la 000001\t") == "00AAA0A91LA000001");
    CHECK(north("00aaa 0a91 la000001").check_holds == true);
    CHECK(normal_vin("1m8gdm9axkpo42788") == "1M8GDM9AXKPO42788");
}

TEST_CASE("thirty codes give the model year, with position 7 numeric 1980 to 2009 and alphabetic 2010 to 2039") {
    // 49 CFR 565.15 Table VII; position 7 by 565.15(b) and, before it, 565.25(b).
    const std::vector<std::pair<char, int>> published = {
        {'A', 1980}, {'B', 1981}, {'C', 1982}, {'D', 1983}, {'E', 1984}, {'F', 1985}, {'G', 1986}, {'H', 1987},
        {'J', 1988}, {'K', 1989}, {'L', 1990}, {'M', 1991}, {'N', 1992}, {'P', 1993}, {'R', 1994}, {'S', 1995},
        {'T', 1996}, {'V', 1997}, {'W', 1998}, {'X', 1999}, {'Y', 2000}, {'1', 2001}, {'2', 2002}, {'3', 2003},
        {'4', 2004}, {'5', 2005}, {'6', 2006}, {'7', 2007}, {'8', 2008}, {'9', 2009}};
    REQUIRE(published.size() == 30);
    for (const auto& [code, year] : published) {
        INFO(code);
        CHECK(north(made_up('0', code)).model_years == std::vector{year});
        CHECK(north(made_up('A', code)).model_years == std::vector{year + 30});
        CHECK(north(made_up('A', code), false).model_years == std::vector{year, year + 30});
        CHECK(north(made_up('0', code), std::nullopt).model_years == std::vector{year, year + 30});
    }
    CHECK(north("00AAA00605A000002").model_years == std::vector{2005});
    CHECK(north("00AAA0A91LA000001").model_years == std::vector{2020});
}

TEST_CASE("U, Z and 0 are never a model year") {
    for (const char code : {'U', 'Z', '0'}) {
        const auto reading = north(made_up('A', code));
        INFO(code);
        CHECK(reading.check_holds == true);
        CHECK(reading.model_years.empty());
        CHECK(reading.error());
        CHECK_FALSE(read_vin(made_up('A', code), {VinMarket::elsewhere}).error());
    }
    CHECK_THAT(texts(north("00AAA0A9XUA000001")), Contains("position 10 is U, which is no model year's code"));
}

TEST_CASE("without the gross weight both model years stay possible, and the reading says what would settle it") {
    const auto reading = north(made_up('A', 'L'), std::nullopt);
    CHECK(reading.model_years == std::vector{1990, 2020});
    CHECK_FALSE(reading.error());
    CHECK_THAT(texts(reading), Contains("4536 kg (10,000 lb)"));
}

TEST_CASE("a model year that has not come yet is not possible") {
    CHECK(north(made_up('A', 'X'), std::nullopt, 2027).model_years == std::vector{1999});
    const auto reading = north(made_up('A', 'X'), true, 2027);
    CHECK(reading.model_years.empty());
    CHECK(reading.error());
    CHECK_THAT(texts(reading), Contains("a model year after 2027"));
}

TEST_CASE("outside North America no model year is read") {
    for (const auto market : {VinMarket::elsewhere, VinMarket::not_told}) {
        const auto reading = read_vin("00AAA0A91LA000001", {market, true});
        CHECK(reading.model_years.empty());
        CHECK_FALSE(reading.error());
        CHECK_THAT(texts(reading), Contains("the model year is not read"));
    }
}

TEST_CASE("any single changed character is seen, unless its value is the same") {
    // Every weight but that of position 9 is 2 to 10, and values differ by at most 9: no product is a multiple of 11.
    std::mt19937 random(565);
    std::uniform_int_distribution<std::size_t> pick(0, permitted.size() - 1);
    std::size_t seen = 0, unseen = 0;
    for (int n = 0; n < 50; ++n) {
        std::string vin(17, '0');
        for (char& c : vin) c = permitted[pick(random)];
        vin[8] = *vin_check_digit(vin);
        for (std::size_t at = 0; at < vin.size(); ++at)
            for (const char c : permitted) {
                std::string altered = vin;
                altered[at] = c;
                const bool same = at == 8 ? c == vin[8] : table_iii(c) == table_iii(vin[at]);
                const bool holds = *read_vin(altered).check_holds;
                if (holds != same) FAIL(vin << " altered to " << altered);
                (holds ? unseen : seen) += 1;
            }
    }
    CHECK(seen > 20000);
    CHECK(unseen > 2000);
}
