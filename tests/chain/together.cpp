#include "together.h"

#include <algorithm>

namespace chain {

namespace {

template <class Holds> bool on_all(const std::vector<int>& configurations, const Holds& holds) {
    return std::all_of(configurations.begin(), configurations.end(), holds);
}

class PairSearch {
public:
    PairSearch(const World& world, const Facts& facts, const std::vector<int>& on, const std::vector<int>& may)
        : world_(world), facts_(facts), on_(on), may_(may) {}

    std::optional<Together> of(int place, int group) const {
        std::set<int> with;
        for (const int c : may_) with.merge(needs(place, group, c));
        const auto needs_all = [&](int c) { return !facts_.right(place, group, c) && needs(place, group, c) == with; };
        if (with.empty() || !on_all(on_, needs_all)) return std::nullopt;
        if (!has_part(place, group)) return std::nullopt;
        Together found{place, group, {}};
        for (const int other : with) {
            const int there = place_of(other);
            if (there < 0 || there == place || found.others.contains(there) || !goes_in(there, other))
                return std::nullopt;
            found.others[there] = {other, pieces(there, other)};
        }
        return found;
    }

private:
    int groups() const { return static_cast<int>(world_.groups.size()); }

    // What it needs beside it there; nothing when it does not stand in.
    std::optional<std::set<int>> stands_in(int place, int offered, int wanted, int c) const {
        if (offered == wanted || facts_.none_needed(place, c) || !facts_.recorded(place, wanted, c).right())
            return std::nullopt;
        const auto& own = facts_.recorded(place, offered, c);
        const bool objected = std::any_of(world_.opinions.begin(), world_.opinions.end(), [&](const Opinion& one) {
            return one.offered == offered && one.wanted == wanted;
        });
        if (own.out || own.disputed || own.waits || objected) return std::nullopt;
        return facts_.way_together(place, offered, wanted, c);
    }
    std::set<int> needs(int place, int group, int c) const {
        std::set<int> with;
        for (int wanted = 0; wanted < groups(); ++wanted)
            if (auto way = stands_in(place, group, wanted, c)) with.merge(*way);
        return with;
    }
    bool has_part(int place, int group) const {
        for (int i = 0; i < static_cast<int>(world_.items.size()); ++i)
            if (part_of_group(world_, facts_, place, i, group, may_)) return true;
        return false;
    }

    // The one place that somebody records it for, else the only place for a thing of its kind.
    int place_of(int group) const {
        std::set<int> known;
        for (const auto& one : world_.statements)
            if (one.group == group) known.insert(one.place);
        const auto part = world_.groups[static_cast<std::size_t>(group)].part;
        if (known.empty())
            for (int place = 0; place < places; ++place)
                if (part_of(place) == part) known.insert(place);
        return known.size() == 1 && *known.begin() != oil_fill ? *known.begin() : -1;
    }
    // Nobody speaks against it.
    bool goes_in(int place, int group) const {
        const bool clear = on_all(on_, [&](int c) {
            const auto& own = facts_.recorded(place, group, c);
            const bool denied = own.recorded && own.denied;
            return !own.out && !own.disputed && !own.waits && !own.vetoed && !denied && !facts_.none_needed(place, c) &&
                   (place != valve_place || own.right());
        });
        return clear && has_part(place, group);
    }
    int pieces(int place, int group) const {
        double most = 1;
        for (const int c : may_)
            most = std::max(most, facts_.quantity(place, c, [&](int one) { return one == group; }));
        return static_cast<int>(most + 0.999999);
    }

    const World& world_;
    const Facts& facts_;
    const std::vector<int>&on_, &may_;
};

}  // namespace

std::vector<Choice> choices(const std::vector<Together>& ways) {
    std::vector<Choice> all{{}};
    for (const auto& way : ways) {
        auto puts = way.others;
        puts[way.place] = {way.group, 0};
        for (std::size_t i = 0, before = all.size(); i < before; ++i) {
            Choice more = all[i];
            bool agree = true;
            for (const auto& [place, other] : puts) {
                auto& known = more.try_emplace(place, other).first->second;
                agree = agree && known.group == other.group;
                known.pieces = std::max(known.pieces, other.pieces);
            }
            if (agree) all.push_back(std::move(more));
        }
    }
    return all;
}

bool part_of_group(const World& world, const Facts& facts, int place, int item, int group, const std::vector<int>& on) {
    return !world.items[static_cast<std::size_t>(item)].withdrawn &&
           std::any_of(world.members.begin(), world.members.end(),
                       [&](const Member& one) {
                           return one.item == item && one.group == group && one.basis != Basis::claimed;
                       }) &&
           on_all(on, [&](int c) { return !facts.barred(place, item, group, c); });
}

std::vector<Together> together(const World& world, const Facts& facts, int place, const std::vector<int>& on,
                               const std::vector<int>& may_be_true) {
    std::vector<Together> found;
    if (place == oil_fill || place == valve_place) return found;
    const PairSearch search(world, facts, on, may_be_true);
    for (int g = 0; g < static_cast<int>(world.groups.size()); ++g)
        if (auto one = search.of(place, g)) found.push_back(std::move(*one));
    return found;
}

}  // namespace chain
