#pragma once
// A stabiliser link by what can be measured in the hand, and one against another. Never says that a link fits a
// vehicle, and takes nothing that is not stated for granted.

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/contract/difference.h"

namespace casebound::stabilisers {

enum class Axle : std::uint8_t { unknown, front, rear };
enum class Side : std::uint8_t { unknown, left, right, either };
enum class Ends : std::uint8_t { unknown, two_studs, stud_and_eye, two_eyes, long_bolt };

// As packs and the command line write them, in the order of the values; the first is none of them.
inline constexpr std::array<std::string_view, 3> axle_words{"", "front", "rear"};
inline constexpr std::array<std::string_view, 4> side_words{"", "left", "right", "either"};
inline constexpr std::array<std::string_view, 5> ends_words{"", "two_studs", "stud_and_eye", "two_eyes", "long_bolt"};

std::string ends_said(Ends ends);  // "a stud and an eye"

// A place for a link: an axle and a side of it.
struct Place {
    Axle axle = Axle::unknown;
    Side side = Side::unknown;
};

struct Link {
    Place place{};
    Ends ends = Ends::unknown;
    std::optional<double> thread_mm{}, pitch_mm{}, length_mm{}, angle_deg{};
};

// How far two links may be apart and still be the same, and, for the length, from where on it is another link.
// From memory: a calliper on a dirty part. A maker's figure replaces them.
struct Apart {
    double thread_mm = 0.3, pitch_mm = 0.1, length_mm = 2, other_length_mm = 10, angle_deg = 5;
};

// Every difference and every gap, in the order in which they are looked at. Empty: alike in all of it.
std::vector<Difference> differences(const Link& wanted, const Link& offered, Apart apart = {});

}  // namespace casebound::stabilisers
