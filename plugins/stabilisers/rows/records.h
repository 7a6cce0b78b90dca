#pragma once
// Links and bushes as packs record them, and the link that the vehicle shows. A cell that is not stated stays unknown.

#include <optional>
#include <string>
#include <string_view>

#include "core/contract/plugin.h"
#include "science/link.h"

namespace casebound::stabilisers {

Link link_of_row(const Row& row);

// "link-front-left"; unknown for a role that is no link.
Place place_of_link(std::string_view role);
// Of "bar-bushes-front", "link-nuts-rear" and the like, and of every link: the axle at its end or in it.
Axle axle_of_role(std::string_view role);
std::string role_of_link(Axle axle, Side side);
constexpr Side other_side(Side side) {
    return side == Side::left ? Side::right : side == Side::right ? Side::left : Side::unknown;
}
std::string axle_said(Axle axle);  // "front"

// What is known of the link at an axle, and the weakest that it rests on.
struct Seen {
    Link part;
    std::optional<SourceNote> source{};
};
Seen link_seen(const VehicleView* vehicle, Place place);

}  // namespace casebound::stabilisers
