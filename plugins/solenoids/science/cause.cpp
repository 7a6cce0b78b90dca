#include "science/cause.h"

#include <cstddef>

namespace casebound::solenoids {
namespace {

constexpr std::array<std::string_view, 7> words{
    "coil",           "shared feed or connector", "internal harness or plate", "valve or debris",
    "clutch or seal", "controller or sensor",     "fluid level or condition"};

}  // namespace

std::string_view word(Cause cause) { return words.at(static_cast<std::size_t>(cause)); }

}  // namespace casebound::solenoids
