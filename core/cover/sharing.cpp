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
