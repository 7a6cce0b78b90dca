#include "core/cover/sharing.h"

#include <algorithm>
#include <iterator>
#include <map>
#include <numeric>
#include <set>

namespace casebound {

namespace {

using Takers = std::set<std::vector<std::size_t>>;  // lots with the same takers are one here

class Groups {
public:
    Groups(const std::vector<Lot>& lots, std::size_t needs) : draws_on_(needs) {
        for (const Lot& lot : lots)
            for (const std::size_t need : lot.takers) draws_on_[need].insert(lot.takers);
    }

    // From every need on, joined with each that shares something with it: groups that share nothing imply their union.
    std::optional<std::vector<NeedGroup>> all(std::size_t most) {
        for (std::size_t need = 0; need < draws_on_.size(); ++need) add(draws_on_[need], need);
        for (std::size_t g = 0; g < found_.size() && found_.size() <= most; ++g)
            for (std::size_t need = 0; need < draws_on_.size(); ++need) join(g, need);
        if (found_.size() > most) return std::nullopt;
        std::sort(found_.begin(), found_.end());
        return found_;
    }

private:
    // With all needs that draw on nothing else: they are no burden to what is at hand, and make the group want more.
    void add(const Takers& drawn, std::size_t need) {
        NeedGroup group;
        for (std::size_t i = 0; i < draws_on_.size(); ++i) {
            const Takers& own = draws_on_[i];
            if (i == need || (!own.empty() && std::includes(drawn.begin(), drawn.end(), own.begin(), own.end())))
                group.push_back(i);
        }
        if (!known_.insert(group).second) return;
        found_.push_back(std::move(group));
        drawn_.push_back(drawn);
    }

    void join(std::size_t g, std::size_t need) {
        const Takers& own = draws_on_[need];
        Takers both;
        std::set_union(drawn_[g].begin(), drawn_[g].end(), own.begin(), own.end(), std::inserter(both, both.end()));
        if (both.size() < drawn_[g].size() + own.size()) add(both, need);
    }

    std::vector<Takers> draws_on_;  // by need
    std::set<NeedGroup> known_;
    std::vector<NeedGroup> found_;
    std::vector<Takers> drawn_;  // by group
};

// What is left of a lot goes to its takers one by one; the last takes all that is left.
class Dealer {
public:
    Dealer(const std::vector<std::int64_t>& wanted, std::int64_t piece, std::size_t most)
        : wanted_(wanted), piece_(piece), most_(most) {}

    std::vector<std::vector<Lot>> ways_of(const Lot& lot) {
        ways_.clear();
        std::int64_t room = 0;
        for (const std::size_t need : lot.takers) room += wanted_[need];
        std::vector<Lot> way;
        deal(lot, 0, std::min(lot.amount, room), room, way);
        return std::move(ways_);
    }

private:
    void deal(const Lot& lot, std::size_t taker, std::int64_t left, std::int64_t room, std::vector<Lot>& way) {
        if (ways_.size() > most_) return;
        if (taker == lot.takers.size()) return ways_.push_back(way);
        const std::size_t need = lot.takers[taker];
        room -= wanted_[need];
        for (std::int64_t gets = std::min(left, wanted_[need]); gets >= 0 && left - gets <= room; gets -= piece_) {
            if (gets > 0) way.push_back({lot.column, gets, {need}});
            deal(lot, taker + 1, left - gets, room, way);
            if (gets > 0) way.pop_back();
        }
    }

    const std::vector<std::int64_t>& wanted_;
    std::int64_t piece_;
    std::size_t most_;
    std::vector<std::vector<Lot>> ways_;
};

// Shortest augmenting paths, need by need.
class Sharing {
public:
    Sharing(const std::vector<Lot>& lots, const std::vector<std::int64_t>& held, std::size_t needs)
        : lots_(lots), free_(held), lots_of_(needs) {
        for (std::size_t l = 0; l < lots.size(); ++l) {
            given_.emplace_back(lots[l].takers.size());
            for (const std::size_t need : lots[l].takers) lots_of_[need].push_back(l);
        }
    }

    void feed(std::size_t need, std::int64_t wanted) {
        for (std::int64_t got = 1; wanted > 0 && got > 0; wanted -= got) got = feed_once(need, wanted);
    }

    std::vector<LotShare> shares() const {
        std::vector<LotShare> shares;
        for (std::size_t l = 0; l < lots_.size(); ++l)
            for (std::size_t t = 0; t < lots_[l].takers.size(); ++t)
                if (given_[l][t] > 0) shares.push_back({l, lots_[l].takers[t], given_[l][t]});
        return shares;
    }

private:
    struct Step {  // to a need, which gives up its part of the lot to the need before it
        std::size_t need{}, before{}, lot{};
    };

    std::int64_t& given(std::size_t lot, std::size_t need) {
        const auto& takers = lots_[lot].takers;
        const auto at = std::lower_bound(takers.begin(), takers.end(), need) - takers.begin();
        return given_[lot][static_cast<std::size_t>(at)];
    }

    std::int64_t feed_once(std::size_t need, std::int64_t wanted) {
        std::vector<Step> steps{{need, 0, 0}};
        std::vector<char> seen(lots_of_.size());
        seen[need] = 1;
        for (std::size_t at = 0; at < steps.size(); ++at)
            for (const std::size_t lot : lots_of_[steps[at].need]) {
                if (free_[lot] > 0) return pass_on(steps, at, lot, wanted);
                for (const std::size_t other : lots_[lot].takers)
                    if (!seen[other] && given(lot, other) > 0) seen[other] = 1, steps.push_back({other, at, lot});
            }
        return 0;
    }

    std::int64_t pass_on(const std::vector<Step>& steps, std::size_t last, std::size_t lot, std::int64_t wanted) {
        std::int64_t amount = std::min(wanted, free_[lot]);
        for (std::size_t at = last; at != 0; at = steps[at].before)
            amount = std::min(amount, given(steps[at].lot, steps[at].need));
        free_[lot] -= amount;
        for (std::size_t at = last; at != 0; at = steps[at].before) {
            given(lot, steps[at].need) += amount;
            lot = steps[at].lot;
            given(lot, steps[at].need) -= amount;
        }
        given(lot, steps.front().need) += amount;
        return amount;
    }

    const std::vector<Lot>& lots_;
    std::vector<std::int64_t> free_;                 // by lot
    std::vector<std::vector<std::size_t>> lots_of_;  // by need
    std::vector<std::vector<std::int64_t>> given_;   // by lot and taker
};

}  // namespace

std::vector<std::size_t> alike(const std::vector<Lot>& lots, std::size_t needs) {
    std::vector<std::vector<std::size_t>> drawn(needs);
    for (std::size_t l = 0; l < lots.size(); ++l)
        for (const std::size_t need : lots[l].takers) drawn[need].push_back(l);
    std::vector<std::size_t> found;
    std::map<std::vector<std::size_t>, std::size_t> known;
    std::size_t count = 0;
    for (const auto& lots_of : drawn) {
        const bool is_new = lots_of.empty() || known.try_emplace(lots_of, count).second;
        found.push_back(is_new ? count++ : known.at(lots_of));
    }
    return found;
}

std::optional<std::vector<std::vector<Lot>>> ways_to_deal(const std::vector<Lot>& pack,
                                                          const std::vector<std::int64_t>& wanted, std::int64_t piece,
                                                          std::size_t most) {
    std::vector<std::vector<Lot>> ways{{}};
    for (const Lot& lot : pack) {
        const bool whole = lot.amount % piece == 0 &&
                           std::all_of(lot.takers.begin(), lot.takers.end(),
                                       [&](std::size_t need) { return wanted[need] % piece == 0; });
        if (lot.takers.size() > 1 && !whole) return std::nullopt;
        const auto more = lot.takers.size() > 1 ? Dealer(wanted, piece, most).ways_of(lot)
                                                : std::vector<std::vector<Lot>>{{lot}};
        if (ways.size() * more.size() > most) return std::nullopt;
        std::vector<std::vector<Lot>> longer;
        for (const auto& way : ways)
            for (const auto& one : more) {
                longer.push_back(way);
                longer.back().insert(longer.back().end(), one.begin(), one.end());
            }
        ways = std::move(longer);
    }
    return ways;
}

std::optional<std::vector<NeedGroup>> groups_that_share(const std::vector<Lot>& lots, std::size_t needs,
                                                        std::size_t most) {
    return Groups(lots, needs).all(most);
}

std::vector<LotShare> shared_out(const std::vector<Lot>& lots, const std::vector<std::int64_t>& held,
                                 const std::vector<std::int64_t>& wanted) {
    Sharing sharing(lots, held, wanted.size());
    for (std::size_t need = 0; need < wanted.size(); ++need) sharing.feed(need, wanted[need]);
    return sharing.shares();
}

void give_the_rest(std::vector<LotShare>& shares, const std::vector<Lot>& lots, const std::vector<std::int64_t>& held) {
    std::vector<std::int64_t> rest = held;
    std::map<std::size_t, std::size_t> first;  // share of a lot
    for (std::size_t s = 0; s < shares.size(); ++s) {
        rest[shares[s].lot] -= shares[s].amount;
        first.emplace(shares[s].lot, s);
    }
    for (std::size_t l = 0; l < lots.size(); ++l) {
        if (rest[l] <= 0) continue;
        if (const auto has = first.find(l); has != first.end()) shares[has->second].amount += rest[l];
        else shares.push_back({l, lots[l].takers.front(), rest[l]});
    }
}

}  // namespace casebound
