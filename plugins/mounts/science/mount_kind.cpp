#include "science/mount_kind.h"

#include "core/contract/valid_range.h"

#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

namespace casebound::mounts {
namespace {

constexpr std::array<std::string_view, 7> position_words{"unknown", "left",         "right", "front",
                                                         "rear",    "transmission", "torque"};
constexpr std::array<std::string_view, 7> kind_words{
    "unknown", "solid", "hydraulic", "switched, vacuum", "switched, electric", "active", "tie-rod"};
constexpr std::array<std::string_view, 4> connection_words{"unknown", "none", "hose", "plug"};
constexpr std::array<std::string_view, 4> bracket_words{"unknown", "integral", "included", "separate"};

template <std::size_t N, typename Enum>
std::string_view word_in(const std::array<std::string_view, N>& words, Enum value) {
    return words.at(static_cast<std::size_t>(value));
}

ReplacementAnswer refused(std::string reason) { return {Replacement::no, {std::move(reason)}, {}, false}; }

ReplacementAnswer open(std::string reason, std::vector<std::string> look_first) {
    return {Replacement::cannot_tell, {std::move(reason)}, std::move(look_first), false};
}

ReplacementAnswer warned(std::string reason, bool note_required) {
    return {Replacement::bolts_up_but, {std::move(reason)}, {}, note_required};
}

std::string names(Kind wanted, Kind offered) {
    return std::string(word(offered)) + " in place of " + std::string(word(wanted));
}

std::vector<std::string> how_to_see_the_kind() {
    return {"hose or plug at the mount", "black wet streaks or a diaphragm cup: a hydraulic mount"};
}

bool is_plain(Kind kind) { return kind == Kind::solid || kind == Kind::hydraulic; }
bool is_driven(Kind kind) { return is_switched(kind) || kind == Kind::active; }

// Solid for hydraulic is decided before anyone looks for a hose: it is at
// best "bolts up, but" whichever hydraulic mount it is.
bool decided_unseen(const Mount& wanted, const Mount& offered) {
    return wanted.kind == Kind::hydraulic && wanted.connection == Connection::unknown &&
           shown_kind(offered) == Kind::solid;
}

template <typename Value> bool recorded_apart(const std::optional<Value>& a, const std::optional<Value>& b) {
    return a && b && *a != *b;
}

ReplacementAnswer same_connection(const Mount& wanted, const Mount& offered, Kind kind) {
    if (recorded_apart(wanted.pins, offered.pins)) return refused("pin counts differ");
    if (recorded_apart(wanted.hose_mm, offered.hose_mm)) return refused("hose sizes differ");
    const bool vacuum = kind == Kind::switched_vacuum;
    const bool told = vacuum ? wanted.hose_mm && offered.hose_mm : wanted.pins && offered.pins;
    if (told) return {Replacement::same_kind, {"same position, kind and connection"}, {}, false};
    return open("connection not recorded on both sides", {vacuum ? "hose size at the mount" : "pins at the plug"});
}

ReplacementAnswer between_kinds(Kind wanted, Kind offered) {
    if (wanted == Kind::tie_rod || offered == Kind::tie_rod)
        return refused(names(wanted, offered) + ": a tie-rod takes torque, not weight");
    if (is_driven(wanted))
        return warned(names(wanted, offered) + ": the control has nothing to drive; expect a fault code or shake",
                      true);
    if (is_driven(offered))
        return warned(names(wanted, offered) + ": nothing drives it; it stays in its rest state", true);
    return warned(names(wanted, offered) + ": differs in stiffness and damping", false);
}

// What is still to be seen of a mount whose kind does not show.
ReplacementAnswer kind_open(const Mount& mount, const std::string& whose, std::vector<std::string> look_first) {
    if (mount.kind == Kind::unknown) return open("the kind of " + whose + " is not known", std::move(look_first));
    if (mount.kind == Kind::hydraulic && mount.connection == Connection::unknown)
        return open(
            whose + " is hydraulic, but whether it has a hose or a plug is not known: with one it is a switched mount",
            std::move(look_first));
    return open("kind and connection of " + whose + " contradict each other: " + std::string(word(mount.kind)) +
                    ", connection " + std::string(word(mount.connection)),
                std::move(look_first));
}

ReplacementAnswer by_kind(const Mount& wanted, const Mount& offered) {
    if (decided_unseen(wanted, offered))
        return {Replacement::bolts_up_but,
                {names(wanted.kind, offered.kind) + ": differs in stiffness and damping"},
                how_to_see_the_kind(),
                true};
    const Kind old_kind = shown_kind(wanted);
    const Kind new_kind = shown_kind(offered);
    if (old_kind == Kind::unknown) return kind_open(wanted, "the mount called for", how_to_see_the_kind());
    if (new_kind == Kind::unknown) return kind_open(offered, "the mount offered", {"kind and connection in the offer"});
    if (old_kind != new_kind) return between_kinds(old_kind, new_kind);
    if (is_plain(old_kind) || old_kind == Kind::tie_rod)
        return {Replacement::same_kind, {"same position and kind"}, {}, false};
    return same_connection(wanted, offered, old_kind);
}

template <typename Value, typename Same, typename Text>
void compare_into(std::vector<BenchLine>& lines, const char* what, const std::optional<Value>& a,
                  const std::optional<Value>& b, Same same, Text text) {
    if (!a || !b) lines.push_back({what, false});
    else if (!same(*a, *b)) lines.push_back({what, true, text(*b) + " in place of " + text(*a)});
}

std::string thread_text(double mm) { return "M" + number_text(mm); }
std::string length_text(double mm) { return number_text(mm) + " mm"; }
std::string pin_text(bool pin) { return pin ? "one" : "none"; }

bool near(double a, double b, double apart_mm) { return std::abs(a - b) <= apart_mm; }

}  // namespace

std::string_view word(Position position) { return word_in(position_words, position); }
std::string_view word(Kind kind) { return word_in(kind_words, kind); }
std::string_view word(Connection connection) { return word_in(connection_words, connection); }
std::string_view word(Bracket bracket) { return word_in(bracket_words, bracket); }

bool is_switched(Kind kind) { return kind == Kind::switched_vacuum || kind == Kind::switched_electric; }

Kind shown_kind(const Mount& mount) {
    const Connection seen = mount.connection;
    const bool connected = seen == Connection::hose || seen == Connection::plug;
    switch (mount.kind) {
        case Kind::hydraulic:
            if (seen == Connection::none) return Kind::hydraulic;
            if (seen == Connection::hose) return Kind::switched_vacuum;
            return seen == Connection::plug ? Kind::switched_electric : Kind::unknown;
        case Kind::solid:
        case Kind::tie_rod: return connected ? Kind::unknown : mount.kind;
        case Kind::switched_vacuum:
            return seen == Connection::none || seen == Connection::plug ? Kind::unknown : mount.kind;
        case Kind::switched_electric:
        case Kind::active: return seen == Connection::none || seen == Connection::hose ? Kind::unknown : mount.kind;
        case Kind::unknown: break;
    }
    return Kind::unknown;
}

ReplacementAnswer may_replace(const Mount& wanted, const Mount& offered) {
    if (wanted.position == Position::unknown || offered.position == Position::unknown)
        return open("position not known on one side", {"photograph with an arrow to the front of the vehicle"});
    if (wanted.position != offered.position)
        return refused(std::string(word(offered.position)) + " is not " + std::string(word(wanted.position)) +
                       ", even where they look alike");
    return by_kind(wanted, offered);
}

std::vector<BenchLine> bench_differences(const Mount& wanted, const Mount& offered) {
    std::vector<BenchLine> lines;
    const bool brackets_known = wanted.bracket != Bracket::unknown && offered.bracket != Bracket::unknown;
    if (!brackets_known || wanted.bracket != offered.bracket)
        lines.push_back({"bracket", brackets_known,
                         brackets_known
                             ? std::string(word(offered.bracket)) + " in place of " + std::string(word(wanted.bracket))
                             : std::string()});
    compare_into(
        lines, "stud thread", wanted.stud_thread_mm, offered.stud_thread_mm,
        [](double a, double b) { return near(a, b, 0.2); }, thread_text);
    compare_into(
        lines, "stud length", wanted.stud_length_mm, offered.stud_length_mm,
        [](double a, double b) { return near(a, b, 1.0); }, length_text);
    compare_into(
        lines, "locating pin", wanted.locating_pin, offered.locating_pin, [](bool a, bool b) { return a == b; },
        pin_text);
    return lines;
}

}  // namespace casebound::mounts
