#include "rows/records.h"

#include "rows/vocabulary.h"

namespace casebound::stabilisers {
namespace {

void take_number(Seen& seen, const VehicleView* vehicle, const char* attribute, std::optional<double>& field) {
    const auto known = known_of(vehicle, at_axle(attribute, seen.part.place.axle));
    if (!known || !known->number) return;
    field = known->number;
    seen.source = seen.source ? weaker(*seen.source, known->source) : known->source;
}

}  // namespace

Link link_of_row(const Row& row) {
    return {{value_of<Axle>(row.text("axle"), axle_words), value_of<Side>(row.text("side"), side_words)},
            value_of<Ends>(row.text("ends"), ends_words),
            row.number("thread_mm"),
            row.number("pitch_mm"),
            row.number("length_mm"),
            row.number("angle_deg")};
}

Axle axle_of_role(std::string_view role) {
    for (const auto& part : split_at(role, '-'))
        if (const auto axle = value_of<Axle>(part, axle_words); axle != Axle::unknown) return axle;
    return Axle::unknown;
}

Place place_of_link(std::string_view role) {
    const auto parts = split_at(role, '-');
    if (parts.size() != 3 || parts[0] != "link") return {};
    return {value_of<Axle>(parts[1], axle_words), value_of<Side>(parts[2], side_words)};
}

std::string axle_said(Axle axle) { return std::string(axle_words[static_cast<std::size_t>(axle)]); }

std::string role_of_link(Axle axle, Side side) {
    return "link-" + axle_said(axle) + "-" + std::string(side_words[static_cast<std::size_t>(side)]);
}

Seen link_seen(const VehicleView* vehicle, Place place) {
    Seen seen{{place}};
    if (place.axle == Axle::unknown) return seen;
    if (const auto ends = known_of(vehicle, at_axle("link_ends", place.axle))) {
        seen.part.ends = value_of<Ends>(ends->text, ends_words);
        seen.source = ends->source;
    }
    take_number(seen, vehicle, "link_thread", seen.part.thread_mm);
    take_number(seen, vehicle, "link_pitch", seen.part.pitch_mm);
    take_number(seen, vehicle, "link_length", seen.part.length_mm);
    take_number(seen, vehicle, "link_angle", seen.part.angle_deg);
    return seen;
}

}  // namespace casebound::stabilisers
