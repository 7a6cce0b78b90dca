#pragma once
// Which mount is it, and may one stand in for another as far as position and
// kind go. It never says that a mount fits: only an application does. It can
// veto, warn, or name what to look at first.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace casebound::mounts {

// Vehicle axes, seen from the driver's seat facing forward.
enum class Position { unknown, left, right, front, rear, transmission, torque };
enum class Kind {
    unknown,
    solid,
    hydraulic,
    switched_vacuum,    // hydraulic, switched by a hose
    switched_electric,  // hydraulic, switched through a plug
    active,
    tie_rod,
};
enum class Connection { unknown, none, hose, plug };
enum class Bracket { unknown, integral, included, separate };

std::string_view word(Position position);
std::string_view word(Kind kind);
std::string_view word(Connection connection);
std::string_view word(Bracket bracket);

struct Mount {
    Position position = Position::unknown;
    Kind kind = Kind::unknown;
    Connection connection = Connection::unknown;
    std::optional<double> hose_mm = {};  // outside diameter of the pipe stub
    std::optional<int> pins = {};
    Bracket bracket = Bracket::unknown;
    std::optional<double> stud_thread_mm = {};  // 8 for M8
    std::optional<double> stud_length_mm = {};
    std::optional<bool> locating_pin = {};
};

// The kind as the connection shows it: a hydraulic mount with a hose is a
// switched one. Unknown when kind and connection contradict each other, or
// when a hydraulic mount's connection has not been looked at.
Kind shown_kind(const Mount& mount);

bool is_switched(Kind kind);

enum class Replacement {
    same_kind,     // position and kind do not speak against it
    bolts_up_but,  // may bolt up, differs in function
    no,
    cannot_tell,
};

struct ReplacementAnswer {
    Replacement verdict;
    std::vector<std::string> reasons;
    std::vector<std::string> look_first;  // what to find out on the vehicle
    bool note_required = false;           // the job record must carry the reason
};

// One way: the offered mount in the place of the wanted one.
ReplacementAnswer may_replace(const Mount& wanted, const Mount& offered);

// What differs or is not known on one side, to compare at the bench before
// anything is dismantled. stud sizes agree within 0.2 mm, lengths within 1 mm
// (from memory).
struct BenchLine {
    std::string what;
    bool known;               // on both sides
    std::string values = {};  // "M12 in place of M10", when known
};
std::vector<BenchLine> bench_differences(const Mount& wanted, const Mount& offered);

}  // namespace casebound::mounts
