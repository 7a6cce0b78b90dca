// The oracle's counting: pieces that are here, pieces that can be bought, and the cheapest way to serve every place,
// by trying every count. Part of the oracle; its rules stand in oracle.h.
#pragma once

#include <functional>
#include <optional>

#include "world.h"

namespace chain {

inline constexpr int counted_places = oil_fill;  // those before it are served by pieces

struct Demand {
    std::array<int, counted_places> pieces{};
    double litres{};
};

// Some pieces that may each serve one of these places.
struct Supply {
    unsigned may_serve{};  // bit of each counted place
    int pieces{};
};

// Which places a thing may serve: of a loose item, or of a group in a kit.
struct Rights {
    std::function<bool(int place, int item)> item;
    std::function<bool(int place, int kit, int group)> content, content_here;  // of one to be had; on order or here
    std::function<bool(int place, int group)> may_be_in;                       // on any of what may be true
    std::function<bool(int item, int group)> filling;                          // may the oil be of that group's filling
};

bool covers(const std::vector<Supply>& supplies, const Demand& demand);

// What one pack of the item holds.
std::vector<Supply> contents_of(const World& world, const Rights& rights, int item, int packs);

// What is on order or here, and on the own shelf and free.
std::vector<Supply> at_hand(const World& world, const Rights& rights);
double litres_at_hand(const World& world, const Rights& rights, int group);

// Fitted in the open job, of what is right there.
int fitted(const World& world, const Rights& rights, int place);

// In cents; nothing when no order serves everything.
std::optional<long> cheapest(const World& world, const Rights& rights, const Demand& demand);

}  // namespace chain
