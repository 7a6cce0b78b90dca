#include "oracle.h"

#include <algorithm>
#include <functional>

#include "counts.h"
#include "facts.h"
#include "together.h"

namespace chain {

namespace {

World without_hearsay(World world) {
    std::erase_if(world.told,
                  [](const Tell& tell) { return tell.known == Known::said || tell.known == Known::assumed; });
    return world;
}

World no_weaker_than(World world, Evidence evidence) {
    const auto weak = [&](const auto& row) {
        return sources()[static_cast<std::size_t>(row.source)].evidence > evidence;
    };
    std::erase_if(world.members, weak);
    std::erase_if(world.statements, weak);
    std::erase_if(world.stand_ins, weak);
    return world;
}

bool on_all(const std::vector<int>& configurations, const std::function<bool(int)>& holds) {
    return std::all_of(configurations.begin(), configurations.end(), holds);
}
bool on_any(const std::vector<int>& configurations, const std::function<bool(int)>& holds) {
    return std::any_of(configurations.begin(), configurations.end(), holds);
}

class Oracle {
public:
    explicit Oracle(const World& world) : world_(world), facts_(world), left_(facts_.left()), true_(left_) {
        for (const auto& doubt : facts_.doubts())
            for (const int c : doubt)
                if (std::find(true_.begin(), true_.end(), c) == true_.end()) true_.push_back(c);
        find_beside();
        rights_ = {[this](int place, int item) { return may_order_loose(place, item); },
                   [this](int place, int kit_item, int group) { return may_use_content(place, kit_item, group); },
                   [this](int place, int kit_item, int group) { return may_use_here(place, kit_item, group); },
                   [this](int place, int group) {
                       return on_any(true_, [&](int c) { return facts_.right(place, group, c); });
                   },
                   [this](int item, int group) { return fills(item, group); }};
    }

    // As if somebody had found out that it is this one.
    Oracle(const World& world, int configuration) : Oracle(world) {
        left_ = true_ = {configuration};
        find_beside();
    }

    Spoken judge() {
        Spoken spoken;
        spoken.ready = true;
        for (int place = 0; place < places; ++place) {
            if (!on_any(true_, [&](int c) { return in_job(facts_, place, c).has_value(); })) continue;
            LineSays line;
            line.verdict = verdict(place);
            line.blocks = blocks(place);
            line.needed = needed(place);
            line.firmest = weakest({place});
            line.weakest = of_all_that_speaks(place);
            for (int i = 0; i < items(); ++i)
                if (whole_item(place, i, true_)) line.items.insert(i);
            if (line.items.empty() && !alone(place, true_))
                for (const auto& way : together(world_, facts_, place, true_, true_))
                    line.together.merge(parts_of(way));
            for (int g = 0; g < groups(); ++g)
                if (whole_group(place, g, true_)) line.stand_ins.insert(g);
            spoken.ready = spoken.ready && !line.blocks;
            if (line.blocks || on_any(left_, [&](int c) { return in_job(facts_, place, c).has_value(); }))
                spoken.lines[place] = line;
        }
        spoken.right_only_if = spoken.ready && (rests_on_hearsay() || rests_on_memory());
        spoken.weakest = spoken.ready ? weakest(all_needed()) : Evidence::law;
        order(spoken);
        for (const auto& [asked, offered] : world_.swaps) swap(spoken, asked, offered);
        for (int place = 0; place < places; ++place)
            if (on_record(place)) tell_of_place(spoken, place);
        return spoken;
    }

    // By what is right there alone, or by any choice of what goes in together.
    bool serves(const std::vector<OrderLine>& order, int c) const {
        std::vector<Together> ways;
        for (int place = 0; place < places; ++place)
            for (auto& way : together(world_, facts_, place, {c}, {c})) ways.push_back(std::move(way));
        bool served = false;
        for (const auto& choice : choices(ways)) served = served || serves(order, c, choice);
        return served;
    }
    bool serves(const std::vector<OrderLine>& order, int c, const Choice& choice) const {
        const Rights alone{
            [&](int place, int item) { return facts_.item_right(place, item, c); },
            [&](int place, int, int group) { return facts_.right(place, group, c); },
            [&](int place, int, int group) { return facts_.right(place, group, c); },
            [&](int place, int group) { return facts_.right(place, group, c); },
            [&](int item, int group) { return member_of(item, group) && facts_.right(oil_fill, group, c); }};
        const std::vector<int> on{c};
        const auto here = chosen(alone, choice, on);
        Demand demand;
        for (int place = 0; place < places; ++place) {
            if (!must(facts_, place, c) || facts_.none_needed(place, c)) continue;
            double wanted = facts_.quantity(place, c, [&](int group) { return whole_group(place, group, true_); });
            if (wanted == 0) wanted = facts_.quantity(place, c, [](int) { return true; });
            if (place == oil_fill) demand.litres = wanted;
            else
                demand.pieces[static_cast<std::size_t>(place)] = static_cast<int>(wanted + 0.999999) -
                                                                 fitted(world_, here, place);
        }
        add_others(demand, choice, here);
        for (auto& pieces : demand.pieces) pieces = std::max(pieces, 0);
        auto supplies = at_hand(world_, here);
        double most_litres = 0;
        for (const auto& line : order)
            if (world_.items[static_cast<std::size_t>(line.item)].part != oil)
                for (const auto& supply : contents_of(world_, here, line.item, static_cast<int>(line.pieces)))
                    supplies.push_back(supply);
        for (int g = 0; g < groups(); ++g) {
            double litres = litres_at_hand(world_, here, g);
            for (const auto& line : order)
                if (here.filling(line.item, g))
                    litres += line.pieces * world_.items[static_cast<std::size_t>(line.item)].pack;
            most_litres = std::max(most_litres, litres);
        }
        return covers(supplies, demand) && most_litres + 1e-6 >= demand.litres;
    }

    const std::vector<int>& may_be_true() const { return true_; }

private:
    Rights chosen(const Rights& alone, const Choice& choice, const std::vector<int>& on) const {
        return {[this, &alone, &choice, &on](int place, int item) {
                    const auto taken = choice.find(place);
                    return taken == choice.end() ? alone.item(place, item)
                                                 : part_of_group(world_, facts_, place, item, taken->second.group, on);
                },
                [&alone, &choice](int place, int kit_item, int group) {
                    return !choice.contains(place) && alone.content(place, kit_item, group);
                },
                [&alone, &choice](int place, int kit_item, int group) {
                    return !choice.contains(place) && alone.content_here(place, kit_item, group);
                },
                alone.may_be_in, alone.filling};
    }
    void add_others(Demand& demand, const Choice& choice, const Rights& rights) const {
        for (const auto& [place, other] : choice) {
            auto& pieces = demand.pieces[static_cast<std::size_t>(place)];
            if (other.pieces > 0) pieces = std::max(pieces, other.pieces - fitted(world_, rights, place));
        }
    }
    std::set<std::pair<int, std::set<int>>> parts_of(const Together& way) const {
        std::set<int> with;
        for (const auto& [place, other] : way.others) with.insert(other.group);
        std::set<std::pair<int, std::set<int>>> found;
        for (int i = 0; i < items(); ++i)
            if (part_of_group(world_, facts_, way.place, i, way.group, true_)) found.emplace(i, with);
        return found;
    }
    // Together with others, if not alone.
    bool usable(const World& world, const Facts& facts, int place, int item, const std::vector<int>& on) const {
        if (on_all(on, [&](int c) { return facts.item_right(place, item, c); })) return true;
        const auto ways = together(world, facts, place, on, on);
        return std::any_of(ways.begin(), ways.end(), [&](const Together& way) {
            return part_of_group(world, facts, place, item, way.group, on);
        });
    }

    void tell_of_place(Spoken& spoken, int place) const {
        spoken.fits[place] = verdict(place);
        for (int g = 0; g < groups(); ++g)
            if (whole_group(place, g, left_)) spoken.groups_right[place].insert(g);
        for (int i = 0; i < items(); ++i) {
            if (whole_item(place, i, left_)) spoken.items_right[place].insert(i);
            for (int g = 0; g < groups(); ++g)
                if (member_of(i, g) && on_all(true_, [&](int c) {
                        return facts_.recorded(place, g, c).right() && !facts_.barred(place, i, g, c);
                    }))
                    spoken.items_recorded[place].insert(i);
        }
    }
    int items() const { return static_cast<int>(world_.items.size()); }
    int groups() const { return static_cast<int>(world_.groups.size()); }

    // How far the job reaches for the place there: what is said of the line outranks what is said of every line.
    // What a part of the job needs beside it is needed as well, however far the job itself reaches.
    std::optional<Reach> in_job(const Facts& facts, int place, int c) const {
        return beside_.contains(place) ? Reach::needs : by_rows(facts, place, c);
    }
    std::optional<Reach> by_rows(const Facts& facts, int place, int c) const {
        std::optional<Reach> general, of_line;
        for (const auto& row : world_.job) {
            if (row.place != place || !facts.holds(row.when, c)) continue;
            auto& reach = row.of_line ? of_line : general;
            reach = reach ? std::min(*reach, row.reach) : row.reach;
        }
        auto reach = of_line ? of_line : general;
        if (reach == Reach::disturbs && single_use(facts, place, c)) reach = Reach::consumes;
        return reach;
    }
    // What everything that may go into a place of the job needs beside it; and what that needs.
    void find_beside() {
        beside_.clear();
        for (std::size_t before = 1; before != beside_.size();) {
            before = beside_.size();
            for (int place = 0; place < places; ++place)
                for (int other = 0; other < places; ++other)
                    if (other != place && goes_in(place) && all_need_beside(place, other)) beside_.insert(other);
            if (beside_.empty()) return;
        }
    }
    bool goes_in(int place) const {
        return !none(place, left_) && on_any(left_, [&](int c) {
            return in_job(facts_, place, c).value_or(Reach::look_first) <= Reach::disturbs;
        });
    }
    bool all_need_beside(int place, int other) const {
        bool any = false;
        for (int g = 0; g < groups(); ++g) {
            if (!whole_group(place, g, true_)) continue;
            any = true;
            if (std::none_of(world_.beside.begin(), world_.beside.end(),
                             [&](const Beside& one) { return one.group == g && one.place == other; }))
                return false;
        }
        return any;
    }
    bool on_record(int place) const {
        return std::any_of(world_.statements.begin(), world_.statements.end(),
                           [&](const Statement& one) { return one.place == place; });
    }
    bool single_use(const Facts& facts, int place, int c) const {
        bool any = false, single = false;
        for (int g = 0; g < groups(); ++g) {
            const bool said = facts.recorded(place, g, c).right();
            any |= said;
            single |= said && std::count(world_.single_use.begin(), world_.single_use.end(), g) > 0;
        }
        return any ? single : std::any_of(world_.single_use.begin(), world_.single_use.end(), [&](int group) {
            return facts.right(place, group, c);
        });
    }
    bool must(const Facts& facts, int place, int c) const {
        const auto reach = in_job(facts, place, c);
        return reach && *reach <= Reach::consumes;
    }

    bool member_of(int item, int group) const {
        return !world_.items[static_cast<std::size_t>(item)].withdrawn &&
               std::any_of(world_.members.begin(), world_.members.end(), [&](const Member& one) {
                   return one.item == item && one.group == group && one.basis != Basis::claimed;
               });
    }
    bool whole_item(int place, int item, const std::vector<int>& on) const {
        return on_all(on, [&](int c) { return facts_.item_right(place, item, c); });
    }
    bool whole_by_one_group(int place, int item, const std::vector<int>& on) const {
        return std::any_of(world_.members.begin(), world_.members.end(), [&](const Member& one) {
            return one.item == item && member_of(item, one.group) && whole_group(place, one.group, on) &&
                   on_all(on, [&](int c) { return !facts_.barred(place, item, one.group, c); });
        });
    }
    bool whole_group(int place, int group, const std::vector<int>& on) const {
        return on_all(on, [&](int c) { return facts_.right(place, group, c); });
    }
    // Nobody has said what is sold under it: nothing can be wrong with that, and nothing can be bought.
    bool bare(int group) const {
        return std::none_of(world_.members.begin(), world_.members.end(),
                            [&](const Member& one) { return one.group == group && member_of(one.item, group); });
    }
    bool settled(int place, const std::vector<int>& on) const {
        return alone(place, on) || !together(world_, facts_, place, on, true_).empty();
    }
    bool alone(int place, const std::vector<int>& on) const {
        for (int i = 0; i < items(); ++i)
            if (whole_item(place, i, on)) return true;
        for (int g = 0; g < groups(); ++g)
            if (bare(g) && whole_group(place, g, on)) return true;
        return false;
    }
    bool none(int place, const std::vector<int>& on) const {
        return on_all(on, [&](int c) { return facts_.none_needed(place, c); });
    }

    std::string verdict(int place) const {
        if (settled(place, left_)) return "fits";
        if (none(place, left_)) return "none_needed";
        bool open = false, disputed = false, vetoed = true;
        for (const int c : left_) {
            bool vetoed_here = false;
            open |= facts_.none_needed(place, c);
            for (int g = 0; g < groups(); ++g) {
                const auto& one = facts_.recorded(place, g, c);
                open |= one.on || facts_.right(place, g, c);
                disputed |= one.disputed;
                vetoed_here |= one.vetoed && one.recorded;
            }
            vetoed = vetoed && vetoed_here;
        }
        return open ? "check_first" : disputed ? "sources_disagree" : vetoed ? "does_not_fit" : "not_recorded";
    }

    bool held(int place) const {
        const auto* heard = facts_.standing(noise);
        return heard && std::any_of(world_.held_back.begin(), world_.held_back.end(), [&](const HeldBack& one) {
                   return (one.place < 0 || one.place == place) && heard->values == std::set<int>{one.noise_heard};
               });
    }

    bool blocks(int place) const {
        const auto here = [&](int c) { return must(facts_, place, c) && !facts_.none_needed(place, c); };
        if (!needed(place)) return false;
        return held(place) || !on_all(true_, here) || !settled(place, true_) || amount_open(place);
    }
    bool amount_open(int place) const {
        const auto whole = [&](int group) { return whole_group(place, group, true_); };
        bool any_whole = false;
        for (int g = 0; g < groups(); ++g) any_whole = any_whole || whole(g);
        return on_any(true_, [&](int c) {
            return facts_.amount_open(place, c, [&](int group) { return !any_whole || whole(group); });
        });
    }

    // ---------------------------------------------------------------- what it rests on

    bool rests_on_hearsay() const {
        const World known = without_hearsay(world_);
        const Facts facts(known);
        return !stands_on(known, facts, facts.left());
    }
    bool rests_on_memory() const {
        const Facts facts(world_, {true, false});
        World firm = world_;
        std::erase_if(firm.members, [](const Member& one) { return from_memory(one.source); });
        return !stands_on(firm, facts, left_);
    }
    // Would every line be answered alike?
    bool stands_on(const World& world, const Facts& facts, const std::vector<int>& on) const {
        for (int place = 0; place < places; ++place) {
            const bool now = needed(place);
            if (!on_all(on, [&](int c) { return (must(facts, place, c) && !facts.none_needed(place, c)) == now; }))
                return false;
            for (int i = 0; now && i < items(); ++i)
                if (usable(world_, facts_, place, i, true_) && !usable(world, facts, place, i, on)) return false;
        }
        return true;
    }

    std::set<int> all_needed() const {
        std::set<int> found;
        for (int place = 0; place < places; ++place)
            if (needed(place)) found.insert(place);
        return found;
    }
    static Evidence evidence(int source) { return sources()[static_cast<std::size_t>(source)].evidence; }
    Evidence of_configurations() const {
        Evidence found = Evidence::law;
        for (const int c : left_)
            if (!world_.open)
                found = std::max(found, evidence(world_.configurations[static_cast<std::size_t>(c)].source));
        return found;
    }
    // Of the firmest way to what these places take.
    Evidence weakest(const std::set<int>& of) const {
        if (of.empty()) return Evidence::law;
        const Evidence found = of_configurations();
        for (int e = static_cast<int>(Evidence::memory); e > static_cast<int>(found); --e) {
            const World firmer = no_weaker_than(world_, static_cast<Evidence>(e - 1));
            const Facts facts(firmer);
            for (const int place : of)
                if (!on_all(left_, [&](int c) { return some_item(firmer, facts, place, c); }))
                    return static_cast<Evidence>(e);
        }
        return found;
    }
    // Nothing that is said of the place, of what is sold for it, of what stands in or of the vehicle is weaker.
    Evidence of_all_that_speaks(int place) const {
        Evidence found = of_configurations();
        const bool others = !together(world_, facts_, place, left_, true_).empty();
        for (const auto& one : world_.statements)
            if (others || one.place == place) found = std::max(found, evidence(one.source));
        for (const auto& one : world_.members)
            if (others || world_.groups[static_cast<std::size_t>(one.group)].part == part_of(place))
                found = std::max(found, evidence(one.source));
        for (const auto& one : world_.stand_ins)
            if (world_.groups[static_cast<std::size_t>(one.wanted)].part == part_of(place))
                found = std::max(found, evidence(one.source));
        for (const auto& one : world_.told) found = std::max(found, of_told(one.known));
        return found;
    }
    static Evidence of_told(Known known) {
        return known == Known::measured || known == Known::read ? Evidence::measured : Evidence::memory;
    }
    bool some_item(const World& world, const Facts& facts, int place, int c) const {
        bool any = false;
        for (int i = 0; i < items(); ++i)
            if (usable(world_, facts_, place, i, true_)) {
                if (usable(world, facts, place, i, {c})) return true;
                any = true;
            }
        return !any;
    }

    // ---------------------------------------------------------------- the order

    bool may_order_loose(int place, int item) const { return whole_item(place, item, true_); }
    bool fills(int item, int group) const {
        if (!member_of(item, group) || !whole_item(oil_fill, item, true_)) return false;
        return whole_group(oil_fill, group, true_) || !whole_by_one_group(oil_fill, item, true_);
    }
    bool may_use_content(int place, int kit_item, int group) const {
        return kit_may_be_ordered(kit_item) && whole_group(place, group, true_);
    }
    bool may_use_here(int place, int kit_item, int group) const {
        if (!whole_group(place, group, true_)) return false;
        const auto part_of = [&](int one) { return world_.groups[static_cast<std::size_t>(one)].part; };
        if (kit_may_be_ordered(kit_item)) return true;
        return !world_.items[static_cast<std::size_t>(kit_item)].withdrawn &&
               std::all_of(world_.kit_contents.begin(), world_.kit_contents.end(), [&](const KitContent& content) {
                   return content.kit != kit_item || part_of(content.group) != part_of(group) ||
                          goes_somewhere(content.group);
               });
    }
    bool goes_somewhere(int group) const {
        for (int place = 0; place < places; ++place)
            if (needed(place) && whole_group(place, group, true_)) return true;
        return false;
    }
    bool kit_may_be_ordered(int kit_item) const {
        if (world_.items[static_cast<std::size_t>(kit_item)].withdrawn) return false;
        for (const auto& content : world_.kit_contents) {
            if (content.kit != kit_item) continue;
            bool recorded = false, whole = false;
            for (int place = 0; place < places; ++place) {
                if (!on_any(left_, [&](int c) { return in_job(facts_, place, c).has_value(); })) continue;
                recorded |= facts_.recorded(place, content.group, left_.front()).recorded;
                whole |= whole_group(place, content.group, true_);
            }
            if (recorded && !whole) return false;
        }
        return true;
    }

    bool needed(int place) const {
        return on_any(true_, [&](int c) { return must(facts_, place, c) && !facts_.none_needed(place, c); });
    }
    double wanted(int place) const {
        double most = 0;
        for (const int c : true_)
            most = std::max(most,
                            facts_.quantity(place, c, [&](int group) { return whole_group(place, group, true_); }));
        if (most == 0)
            for (const int c : true_) most = std::max(most, facts_.quantity(place, c, [](int) { return true; }));
        return most;
    }

    Demand demand(const Choice& choice, const Rights& rights) const {
        Demand demand;
        for (int place = 0; place < places; ++place) {
            if (!needed(place)) continue;
            if (place == oil_fill) demand.litres = wanted(place) * 1.03 + 0.3;
            else
                demand.pieces[static_cast<std::size_t>(place)] = std::max(
                    0, static_cast<int>(wanted(place) + 0.999999) - fitted(world_, rights, place));
        }
        add_others(demand, choice, rights);
        return demand;
    }

    // Said of a pair only where what is asked for is right on all that is left of some place.
    void swap(Spoken& spoken, int wanted_group, int offered) const {
        bool asked = false, yes = true;
        for (int place = 0; place < places; ++place) {
            const auto& first = facts_.recorded(place, wanted_group, left_.front());
            if (!first.recorded) continue;
            if (!on_all(left_, [&](int c) { return facts_.recorded(place, wanted_group, c).right(); })) return;
            asked = true;
            yes = yes && on_all(left_, [&](int c) { return facts_.stands_in(place, offered, wanted_group, c); });
        }
        if (asked) spoken.swaps[{wanted_group, offered}] = yes ? "yes" : "not outright";
    }

    void order(Spoken& spoken) const {
        spoken.buy = "refused";
        if (!spoken.ready) return;
        std::vector<Together> ways;
        for (int place = 0; place < places; ++place)
            if (needed(place))
                for (auto& way : together(world_, facts_, place, true_, true_)) ways.push_back(std::move(way));
        std::optional<long> cents;
        for (const auto& choice : choices(ways)) {
            const auto rights = chosen(rights_, choice, true_);
            const auto wanted = demand(choice, rights);
            const bool nothing = wanted.litres <= 0 && std::all_of(wanted.pieces.begin(), wanted.pieces.end(),
                                                                   [](int pieces) { return pieces == 0; });
            const auto found = nothing ? std::optional<long>(0) : cheapest(world_, rights, wanted);
            if (found && (!cents || *found < *cents)) cents = found;
        }
        spoken.buy = "nothing";
        if (cents == 0) return;  // all of it is at hand
        spoken.buy = cents ? "order" : "uncovered";
        spoken.cents = cents.value_or(0);
    }

    const World& world_;
    Facts facts_;
    std::vector<int> left_, true_;
    std::set<int> beside_;  // places that a part of the job needs a new part in
    Rights rights_;
};

}  // namespace

namespace {

// Expected cents when what is left has been told apart before anything is ordered; nothing where some of it cannot be
// served then.
std::optional<long> once_known(const World& world) {
    double cents = 0, shares = 0;
    const Facts facts(world);
    for (const int c : facts.left()) {
        const auto known = Oracle(world, c).judge();
        if (known.buy != "order" && known.buy != "nothing") return std::nullopt;
        const double share = world.configurations[static_cast<std::size_t>(c)].share;
        cents += share * static_cast<double>(known.cents);
        shares += share;
    }
    return static_cast<long>(cents / shares + 0.5);
}

}  // namespace

Spoken judge(const World& given) {
    const auto world = listed(given);
    auto spoken = Oracle(world).judge();
    if (spoken.buy == "refused") spoken.known_cents = once_known(world);
    return spoken;
}

bool serves(const World& given, const std::vector<OrderLine>& order, int configuration) {
    const auto world = listed(given);
    return Oracle(world).serves(order, configuration);
}

std::size_t left_of(const World& world) { return Facts(listed(world)).left().size(); }

std::vector<int> may_be_true(const World& given) {
    const auto world = listed(given);
    return Oracle(world).may_be_true();
}

}  // namespace chain
