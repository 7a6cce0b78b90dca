#include "science/left_behind.h"

#include <array>

namespace casebound::filters_seals {
namespace {

constexpr Source kPractice{Evidence::common_practice, "common practice, no source"};

constexpr bool kPart = true, kShreds = false;

constexpr std::array<LeftBehind, 13> kTable{{
    {"filter-neck-seal", "the old neck seal, or two of them", "up in the bore the filter's neck went into",
     "Look at the old neck: no seal there means that it is up the bore. Torch and mirror; it may be as dark as the "
     "case.",
     "Hook it or fold it inwards with a blunt tool of plastic or brass. Never scratch the bore.", kPart, kPractice},
    {"pan-filter", "balls, springs or a screen above the filter", "in the passages of the valve body",
     "Lower the filter slowly over a clean tray; look for an empty seat.",
     "Keep what drops in the order it came; put it back with clean grease.", kPart, kPractice},
    {"pan-gasket", "shreds of the old gasket or of sealant", "on the rail of the case, in the bolt holes",
     "Wipe the rail and look along it against the light.",
     "Plastic scraper and solvent; no wire brush, no disc: the shreds go into the gearbox.", kShreds, kPractice},
    {"pan", "the magnets, and what lies on the floor", "in the old pan, under the paste",
     "Wipe the floor and count the magnets.", "Lift them off, wipe them, set them back in the same places.", kPart,
     kPractice},
    {"pan-magnet", "the magnet", "on the floor of the old pan, under the paste", "Wipe the floor with a white cloth.",
     "Slide it off; do not drop it, it may break.", kPart, kPractice},
    {"drain-plug-washer", "the old washer", "stuck to the pan around the plug hole", "Feel the rim with a finger.",
     "Fingernail or plastic scraper; two washers on each other leak.", kPart, kPractice},
    {"level-plug-washer", "the old washer", "stuck to the case around the plug hole", "Feel the rim with a finger.",
     "Fingernail or plastic scraper; two washers on each other leak.", kPart, kPractice},
    {"selector-shaft-seal", "the garter spring of the old seal", "behind the seal, on the shaft or in the case",
     "Look at the old lip: an empty groove means that the spring is inside.",
     "Thin hook or magnet, before the new seal goes in.", kPart, kPractice},
    {"output-shaft-seal", "the garter spring of the old seal", "behind the seal, on the shaft",
     "Look at the old lip: an empty groove means that the spring is inside.",
     "Thin hook or magnet, before the new seal goes in.", kPart, kPractice},
    {"case-connector-seal", "the sleeve or its O-ring", "in the bore of the case",
     "Pull the connector and look for a ring in the hole.",
     "Turn and pull with the fingers; plastic pick for the ring.", kPart, kPractice},
    {"cooler-line-seal", "the old O-ring", "in the port of the case or cooler",
     "Look at the pipe's end: no ring there means that it is in the port.",
     "Plastic pick; no screwdriver, the seat is soft.", kPart, kPractice},
    {"cooler-line-clip", "the old clip", "in the groove of the fitting", "Look into the groove all round.",
     "Lift one end with a pick, hold a rag over it: it jumps.", kPart, kPractice},
    {"dipstick-tube-seal", "the old O-ring", "in the case where the tube went in", "Look into the hole with a torch.",
     "Blunt pick; stuff a rag below it first so that nothing falls in.", kPart, kPractice},
}};

}  // namespace

std::span<const LeftBehind> left_behind_table() { return kTable; }

const LeftBehind* left_behind(std::string_view role) {
    for (const LeftBehind& row : kTable)
        if (row.role == role) return &row;
    return nullptr;
}

}  // namespace casebound::filters_seals
