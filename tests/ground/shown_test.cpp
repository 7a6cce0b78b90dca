// Values as a person wants to read them: units as set, with what is recorded beside, and one way to write each unit.
#include <catch2/catch.hpp>

#include "core/ground/shown.h"

using namespace casebound;

namespace {

struct AsRecorded {
    ~AsRecorded() {
        for (const auto& unit : shown_units()) show_in(unit.setting, "");
        show_keys(false);
    }
};

}  // namespace

TEST_CASE("until another unit is set, values are shown as recorded, each unit written one way") {
    CHECK(shown_quantity(41, "mm") == "41 mm");
    CHECK(shown_quantity(2, "each") == "2");
    CHECK(shown_span(4.3, 5.2, "L") == "4.3 to 5.2 L");
    CHECK(shown_span(5.2, 5.2, "L") == "5.2 L");
    CHECK(shown_measure(36.6, "N m", 1) == "36.6 N·m");
    CHECK(shown_measure(20, "degC", 0) == "20 °C");
    CHECK(shown_measure(60, "deg", 0) == "60°");
    CHECK(shown_value("41mm") == "41 mm");
    CHECK(shown_value("2007-03") == "2007-03");
    CHECK(shown_value("hat_in_bore") == "hat_in_bore");
}

TEST_CASE("what is converted has what is recorded beside it") {
    const AsRecorded after;
    show_in("show_length", "inch");
    show_in("show_volume", "quart");
    show_in("show_torque", "lb-ft");
    CHECK(shown_quantity(41, "mm") == "1.61 in (41 mm)");  // 41 / 25.4
    CHECK(shown_value("41mm") == "1.61 in (41 mm)");
    CHECK(shown_span(4.3, 5.2, "L") == "4.5 to 5.5 US qt (4.3 to 5.2 L)");  // 0.946353 L
    CHECK(shown_measure(35, "N·m", 0) == "26 lb ft (35 N·m)");              // 1.355818 N m
    CHECK(shown_quantity(20, "degC") == "20 °C");
    show_in("show_length", "mm");
    CHECK(shown_quantity(41, "mm") == "41 mm");
}

TEST_CASE("a key stands beside its title where it is asked for, once") {
    const AsRecorded after;
    CHECK(named("pan filter", "pan-filter") == "pan filter");
    show_keys(true);
    CHECK(named("pan filter", "pan-filter") == "pan filter [pan-filter]");
    CHECK(named("QF-4", "QF-4") == "QF-4");
}
