#include "rows/records.h"

#include <algorithm>

#include "core/contract/answer_words.h"
#include "rows/vocabulary.h"

namespace casebound::actuators {
namespace {

struct Reading {
    const VehicleView* vehicle;
    SeenThere seen;

    std::optional<Known> take(const char* what) {
        auto known = known_of(vehicle, at_place(seen.part.place, what));
        if (known) seen.source = seen.source ? weaker(*seen.source, known->source) : known->source;
        return known;
    }
    void number(const char* what, std::optional<double>& field) {
        if (const auto known = take(what)) field = known->number;
    }
    void word(const char* what, std::string& field) {
        if (const auto known = take(what)) field = known->text;
    }
};

}  // namespace

Actuator actuator_of_row(const Row& row) {
    return {{value_of<Function>(row.text("function"), function_words), value_of<Side>(row.text("side"), side_words)},
            row.number("cavities"),
            row.number("travel_deg"),
            cell(row, "shaft"),
            cell(row, "plug_code"),
            cell(row, "drive"),
            cell(row, "feedback"),
            cell(row, "turns")};
}

SeenThere actuator_seen(const VehicleView* vehicle, Place place) {
    Reading reading{vehicle, {{place}}};
    if (place.function == Function::unknown) return reading.seen;
    auto& actuator = reading.seen.part;
    reading.number("cavities", actuator.cavities);
    reading.number("travel", actuator.travel_deg);
    reading.word("shaft", actuator.shaft);
    reading.word("plug_code", actuator.plug_code);
    reading.word("drive", actuator.drive);
    reading.word("feedback", actuator.feedback);
    return std::move(reading.seen);
}

std::vector<HeldRow> rows_at(const Services& services, std::string_view table, Place place) {
    auto rows = rows_here(services, table);
    std::erase_if(rows, [&](const HeldRow& row) {
        const bool other = row->stated("function") &&
                           value_of<Function>(row->text("function"), function_words) != place.function;
        return other || (row->has("side") && value_of<Side>(row->text("side"), side_words) != place.side);
    });
    return rows;
}

std::optional<AirbagWait> airbag_wait(const Services& services, Place place) {
    std::optional<SourceNote> beside;
    for (const auto& row : rows_at(services, "actuators_ways_in", place))
        if (row->yes("beside_airbag")) beside = beside ? weaker(*beside, row_source(*row)) : row_source(*row);
    if (!beside) return std::nullopt;
    const Row* longest = nullptr;
    for (const auto& row : rows_here(services, "actuators_airbag_waits"))
        if (!longest || row->need_number("minutes") > longest->need_number("minutes")) longest = &*row;
    if (!longest)
        return AirbagWait{std::nullopt,
                          "the way in lies beside an airbag, and the maker's waiting time after the battery is off is "
                          "not recorded: find it before you begin",
                          *beside};
    const double minutes = longest->need_number("minutes");
    return AirbagWait{minutes,
                      "the way in lies beside an airbag: battery off, then wait " + quantity_text(minutes, "min") +
                          " before anything comes off",
                      weaker(*beside, row_source(*longest))};
}

}  // namespace casebound::actuators
