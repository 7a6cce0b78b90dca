#include "tests/chain/generate.h"

#include <algorithm>

#include "tests/chain/themes.h"
#include "tests/dice.h"

namespace chain {

namespace {

using casebound::tests::Dice;

class Maker {
public:
    explicit Maker(std::uint64_t seed) : dice_(seed) {}

    World world() {
        world_.key = "w";
        make_configurations();
        make_job();
        make_parts();
        for (const int place : job_places_) make_statements(place);
        make_stand_ins();
        make_domain_rows();
        make_told();
        make_kits();
        make_market();
        make_records();
        for (int i = 0; i < 2; ++i) add_swap();
        return std::move(world_);
    }

private:
    int below(std::size_t count) { return static_cast<int>(dice_.below(count)); }
    int source() {
        static const std::vector<int> often{1, 1, 1, 2, 2, 3, 4, 0, 5, 6, 6};
        return dice_.any(often);
    }
    const Configuration& any_configuration() { return dice_.any(world_.configurations); }

    // Holds on at least one configuration of the line.
    When when(unsigned terms, bool told_too) {
        When found;
        const auto& on = any_configuration();
        for (unsigned i = 0; i < terms; ++i) {
            const int attribute = told_too && dice_.chance(35) ? colour : below(line_attributes);
            if (std::any_of(found.begin(), found.end(), [&](const Term& one) { return one.attribute == attribute; }))
                continue;
            Term term{attribute, {}};
            if (attribute == colour) term.values.insert(below(2));
            else if (attribute == made) term.values = edge(on.value[made]);
            else {
                term.values.insert(on.value[static_cast<std::size_t>(attribute)]);
                if (dice_.chance(30))
                    term.values.insert(any_configuration().value[static_cast<std::size_t>(attribute)]);
            }
            found.push_back(term);
        }
        return found;
    }
    // Up to or from a month on, with this one in it.
    std::set<int> edge(int month) {
        std::set<int> months;
        const int last = static_cast<int>(values_of(made).size()) - 1;
        if (dice_.chance(50))
            for (int at = 0, end = month + below(static_cast<std::size_t>(last - month + 1)); at <= end; ++at)
                months.insert(at);
        else
            for (int at = month - below(static_cast<std::size_t>(month + 1)); at <= last; ++at) months.insert(at);
        return months;
    }

    void make_configurations() {
        const auto count = dice_.between(2, 6);
        std::array<std::size_t, line_attributes> spread{};  // of each attribute, how many values
        for (auto& one : spread) one = dice_.between(1, 3);
        const int first_month = below(4);
        for (std::size_t i = 0; i < count; ++i) {
            Configuration one;
            one.value = {below(spread[frame]), first_month + below(spread[made]), below(spread[depth])};
            one.share = 1 + below(3);
            one.source = dice_.chance(88) ? 1 : source();
            if (std::none_of(world_.configurations.begin(), world_.configurations.end(),
                             [&](const Configuration& known) { return known.value == one.value; }))
                world_.configurations.push_back(one);
        }
        true_ = world_.configurations[dice_.below(world_.configurations.size())];
    }

    void make_job() {
        std::vector<int> all{ring_left, ring_right, cover_place, valve_place, oil_fill};
        dice_.shuffle(all);
        all.resize(dice_.between(1, 4));
        std::sort(all.begin(), all.end());
        job_places_ = all;
        for (const int place : all) {
            static const std::vector<Reach> reaches{Reach::needs,    Reach::needs,     Reach::needs,
                                                    Reach::needs,    Reach::consumes,  Reach::consumes,
                                                    Reach::disturbs, Reach::look_first};
            if (dice_.chance(90)) world_.job.push_back({place, dice_.any(reaches), false, {}});
            if (dice_.chance(15)) world_.job.push_back({place, dice_.any(reaches), true, when(1, false)});
        }
    }

    std::vector<int> groups_of(Part part) const {
        std::vector<int> found;
        for (int g = 0; g < static_cast<int>(world_.groups.size()); ++g)
            if (world_.groups[static_cast<std::size_t>(g)].part == part) found.push_back(g);
        return found;
    }

    void make_parts() {
        std::set<Part> parts;
        for (const int place : job_places_) parts.insert(part_of(place));
        for (const auto part : parts) {
            const auto count = part == ring ? dice_.between(1, 4) : dice_.between(1, 3);
            for (std::size_t i = 0; i < count; ++i) add_group(part);
        }
        for (int i = 0, end = static_cast<int>(world_.items.size()); i < end; ++i) {
            if (!dice_.chance(15)) continue;
            const auto others = groups_of(world_.items[static_cast<std::size_t>(i)].part);
            add_member(dice_.any(others), i);
        }
    }
    void add_group(Part part) {
        const int group = static_cast<int>(world_.groups.size());
        world_.groups.push_back({part});
        for (std::size_t i = 0, end = dice_.chance(5) ? 0 : dice_.between(1, 2); i < end; ++i) {
            Item item{part, 1, dice_.chance(6)};
            if (part == ring && dice_.chance(8)) item.pack = 2;
            if (part == oil) item.pack = dice_.any(std::vector<double>{1, 1, 4, 5});
            world_.items.push_back(item);
            add_member(group, static_cast<int>(world_.items.size()) - 1);
        }
    }
    void add_member(int group, int item) {
        for (const auto& one : world_.members)
            if (one.group == group && one.item == item) return;
        static const std::vector<Basis> bases{Basis::same, Basis::same,     Basis::same,  Basis::same,
                                              Basis::same, Basis::approved, Basis::meets, Basis::claimed};
        world_.members.push_back({group, item, dice_.any(bases), source()});
    }

    double amount(int place) {
        if (place == oil_fill) return dice_.chance(88) ? 4 + 0.25 * below(3) : 9.5;
        return dice_.chance(60) ? 0 : dice_.chance(75) ? 1 : 2;
    }
    void say(int place, Says says, int group, When where, int from) {
        for (const auto& one : world_.statements)  // a pack may not say one thing twice
            if (one.place == place && one.says == says && one.group == group && one.source == from) return;
        world_.statements.push_back({place, says, says == Says::none_needed ? -1 : group, std::move(where),
                                     says == Says::fits ? amount(place) : 0, dice_.chance(5), from});
    }

    // One source gives one group up to a month and another after it.
    void divide(int place, const std::vector<int>& groups, int from, int month) {
        std::set<int> before, after;
        for (int at = 0; at < static_cast<int>(values_of(made).size()); ++at) (at < month ? before : after).insert(at);
        const auto here = [&](const std::set<int>& months) {
            return std::any_of(world_.configurations.begin(), world_.configurations.end(),
                               [&](const Configuration& one) { return months.contains(one.value[made]); });
        };
        if (here(before)) say(place, Says::fits, groups[0], {{made, before}}, from);
        if (here(after)) say(place, Says::fits, groups[1], {{made, after}}, from);
    }
    void divide_by_frame(int place, const std::vector<int>& groups, int from) {
        const int side = any_configuration().value[frame];
        std::set<int> others;
        for (const auto& one : world_.configurations)
            if (one.value[frame] != side) others.insert(one.value[frame]);
        say(place, Says::fits, groups[0], {{frame, {side}}}, from);
        if (!others.empty()) say(place, Says::fits, groups[1], {{frame, others}}, from);
    }

    void make_statements(int place) {
        auto groups = groups_of(part_of(place));
        dice_.shuffle(groups);
        const auto kind = groups.size() < 2 ? 0 : dice_.below(100);
        const int edge_at = any_configuration().value[made] + below(2);
        if (kind < 35) {
            say(place, Says::fits, groups[0], {}, source());
        } else if (kind < 75) {
            const int first = dice_.chance(80) ? 1 : source();
            if (dice_.chance(60)) divide(place, groups, first, edge_at);
            else divide_by_frame(place, groups, first);
            if (dice_.chance(40)) divide(place, groups, first == 2 ? 3 : 2, edge_at + (dice_.chance(50) ? 1 : 0));
            if (dice_.chance(40)) say(place, Says::fits, dice_.any(groups), {}, first == 3 ? 1 : 3);
        } else {
            for (std::size_t i = 0, end = dice_.between(1, 4); i < end; ++i)
                say(place, Says::fits, dice_.any(groups), when(below(3), false), source());
        }
        if (dice_.chance(18)) say(place, Says::does_not_fit, dice_.any(groups), when(below(2), false), source());
        if (dice_.chance(7)) say(place, Says::none_needed, -1, when(below(2), false), source());
        if (dice_.chance(12)) say(place, Says::fits, dice_.any(groups), when(below(2), false), source());
    }

    // Later groups supersede earlier ones, so that there is no circle.
    void make_stand_ins() {
        for (const auto part : {ring, cover, valve, oil}) {
            const auto groups = groups_of(part);
            if (groups.size() < 2 || !dice_.chance(65)) continue;
            for (std::size_t i = 0, end = dice_.between(1, 3); i < end; ++i) add_stand_in(groups);
        }
    }
    void add_stand_in(const std::vector<int>& groups) {
        StandIn one;
        const auto wanted = dice_.below(groups.size() - 1);
        one.wanted = groups[wanted];
        one.offered = groups[wanted + 1 + dice_.below(groups.size() - wanted - 1)];
        for (const auto& known : world_.stand_ins)
            if (known.offered == one.offered && known.wanted == one.wanted) return;
        const auto kind = dice_.below(100);
        one.relation = kind < 50   ? Relation::supersedes
                       : kind < 75 ? Relation::stands_in_if
                       : kind < 83 ? Relation::bolts_up_but
                                   : Relation::excludes;
        if (one.relation == Relation::stands_in_if) one.when = when(1, true);
        if (one.relation == Relation::supersedes && dice_.chance(6)) one.requirement = true;
        if (one.relation == Relation::supersedes && dice_.chance(6)) one.also = dice_.any(groups);
        if (one.also == one.offered || one.also == one.wanted) one.also = -1;
        one.withdrawn = dice_.chance(6);
        one.source = source();
        world_.stand_ins.push_back(one);
    }

    void make_domain_rows() {
        const auto size = world_.groups.size();
        if (dice_.chance(18)) world_.objections.push_back({below(size), when(below(2), true), dice_.chance(65)});
        if (dice_.chance(10) && size > 1) {
            const auto& one = dice_.chance(70) && !world_.stand_ins.empty() ? dice_.any(world_.stand_ins)
                                                                            : StandIn{1, 0};
            if (part(one.offered) == part(one.wanted))
                world_.opinions.push_back({one.offered, one.wanted, dice_.chance(60)});
        }
        if (dice_.chance(15)) world_.held_back.push_back({dice_.chance(40) ? -1 : dice_.any(job_places_), 0});
        if (dice_.chance(10)) world_.single_use.push_back(below(size));
    }
    Part part(int group) const { return world_.groups[static_cast<std::size_t>(group)].part; }

    Known known() {
        static const std::vector<Known> all{Known::measured, Known::measured, Known::read, Known::said, Known::assumed};
        return dice_.any(all);
    }
    void tell(Tell one) { world_.told.push_back(std::move(one)); }
    void make_told() {
        for (int attribute = 0; attribute < line_attributes; ++attribute) {
            if (!dice_.chance(45)) continue;
            const auto first = true_tell(attribute);
            if (dice_.chance(15)) tell(clash(attribute, dice_.chance(50) ? Known::said : Known::assumed));
            tell(first);
            if (dice_.chance(15) && first.known <= Known::read) tell(clash(attribute, Known::said));
        }
        if (dice_.chance(45)) {
            Tell one{colour, {below(2)}, 0, known()};
            if (dice_.chance(12)) one.values = {0, 1};
            tell(one);
        }
        if (dice_.chance(35)) tell({noise, {dice_.chance(75) ? 0 : 1}, 0, Known::measured});
    }
    Tell true_tell(int attribute) {
        Tell one{attribute, {}, 0, known()};
        const int value = true_.value[static_cast<std::size_t>(attribute)];
        if (attribute == depth) {
            static const std::vector<double> off{0, 0, 0, 0.5, 1, -1, 2, 2.5, -2.5, 3, -3};
            one.mm = std::stod(values_of(depth)[static_cast<std::size_t>(value)]) + dice_.any(off);
            return one;
        }
        one.values.insert(value);
        if (dice_.chance(15)) one.values.insert(any_configuration().value[static_cast<std::size_t>(attribute)]);
        return one;
    }
    Tell clash(int attribute, Known how) {
        Tell one{attribute, {}, 0, how};
        const int value = any_configuration().value[static_cast<std::size_t>(attribute)];
        if (attribute == depth) one.mm = std::stod(values_of(depth)[static_cast<std::size_t>(value)]);
        else one.values.insert(value);
        return one;
    }

    void make_kits() {
        std::vector<int> counted;
        for (int g = 0; g < static_cast<int>(world_.groups.size()); ++g)
            if (part(g) != oil) counted.push_back(g);
        if (counted.empty() || !dice_.chance(35)) return;
        world_.items.push_back({kit, 1, dice_.chance(5)});
        const int item = static_cast<int>(world_.items.size()) - 1;
        dice_.shuffle(counted);
        counted.resize(std::min<std::size_t>(counted.size(), dice_.between(1, 3)));
        for (const int group : counted)
            world_.kit_contents.push_back({item, group, dice_.chance(75) ? 1 : 2, source()});
    }

    void make_market() {
        for (std::size_t i = 0, end = dice_.between(1, 3); i < end; ++i) {
            Seller one;
            one.carriage = dice_.chance(60) ? 100 * static_cast<long>(dice_.between(1, 12)) : 0;
            if (one.carriage && dice_.chance(40)) one.free_from = 100 * static_cast<long>(dice_.between(10, 60));
            if (dice_.chance(12)) one.minimum = 100 * static_cast<long>(dice_.between(5, 30));
            world_.sellers.push_back(one);
        }
        for (int item = 0; item < static_cast<int>(world_.items.size()); ++item)
            for (int seller = 0; seller < static_cast<int>(world_.sellers.size()); ++seller)
                if (world_.offers.size() < 9 && dice_.chance(seller == 0 ? 93 : 30)) add_offer(seller, item);
    }
    void add_offer(int seller, int item) {
        const auto kind = world_.items[static_cast<std::size_t>(item)].part;
        Offer one{seller, item, 100 * static_cast<long>(dice_.between(3, 40)), 1, -1};
        if (kind == kit) one.cents = 100 * static_cast<long>(dice_.between(5, 45));
        if (dice_.chance(18)) one.available = static_cast<int>(dice_.between(1, 2));
        if (kind != oil && kind != kit && dice_.chance(5)) one.pack = 2;
        world_.offers.push_back(one);
    }

    void make_records() {
        if (world_.items.empty()) return;
        if (dice_.chance(28)) {
            OnShelf one{below(world_.items.size()), 1, 0};
            const auto kind = world_.items[static_cast<std::size_t>(one.item)].part;
            one.quantity = kind == oil ? 0.5 * static_cast<double>(dice_.between(1, 10))
                                       : static_cast<double>(dice_.between(1, 2));
            if (kind != oil && dice_.chance(30)) one.kept = 1;
            world_.shelf.push_back(one);
        }
        if (!dice_.chance(32)) return;
        const int item = below(world_.items.size());
        if (world_.items[static_cast<std::size_t>(item)].part == kit) buy_kit(item);
        else buy_loose(item);
    }
    void buy_loose(int item) {
        for (const int place : job_places_) {
            if (part_of(place) != world_.items[static_cast<std::size_t>(item)].part || place == oil_fill) continue;
            Bought one{item, place, static_cast<int>(dice_.between(1, 2)), 0, 0, 0};
            one.received = below(static_cast<std::size_t>(one.ordered) + 1);
            if (one.received > 0 && dice_.chance(30)) one.returned = 1;
            if (one.received - one.returned > 0 && dice_.chance(30)) one.fitted = 1;
            world_.bought.push_back(one);
            return;
        }
    }
    // One kit, written down once for every place that a thing in it serves.
    void buy_kit(int item) {
        const bool came = dice_.chance(60), gone = came && dice_.chance(25);
        for (const auto& content : world_.kit_contents) {
            if (content.kit != item) continue;
            for (const int place : job_places_) {
                if (part_of(place) != part(content.group)) continue;
                const int all = content.quantity;
                world_.bought.push_back(
                    {item, place, all, came ? all : 0, gone ? all : 0, came && !gone && dice_.chance(15) ? 1 : 0});
                break;
            }
        }
    }

    void add_swap() {
        const int wanted = below(world_.groups.size());
        const auto others = groups_of(part(wanted));
        const int offered = dice_.any(others);
        if (offered != wanted) world_.swaps.emplace_back(wanted, offered);
    }

    Dice dice_;
    World world_;
    std::vector<int> job_places_;
    Configuration true_;
};

}  // namespace

// Five of sixteen are made for one cause.
World generate(std::uint64_t seed) {
    if (seed % 16 == 6) return themed(Theme::together, seed);
    if (seed % 8 != 2 && seed % 8 != 4) return Maker(seed).world();
    return themed(static_cast<Theme>((seed / 8 * 2 + seed % 8 / 4) % themes), seed);
}

}  // namespace chain
