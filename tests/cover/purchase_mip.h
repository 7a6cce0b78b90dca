// An order as a mixed-integer program, written straight from needs and market for other solvers.
//   minimise  sum price x + sum carriage (open - free)
//   each line covered; x <= most * open; goods >= threshold * free; goods >= minimum * open; free <= open
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>
#include <string>
#include <utility>
#include <vector>

#include "core/cover/purchase.h"

struct Mip {
    struct Row {
        std::vector<std::pair<int, double>> terms;
        double at_least;
    };
    std::vector<double> cost, most;  // of the variables; all whole, from 0 to most
    std::vector<Row> rows;

    int add(double price, double limit) {
        cost.push_back(price);
        most.push_back(limit);
        return static_cast<int>(cost.size()) - 1;
    }
};

inline double given_by(const casebound::Need& need, const casebound::Offer& offer) {
    for (const auto& way : need.served_by)
        if (way.item == offer.item) return std::min(way.quantity * offer.pack_quantity, need.quantity);
    return 0;
}

// More than this many packs are never bought: enough for every line, and to save the carriage or reach the minimum.
inline double most_packs(const casebound::Offer& offer, const casebound::Seller& seller,
                         const std::vector<casebound::Need>& needs) {
    double packs = 0;
    for (const auto& need : needs)
        if (const double gives = given_by(need, offer); gives > 0)
            packs = std::max(packs, std::ceil(need.quantity / gives - 1e-9));
    const auto extra = static_cast<double>(std::max(seller.carriage_cents, seller.minimum_cents));
    if (offer.pack_cents > 0) packs += std::ceil(extra / static_cast<double>(offer.pack_cents));
    return std::min(packs, static_cast<double>(offer.available));
}

inline Mip mip_of(const std::vector<casebound::Need>& needs, const casebound::Market& market) {
    Mip mip;
    std::vector<int> bought;
    for (const auto& offer : market.offers) {
        const auto seller = std::find_if(market.sellers.begin(), market.sellers.end(),
                                         [&](const auto& s) { return s.name == offer.seller; });
        bought.push_back(mip.add(static_cast<double>(offer.pack_cents), most_packs(offer, *seller, needs)));
    }
    for (const auto& need : needs) {
        Mip::Row row{{}, need.quantity};
        for (std::size_t o = 0; o < bought.size(); ++o)
            if (const double gives = given_by(need, market.offers[o]); gives > 0)
                row.terms.emplace_back(bought[o], gives);
        mip.rows.push_back(row);
    }
    for (const auto& seller : market.sellers) {
        const auto carriage = static_cast<double>(seller.carriage_cents);
        const int open = mip.add(carriage, 1), free = mip.add(-carriage, seller.free_from_cents ? 1 : 0);
        Mip::Row threshold{{{free, -static_cast<double>(seller.free_from_cents.value_or(0))}}, 0};
        Mip::Row minimum{{{open, -static_cast<double>(seller.minimum_cents)}}, 0};
        for (std::size_t o = 0; o < bought.size(); ++o) {
            if (market.offers[o].seller != seller.name) continue;
            const auto price = static_cast<double>(market.offers[o].pack_cents);
            threshold.terms.emplace_back(bought[o], price);
            minimum.terms.emplace_back(bought[o], price);
            mip.rows.push_back({{{open, mip.most[static_cast<std::size_t>(bought[o])]}, {bought[o], -1}}, 0});
        }
        mip.rows.push_back({{{open, 1}, {free, -1}}, 0});
        if (seller.free_from_cents) mip.rows.push_back(threshold);
        if (seller.minimum_cents > 0) mip.rows.push_back(minimum);
    }
    return mip;
}

// In the LP format that many solvers read.
inline std::string lp_text(const Mip& mip) {
    const auto term = [](double factor, int variable) {
        char text[64];
        std::snprintf(text, sizeof text, " %+.10g x%d\n", factor, variable);
        return std::string(text);
    };
    std::string text = "Minimize\n cost:";
    for (std::size_t v = 0; v < mip.cost.size(); ++v) text += term(mip.cost[v], static_cast<int>(v));
    text += "Subject To\n";
    for (std::size_t r = 0; r < mip.rows.size(); ++r) {
        if (mip.rows[r].terms.empty()) {  // a line nobody offers: no solution
            text += " r" + std::to_string(r) + ": 0 x0 >= " + std::to_string(mip.rows[r].at_least) + "\n";
            continue;
        }
        text += " r" + std::to_string(r) + ":";
        for (const auto& [variable, factor] : mip.rows[r].terms) text += term(factor, variable);
        char bound[64];
        std::snprintf(bound, sizeof bound, " >= %.10g\n", mip.rows[r].at_least);
        text += bound;
    }
    text += "Bounds\n";
    for (std::size_t v = 0; v < mip.most.size(); ++v)
        text += " 0 <= x" + std::to_string(v) + " <= " + std::to_string(static_cast<long>(mip.most[v])) + "\n";
    text += "General\n";
    for (std::size_t v = 0; v < mip.most.size(); ++v) text += " x" + std::to_string(v) + "\n";
    return text + "End\n";
}
