#include "facts.h"

#include <algorithm>
#include <cmath>

namespace chain {

namespace {

bool firm(Known known) { return known == Known::measured || known == Known::read; }

bool same_words(const Tell& a, const Tell& b) { return a.values == b.values && a.mm == b.mm; }

std::vector<int> joined(std::vector<int> a, const std::vector<int>& b) {
    for (const int one : b)
        if (std::find(a.begin(), a.end(), one) == a.end()) a.push_back(one);
    return a;
}

}  // namespace

Facts::Facts(const World& world, Reading reading) : world_(world), reading_(reading) {
    narrow();
    standing_.resize(places * std::max<std::size_t>(1, world.groups.size()) * world.configurations.size());
    none_.resize(standing_.size());
    for (int place = 0; place < places; ++place) {
        weigh(place);
        find_none(place);
        object(place);
        exclude(place);
        divide(place);
        compare_amounts(place);
    }
}

std::size_t Facts::at(int place, int group, int configuration) const {
    return (static_cast<std::size_t>(place) * world_.groups.size() + static_cast<std::size_t>(group)) *
               world_.configurations.size() +
           static_cast<std::size_t>(configuration);
}

const Standing& Facts::recorded(int place, int group, int c) const { return standing_[at(place, group, c)]; }

// ---------------------------------------------------------------- what is left

const Tell* Facts::standing(int attribute) const {
    const Tell *newest = nullptr, *newest_firm = nullptr;
    for (const auto& tell : world_.told) {
        if (tell.attribute != attribute) continue;
        newest = &tell;
        if (firm(tell.known)) newest_firm = &tell;
    }
    return newest_firm ? newest_firm : newest;
}

bool Facts::agrees(const Tell& tell, int c) const {
    if (tell.attribute >= line_attributes) return true;
    const int value =
        world_.configurations[static_cast<std::size_t>(c)].value[static_cast<std::size_t>(tell.attribute)];
    if (value < 0) return value == no_matter;
    if (tell.attribute == depth)
        return std::abs(std::stod(values_of(depth)[static_cast<std::size_t>(value)]) - tell.mm) <= depth_tolerance_mm;
    return tell.values.contains(value);
}

void Facts::narrow() {
    const auto all = [&](const std::function<bool(int)>& wanted) {
        std::vector<int> found;
        for (int c = 0; c < static_cast<int>(world_.configurations.size()); ++c)
            if (wanted(c)) found.push_back(c);
        return found;
    };
    const auto agree = [&](int c, int but) {
        for (int a = 0; a < line_attributes; ++a)
            if (const auto* tell = standing(a); a != but && tell && !agrees(*tell, c)) return false;
        return true;
    };
    left_ = all([&](int c) { return agree(c, -1); });
    if (const auto* tell = standing(depth)) {
        double nearest = 1000;
        for (const auto& one : world_.configurations)
            if (one.value[depth] >= 0)
                nearest = std::min(
                    nearest,
                    std::abs(std::stod(values_of(depth)[static_cast<std::size_t>(one.value[depth])]) - tell->mm));
        if (nearest > 0.75 * depth_tolerance_mm) doubts_.push_back(all([&](int c) { return agree(c, depth); }));
    }
    for (std::size_t i = 0; i < world_.told.size(); ++i) {
        const auto& later = world_.told[i];
        if (later.attribute >= line_attributes) continue;
        const auto* stands = standing(later.attribute);
        if (&later <= stands || same_words(later, *stands)) continue;
        doubts_.push_back(joined(left_, all([&](int c) { return agree(c, later.attribute) && agrees(later, c); })));
    }
}

std::vector<int> Facts::left_by_firm() const {
    std::vector<int> found;
    for (int c = 0; c < static_cast<int>(world_.configurations.size()); ++c) {
        bool ok = true;
        for (int a = 0; a < line_attributes; ++a)
            if (const auto* tell = standing(a); tell && firm(tell->known)) ok = ok && agrees(*tell, c);
        if (ok) found.push_back(c);
    }
    return found;
}

int Facts::colour_holds(const Term& term) const {
    const auto* tell = standing(term.attribute);
    if (!tell) return -1;
    bool some = false, none = false;
    for (const int value : tell->values) (term.values.contains(value) ? some : none) = true;
    return some && none ? 2 : some;
}

bool Facts::holds(const When& when, int c) const {
    return std::all_of(when.begin(), when.end(), [&](const Term& term) {
        if (term.attribute >= line_attributes) return colour_holds(term) == 1;
        return term.values.contains(
            world_.configurations[static_cast<std::size_t>(c)].value[static_cast<std::size_t>(term.attribute)]);
    });
}

// ---------------------------------------------------------------- statements

bool Facts::counts(const Statement& statement) const {
    return !statement.withdrawn && !(reading_.without_memory && from_memory(statement.source));
}

bool Facts::says_no(const Statement& statement, int group, int c) const {
    const bool no = statement.says == Says::none_needed ||
                    (statement.says == Says::does_not_fit && statement.group == group);
    return no && counts(statement) && holds(statement.when, c);
}

bool Facts::says_yes(const Statement& statement, int c) const {
    if (statement.says != Says::fits || !counts(statement) || !holds(statement.when, c)) return false;
    return std::none_of(world_.statements.begin(), world_.statements.end(), [&](const Statement& other) {
        return other.place == statement.place && other.source == statement.source && says_no(other, statement.group, c);
    });
}

void Facts::weigh(int place) {
    for (int c = 0; c < static_cast<int>(world_.configurations.size()); ++c) {
        const bool firm_place = std::any_of(
            world_.statements.begin(), world_.statements.end(),
            [&](const Statement& one) { return one.place == place && !from_memory(one.source) && says_yes(one, c); });
        for (int g = 0; g < static_cast<int>(world_.groups.size()); ++g) {
            bool yes = false, no = false, memory_yes = false, memory_no = false;
            auto& standing = standing_[at(place, g, c)];
            for (const auto& one : world_.statements) {
                if (one.place != place) continue;
                const bool memory = from_memory(one.source);
                standing.recorded |= counts(one) && one.group == g;
                if (one.says == Says::none_needed && memory && firm_place) continue;
                if (says_no(one, g, c)) (memory ? memory_no : no) = true;
                else if (one.group == g && says_yes(one, c)) (memory ? memory_yes : yes) = true;
            }
            if (!yes && !no) yes = memory_yes, no = memory_no;
            standing.on = yes && !no;
            standing.disputed = yes && no;
            standing.denied = no;
            standing.out = no && !yes && standing.recorded;
        }
    }
}

// On the statements alone: what the domain rules out does not make a place that is there go away.
void Facts::find_none(int place) {
    for (int c = 0; c < static_cast<int>(world_.configurations.size()); ++c) {
        bool none = false;
        for (const auto& one : world_.statements)
            none |= one.place == place && one.says == Says::none_needed && counts(one) && holds(one.when, c);
        for (int g = 0; none && g < static_cast<int>(world_.groups.size()); ++g)
            none = !recorded(place, g, c).on && !recorded(place, g, c).disputed;
        none_[at(place, 0, c)] = none;
    }
}

void Facts::object(int place) {
    for (const auto& objection : world_.objections)
        for (int c = 0; c < static_cast<int>(world_.configurations.size()); ++c) {
            auto& standing = standing_[at(place, objection.group, c)];
            bool meets = true, open = false;
            for (const auto& term : objection.when) {
                if (term.attribute < line_attributes) meets = meets && holds({term}, c);
                else if (const int told = colour_holds(term); told == 2) open = true;
                else meets = meets && told == 1;
            }
            if (!meets) continue;
            if (objection.veto && !open) {
                standing.vetoed = standing.on;
                standing.on = false;
                standing.out = true;
            } else {
                standing.waits = true;
            }
        }
}

// ---------------------------------------------------------------- two groups on one configuration

bool Facts::excluded(int a, int b) const {
    return std::any_of(world_.stand_ins.begin(), world_.stand_ins.end(), [&](const StandIn& one) {
        return one.relation == Relation::excludes && !one.withdrawn &&
               !(reading_.without_memory && from_memory(one.source)) &&
               ((one.offered == a && one.wanted == b) || (one.offered == b && one.wanted == a));
    });
}

void Facts::dispute(int place, int c, const std::set<int>& groups) {
    for (const int g : groups) {
        auto& standing = standing_[at(place, g, c)];
        standing.on = false;
        standing.disputed = true;
    }
}

void Facts::exclude(int place) {
    const int size = static_cast<int>(world_.groups.size());
    for (int c = 0; c < static_cast<int>(world_.configurations.size()); ++c) {
        std::set<int> disputed;
        for (int a = 0; a < size; ++a)
            for (int b = a + 1; b < size; ++b)
                if (recorded(place, a, c).on && recorded(place, b, c).on && excluded(a, b)) disputed.insert({a, b});
        dispute(place, c, disputed);
    }
}

// What is remembered contradicts nothing firmer.
void Facts::compare_amounts(int place) {
    for (int c = 0; c < static_cast<int>(world_.configurations.size()); ++c) {
        std::set<int> disputed;
        for (const auto& a : world_.statements)
            for (const auto& b : world_.statements) {
                const bool stated = a.place == place && b.place == place && a.quantity > 0 && b.quantity > 0;
                if (!stated || a.source == b.source || from_memory(a.source) != from_memory(b.source)) continue;
                if (b.quantity <= a.quantity * 1.1 || !says_yes(a, c) || !says_yes(b, c)) continue;
                if (recorded(place, a.group, c).on && recorded(place, b.group, c).on)
                    disputed.insert({a.group, b.group});
            }
        dispute(place, c, disputed);
    }
}

// Does it give one group here and another there, never both? Only where `within` holds.
bool Facts::divides(const Given& given, const std::function<bool(int)>& within) const {
    std::vector<std::set<int>> parts;
    for (const auto& [group, on] : given.by_group) {
        std::set<int> part;
        for (const int c : on)
            if (within(c)) part.insert(c);
        if (!part.empty()) parts.push_back(part);
    }
    for (const auto& a : parts)
        for (const auto& b : parts)
            if (std::none_of(a.begin(), a.end(), [&](int c) { return b.contains(c); })) return true;
    return false;
}

std::vector<Facts::Given> Facts::dividing(int place) const {
    const auto concerns = [&](const Statement& one) {
        return one.place == place && one.says == Says::fits && counts(one);
    };
    const bool any_firm = std::any_of(world_.statements.begin(), world_.statements.end(),
                                      [&](const Statement& one) { return concerns(one) && !from_memory(one.source); });
    std::map<int, Given> by_source;
    for (const auto& one : world_.statements) {
        if (!concerns(one) || (any_firm && from_memory(one.source))) continue;
        for (int c = 0; c < static_cast<int>(world_.configurations.size()); ++c)
            if (says_yes(one, c)) by_source[one.source].by_group[one.group].insert(c);
    }
    std::vector<Given> dividing;
    for (const auto& [source, given] : by_source)
        if (divides(given, [](int) { return true; })) dividing.push_back(given);
    return dividing;
}

// Is the group said to fit on both sides of the division?
bool Facts::crosses(const Given& given, int place, int group) const {
    return divides(given, [&](int c) { return recorded(place, group, c).on || recorded(place, group, c).disputed; });
}

bool Facts::equal_here(int a, int b, int c) const {
    const auto closed = [](int) { return false; };
    const auto both = [&](int offered, int wanted) {
        const bool objected = std::any_of(world_.opinions.begin(), world_.opinions.end(), [&](const Opinion& one) {
            return one.offered == offered && one.wanted == wanted;
        });
        return !objected && way(offered, wanted, c, closed);
    };
    return both(a, b) || both(b, a);
}

namespace {

std::size_t overlap(const std::set<int>& a, const std::set<int>& b) {
    return static_cast<std::size_t>(std::count_if(a.begin(), a.end(), [&](int c) { return b.contains(c); }));
}

}  // namespace

// Are these parts of two divisions each the other's likeliest counterpart?
bool Facts::one_side(const Given& one, int group, const Given& other, int other_group) const {
    const auto &part = one.by_group.at(group), &counterpart = other.by_group.at(other_group);
    const auto shared = overlap(part, counterpart);
    const auto likeliest = [&](const std::set<int>& of, const Given& among, int but) {
        return std::all_of(among.by_group.begin(), among.by_group.end(),
                           [&](const auto& rest) { return rest.first == but || overlap(of, rest.second) < shared; });
    };
    return likeliest(part, other, other_group) && likeliest(counterpart, one, group);
}

void Facts::divide(int place) {
    const auto sources = dividing(place);
    if (sources.empty()) return;
    const int size = static_cast<int>(world_.groups.size());
    std::vector<std::pair<std::size_t, bool>> found;  // and whether it is in dispute, else it waits
    for (int c = 0; c < static_cast<int>(world_.configurations.size()); ++c) {
        std::vector<int> here;
        for (int g = 0; g < size; ++g)
            if (recorded(place, g, c).on || recorded(place, g, c).disputed) here.push_back(g);
        for (const int g : here) {
            if (!recorded(place, g, c).on) continue;
            bool named = false, elsewhere = false, blind = false;
            for (const auto& source : sources) {
                const auto gives = [&](int group) {
                    const auto known = source.by_group.find(group);
                    return known != source.by_group.end() && known->second.contains(c);
                };
                if (gives(g)) {
                    named = true;
                    continue;
                }
                const auto of_one_mind = [&](int h) {
                    return !reading_.by_names && std::any_of(sources.begin(), sources.end(), [&](const Given& own) {
                        const auto part = own.by_group.find(g);
                        return part != own.by_group.end() && part->second.contains(c) && one_side(own, g, source, h);
                    });
                };
                for (const int h : here)
                    if (h != g && gives(h) && (place == valve_place || !equal_here(g, h, c))) {
                        elsewhere |= !of_one_mind(h);
                        blind |= crosses(source, place, g);
                    }
            }
            if (named && elsewhere) found.emplace_back(at(place, g, c), true);
            else if (!named && blind) found.emplace_back(at(place, g, c), false);
        }
    }
    for (const auto& [where, disputed] : found) {
        if (disputed) standing_[where].on = false, standing_[where].disputed = true;
        else standing_[where].waits = true;
    }
}

}  // namespace chain
