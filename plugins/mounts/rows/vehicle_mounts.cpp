#include "rows/vehicle_mounts.h"

#include "rows/mount_record.h"

namespace casebound::mounts {
namespace {

Mount with_connection(Position position, Kind kind, Connection connection) {
    Mount mount;
    mount.position = position;
    mount.kind = kind;
    mount.connection = connection;
    return mount;
}

std::string known_text(const VehicleView* vehicle, std::string_view attribute) {
    const auto known = known_of(vehicle, attribute);
    return known ? known->text : "";
}

void add_kinds(std::vector<Sight>& all, const VehicleView& vehicle, Position position) {
    for (const auto& value : vehicle.possible("mount_kind"))
        if (const auto kind = kind_from(value.text); kind != Kind::unknown)
            all.push_back({"mount_kind=" + value.text, "mount_kind", mount_shown(position, kind)});
}

// A hose or plug that is there makes the mount a switched one; one that is not there says nothing by itself.
void add_connection(std::vector<Sight>& all, const VehicleView& vehicle, Position position,
                    const std::string& attribute, Kind kind) {
    for (const auto& value : vehicle.possible(attribute))
        if (value.text == "yes") all.push_back({attribute + "=yes", attribute, mount_shown(position, kind)});
}

}  // namespace

Connection connection_seen(const VehicleView* vehicle) {
    const auto hose = known_text(vehicle, "mount_hose"), plug = known_text(vehicle, "mount_plug");
    if (hose == "yes") return Connection::hose;
    if (plug == "yes") return Connection::plug;
    return hose.empty() || plug.empty() ? Connection::unknown : Connection::none;
}

bool carries_engine(Position position) {
    return position == Position::left || position == Position::right || position == Position::front ||
           position == Position::rear;
}

Mount mount_seen(const VehicleView* vehicle, Position position) {
    if (!carries_engine(position)) return with_connection(position, Kind::unknown, Connection::unknown);
    const auto kind = kind_from(known_text(vehicle, "mount_kind"));
    const auto connection = connection_seen(vehicle);
    if (kind != Kind::unknown && connection == Connection::unknown) return mount_shown(position, kind);
    if (kind != Kind::unknown) return with_connection(position, kind, connection);
    if (connection == Connection::hose) return mount_shown(position, Kind::switched_vacuum);
    return with_connection(position, Kind::unknown, connection);
}

std::vector<Sight> sights(const VehicleView& vehicle, Position position) {
    std::vector<Sight> all;
    if (!carries_engine(position)) return all;
    add_kinds(all, vehicle, position);
    add_connection(all, vehicle, position, "mount_hose", Kind::switched_vacuum);
    add_connection(all, vehicle, position, "mount_plug", Kind::switched_electric);
    return all;
}

}  // namespace casebound::mounts
