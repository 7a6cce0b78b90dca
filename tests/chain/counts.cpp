#include "counts.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace chain {

namespace {

constexpr double rounding = 1e-6;

const Item& item_of(const World& world, int item) { return world.items[static_cast<std::size_t>(item)]; }

unsigned places_of(const Rights& rights, int item) {
    unsigned mask = 0;
    for (int place = 0; place < counted_places; ++place)
        if (rights.item(place, item)) mask |= 1U << place;
    return mask;
}

unsigned places_of_content(const std::function<bool(int, int, int)>& right, int kit_item, int group) {
    unsigned mask = 0;
    for (int place = 0; place < counted_places; ++place)
        if (right(place, kit_item, group)) mask |= 1U << place;
    return mask;
}

// May something in the kit be right in the place?
bool goes_in(const World& world, const Rights& rights, int kit_item, int place) {
    return std::any_of(world.kit_contents.begin(), world.kit_contents.end(), [&](const KitContent& content) {
        return content.kit == kit_item && rights.content_here(place, kit_item, content.group);
    });
}

// What went into a place that nothing in the kit is right for is gone all the same: any of its kind may have been it.
void add_at_hand_kits(const World& world, const Rights& rights, std::vector<Supply>& found) {
    for (int kit_item = 0; kit_item < static_cast<int>(world.items.size()); ++kit_item) {
        if (item_of(world, kit_item).part != kit) continue;
        for (const auto& content : world.kit_contents) {
            if (content.kit != kit_item) continue;
            int kits = 0, gone = 0;
            const unsigned mask = places_of_content(rights.content_here, kit_item, content.group);
            for (const auto& one : world.bought) {
                if (one.item != kit_item) continue;
                kits = std::max(kits, one.ordered > 0 ? 1 : 0);
                if (one.returned > 0) kits = 0;
                const bool of_this_kind = part_of(one.place) ==
                                          world.groups[static_cast<std::size_t>(content.group)].part;
                const bool may_be_it = rights.may_be_in(one.place, content.group) ||
                                       (of_this_kind && !goes_in(world, rights, kit_item, one.place));
                if (may_be_it) gone += one.fitted;
            }
            if (const int left = kits * content.quantity - gone; left > 0) found.push_back({mask, left});
        }
    }
}

}  // namespace

// Each set of places must find enough pieces that may serve one of them.
bool covers(const std::vector<Supply>& supplies, const Demand& demand) {
    for (unsigned set = 1; set < (1U << counted_places); ++set) {
        int wanted = 0, there = 0;
        for (int place = 0; place < counted_places; ++place)
            if ((set >> place) & 1U) wanted += demand.pieces[static_cast<std::size_t>(place)];
        for (const auto& supply : supplies)
            if (supply.may_serve & set) there += supply.pieces;
        if (there < wanted) return false;
    }
    return true;
}

std::vector<Supply> contents_of(const World& world, const Rights& rights, int item, int packs) {
    std::vector<Supply> found;
    if (item_of(world, item).part != kit)
        return {{places_of(rights, item), static_cast<int>(std::lround(item_of(world, item).pack)) * packs}};
    for (const auto& content : world.kit_contents)
        if (content.kit == item)
            found.push_back({places_of_content(rights.content, item, content.group), content.quantity * packs});
    return found;
}

std::vector<Supply> at_hand(const World& world, const Rights& rights) {
    std::vector<Supply> found;
    for (int item = 0; item < static_cast<int>(world.items.size()); ++item) {
        if (item_of(world, item).part == kit || item_of(world, item).part == oil) continue;
        int pieces = 0;
        for (const auto& one : world.bought)
            if (one.item == item) pieces += std::max(one.ordered, one.received) - one.returned - one.fitted;
        if (pieces > 0) found.push_back({places_of(rights, item), pieces});
    }
    add_at_hand_kits(world, rights, found);
    for (const auto& one : world.shelf) {
        const double free = one.quantity - one.kept;
        if (item_of(world, one.item).part == oil || free < 1) continue;
        if (item_of(world, one.item).part == kit) {
            for (const auto& supply : contents_of(world, rights, one.item, static_cast<int>(free)))
                found.push_back(supply);
        } else {
            found.push_back({places_of(rights, one.item), static_cast<int>(free)});
        }
    }
    return found;
}

double litres_at_hand(const World& world, const Rights& rights, int group) {
    double litres = 0;
    for (const auto& one : world.shelf)
        if (item_of(world, one.item).part == oil && rights.filling(one.item, group)) litres += one.quantity - one.kept;
    return litres;
}

int fitted(const World& world, const Rights& rights, int place) {
    int pieces = 0;
    for (const auto& one : world.bought) {
        if (one.place != place) continue;
        bool right = item_of(world, one.item).part != kit && rights.item(place, one.item);
        for (const auto& content : world.kit_contents)
            right |= content.kit == one.item && rights.content_here(place, one.item, content.group);
        if (right) pieces += one.fitted;
    }
    return pieces;
}

namespace {

// Every count of every offer, in turn; a branch ends where everything is served, for more would only cost more, but for
// what is added to reach a threshold or a minimum.
class Search {
public:
    Search(const World& world, const Rights& rights, const Demand& demand, int filling)
        : world_(world), rights_(rights), demand_(demand), filling_(filling) {
        supplies_ = at_hand(world, rights);
        litres_ = filling >= 0 ? litres_at_hand(world, rights, filling) : 0;
        for (const auto& offer : world.offers)
            if (useful(offer)) {
                offers_.push_back(&offer);
                contents_.push_back(contents_of(world, rights, offer.item, offer.pack));
                most_.push_back(most(offer));
            }
        counts_.resize(offers_.size());
        goods_.resize(world.sellers.size());
    }

    std::optional<long> best() {
        from(0, 0);
        return best_ == none ? std::nullopt : std::optional(best_);
    }

private:
    static constexpr long none = std::numeric_limits<long>::max();

    // Offers for anything that serves a place at all, of any filling, may fill up an order.
    bool useful(const Offer& offer) const {
        if (item_of(world_, offer.item).part == oil) {
            if (demand_.litres <= 0) return false;
            for (int g = 0; g < static_cast<int>(world_.groups.size()); ++g)
                if (rights_.filling(offer.item, g)) return true;
            return false;
        }
        for (const auto& supply : contents_of(world_, rights_, offer.item, 1))
            for (int place = 0; place < counted_places; ++place)
                if (((supply.may_serve >> place) & 1U) && demand_.pieces[static_cast<std::size_t>(place)] > 0)
                    return true;
        return false;
    }

    bool served() const {
        return covers(supplies_, demand_) && (demand_.litres <= 0 || litres_ + rounding >= demand_.litres);
    }

    int most(const Offer& offer) const {
        int wanted = 0;
        if (item_of(world_, offer.item).part == oil) {
            if (filling_ < 0 || !rights_.filling(offer.item, filling_)) return 0;
            wanted = static_cast<int>(std::ceil(demand_.litres / (item_of(world_, offer.item).pack * offer.pack)));
        } else {
            for (const int pieces : demand_.pieces) wanted += pieces;
        }
        return offer.available < 0 ? wanted : std::min(wanted, offer.available);
    }

    void from(std::size_t at, long goods) {
        if (goods >= best_) return;
        if (served()) {
            best_ = std::min(best_, cost());
            return;
        }
        if (at == offers_.size()) return;
        const auto& offer = *offers_[at];
        const auto before = supplies_.size();
        const double litres = litres_;
        for (int count = 0; count <= most_[at]; ++count) {
            counts_[at] = count;
            goods_[static_cast<std::size_t>(offer.seller)] += count ? offer.cents : 0;
            if (count && item_of(world_, offer.item).part == oil)
                litres_ += item_of(world_, offer.item).pack * offer.pack;
            else if (count) supplies_.insert(supplies_.end(), contents_[at].begin(), contents_[at].end());
            from(at + 1, goods + count * offer.cents);
        }
        goods_[static_cast<std::size_t>(offer.seller)] -= counts_[at] * offer.cents;
        counts_[at] = 0;
        supplies_.resize(before);
        litres_ = litres;
    }

    long cost() const {
        long total = 0;
        for (std::size_t s = 0; s < world_.sellers.size(); ++s) {
            if (goods_[s] == 0 && !buys_from(static_cast<int>(s))) continue;
            const auto& seller = world_.sellers[s];
            long least = none;
            for (const long target : {seller.minimum, std::max(seller.minimum, seller.free_from)}) {
                const long added = fill_up(static_cast<int>(s), target - goods_[s]);
                if (added == none) continue;
                const bool free = seller.free_from > 0 && goods_[s] + added >= seller.free_from;
                least = std::min(least, goods_[s] + added + (free ? 0 : seller.carriage));
            }
            if (least == none) return none;
            total += least;
        }
        return total;
    }

    bool buys_from(int seller) const {
        for (std::size_t i = 0; i < offers_.size(); ++i)
            if (offers_[i]->seller == seller && counts_[i] > 0) return true;
        return false;
    }

    // The least that packs of this seller come to that make up `missing` cents; every sum up to the dearest is tried.
    long fill_up(int seller, long missing) const {
        if (missing <= 0) return 0;
        long dearest = 0;
        for (const auto* offer : offers_) dearest = std::max(dearest, offer->seller == seller ? offer->cents : 0);
        std::vector<char> reached(static_cast<std::size_t>(missing + dearest + 1));
        reached[0] = 1;
        for (std::size_t i = 0; i < offers_.size(); ++i) {
            if (offers_[i]->seller != seller || offers_[i]->cents == 0) continue;
            const auto step = static_cast<std::size_t>(offers_[i]->cents);
            const int left = offers_[i]->available < 0 ? 1000 : offers_[i]->available - counts_[i];
            std::vector<int> used(reached.size(), left + 1);
            for (std::size_t at = 0; at < reached.size(); ++at) {
                if (reached[at]) used[at] = 0;
                if (at >= step && used[at - step] < left && used[at - step] + 1 < used[at])
                    used[at] = used[at - step] + 1;
            }
            for (std::size_t at = 0; at < reached.size(); ++at) reached[at] = used[at] <= left;
        }
        for (std::size_t at = static_cast<std::size_t>(missing); at < reached.size(); ++at)
            if (reached[at]) return static_cast<long>(at);
        return none;
    }

    const World& world_;
    const Rights& rights_;
    const Demand& demand_;
    int filling_;
    std::vector<Supply> supplies_;
    double litres_{};
    std::vector<const Offer*> offers_;
    std::vector<std::vector<Supply>> contents_;  // of one pack
    std::vector<int> most_, counts_;
    std::vector<long> goods_;
    long best_ = none;
};

}  // namespace

std::optional<long> cheapest(const World& world, const Rights& rights, const Demand& demand) {
    if (demand.litres <= 0) return Search(world, rights, demand, -1).best();
    std::optional<long> best;
    for (int g = 0; g < static_cast<int>(world.groups.size()); ++g) {
        if (world.groups[static_cast<std::size_t>(g)].part != oil) continue;
        const auto one = Search(world, rights, demand, g).best();
        if (one && (!best || *one < *best)) best = one;
    }
    return best;
}

}  // namespace chain
