// Fluid condition: every rule is common practice, no source.
#include <catch2/catch.hpp>

#include <algorithm>

#include "plugins/transmission_fluids/science/fluid_condition.h"

using namespace casebound::transmission_fluids;
using Catch::Matchers::Contains;

namespace {

constexpr auto unseen = std::nullopt;

bool has(const FluidReading& reading, FluidSign sign) {
    return std::any_of(reading.findings.begin(), reading.findings.end(),
                       [&](const auto& finding) { return finding.sign == sign; });
}

}  // namespace

TEST_CASE("dark fluid that is not burnt is normal ageing") {
    for (const auto colour : {FluidColour::brown, FluidColour::black}) {
        const auto reading = read_fluid_condition({colour, FluidSmell::none, FluidClarity::clear, FluidFeel::smooth});
        REQUIRE(reading.findings.size() == 1);
        CHECK(reading.findings[0].sign == FluidSign::normal_ageing);
        CHECK_FALSE(reading.do_not_drive);
    }
}

TEST_CASE("black and burnt points to lost friction material") {
    const auto reading = read_fluid_condition({FluidColour::black, FluidSmell::burnt, unseen, unseen});
    CHECK(reading.findings.front().sign == FluidSign::friction_loss);
    CHECK_FALSE(has(reading, FluidSign::normal_ageing));
}

TEST_CASE("milky fluid is coolant and not to be driven") {
    const auto reading = read_fluid_condition(
        {FluidColour::milky, FluidSmell::burnt, FluidClarity::metallic_sheen, FluidFeel::gritty});
    CHECK(reading.do_not_drive);
    CHECK(reading.findings.front().sign == FluidSign::coolant);
    CHECK_THAT(std::string(reading.findings.front().next), Contains("Do not drive"));
    CHECK(has(reading, FluidSign::particles));
    CHECK(has(reading, FluidSign::heat_ageing));
}

TEST_CASE("a metallic sheen or grit sends one to the pan") {
    CHECK(has(read_fluid_condition({unseen, unseen, FluidClarity::metallic_sheen, unseen}), FluidSign::particles));
    CHECK(has(read_fluid_condition({unseen, unseen, unseen, FluidFeel::gritty}), FluidSign::particles));
}

TEST_CASE("clean red fluid shows no sign and proves nothing about which fluid it is") {
    const auto reading = read_fluid_condition(
        {FluidColour::red, FluidSmell::none, FluidClarity::clear, FluidFeel::smooth});
    REQUIRE(reading.findings.size() == 1);
    CHECK(reading.findings[0].sign == FluidSign::no_sign);
    CHECK_THAT(std::string(reading.findings[0].next), Contains("colour is no identity"));
}

TEST_CASE("nothing observed is no finding, and names what to look at") {
    const auto reading = read_fluid_condition({});
    CHECK(reading.findings.empty());
    CHECK(reading.not_observed == std::vector<std::string_view>{"colour", "smell", "clarity", "feel"});
    CHECK_FALSE(reading.do_not_drive);
}

TEST_CASE("over every combination the heaviest sign comes first and observing more never lightens it") {
    const auto heaviest = [](const FluidObserved& o) {
        const auto findings = read_fluid_condition(o).findings;
        return findings.empty() ? FluidSign::no_sign : findings.front().sign;
    };
    for (int colour = 0; colour <= 4; ++colour)
        for (int smell = 0; smell <= 2; ++smell)
            for (int clarity = 0; clarity <= 2; ++clarity)
                for (int feel = 0; feel <= 1; ++feel) {
                    CAPTURE(colour, smell, clarity, feel);
                    const FluidObserved all{static_cast<FluidColour>(colour), static_cast<FluidSmell>(smell),
                                            static_cast<FluidClarity>(clarity), static_cast<FluidFeel>(feel)};
                    const auto reading = read_fluid_condition(all);
                    REQUIRE_FALSE(reading.findings.empty());
                    CHECK(std::is_sorted(reading.findings.begin(), reading.findings.end(),
                                         [](const auto& a, const auto& b) { return a.sign > b.sign; }));
                    CHECK(reading.not_observed.empty());
                    CHECK(reading.do_not_drive == (all.colour == FluidColour::milky));
                    FluidObserved less = all;
                    less.feel.reset();
                    CHECK(heaviest(less) <= heaviest(all));
                    less.clarity.reset();
                    CHECK(heaviest(less) <= heaviest(all));
                    less.smell.reset();
                    CHECK(heaviest(less) <= heaviest(all));
                }
}
