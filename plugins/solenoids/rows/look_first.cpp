#include "rows/look_first.h"

#include <array>
#include <optional>

#include "core/contract/answer_lines.h"

namespace casebound::solenoids {
namespace {

std::optional<Cause> cause_from(std::string_view text) {
    constexpr std::array<std::string_view, 7> names{
        "coil", "shared_feed", "internal_plate", "valve_or_debris", "clutch_or_seal", "controller", "fluid"};
    for (std::size_t i = 0; i < names.size(); ++i)
        if (names[i] == text) return all_causes[i];
    return std::nullopt;
}

std::vector<LookFirst> common_list() {
    const auto one = [](const char* what, const char* how, double minutes, Cause cause) {
        return LookFirst{what, how, minutes, cause, practice()};
    };
    return {
        one("battery and charging voltage", "Measure at rest and running: low voltage stores gearbox codes.", 3,
            Cause::controller),
        one("fuse", "Pull it, look through it, load it.", 2, Cause::shared_feed),
        one("earth strap", "Look and pull; measure the drop while cranking.", 5, Cause::shared_feed),
        one("water or oil in the case connector", "Unplug it and look at both halves.", 6, Cause::shared_feed),
        one("spread pins, or an insert pulled off and left in the mating half",
            "Look into both halves of the connector with a torch.", 6, Cause::shared_feed),
        one("chafed wire at the flex point", "Follow the harness from the case connector to the body.", 8,
            Cause::shared_feed),
        one("track or sensor in the internal plate", "Measure through the case connector against the wiring.", 15,
            Cause::internal_plate),
        one("fluid level", "Check it as the maker says: temperature, lever, engine, vehicle level.", 15, Cause::fluid),
        one("blocked filter", "Drop the pan: filter, debris, magnet.", 40, Cause::fluid),
        one("stuck valve or debris", "With the pan off: debris on the magnet, screens of the solenoids.", 40,
            Cause::valve_or_debris),
        one("range sensor", "Compare the lever with what the code reader shows.", 4, Cause::controller),
        one("wrong tyre size or speed signal", "Compare all four tyres; compare speed with a second source.", 4,
            Cause::controller)};
}

}  // namespace

std::vector<LookFirst> look_first(const Facts& facts) {
    std::vector<LookFirst> all;
    for (const auto& row : facts.rows("solenoids_look_first"))
        if (const auto cause = cause_from(row.text("cause")))
            all.push_back({std::string(row.text("what")), std::string(row.text("how")),
                           row.number("minutes").value_or(5), *cause, row_source(row.origin)});
    return all.empty() ? common_list() : all;
}

}  // namespace casebound::solenoids
