// Generated parts lists and offers, for comparisons with other solvers. Prices, sellers and lines are invented.
#pragma once

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <random>
#include <string>
#include <vector>

#include "core/cover/purchase.h"

struct PurchaseInstance {
    std::vector<casebound::Need> needs;
    casebound::Market market;
};

class PurchaseGenerator {
public:
    explicit PurchaseGenerator(std::uint64_t seed) : random_(seed) {}

    // Mostly single pieces; some lines of 2 to 4; some of 5 to 14 in packs of 1, 4, 5 and 20. A third of the offers
    // beyond two a line are kits of 2 to 5 lines, each with contents of its own.
    PurchaseInstance make(int lines, int offers, int sellers) {
        PurchaseInstance made;
        std::vector<double> worth;
        for (int i = 0; i < lines; ++i) made.needs.push_back(need(i, worth));
        for (int s = 0; s < sellers; ++s) made.market.sellers.push_back(seller(s));
        for (int k = 0; k < offers; ++k) {
            const bool single = k < 2 * lines || below(100) < 65;
            if (single) add_single(made, worth, k < 2 * lines ? k % lines : below(lines), k, k < lines);
            else add_kit(made, worth, k);
        }
        return made;
    }

    // Some lines take what others take: one of their parts, one thing out of their kits, or all that is not a kit.
    void share(PurchaseInstance& made, int times) {
        const int lines = static_cast<int>(made.needs.size());
        for (int n = 0; n < times; ++n) {
            const auto& from = made.needs[static_cast<std::size_t>(below(lines))].served_by;
            auto& to = made.needs[static_cast<std::size_t>(below(lines))].served_by;
            if (from.empty()) continue;
            const bool all = below(3) == 0;
            const std::vector<casebound::Serves> ways = from;
            for (const auto& way :
                 all ? ways : std::vector{ways[static_cast<std::size_t>(below(static_cast<int>(ways.size())))]})
                if (!(all && !way.content.empty()) && !takes(to, way)) to.push_back(way);
        }
    }

    int below(int n) { return static_cast<int>(random_() % static_cast<std::uint64_t>(n)); }
    int between(int low, int high) { return low + below(high - low + 1); }

private:
    double unit() { return static_cast<double>(random_() >> 11) * 0x1p-53; }

    static bool takes(const std::vector<casebound::Serves>& ways, const casebound::Serves& way) {
        for (const auto& one : ways)
            if (one.item == way.item && one.content == way.content) return true;
        return false;
    }

    static std::string number(const std::string& word, int i) { return word + " " + std::to_string(i); }

    casebound::Need need(int i, std::vector<double>& worth) {
        const int kind = below(10);
        const int quantity = kind < 7 ? 1 : kind < 9 ? between(2, 4) : between(5, 14);
        worth.push_back(std::exp(4 * unit()) * 200 / (quantity > 4 ? 3 : 1) + 50);
        return {number("line", i), static_cast<double>(quantity), "each", {}};
    }

    casebound::Seller seller(int s) {
        casebound::Seller made{number("seller", s), between(4, 15) * 100 - 10, {}, 0, false};
        if (below(10) < 8) made.free_from_cents = between(6, 25) * 1000;
        if (below(10) < 4) made.minimum_cents = between(1, 4) * 1000;
        return made;
    }

    void add_offer(PurchaseInstance& made, const std::string& item, double price, bool unlimited) {
        casebound::Offer offer{
            made.market.sellers[static_cast<std::size_t>(below(static_cast<int>(made.market.sellers.size())))].name,
            item, std::max<std::int64_t>(1, std::llround(price))};
        if (!unlimited && below(4) == 0) offer.available = between(1, 12);
        made.market.offers.push_back(offer);
    }

    void add_single(PurchaseInstance& made, const std::vector<double>& worth, int line, int k, bool unlimited) {
        auto& need = made.needs[static_cast<std::size_t>(line)];
        constexpr int large_packs[] = {1, 4, 5, 20};
        int pack = 1;
        if (need.quantity > 4) pack = large_packs[below(4)];
        else if (need.quantity > 1 && below(3) == 0) pack = between(2, 4);
        const std::string item = number("part", k);
        need.served_by.push_back({item, static_cast<double>(pack)});
        add_offer(made, item,
                  worth[static_cast<std::size_t>(line)] * pack * (pack > 1 ? 0.85 : 1) * (0.75 + 0.6 * unit()),
                  unlimited);
    }

    void add_kit(PurchaseInstance& made, const std::vector<double>& worth, int k) {
        const std::string item = number("kit", k);
        const int lines = static_cast<int>(made.needs.size());
        const int size = std::min(lines, between(2, 5)), first = below(lines),
                  stride = lines > 1 ? between(1, lines - 1) : 1;
        double price = 0;
        for (int n = 0, line = first; n < size; ++n, line = (line + stride) % lines) {
            auto& need = made.needs[static_cast<std::size_t>(line)];
            if (!need.served_by.empty() && need.served_by.back().item == item) break;  // the stride came round
            bool known = false;
            for (const auto& way : need.served_by) known = known || way.item == item;
            if (known) break;
            const int gives = need.quantity > 1 ? between(1, static_cast<int>(need.quantity)) : 1;
            need.served_by.push_back({item, static_cast<double>(gives), "", need.line});
            price += worth[static_cast<std::size_t>(line)] * gives;
        }
        add_offer(made, item, price * (0.6 + 0.4 * unit()), false);
    }

    std::mt19937_64 random_;
};
