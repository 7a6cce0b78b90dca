// One place, and an answer that hangs on one word alone: what the seller said, one source's no, a source from memory.
// Nothing else in the world says the same, so that a judge who drops the word is seen.
#include "tests/chain/plain_world.h"
#include "tests/chain/themes.h"

namespace chain {

namespace {

constexpr int maker_a = 1, maker_b = 2, practice = 5, memory_a = 6, memory_b = 7;

class OneWord : private PlainWorld {
public:
    explicit OneWord(std::uint64_t seed) : PlainWorld(seed) {}

    World world() {
        make_line(2);
        static const std::vector<int> all{ring_left, cover_place};
        place_ = dice_.any(all);
        need(place_);
        here_ = below(static_cast<std::size_t>(frames_));
        switch (dice_.below(8)) {
            case 0: ruled_out_by_hearsay(); break;
            case 1: stands_in_by_hearsay(); break;
            case 2: disputed_but_for_hearsay(); break;
            case 3: stands_in_under_a_doubt(); break;
            case 4: no_place_from_memory(); break;
            case 5: a_word_against_the_other(); break;
            case 6: two_dates_for_one_change(); break;
            case 7: holds_on_one_of_two_told(); break;
        }
        return std::move(world_);
    }

private:
    int sold() {
        const int group = add_group(part_of(place_));
        add_item(group, true, 30);
        return group;
    }
    When on_this() const { return {{frame, {here_}}}; }
    When on_others() const {
        std::set<int> others;
        for (int one = 0; one < frames_; ++one)
            if (one != here_) others.insert(one);
        return {{frame, others}};
    }
    void tell(int frame_told, Known known) { world_.told.push_back({frame, {frame_told}, 0, known}); }
    void tell_mostly_hearsay() {
        static const std::vector<Known> often{Known::said, Known::said, Known::assumed, Known::measured};
        tell(here_, dice_.any(often));
    }

    // It fits, whatever frame; but for a no on the frames that this is said not to be.
    void ruled_out_by_hearsay() {
        const int group = sold();
        say(place_, Says::fits, group, {}, maker_a);
        say(place_, Says::does_not_fit, group, on_others(), dice_.chance(50) ? maker_a : maker_b);
        tell_mostly_hearsay();
    }
    // What fits everywhere is not sold; what is sold stands in for it on the frame that this is said to be.
    void stands_in_by_hearsay() {
        const int wanted = add_group(part_of(place_)), offered = sold();
        say(place_, Says::fits, wanted, {}, maker_a);
        world_.stand_ins.push_back({offered, wanted, Relation::stands_in_if, on_this(), false, -1, false, maker_a});
        tell_mostly_hearsay();
    }
    // Two makers disagree on the frames that this is said not to be: on how many, or on which.
    void disputed_but_for_hearsay() {
        const int group = sold();
        if (dice_.chance(50)) {
            say(place_, Says::fits, group, {}, maker_a, 1);
            say(place_, Says::fits, group, on_others(), maker_b, 3);
        } else {
            const int other = sold();
            say(place_, Says::fits, group, {}, maker_a);
            say(place_, Says::fits, other, on_others(), maker_b);
            world_.stand_ins.push_back({other, group, Relation::excludes, {}, false, -1, false, maker_a});
        }
        tell_mostly_hearsay();
    }
    // Measured, and then denied by the seller: the one right part here is not right there, its successor is in both.
    void stands_in_under_a_doubt() {
        const int first = dice_.chance(50) ? sold() : add_group(part_of(place_)), rest = sold();
        say(place_, Says::fits, first, on_this(), maker_a);
        say(place_, Says::fits, rest, on_others(), maker_a);
        world_.stand_ins.push_back({rest, first, Relation::supersedes, {}, false, -1, false, maker_a});
        tell(here_, Known::measured);
        for (int one = 0; one < frames_; ++one)
            if (one != here_) return tell(one, Known::said);
    }
    // Memory says that there is no such place, where a maker fills it: with what another maker denies.
    void no_place_from_memory() {
        const int firm = sold(), remembered = sold();
        say(place_, Says::fits, firm, dice_.chance(50) ? When{} : on_this(), maker_a);
        if (dice_.chance(70)) say(place_, Says::does_not_fit, firm, {}, maker_b);
        say(place_, Says::fits, remembered, {}, memory_a);
        say(place_, Says::none_needed, -1, dice_.chance(50) ? When{} : on_this(), memory_b);
        if (dice_.chance(50)) tell(here_, Known::measured);
    }
    // Two that may not stand side by side, and what is common practice alone rules one of them out.
    void a_word_against_the_other() {
        const int one = sold(), other = sold();
        say(place_, Says::fits, one, {}, maker_a);
        say(place_, Says::fits, other, {}, maker_b);
        say(place_, Says::does_not_fit, other, {}, practice);
        world_.stand_ins.push_back({other, one, Relation::excludes, {}, false, -1, false, maker_a});
    }
    // Two makers know one change, and date it differently.
    void two_dates_for_one_change() {
        const int before = sold(), after = sold();
        for (const int maker : {maker_a, maker_b}) {
            std::set<int> early, late;
            const int first_late = 1 + below(static_cast<std::size_t>(frames_ - 1));
            for (int one = 0; one < frames_; ++one) (one < first_late ? early : late).insert(one);
            say(place_, Says::fits, before, {{frame, early}}, maker);
            say(place_, Says::fits, after, {{frame, late}}, maker);
        }
        if (dice_.chance(70)) tell(here_, known());
    }
    // It stands in where the colour is red, and the colour that was told is one of two.
    void holds_on_one_of_two_told() {
        const int wanted = dice_.chance(50) ? sold() : add_group(part_of(place_)), offered = sold();
        say(place_, Says::fits, wanted, {}, maker_a);
        world_.stand_ins.push_back(
            {offered, wanted, Relation::stands_in_if, {{colour, {0}}}, false, -1, false, maker_a});
        world_.told.push_back({colour, dice_.chance(70) ? std::set<int>{0, 1} : std::set<int>{below(2)}, 0, known()});
        world_.swaps.emplace_back(wanted, offered);
    }

    int place_ = ring_left, here_ = 0;
};

}  // namespace

World resting_on_one_word(std::uint64_t seed) { return OneWord(seed).world(); }

}  // namespace chain
