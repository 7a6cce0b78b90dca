#include "tests/chain/themes.h"

#include <algorithm>

#include "tests/chain/plain_world.h"

namespace chain {

namespace {

class Themed : private PlainWorld {
public:
    explicit Themed(std::uint64_t seed) : PlainWorld(seed) {}

    World world(Theme theme) {
        make_line(1);
        switch (theme) {
            case Theme::chain_of_stand_ins: make_chain(); break;
            case Theme::kit_here: make_kit_here(); break;
            case Theme::shorter_by_hearsay: make_shorter(); break;
            case Theme::part_beside: make_beside(); break;
            case Theme::open_line: make_open(); break;
            case Theme::two_fluids: make_two_fluids(); break;
            case Theme::together: make_together(); break;
            case Theme::one_word: break;  // made by itself
        }
        return std::move(world_);
    }

private:
    // wanted <- link <- (link <-) offered, where a link may be ruled out: by a statement, by the domain, by an
    // exclusion.
    void make_chain() {
        static const std::vector<int> all{ring_left, cover_place, oil_fill, valve_place};
        const int place = dice_.any(all);
        need(place);
        const int links = static_cast<int>(dice_.between(2, 4));
        for (int i = 0; i < links + 1; ++i) {
            add_group(part_of(place));
            if (i == 0 ? dice_.chance(60) : i == links ? dice_.chance(95) : dice_.chance(40))
                add_item(i, dice_.chance(i == 0 ? 50 : 90), i == 0 ? 40 : 15);
            if (i > 0) add_link(i, i - 1);
        }
        fits(place, 0);
        const int middle = 1 + below(static_cast<std::size_t>(links - 1));
        const auto how = dice_.below(100);
        if (how < 55)
            world_.statements.push_back({place, Says::does_not_fit, middle, some_frames(), 0, false, source()});
        else if (how < 70) world_.objections.push_back({middle, some_frames(), dice_.chance(70)});
        else if (how < 80) world_.stand_ins.push_back({links, 0, Relation::excludes, {}, false, -1, false, source()});
        else if (how < 90 && links > 2)
            world_.stand_ins.push_back({middle, links, Relation::excludes, {}, false, -1, false, source()});
        if (dice_.chance(50)) tell_frame(known());
        world_.swaps.emplace_back(0, links);
        if (links > 2) world_.swaps.emplace_back(1, links);
        // The last goes in only with another part, and nobody has said what is sold of that.
        if (dice_.chance(15))
            world_.stand_ins[static_cast<std::size_t>(links - 1)].also = add_group(place == cover_place ? ring : cover);
    }
    void add_link(int offered, int wanted) {
        StandIn one{offered, wanted, Relation::supersedes, {}, false, -1, false, dice_.chance(85) ? 1 : source()};
        if (dice_.chance(20)) one.relation = Relation::stands_in_if, one.when = some_frames();
        one.withdrawn = dice_.chance(4);
        world_.stand_ins.push_back(one);
    }

    // A kit with what two places need, on order, here, gone back or on the shelf.
    void make_kit_here() {
        static const std::vector<std::vector<int>> pairs{
            {ring_left, cover_place}, {ring_left, ring_right}, {cover_place, valve_place}, {ring_right, valve_place}};
        const auto job_places = dice_.any(pairs);
        std::vector<int> group_of;
        for (const int place : job_places) {
            need(place);
            const bool again = !group_of.empty() && part_of(job_places[0]) == part_of(place) && dice_.chance(60);
            group_of.push_back(again ? group_of[0] : add_group(part_of(place)));
            if (!again) add_item(group_of.back(), dice_.chance(90), 30);
            fits(place, group_of.back());
        }
        if (dice_.chance(30)) world_.statements.front().quantity = 2;  // more than the kit holds
        const int item = static_cast<int>(world_.items.size());
        world_.items.push_back({kit, 1, dice_.chance(5)});
        const bool one_group = group_of[0] == group_of[1];
        world_.kit_contents.push_back({item, group_of[0], one_group ? 2 : 1, source()});
        if (!one_group) world_.kit_contents.push_back({item, group_of[1], 1, source()});
        if (dice_.chance(70)) add_offer(item, 40);
        if (dice_.chance(25)) add_wrong_part(item, job_places[0]);
        if (dice_.chance(20)) {
            world_.shelf.push_back({item, static_cast<double>(dice_.between(1, 2)), dice_.chance(30) ? 1 : 0});
            return;
        }
        const bool came = dice_.chance(70), gone = came && dice_.chance(20);
        const auto write = [&](int place, int pieces) {
            const bool is_in = came && !gone && dice_.chance(25);
            world_.bought.push_back({item, place, pieces, came ? pieces : 0, gone ? pieces : 0, is_in ? 1 : 0});
        };
        if (one_group) write(job_places[0], 2);
        else
            for (const int place : job_places) write(place, 1);
    }

    // One thing in the kit is on record for the job and not right.
    void add_wrong_part(int kit_item, int place) {
        const int group = add_group(part_of(place));
        world_.statements.push_back({place, Says::does_not_fit, group, some_frames(), 0, false, source()});
        world_.kit_contents.push_back({kit_item, group, 1, 1});
    }

    // A place that the job has only on some frames, and a frame that somebody has said.
    void make_shorter() {
        need(cover_place);
        world_.job.push_back({ring_left, Reach::needs, true, some_frames()});
        if (dice_.chance(25)) world_.job.push_back({ring_left, Reach::look_first, false, {}});
        for (const int place : {static_cast<int>(cover_place), static_cast<int>(ring_left)}) {
            const int group = add_group(part_of(place));
            add_item(group, true, 30);
            fits(place, group);
        }
        const auto first = known();
        tell_frame(first);
        if (first <= Known::read && dice_.chance(25)) tell_frame(dice_.chance(50) ? Known::said : Known::assumed);
        // Another source wants three of the cover, perhaps only where the frame that was said is not.
        if (dice_.chance(40))
            world_.statements.push_back(
                {cover_place, Says::fits, 0, some_frames(), 3, false, dice_.chance(70) ? 2 : 3});
        if (world_.statements.back().quantity > 0) world_.statements.front().quantity = 1;
        if (frames_ > 1 && dice_.chance(35)) make_successor_of_one_frame();
        if (dice_.chance(25)) make_word_against();
        if (frames_ > 1 && dice_.chance(20)) make_taken_back();
    }
    // One source takes a valve back and names the other where a second source puts the first.
    void make_taken_back() {
        need(valve_place);
        const int back = add_group(valve), other = add_group(valve);
        add_item(back, true, 30), add_item(other, true, 30);
        const auto say = [&](Says says, int group, std::set<int> frames, int of) {
            world_.statements.push_back(
                {valve_place, says, group, frames.empty() ? When{} : When{{frame, std::move(frames)}}, 0, false, of});
        };
        say(Says::fits, back, {}, 1), say(Says::does_not_fit, back, {}, 1), say(Says::fits, other, {1}, 1);
        say(Says::fits, back, {1}, 2), say(Says::fits, other, frames_ > 2 ? std::set<int>{0, 2} : std::set<int>{0}, 2);
    }
    // A cover that may not stand beside the first: one source names it here, and another denies it.
    void make_word_against() {
        const int other = add_group(cover);
        world_.statements.push_back({cover_place, Says::fits, other, {}, 0, false, 2});
        world_.statements.push_back({cover_place, Says::does_not_fit, other, {}, 0, false, source()});
        world_.stand_ins.push_back({other, 0, Relation::excludes, {}, false, -1, false, 1});
    }
    // A place by frame, where the part of the other frames replaces that of the first.
    void make_successor_of_one_frame() {
        need(ring_right);
        const int first = add_group(ring), rest = add_group(ring);
        add_item(rest, true, 30);
        fits(ring_right, first, {{frame, {0}}});
        fits(ring_right, rest, {{frame, frames_ > 2 ? std::set<int>{1, 2} : std::set<int>{1}}});
        add_link(rest, first);
    }

    // A part that needs a new one beside it, which the job does not name, or only touches.
    void make_beside() {
        world_.job.push_back({cover_place, dice_.chance(80) ? Reach::needs : Reach::disturbs, false, {}});
        const int group = add_group(cover);
        add_item(group, true, 30);
        fits(cover_place, group, dice_.chance(80) ? When{} : some_frames());
        const int place = dice_.chance(60) ? ring_left : valve_place;
        world_.beside.push_back({group, place});
        if (dice_.chance(30)) {
            const int other = add_group(cover);
            add_item(other, dice_.chance(70), 30);
            fits(cover_place, other, some_frames());
            world_.beside.push_back({other, place});
        }
        if (dice_.chance(85)) {
            const int beside = add_group(part_of(place));
            add_item(beside, dice_.chance(85), 20);
            fits(place, beside, dice_.chance(80) ? When{} : some_frames());
        }
        if (dice_.chance(30))
            world_.job.push_back({place, dice_.chance(50) ? Reach::look_first : Reach::disturbs, false, {}});
        if (dice_.chance(40)) tell_frame(known());
        if (dice_.chance(20))
            world_.bought.push_back(
                {static_cast<int>(world_.items.size()) - 1, place, 1, dice_.chance(50) ? 1 : 0, 0, 0});
        if (world_.items.size() < 2) world_.bought.clear();
    }

    // A successor that needs a part beside it, of one candidate or of each.
    void make_together() {
        static const std::vector<std::pair<int, int>> pairs{
            {cover_place, ring_left}, {cover_place, valve_place}, {ring_left, cover_place}, {ring_right, ring_left}};
        const auto [place, other] = dice_.any(pairs);
        need(place);
        const int first = add_group(part_of(place)), second = add_group(part_of(place)),
                  both = add_group(part_of(place));
        for (const int group : {first, second})
            if (dice_.chance(75)) add_item(group, dice_.chance(80), 40);
        if (dice_.chance(95)) add_item(both, dice_.chance(92), 25);
        fits(place, first, frames_ > 1 ? When{{frame, {0}}} : When{});
        if (frames_ > 1 && dice_.chance(90))
            fits(place, second, {{frame, frames_ > 2 ? std::set<int>{1, 2} : std::set<int>{1}}});
        const int with = add_group(part_of(other));
        if (dice_.chance(93)) add_item(with, dice_.chance(92), 20);
        if (dice_.chance(75)) fits(other, with, dice_.chance(85) ? When{} : some_frames());
        if (dice_.chance(25)) world_.statements.back().quantity = 2;
        add_link(both, first), world_.stand_ins.back().also = with;
        if (dice_.chance(90)) add_link(both, second);
        if (dice_.chance(70) && world_.stand_ins.back().wanted == second) world_.stand_ins.back().also = with;
        if (dice_.chance(20)) add_link(second, first);
        if (dice_.chance(20)) make_place_beside(other);
        if (dice_.chance(12))
            world_.statements.push_back({other, Says::does_not_fit, with, some_frames(), 0, false, source()});
        if (dice_.chance(8))
            world_.statements.push_back({place, Says::does_not_fit, both, some_frames(), 0, false, source()});
        if (dice_.chance(8))
            world_.objections.push_back({dice_.chance(50) ? with : both, some_frames(), dice_.chance(60)});
        if (dice_.chance(10)) make_second_with(place, both);
        if (dice_.chance(35)) tell_frame(known());
        if (dice_.chance(25)) make_part_here(place, other);
        world_.swaps.emplace_back(first, both);
        if (dice_.chance(12)) make_two_with(dice_.chance(50));
    }
    // Two places, each with a successor that needs its own ring in one third place.
    void make_two_with(bool third_is_of_the_job) {
        World fresh;
        fresh.key = world_.key, fresh.configurations = world_.configurations, fresh.sellers = world_.sellers;
        world_ = std::move(fresh);
        if (third_is_of_the_job) need(ring_left);
        for (const int place : {static_cast<int>(cover_place), static_cast<int>(ring_right)}) {
            need(place);
            const int first = add_group(part_of(place)), later = add_group(part_of(place)), with = add_group(ring);
            if (dice_.chance(50)) add_item(first, true, 40);
            add_item(later, true, 15), add_item(with, true, 10);
            fits(place, first), fits(ring_left, with);
            add_link(later, first), world_.stand_ins.back().also = with;
        }
    }
    // The other place is one of the job, with a part of its own.
    void make_place_beside(int other) {
        need(other);
        const int own = add_group(part_of(other));
        add_item(own, true, 15);
        fits(other, own);
    }
    void make_second_with(int place, int both) {
        const int second = place == cover_place ? valve_place : cover_place;
        if (part_of(place) == cover) return;
        const int with = add_group(part_of(second));
        add_item(with, true, 10);
        fits(second, with);
        const int later = add_group(part_of(place));
        add_item(later, true, 12);
        add_link(later, both), world_.stand_ins.back().also = with;
    }
    void make_part_here(int place, int other) {
        if (world_.items.empty()) return;
        const int item = below(world_.items.size());
        const auto kind = world_.items[static_cast<std::size_t>(item)].part;
        const int at = kind == part_of(place) ? place : other;
        if (dice_.chance(40)) {
            world_.shelf.push_back({item, static_cast<double>(dice_.between(1, 2)), 0});
        } else if (at == place || world_.job.size() > 1) {
            const int came = dice_.chance(60) ? 1 : 0;
            world_.bought.push_back({item, at, 1, came, came && dice_.chance(15) ? 1 : 0, 0});
            if (came && world_.bought.back().returned == 0 && dice_.chance(40)) world_.bought.back().fitted = 1;
        }
    }

    // Two specifications are right, and of neither is much to be had: they never make up one filling.
    void make_two_fluids() {
        need(oil_fill);
        const double litres = dice_.chance(50) ? 4.5 : 9.5;
        for (int i = 0; i < 2; ++i) {
            const int group = add_group(oil);
            for (std::size_t items = dice_.between(1, 2); items > 0; --items) {
                const int item = add_item(group, true, 30);
                world_.items.back().pack = dice_.chance(60) ? 5 : 1;
                if (dice_.chance(70)) world_.offers.back().available = static_cast<int>(dice_.between(1, 6));
                if (dice_.chance(20)) world_.shelf.push_back({item, 0.5 * static_cast<double>(dice_.between(1, 8)), 0});
            }
            fits(oil_fill, group);
            world_.statements.back().quantity = litres;
        }
    }

    // Nobody has listed how the line was built: the rows speak of some frames, and there may be others.
    void make_open() {
        world_.open = true;
        static const std::vector<int> all{cover_place, ring_left, oil_fill};
        for (std::size_t i = 0, end = dice_.between(1, 2); i < end; ++i) {
            const int place = all[(i + dice_.below(2)) % all.size()];
            if (std::any_of(world_.job.begin(), world_.job.end(),
                            [&](const JobRow& row) { return row.place == place; }))
                continue;
            need(place);
            for (std::size_t groups = dice_.between(1, 2); groups > 0; --groups) {
                const int group = add_group(part_of(place));
                add_item(group, dice_.chance(90), 30);
                fits(place, group, some_frames());
            }
            if (dice_.chance(25))
                world_.statements.push_back({place, Says::does_not_fit, static_cast<int>(world_.groups.size()) - 1,
                                             some_frames(), 0, false, source()});
        }
        if (dice_.chance(60)) tell_frame(known());
    }
};

}  // namespace

World themed(Theme theme, std::uint64_t seed) {
    return theme == Theme::one_word ? resting_on_one_word(seed) : Themed(seed).world(theme);
}

}  // namespace chain
