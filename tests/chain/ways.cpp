// The oracle's stand-ins, items and quantities: what is right on one configuration by way of something else.
#include <algorithm>

#include "facts.h"

namespace chain {

// A statement that counts, holds, asks for nothing to be done, and that nobody excludes.
bool Facts::passable(const StandIn& one, int offered, int wanted, int c) const {
    const bool plain = one.relation == Relation::supersedes || one.relation == Relation::stands_in_if;
    if (!plain || one.withdrawn || one.requirement || (reading_.without_memory && from_memory(one.source)) ||
        !holds(one.when, c) || excluded(one.offered, one.wanted))
        return false;
    return one.offered == offered || (!excluded(one.offered, wanted) && !excluded(one.offered, offered));
}

std::optional<std::set<int>> Facts::way_together(int place, int offered, int wanted, int c) const {
    if (excluded(offered, wanted)) return std::nullopt;
    std::optional<std::set<int>> found;
    std::vector<const StandIn*> way;
    std::set<int> on_the_way{wanted};
    const std::function<void(int)> from = [&](int at) {
        for (const auto& one : world_.stand_ins) {
            if (one.wanted != at || !passable(one, offered, wanted, c)) continue;
            if (on_the_way.contains(one.offered) || (one.offered != offered && closed(place, one.offered, c))) continue;
            way.push_back(&one);
            on_the_way.insert(one.offered);
            if (one.offered != offered) {
                from(one.offered);
            } else {
                if (!found) found.emplace();
                for (const auto* step : way)
                    if (step->also >= 0) found->insert(step->also);
            }
            on_the_way.erase(one.offered);
            way.pop_back();
        }
    };
    from(wanted);
    return found;
}

bool Facts::way(int offered, int wanted, int c, const std::function<bool(int)>& closed) const {
    if (excluded(offered, wanted)) return false;
    std::set<int> on_the_way{wanted};
    const std::function<bool(int)> from = [&](int at) {
        for (const auto& one : world_.stand_ins) {
            if (one.wanted != at || one.also >= 0 || !passable(one, offered, wanted, c)) continue;
            if (one.offered == offered) return true;
            if (closed(one.offered)) continue;
            if (!on_the_way.insert(one.offered).second) continue;
            if (from(one.offered)) return true;
            on_the_way.erase(one.offered);
        }
        return false;
    };
    return from(wanted);
}

bool Facts::closed(int place, int group, int c) const { return recorded(place, group, c).out; }

bool Facts::stands_in(int place, int offered, int wanted, int c) const {
    if (offered == wanted || place == valve_place || none_needed(place, c)) return false;
    if (!recorded(place, wanted, c).right()) return false;
    const auto& own = recorded(place, offered, c);
    if (own.out || own.disputed || own.waits) return false;
    const bool objected = std::any_of(world_.opinions.begin(), world_.opinions.end(), [&](const Opinion& one) {
        return one.offered == offered && one.wanted == wanted;
    });
    return !objected && way(offered, wanted, c, [&](int group) { return closed(place, group, c); });
}

bool Facts::right(int place, int group, int c) const {
    if (recorded(place, group, c).right()) return true;
    for (int wanted = 0; wanted < static_cast<int>(world_.groups.size()); ++wanted)
        if (stands_in(place, group, wanted, c)) return true;
    return false;
}

// A part is what all of its groups are.
bool Facts::barred(int place, int item, int group, int c) const {
    return std::any_of(world_.members.begin(), world_.members.end(), [&](const Member& one) {
        const auto& other = recorded(place, one.group, c);
        return one.item == item && one.group != group && (other.out || other.denied);
    });
}

bool Facts::item_right(int place, int item, int c) const {
    if (world_.items[static_cast<std::size_t>(item)].withdrawn) return false;
    return std::any_of(world_.members.begin(), world_.members.end(), [&](const Member& one) {
        const bool counts = one.basis != Basis::claimed && !(reading_.without_memory && from_memory(one.source));
        return one.item == item && counts && right(place, one.group, c) && !barred(place, item, one.group, c);
    });
}

double Facts::quantity(int place, int c, const std::function<bool(int)>& asked) const {
    double most = 0;
    for (const auto& one : world_.statements) {
        if (one.place != place || !says_yes(one, c) || !recorded(place, one.group, c).right()) continue;
        bool wanted = asked(one.group);
        for (int g = 0; !wanted && g < static_cast<int>(world_.groups.size()); ++g)
            wanted = asked(g) && stands_in(place, g, one.group, c);
        if (wanted) most = std::max(most, one.quantity > 0 || place == oil_fill ? one.quantity : 1);
    }
    return most;
}

bool Facts::amount_open(int place, int c, const std::function<bool(int)>& asked) const {
    const auto counts = [&](const Statement& one) {
        return one.place == place && says_yes(one, c) && recorded(place, one.group, c).right();
    };
    return std::any_of(world_.statements.begin(), world_.statements.end(), [&](const Statement& one) {
        if (place != oil_fill || one.quantity > 0 || !counts(one)) return false;
        bool wanted = asked(one.group);
        for (int g = 0; !wanted && g < static_cast<int>(world_.groups.size()); ++g)
            wanted = asked(g) && stands_in(place, g, one.group, c);
        return wanted && std::none_of(world_.statements.begin(), world_.statements.end(), [&](const Statement& other) {
                   return other.group == one.group && other.quantity > 0 && counts(other);
               });
    });
}

}  // namespace chain
