// An order as a mixed-integer program, written straight from needs and market for other solvers.
//   minimise  sum price x + sum carriage (open - free)
//   each line covered; x <= most * open; goods >= threshold * free; goods >= minimum * open; free <= open
//   of what several lines take: y of it to each line, sum of y <= what is in x packs
#pragma once

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <limits>
#include <map>
#include <string>
#include <utility>
#include <vector>

#include "core/cover/purchase.h"

struct Mip {
    struct Row {
        std::vector<std::pair<int, double>> terms;
        double at_least;

        void add(int variable, double factor) {  // a variable comes once
            for (auto& [known, sum] : terms)
                if (known == variable) {
                    sum += factor;
                    return;
                }
            terms.emplace_back(variable, factor);
        }
    };
    std::vector<double> cost, most;  // of the variables, from 0 to most
    std::vector<char> whole;
    std::vector<Row> rows;

    int add(double price, double limit, bool is_whole = true) {
        cost.push_back(price);
        most.push_back(limit);
        whole.push_back(is_whole);
        return static_cast<int>(cost.size()) - 1;
    }
};

using MipTerms = std::vector<std::pair<int, double>>;

// What the packs of an offer, `packs` of them together, give to the lines: terms for the rows, and rows of their own
// for what is shared. Pieces go as a whole where a line wants a part of one.
inline void add_gifts(Mip& mip, const std::vector<casebound::Need>& needs, const casebound::Offer& offer,
                      const MipTerms& packs, std::vector<Mip::Row>& rows) {
    struct Content {
        double holds{};
        std::vector<std::size_t> lines;
    };
    std::map<std::string, Content> contents;
    for (std::size_t i = 0; i < needs.size(); ++i)
        for (const auto& way : needs[i].served_by) {
            if (way.item != offer.item) continue;
            contents[way.content].holds = way.quantity * offer.pack_quantity;
            contents[way.content].lines.push_back(i);
        }
    for (const auto& [name, content] : contents) {
        if (content.lines.size() == 1) {
            const std::size_t i = content.lines.front();
            for (const auto& [variable, factor] : packs)
                rows[i].add(variable, factor * std::min(content.holds, needs[i].quantity));
            continue;
        }
        Mip::Row shared{{}, 0};
        for (const auto& [variable, factor] : packs) shared.terms.emplace_back(variable, factor * content.holds);
        for (const std::size_t i : content.lines) {
            const auto& need = needs[i];
            const bool is_whole = need.unit == "each" && need.quantity != std::floor(need.quantity);
            const int part = mip.add(0, std::ceil(need.quantity), is_whole);
            rows[i].terms.emplace_back(part, 1);
            shared.terms.emplace_back(part, -1);
        }
        mip.rows.push_back(shared);
    }
}

// More than this many packs are never bought: enough for every line, and to save the carriage or reach the minimum.
inline double most_packs(const casebound::Offer& offer, const casebound::Seller& seller,
                         const std::vector<casebound::Need>& needs) {
    double packs = 0;  // of what is shared, as many as all lines together take
    for (const auto& need : needs)
        for (const auto& way : need.served_by)
            if (way.item == offer.item) packs += std::ceil(need.quantity / (way.quantity * offer.pack_quantity) - 1e-9);
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
    std::vector<int> carriage_of;
    for (const auto& seller : market.sellers) {
        carriage_of.push_back(mip.add(static_cast<double>(seller.carriage_cents), 1));
        mip.add(-static_cast<double>(seller.carriage_cents), seller.free_from_cents ? 1 : 0);
    }
    std::vector<Mip::Row> covered;
    for (const auto& need : needs) covered.push_back({{}, need.quantity});
    for (std::size_t o = 0; o < bought.size(); ++o) add_gifts(mip, needs, market.offers[o], {{bought[o], 1}}, covered);
    mip.rows.insert(mip.rows.end(), covered.begin(), covered.end());
    for (std::size_t s = 0; s < market.sellers.size(); ++s) {
        const auto& seller = market.sellers[s];
        const int open = carriage_of[s], free = open + 1;
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
    for (std::size_t v = 0; v < mip.most.size(); ++v)
        if (mip.whole[v]) text += " x" + std::to_string(v) + "\n";
    return text + "End\n";
}
