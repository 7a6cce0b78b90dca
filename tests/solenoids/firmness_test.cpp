// Over every inquiry of solenoids: what is left out never makes an answer firm. The gearbox families are invented.
#include <catch2/catch.hpp>

#include "tests/firmness.h"
#include "tests/linked_domain.h"
#include "tests/solenoids/gearbox_facts.h"

using namespace casebound;
using namespace casebound::tests;

TEST_CASE("in every inquiry on solenoids, leaving an input out never makes a firm answer that it would decide") {
    const auto facts = gearbox_facts();
    FirmnessOf test{instance(), facts};
    test.figures_too = true;  // the apply table and the sensor only compute
    test.own_question = {{"gear-ratio window", "4 % is shown as assumed"},
                         {"coil open", "the other way to tell the reading"},
                         {"coil leads", "that the leads add nothing is shown as assumed"},
                         {"coil pin-to-case", "a test of its own"},
                         {"coil at-part", "a test of its own"},
                         {"temperature-sensor claimed", "a comparison of its own"}};
    test.run({{"fault",
               {{"gearbox", "ash-4"},
                {"gears", "2 2 3 3"},
                {"phase", "before_fail_safe"},
                {"codes", "P0751"},
                {"codes-before-clearing", "yes"},
                {"coils", "A=18.4"},
                {"coil-temp", "75"},
                {"ohm-low", "11"},
                {"ohm-high", "16"},
                {"feed", "12.5"},
                {"fuse", "sound"},
                {"connector", "clean"},
                {"fluid-level", "right"},
                {"debris", "grey_paste_thin"},
                {"fluid-colour", "red"},
                {"fluid-smell", "none"},
                {"swap", "moves_with_part"},
                {"gears-back", "no"}}},
              {"apply-table", {{"gearbox", "ash-4"}, {"phase", "before_fail_safe"}}},
              {"position", {{"gearbox", "ash-4"}, {"element", "A"}}},
              {"fault", {{"gearbox", "birch-6"}, {"slips", "2 6"}}},
              {"apply-table", {{"gearbox", "birch-6"}}},
              {"gear-ratio",
               {{"ratios", "1=2.81, 2=1.55, 3=1"}, {"input-speed", "2000"}, {"output-speed", "1290"}, {"window", "4"}}},
              {"gear-ratio",
               {{"ratios", "1=2.81, 2=1.55, 3=1, 4=0.857"},
                {"engine-speed", "2000"},
                {"road-speed", "80"},
                {"tyre", "2"},
                {"final-drive", "3.5"},
                {"converter", "locked"},
                {"window", "4"}}},
              {"fail-safe",
               {{"gearbox", "ash-4"}, {"high-gear-start", "yes"}, {"low-lever-works", "yes"}, {"gears-back", "yes"}}},
              {"coil",
               {{"ohm", "13.5"},
                {"open", "no"},
                {"temp", "20"},
                {"leads", "0.2"},
                {"low", "11"},
                {"high", "16"},
                {"pin-to-case", "1000000"},
                {"wires", "2"},
                {"at-part", "13.4"},
                {"bench-feed", "yes"},
                {"current-limit", "1.2"}}},
              {"coil", {{"ohm", "3"}, {"temp", "20"}, {"low", "11"}, {"high", "16"}, {"joint", "4"}}},
              {"temperature-sensor", {{"gearbox", "ash-4"}, {"ohm", "3500"}, {"claimed", "25"}, {"allowed", "5"}}},
              {"codes", {{"codes", "P0753"}, {"gearbox", "ash-4"}}},
              {"swap-test",
               {{"element", "A"},
                {"with", "B"},
                {"same-part", "yes"},
                {"in-block", "no"},
                {"grade", "2"},
                {"other-grade", "2"},
                {"code-before", "P0751"},
                {"codes-after", "P0756"}}},
              {"service",
               {{"element", "A"},
                {"serviced-as", "single"},
                {"access", "pan_off"},
                {"calibration", "none"},
                {"price", "40"},
                {"hours", "2"},
                {"hour-rate", "30"},
                {"consumables", "60"}}}});
    CHECK(test.faults == std::vector<std::string>{});
    CHECK(test.too_wide == std::set<std::string>{});
    CHECK(test.not_asked() == std::set<std::string>{});
    CHECK(test.never_firm() ==
          std::set<std::string>{"codes", "fault", "position"});  // a code, a pattern or a place is never a part
    CHECK(test.hinged.size() == test.own_question.size());
}
