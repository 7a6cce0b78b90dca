#include <array>
#include <catch2/catch.hpp>
#include <random>
#include <stdexcept>

#include "science/elastomer.h"

using namespace casebound::filters_seals;
using enum Elastomer;

namespace {

constexpr std::array kElastomers{NBR, HNBR, FKM, ACM, VMQ, FVMQ, EPDM, CR, AEM, SBR, NR};
constexpr std::array kFluids{Fluid::mineral_oil_atf,    Fluid::hydraulic_system_mineral_oil,
                             Fluid::glycol_brake_fluid, Fluid::silicone_brake_fluid,
                             Fluid::engine_coolant,     Fluid::gasoline};

Suitability verdict(Elastomer e, Fluid f, double min_c = 20, double max_c = 90) {
    return examine_elastomer(e, f, {min_c, max_c}).verdict;
}

}  // namespace

TEST_CASE("ISO 1629 codes are read in any case, and nothing else is") {
    CHECK(elastomer_from_code("nbr") == NBR);
    CHECK(elastomer_from_code("FKM") == FKM);
    for (const Elastomer e : kElastomers) CHECK(elastomer_from_code(text(e)) == e);
    CHECK_FALSE(elastomer_from_code("rubber"));
    CHECK_FALSE(elastomer_from_code(""));
}

// Published encyclopedia table of oil resistance, published swell data.
TEST_CASE("nitrile and fluorocarbon rubber fit gearbox fluid, EPDM never does") {
    CHECK(verdict(NBR, Fluid::mineral_oil_atf, -20, 110) == Suitability::fits);
    CHECK(verdict(FKM, Fluid::mineral_oil_atf, -20, 150) == Suitability::fits);
    CHECK(verdict(EPDM, Fluid::mineral_oil_atf) == Suitability::never);
}

TEST_CASE("a fair rating asks") {
    CHECK(verdict(VMQ, Fluid::mineral_oil_atf) == Suitability::ask);
    CHECK(fluid_cell(VMQ, Fluid::mineral_oil_atf)->rating == Rating::fair);
    CHECK(verdict(CR, Fluid::mineral_oil_atf) == Suitability::ask);
}

TEST_CASE("in glycol brake fluid EPDM fits and nitrile does not") {
    CHECK(verdict(EPDM, Fluid::glycol_brake_fluid) == Suitability::fits);
    CHECK(verdict(NBR, Fluid::glycol_brake_fluid) == Suitability::does_not_fit);
}

TEST_CASE("in coolant EPDM fits and acrylic rubber, which water breaks down, does not") {
    CHECK(verdict(EPDM, Fluid::engine_coolant) == Suitability::fits);
    CHECK(verdict(ACM, Fluid::engine_coolant) == Suitability::does_not_fit);
}

TEST_CASE("in gasoline fluorocarbon rubber fits and EPDM does not") {
    CHECK(verdict(FKM, Fluid::gasoline) == Suitability::fits);
    CHECK(verdict(EPDM, Fluid::gasoline) == Suitability::does_not_fit);
}

// 49 CFR 571.116, S4.
TEST_CASE("mineral oil never meets SBR, natural rubber or EPDM, and the law is the source") {
    for (const Fluid f : {Fluid::mineral_oil_atf, Fluid::hydraulic_system_mineral_oil})
        for (const Elastomer e : {EPDM, SBR, NR}) {
            const ElastomerAnswer a = examine_elastomer(e, f, {});
            CHECK(a.verdict == Suitability::never);
            CHECK(a.findings[0].source.kind == Evidence::law);
            CHECK(a.findings[0].source.work.find("49 CFR 571.116") != std::string_view::npos);
        }
    CHECK(verdict(NBR, Fluid::mineral_oil_atf) != Suitability::never);
}

TEST_CASE("DOT 5 and DOT 5.1 share limits but not a base, so they are two fluids here") {
    CHECK(text(Fluid::silicone_brake_fluid).find("DOT 5)") != std::string_view::npos);
    CHECK(text(Fluid::glycol_brake_fluid).find("5.1") != std::string_view::npos);
    CHECK(verdict(EPDM, Fluid::silicone_brake_fluid) == Suitability::ask);
}

TEST_CASE("every cell known only from memory answers ask, good or bad, at any temperature inside its range") {
    int from_memory = 0, published = 0;
    for (const Elastomer e : kElastomers)
        for (const Fluid f : kFluids) {
            const auto cell = fluid_cell(e, f);
            if (!cell) continue;
            CHECK_FALSE(cell->source.work.empty());
            (cell->source.kind == Evidence::memory ? from_memory : published) += 1;
            if (cell->source.kind == Evidence::memory) {
                INFO(text(e) << " in " << text(f));
                CHECK(verdict(e, f) == Suitability::ask);
            }
        }
    CHECK(published == 13);
    CHECK(from_memory == 21);  // one more is recorded nowhere: ACM in silicone brake fluid
    CHECK_FALSE(fluid_cell(ACM, Fluid::silicone_brake_fluid));
}

TEST_CASE("a pairing nobody recorded asks") {
    CHECK(verdict(AEM, Fluid::mineral_oil_atf) == Suitability::ask);
    CHECK(verdict(FVMQ, Fluid::gasoline) == Suitability::ask);
}

// Published elastomer temperature ranges; two sources for NBR and EPDM.
TEST_CASE("temperature: agreed range fits, between two sources asks, outside both does not fit") {
    CHECK(verdict(NBR, Fluid::mineral_oil_atf, -25, 120) == Suitability::fits);
    CHECK(verdict(NBR, Fluid::mineral_oil_atf, -28, 100) == Suitability::ask);
    CHECK(verdict(NBR, Fluid::mineral_oil_atf, -31, 100) == Suitability::does_not_fit);
    CHECK(verdict(NBR, Fluid::mineral_oil_atf, 0, 121) == Suitability::does_not_fit);
    CHECK(verdict(FKM, Fluid::mineral_oil_atf, -20, 220) == Suitability::ask);
    CHECK(verdict(FKM, Fluid::mineral_oil_atf, -20, 251) == Suitability::does_not_fit);
    CHECK(verdict(EPDM, Fluid::engine_coolant, -47, 120) == Suitability::ask);
    CHECK(verdict(EPDM, Fluid::engine_coolant, -45, 150) == Suitability::fits);
}

TEST_CASE("acrylic rubber: hot end published to 150 and 175 for a short time, cold end only from memory") {
    CHECK(temperature_limits(ACM)->low_source.kind == Evidence::memory);
    CHECK(verdict(ACM, Fluid::mineral_oil_atf, 0, 140) == Suitability::ask);
    CHECK(verdict(ACM, Fluid::mineral_oil_atf, 0, 176) == Suitability::does_not_fit);
}

TEST_CASE("impossible temperatures are refused") {
    CHECK_THROWS_WITH(verdict(NBR, Fluid::gasoline, -300, 20),
                      "coldest service temperature: got -300 degC: valid range is -80 to 350 degC");
    CHECK_THROWS_WITH(verdict(NBR, Fluid::gasoline, 50, 20),
                      "hottest service temperature: got 20 degC: valid range is 50 to 350 degC");
}

TEST_CASE("volume change: 5 % either way is accepted, over 25 % swell has failed, EPDM in mineral oil fails") {
    CHECK(judge_volume_change(5).judgement == Judgement::fits);
    CHECK(judge_volume_change(-5).judgement == Judgement::fits);
    CHECK(judge_volume_change(12).judgement == Judgement::check_first);
    CHECK(judge_volume_change(-12).judgement == Judgement::check_first);
    CHECK(judge_volume_change(30).judgement == Judgement::does_not_fit);  // 30-80 % at 70 C, 70 h
    CHECK(judge_volume_change(80).judgement == Judgement::does_not_fit);
    CHECK_THROWS_AS(judge_volume_change(-100), std::domain_error);
}

// ASTM D2000 / SAE J200.
TEST_CASE("heat types and swell classes, every letter") {
    const std::array<std::pair<char, double>, 9> types{
        {{'A', 70}, {'B', 100}, {'C', 125}, {'D', 150}, {'E', 175}, {'F', 200}, {'G', 225}, {'H', 250}, {'J', 275}}};
    for (const auto& [letter, temp] : types) CHECK(d2000_type_temp_c(letter) == temp);
    const std::array<std::pair<char, double>, 9> classes{
        {{'B', 140}, {'C', 120}, {'D', 100}, {'E', 80}, {'F', 60}, {'G', 40}, {'H', 30}, {'J', 20}, {'K', 10}}};
    for (const auto& [letter, swell] : classes) CHECK(d2000_class_swell(letter)->max_percent == swell);
    REQUIRE(d2000_class_swell('A'));
    CHECK_FALSE(d2000_class_swell('A')->max_percent);
    for (const char none : {'I', 'L', 'a', '0'}) {
        CHECK_FALSE(d2000_type_temp_c(none));
        CHECK_FALSE(d2000_class_swell(none));
    }
    CHECK_FALSE(d2000_type_temp_c('K'));
}

TEST_CASE("heat rank by the letters: CR 100, NBR 100-125, ACM 150-175, VMQ 200-225, FKM 250, EPDM to 150") {
    const auto heat = [](Elastomer e) { return d2000_rank(e)->heat_c; };
    CHECK(heat(CR).low == 100);
    CHECK(heat(CR).high == 100);
    CHECK(heat(NBR).low == 100);
    CHECK(heat(NBR).high == 125);
    CHECK(heat(ACM).low == 150);
    CHECK(heat(ACM).high == 175);
    CHECK(heat(HNBR).high == 150);
    CHECK(heat(VMQ).low == 200);
    CHECK(heat(VMQ).high == 225);
    CHECK(heat(FKM).high == 250);
    CHECK(heat(EPDM).high == 150);
}

TEST_CASE("loosest swell limit ranks FKM, HNBR, NBR, CR, and EPDM has no oil requirement at all") {
    const auto loosest = [](Elastomer e) { return d2000_rank(e)->swell_percent->high; };
    CHECK(loosest(FKM) == 10);
    CHECK(loosest(HNBR) == 30);
    CHECK(loosest(FKM) < loosest(HNBR));
    CHECK(loosest(HNBR) < loosest(NBR));
    CHECK(loosest(NBR) < loosest(CR));
    CHECK(d2000_rank(CR)->swell_percent->low == 80);
    CHECK_FALSE(d2000_rank(EPDM)->swell_percent);
    CHECK_FALSE(d2000_rank(EPDM)->always_limited);
    CHECK(d2000_rank(NBR)->always_limited);
}

TEST_CASE("usual polymers name whole codes only: NBR is not found inside HNBR") {
    for (const D2000Usual& row : d2000_usual_polymers())
        if (row.type_class == "DH") CHECK(row.codes == "ACM/HNBR");
    CHECK(d2000_rank(NBR)->heat_c.high == 125);  // DH would give 150
}

TEST_CASE("unknown rubber, fluid or temperature never fits, and a no that is left holds for every value of it") {
    for (const Elastomer e : kElastomers) {
        CHECK(examine_elastomer(e, std::nullopt, {0.0, 90.0}).verdict == Suitability::ask);
        for (const Fluid f : kFluids) {
            CHECK(examine_elastomer(std::nullopt, f, {0.0, 90.0}).verdict == Suitability::ask);
            const ElastomerAnswer part = examine_elastomer(e, f, {});
            CHECK(part.verdict != Suitability::fits);
            CHECK(examine_elastomer(e, f, {std::nullopt, 90.0}).verdict != Suitability::fits);
            CHECK(examine_elastomer(e, f, {0.0, std::nullopt}).verdict != Suitability::fits);
            if (part.verdict == Suitability::ask) continue;
            for (double t = -60; t <= 300; t += 30) CHECK(examine_elastomer(e, f, {t, t}).verdict == part.verdict);
        }
    }
}

TEST_CASE("a milder service never turns fits into anything else") {
    std::mt19937 random(81);
    std::uniform_real_distribution<double> cold(-70, 20), hot(20, 300), shrink(0, 1);
    int fits = 0;
    for (int i = 0; i < 4000; ++i)
        for (const Elastomer e : kElastomers) {
            const double low = cold(random), high = hot(random), f = shrink(random);
            if (verdict(e, Fluid::mineral_oil_atf, low, high) != Suitability::fits) continue;
            ++fits;
            REQUIRE(verdict(e, Fluid::mineral_oil_atf, 20 + f * (low - 20), 20 + f * (high - 20)) == Suitability::fits);
        }
    CHECK(fits > 500);
}

TEST_CASE("an answer carries its weakest source") {
    CHECK(examine_elastomer(NBR, Fluid::mineral_oil_atf, {0.0, 90.0}).weakest.kind == Evidence::common_practice);
    CHECK(examine_elastomer(NBR, Fluid::gasoline, {0.0, 90.0}).weakest.kind == Evidence::memory);
}
