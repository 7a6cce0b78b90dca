// What worlds of a theme are made of: a line of a few frames, groups with what is sold of them, what is said and told.
#pragma once

#include <cstdint>
#include <set>
#include <utility>
#include <vector>

#include "tests/chain/world.h"
#include "tests/dice.h"

namespace chain {

class PlainWorld {
protected:
    explicit PlainWorld(std::uint64_t seed) : dice_(seed) { world_.key = "w"; }

    int below(std::size_t count) { return static_cast<int>(dice_.below(count)); }
    int source() {
        static const std::vector<int> often{1, 1, 1, 1, 2, 3, 4, 0, 5, 6};
        return dice_.any(often);
    }

    // Of one month, depth and up to three frames.
    void make_line(std::size_t fewest_frames) {
        frames_ = static_cast<int>(dice_.between(fewest_frames, 3));
        for (int one = 0; one < frames_; ++one) world_.configurations.push_back({{one, 2, 0}, 1 + below(3), 1});
        for (std::size_t i = 0, end = dice_.between(1, 2); i < end; ++i)
            world_.sellers.push_back({dice_.chance(50) ? 100 * static_cast<long>(dice_.between(1, 9)) : 0, 0, 0});
    }
    int add_group(Part part) {
        world_.groups.push_back({part});
        return static_cast<int>(world_.groups.size()) - 1;
    }
    int add_item(int group, bool offered, long dearest) {
        const auto part = world_.groups[static_cast<std::size_t>(group)].part;
        const int item = static_cast<int>(world_.items.size());
        world_.items.push_back({part, part == oil ? 5.0 : 1.0, false});
        world_.members.push_back({group, item, Basis::same, dice_.chance(90) ? 1 : source()});
        if (offered) add_offer(item, dearest);
        return item;
    }
    void add_offer(int item, long dearest) {
        const long cents = 100 * static_cast<long>(dice_.between(3, static_cast<std::size_t>(dearest)));
        world_.offers.push_back({below(world_.sellers.size()), item, cents, 1, -1});
    }
    void say(int place, Says says, int group, When when, int source, double quantity = 0) {
        world_.statements.push_back({place, says, group, std::move(when), quantity, false, source});
    }
    void fits(int place, int group, When when = {}) {
        const int of = dice_.chance(85) ? 1 : source();
        say(place, Says::fits, group, std::move(when), of);
    }
    When some_frames() {
        if (dice_.chance(40)) return {};
        std::set<int> on;
        while (on.empty())
            for (int one = 0; one < frames_; ++one)
                if (dice_.chance(50)) on.insert(one);
        return {{frame, on}};
    }
    void tell_frame(Known known) {
        world_.told.push_back({frame, {below(static_cast<std::size_t>(frames_))}, 0, known});
    }
    Known known() {
        static const std::vector<Known> all{Known::measured, Known::read, Known::said, Known::assumed};
        return dice_.any(all);
    }
    void need(int place) {
        world_.job.push_back({place, dice_.chance(75) ? Reach::needs : Reach::consumes, false, {}});
    }

    casebound::tests::Dice dice_;
    World world_;
    int frames_ = 1;
};

}  // namespace chain
