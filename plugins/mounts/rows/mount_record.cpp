#include "rows/mount_record.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace casebound::mounts {
namespace {

template <class Value> struct Word {
    std::string_view text;
    Value value;
};

constexpr std::array<Word<Position>, 6> positions{{{"left", Position::left},
                                                   {"right", Position::right},
                                                   {"front", Position::front},
                                                   {"rear", Position::rear},
                                                   {"transmission", Position::transmission},
                                                   {"torque", Position::torque}}};
constexpr std::array<Word<Position>, 6> roles{{{"engine-mount-left", Position::left},
                                               {"engine-mount-right", Position::right},
                                               {"engine-mount-front", Position::front},
                                               {"engine-mount-rear", Position::rear},
                                               {"gearbox-mount", Position::transmission},
                                               {"torque-mount", Position::torque}}};
constexpr std::array<Word<Kind>, 6> kinds{{{"solid", Kind::solid},
                                           {"hydraulic", Kind::hydraulic},
                                           {"switched_vacuum", Kind::switched_vacuum},
                                           {"switched_electric", Kind::switched_electric},
                                           {"active", Kind::active},
                                           {"tie_rod", Kind::tie_rod}}};
constexpr std::array<Word<Connection>, 3> connections{
    {{"none", Connection::none}, {"hose", Connection::hose}, {"plug", Connection::plug}}};
constexpr std::array<Word<Bracket>, 3> brackets{
    {{"integral", Bracket::integral}, {"included", Bracket::included}, {"separate", Bracket::separate}}};

template <class Value, std::size_t N> Value value_of(const std::array<Word<Value>, N>& words, std::string_view text) {
    const auto found = std::find_if(words.begin(), words.end(), [text](const auto& word) { return word.text == text; });
    return found == words.end() ? Value{} : found->value;
}

template <class Value, std::size_t N> std::string text_of(const std::array<Word<Value>, N>& words, Value value) {
    const auto found = std::find_if(words.begin(), words.end(),
                                    [value](const auto& word) { return word.value == value; });
    return found == words.end() ? "unknown" : std::string(found->text);
}

template <class Value, std::size_t N> std::vector<std::string> texts(const std::array<Word<Value>, N>& words) {
    std::vector<std::string> all;
    for (const auto& word : words) all.emplace_back(word.text);
    return all;
}

// A source that calls a mount hydraulic and names no connection means one without: switched ones have their own word.
Connection connection_of(const Row& row, Kind kind) {
    const auto stated = connection_from(row.text("connection"));
    return stated == Connection::unknown && kind == Kind::hydraulic ? Connection::none : stated;
}

std::optional<int> whole(std::optional<double> number) {
    return number ? std::optional(static_cast<int>(std::lround(*number))) : std::nullopt;
}

}  // namespace

Position position_from(std::string_view text) { return value_of(positions, text); }
Kind kind_from(std::string_view text) { return value_of(kinds, text); }
Connection connection_from(std::string_view text) { return value_of(connections, text); }
Bracket bracket_from(std::string_view text) { return value_of(brackets, text); }
std::string position_key(Position position) { return text_of(positions, position); }
std::string kind_key(Kind kind) { return text_of(kinds, kind); }
std::vector<std::string> position_choices() { return texts(positions); }
std::vector<std::string> kind_choices() { return texts(kinds); }
Position position_of_role(std::string_view role) { return value_of(roles, role); }
std::string role_of_position(Position position) { return text_of(roles, position); }

MountRecord mount_of_row(const Row& row) {
    MountRecord record;
    record.origin = row.origin;
    Mount& mount = record.mount;
    mount.position = position_from(row.text("position"));
    mount.kind = kind_from(row.text("kind"));
    mount.connection = connection_of(row, mount.kind);
    mount.hose_mm = row.number("hose_mm");
    mount.pins = whole(row.number("pins"));
    mount.bracket = bracket_from(row.text("bracket"));
    mount.stud_thread_mm = row.number("stud_thread_mm");
    mount.stud_length_mm = row.number("stud_length_mm");
    mount.locating_pin = row.stated("locating_pin") ? std::optional(row.yes("locating_pin")) : std::nullopt;
    record.natural_hz = row.number("natural_hz");
    record.damping_ratio = row.number("damping_ratio");
    return record;
}

std::optional<MountRecord> mount_of_group(const Facts& facts, std::string_view group_or_item) {
    const auto* row = row_of_group(facts, "mounts_mounts", group_or_item);
    return row ? std::optional(mount_of_row(*row)) : std::nullopt;
}

Mount mount_shown(Position position, Kind kind) {
    Mount mount;
    mount.position = position;
    mount.kind = kind;
    if (kind == Kind::switched_vacuum) mount.connection = Connection::hose;
    else if (kind == Kind::switched_electric || kind == Kind::active) mount.connection = Connection::plug;
    else if (kind != Kind::unknown) mount.connection = Connection::none;
    return mount;
}

}  // namespace casebound::mounts
