#include "core/cover/unsure_order.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include <fmt/format.h>

#include "core/cover/cover_unsure.h"
#include "core/cover/purchase_model.h"
#include "core/cover/spec_ways.h"
#include "core/ground/error.h"

namespace casebound {

std::int64_t refund_cents(const Offer& offer, bool own_shelf, bool cores_come_back) {
    if (own_shelf) return offer.pack_cents;
    if (!offer.returnable.value_or(false)) return 0;
    const std::int64_t paid_back = std::llround(static_cast<double>(offer.pack_cents) * (1 - offer.return_fee)) +
                                   (cores_come_back ? 0 : offer.core_cents);
    return std::max<std::int64_t>(0, paid_back - offer.return_carriage_cents);
}

namespace {

constexpr std::int64_t whole_weight = 10'000;  // shares are taken to a ten-thousandth
constexpr std::size_t most_spec_ways = 64;
constexpr std::string_view in_hand = "already ordered";

bool same_need(const Need& a, const Need& b) {
    return a.line == b.line && a.quantity == b.quantity && a.unit == b.unit &&
           std::equal(a.served_by.begin(), a.served_by.end(), b.served_by.begin(), b.served_by.end(),
                      [](const Serves& x, const Serves& y) {
                          return x.item == y.item && x.quantity == y.quantity && x.spec == y.spec &&
                                 x.content == y.content;
                      });
}

// Those that differ in what they need, and of each the first that it stands for.
struct Distinct {
    std::vector<Possibility> possible;
    std::vector<std::size_t> first;
};

Distinct merged(const std::vector<Possibility>& possible) {
    Distinct all;
    auto& distinct = all.possible;
    for (const Possibility& p : possible) {
        if (!(p.share >= 0) || !std::isfinite(p.share))
            throw Error(Exit::bad_data, fmt::format("possibility {}: share {}: give 0 or more", p.name, p.share));
        if (p.share == 0) continue;
        const auto known = std::find_if(distinct.begin(), distinct.end(),
                                        [&](const Possibility& d) { return same_needs(d, p); });
        if (known == distinct.end())
            distinct.push_back(p), all.first.push_back(static_cast<std::size_t>(&p - possible.data()));
        else known->share += p.share, known->name += ", " + p.name;
    }
    if (distinct.empty())
        throw Error(Exit::bad_data, "order while unsure: nothing is possible: tell what the vehicle may be");
    return all;
}

std::size_t most_likely_of(const std::vector<Possibility>& possible) {
    const auto likelier = [](const Possibility& a, const Possibility& b) {
        return a.share != b.share ? a.share < b.share : a.name > b.name;
    };
    return static_cast<std::size_t>(std::max_element(possible.begin(), possible.end(), likelier) - possible.begin());
}

class Unsure {
public:
    Unsure(const std::vector<Possibility>& possible, const Market& market, const UnsureCosts& costs,
           const PurchaseLimits& limits)
        : Unsure(merged(possible), market, costs, limits) {}
    Unsure(Distinct distinct, const Market& market, const UnsureCosts& costs, const PurchaseLimits& limits)
        : possible_(std::move(distinct.possible)), first_(std::move(distinct.first)), market_(market), costs_(costs),
          limits_(limits), likely_(most_likely_of(possible_)) {
        weigh();
        for (const Possibility& p : possible_) known_.push_back(cheapest_order(p.needs, market_, limits_));
    }

    UnsureAdvice advice() {
        UnsureAdvice advice;
        advice.find_out_first = find_out_first();
        advice.most_likely = order_for_likely();
        advice.right_in_every = order_for_every();
        advice.likely = possible_[likely_].name;
        for (const Outcome& outcome : advice.most_likely.outcomes)
            advice.chance_wrong += outcome.more ? outcome.share : 0;
        if (advice.most_likely.possible() && advice.find_out_first.possible())
            advice.cost_of_being_wrong_cents = advice.most_likely.expected_cents -
                                               (advice.find_out_first.expected_cents - costs_.finding_out_cents);
        choose(advice);
        return advice;
    }

private:
    void weigh() {
        double total = 0;
        for (const Possibility& p : possible_) total += p.share;
        for (Possibility& p : possible_) {
            p.share /= total;
            weights_.push_back(std::max<std::int64_t>(1, std::llround(p.share * whole_weight)));
        }
        weights_[likely_] += whole_weight - std::accumulate(weights_.begin(), weights_.end(), std::int64_t{0});
    }

    // Expected and worst total of the outcomes; the reason instead when some possibility cannot be covered.
    void sum_up(UnsurePlan& plan) const {
        std::int64_t weighted = 0;
        for (std::size_t p = 0; p < plan.outcomes.size(); ++p) {
            weighted += plan.outcomes[p].total_cents * weights_[p];
            plan.worst_cents = std::max(plan.worst_cents, plan.outcomes[p].total_cents);
        }
        plan.expected_cents = static_cast<std::int64_t>(std::llround(static_cast<double>(weighted) / whole_weight));
    }

    std::string not_covered() const {
        std::vector<std::pair<std::string, std::string>> reasons;  // reason, the names it holds for
        for (std::size_t p = 0; p < possible_.size(); ++p) {
            if (known_[p].order) continue;
            const auto said = std::find_if(reasons.begin(), reasons.end(),
                                           [&](const auto& one) { return one.first == known_[p].reason; });
            if (said == reasons.end()) reasons.emplace_back(known_[p].reason, possible_[p].name);
            else said->second += ", or " + possible_[p].name;
        }
        std::string text;
        for (const auto& [reason, where] : reasons)
            text += fmt::format("{}{}: {}", text.empty() ? "" : "; ", where, reason);
        return text;
    }

    Outcome nothing_more(std::size_t p, std::int64_t total_cents) const {
        Outcome outcome;
        outcome.first = first_[p];
        outcome.name = possible_[p].name;
        outcome.share = possible_[p].share;
        outcome.total_cents = total_cents;
        return outcome;
    }

    UnsurePlan find_out_first() const {
        UnsurePlan plan;
        plan.reason = not_covered();
        if (!plan.possible()) return plan;
        for (std::size_t p = 0; p < possible_.size(); ++p) {
            Outcome outcome = nothing_more(p, costs_.finding_out_cents + known_[p].order->total_cents);
            outcome.more = known_[p].order;
            plan.outcomes.push_back(std::move(outcome));
            plan.proven = plan.proven && known_[p].proven;
        }
        sum_up(plan);
        return plan;
    }

    UnsurePlan order_for_likely() {
        UnsurePlan plan;
        plan.reason = not_covered();
        if (!plan.possible()) return plan;
        plan.order = known_[likely_].order;
        plan.proven = known_[likely_].proven;
        const Market then = left_after(*plan.order);
        for (std::size_t p = 0; p < possible_.size(); ++p) {
            auto next = p == likely_ ? nothing_more(p, plan.order->total_cents)
                                     : outcome(*plan.order, in_hand_of(*plan.order, nullptr), p, then);
            if (!next)
                return impossible(
                    fmt::format("{}: no second order can be placed from what is left on offer", possible_[p].name));
            plan.outcomes.push_back(std::move(*next));
        }
        sum_up(plan);
        return plan;
    }

    bool on_shelf(const std::string& seller) const {
        return std::any_of(market_.sellers.begin(), market_.sellers.end(),
                           [&](const Seller& s) { return s.name == seller && s.own_shelf; });
    }

    std::int64_t refund_of(const Offer& offer) const {
        return refund_cents(offer, on_shelf(offer.seller), limits_.cores_come_back);
    }

    // A line of the first order, now in hand: some packs stay whatever comes, others may go back.
    struct InHand {
        const OrderLine* line{};
        const std::string* seller{};
        int may_go_back{};
        std::size_t place{};  // in the market: what stays; behind it what may go back
        int stays() const { return line->packs - may_go_back; }
    };

    // What can still be bought once the order is placed: its packs are gone, from the own shelf too.
    Market left_after(const Order& order) const {
        Market left = market_;
        for (const SellerOrder& part : order.sellers)
            for (const OrderLine& line : part.lines)
                if (int& available = left.offers[line.offer].available; available < unlimited_packs)
                    available -= line.packs;
        return left;
    }

    static UnsurePlan impossible(std::string reason) {
        UnsurePlan plan;
        plan.reason = std::move(reason);
        return plan;
    }

    // Adds to the market what is in hand: what stays costs nothing, what may go back the refund that keeping it
    // gives up.
    void put_in_hand(Market& market, std::vector<InHand>& hand) const {
        market.sellers.push_back({std::string(in_hand), 0, {}, 0, true});
        for (InHand& one : hand) {
            const Offer& offer = market_.offers[one.line->offer];
            one.place = market.offers.size();
            market.offers.push_back({std::string(in_hand), offer.item, 0, offer.pack_quantity, one.stays(), 0});
            market.offers.push_back(
                {std::string(in_hand), offer.item, refund_of(offer), offer.pack_quantity, one.may_go_back, 0});
        }
    }

    // Possibility p turns out true: keep what helps, send back the rest, buy from `market` what is missing. Nothing
    // when that cannot be done.
    std::optional<Outcome> outcome(const Order& order, std::vector<InHand> hand, std::size_t p, Market market) const {
        put_in_hand(market, hand);
        Outcome outcome = nothing_more(p, order.total_cents);
        const PurchaseAnswer found = cheapest_order(possible_[p].needs, market, limits_);
        if (!found.order) return std::nullopt;
        Order then = *found.order;
        std::vector<int> kept(market.offers.size());
        for (const SellerOrder& part : then.sellers)
            for (const OrderLine& line : part.lines) kept[line.offer] = line.packs;
        for (const InHand& one : hand) {
            set_aside(outcome, one, one.may_go_back - kept[one.place + 1], refund_of(market_.offers[one.line->offer]));
            set_aside(outcome, one, one.stays() - kept[one.place], 0);
        }
        take_out_hand(then);
        outcome.total_cents += then.total_cents - outcome.refund_cents;
        if (then.sellers.empty()) return outcome;
        outcome.total_cents += costs_.second_order_cents;
        outcome.more = std::move(then);
        return outcome;
    }

    // Everything but padding may go back, or so many packs of each offer as `may_go_back` says.
    static std::vector<InHand> in_hand_of(const Order& order, const std::map<std::size_t, int>* may_go_back) {
        std::vector<InHand> hand;
        for (const SellerOrder& part : order.sellers)
            for (const OrderLine& line : part.lines)
                hand.push_back(
                    {&line, &part.seller, may_go_back ? may_go_back->at(line.offer) : line.packs - line.padding, 0});
        return hand;
    }

    static void set_aside(Outcome& outcome, const InHand& one, int packs, std::int64_t refund) {
        if (packs == 0) return;
        (refund > 0 ? outcome.sent_back : outcome.left_over)
            .push_back({*one.seller, one.line->item, packs, refund * packs, one.line->pack_quantity});
        outcome.refund_cents += refund * packs;
    }

    static void take_out_hand(Order& order) {
        const auto part = std::find_if(order.sellers.begin(), order.sellers.end(),
                                       [](const SellerOrder& s) { return s.seller == in_hand; });
        if (part == order.sellers.end()) return;
        order.goods_cents -= part->goods_cents;
        order.total_cents -= part->goods_cents;
        order.sellers.erase(part);
    }

    UnsurePlan order_for_every() {
        if (auto reason = not_covered(); !reason.empty()) return impossible(std::move(reason));
        UnsureCover cover;
        std::vector<std::size_t> possibility;  // of the needs
        const SpecWays specs = spec_ways(all_needs(possibility), market_, most_spec_ways);
        cover.weights = weights_;
        UnsurePlan plan;
        plan.proven = specs.all;
        plan.reason = "together they need more than is offered";
        std::map<std::size_t, int> may_go_back;
        std::optional<std::int64_t> below;
        for (const std::vector<Need>& way : specs.ways) try_way(plan, may_go_back, cover, way, possibility, below);
        if (!plan.possible()) return plan;
        plain_lines(*plan.order);
        for (std::size_t p = 0; p < possible_.size(); ++p)
            plan.outcomes.push_back(*outcome(*plan.order, in_hand_of(*plan.order, &may_go_back), p, {}));
        sum_up(plan);
        return plan;
    }

    // Puts the order for this choice of specs in the plan when it costs less than `below`.
    void try_way(UnsurePlan& plan, std::map<std::size_t, int>& may_go_back, UnsureCover& cover,
                 const std::vector<Need>& way, const std::vector<std::size_t>& possibility,
                 std::optional<std::int64_t>& below) const {
        const PurchaseModel model(way, market_, limits_, {}, possibility);
        if (!model.unmet().empty()) return;
        cover.all = model.problem();
        cover.possibility = model.possibilities();
        cover.refund_cents.clear();
        for (std::size_t j = 0; j < cover.all.columns.size(); ++j)
            cover.refund_cents.push_back(refund_of(model.offer(j)));
        const auto found = cheapest_unsure_cover(cover, below);
        plan.proven = plan.proven && found.cover.proven;
        if (!found.cover.found) {
            if (!below) plan.reason = "no single order covers them all within the limits";
            return;
        }
        below = found.cover.cost;
        plan.reason.clear();
        plan.order = model.order(found.cover, found.may_go_back);
        may_go_back.clear();
        for (std::size_t j = 0; j < found.may_go_back.size(); ++j) may_go_back[model.place(j)] = found.may_go_back[j];
    }

    std::vector<Need> all_needs(std::vector<std::size_t>& possibility) {
        std::vector<Need> all;
        for (std::size_t p = 0; p < possible_.size(); ++p)
            for (Need need : possible_[p].needs) {
                const std::string line = need.line;
                need.line = fmt::format("{} ({})", line, possible_[p].name);
                line_of_[need.line] = line;
                possibility.push_back(p);
                all.push_back(std::move(need));
            }
        return all;
    }

    // A piece meant for one place in one possibility and for another in the next is counted at both.
    void plain_lines(Order& order) const {
        for (SellerOrder& part : order.sellers)
            for (OrderLine& line : part.lines) {
                const OrderLine told_apart = line;
                line.serves.clear();
                line.gives.clear();
                for (std::size_t k = 0; k < told_apart.serves.size(); ++k)
                    add_plain(line, line_of_.at(told_apart.serves[k]), told_apart.gives[k]);
            }
    }

    static void add_plain(OrderLine& line, const std::string& plain, double gives) {
        const auto known = std::find(line.serves.begin(), line.serves.end(), plain);
        if (known != line.serves.end()) {
            double& most = line.gives[static_cast<std::size_t>(known - line.serves.begin())];
            most = std::max(most, gives);
            return;
        }
        line.serves.push_back(plain);
        line.gives.push_back(gives);
    }

    static void choose(UnsureAdvice& advice) {
        const UnsurePlan* best = nullptr;
        const auto weigh = [&](const UnsurePlan& plan, UnsureChoice choice) {
            if (!plan.possible() || (best && plan.expected_cents >= best->expected_cents)) return;
            best = &plan;
            advice.cheapest = choice;
        };
        weigh(advice.find_out_first, UnsureChoice::find_out_first);
        weigh(advice.right_in_every, UnsureChoice::right_in_every);
        weigh(advice.most_likely, UnsureChoice::most_likely);
        if (!best) advice.because = advice.find_out_first.reason;
        else
            advice.because = fmt::format(
                "expected: find out first {}, order for the most likely {}, right in every one {}",
                price(advice.find_out_first), price(advice.most_likely), price(advice.right_in_every));
    }

    static std::string price(const UnsurePlan& plan) {
        return plan.possible() ? cents_text(plan.expected_cents) : "not possible";
    }

    std::vector<Possibility> possible_;
    std::vector<std::size_t> first_;
    const Market& market_;
    UnsureCosts costs_;
    PurchaseLimits limits_;
    std::size_t likely_;
    std::vector<std::int64_t> weights_;
    std::vector<PurchaseAnswer> known_;
    std::map<std::string, std::string> line_of_;
};

}  // namespace

bool same_needs(const Possibility& a, const Possibility& b) {
    return std::equal(a.needs.begin(), a.needs.end(), b.needs.begin(), b.needs.end(), same_need);
}

UnsureAdvice order_while_unsure(const std::vector<Possibility>& possible, const Market& market,
                                const UnsureCosts& costs, const PurchaseLimits& limits) {
    for (const Seller& seller : market.sellers)
        if (seller.name == in_hand)
            throw Error(Exit::bad_data, fmt::format("seller {}: this name is taken: use another", in_hand));
    return Unsure(possible, market, costs, limits).advice();
}

std::string_view unsure_choice_words(UnsureChoice choice) {
    if (choice == UnsureChoice::find_out_first) return "find out first";
    return choice == UnsureChoice::most_likely ? "order for the most likely" : "order so that it is right in every one";
}

}  // namespace casebound
