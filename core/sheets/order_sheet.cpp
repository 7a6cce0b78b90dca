#include "core/sheets/order_sheet.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/buy/return_cost.h"
#include "core/buy/rounding.h"
#include "core/ground/units.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"
#include "core/shop/shop_settings.h"

namespace casebound {

namespace {

// "kit, also holds pan gasket and MG-7": beside the line of `title`.
std::string kit_words(const Buying& buying, const std::string& item, const std::string& title) {
    for (const auto& kit : buying.list.kits) {
        if (kit.item != item) continue;
        auto beside = kit.surplus;
        for (const auto& covered : kit.covers)
            if (covered != title) beside.push_back(covered);
        return beside.empty() ? "kit" : fmt::format("kit, also holds {}", fmt::join(beside, " and "));
    }
    return "";
}

// What of the need the line gives, in units of the need; 0 when it gives none.
double given_by(const OrderLine& line, const Need& need) {
    for (std::size_t k = 0; k < line.serves.size(); ++k)
        if (line.serves[k] == need.line) return std::min(need.quantity, line.gives[k]);
    return 0;
}

// So many packs of an offer.
struct Packs {
    const Offer* offer{};
    int count{};
    std::int64_t cents() const { return offer->pack_cents * count; }
};

int packs_left(const Market& market, const Order& order, std::size_t offer) {
    int left = market.offers[offer].available;
    for (const auto& seller : order.sellers)
        for (const auto& line : seller.lines)
            if (line.offer == offer) left -= line.packs;
    return left;
}

// The cheapest offer that gives so many of an item, of what the order leaves there.
std::optional<Packs> cheapest_packs(const Market& market, const Order& order, const std::string& item, double pieces) {
    std::optional<Packs> best;
    for (std::size_t i = 0; i < market.offers.size(); ++i) {
        const auto& offer = market.offers[i];
        const double count = std::max(1.0, std::ceil(pieces / offer.pack_quantity - rounding));
        if (offer.item != item || count > packs_left(market, order, i)) continue;
        const Packs packs{&offer, static_cast<int>(count)};
        if (!best || packs.cents() < best->cents()) best = packs;
    }
    return best;
}

// "5 x Q-QF4-1 (Pier, 9.00 cu each)", "3 packs of 2 x Q-QF4-1 (Pier, 16.00 cu a pack)".
std::string offered(const Packs& packs, const std::string& currency) {
    const auto& [offer, count] = packs;
    const bool single = offer->pack_quantity == 1;
    return fmt::format("{}{} ({}, {} {})", single && count == 1 ? "" : packs_text(count, offer->pack_quantity) + " x ",
                       offer->item, offer->seller, money_text(offer->pack_cents, currency), single ? "each" : "a pack");
}

// Another item in the line's place, as many of it as give the same.
std::string in_its_place(const Serves& other, double given, const Need& need, const Buying& buying, const Order& order,
                         const std::string& currency) {
    const double pieces = std::ceil(given / other.quantity - rounding);
    const auto packs = cheapest_packs(buying.market, order, other.item, pieces);
    const auto words = packs        ? offered(*packs, currency)
                       : pieces > 1 ? fmt::format("{} x {}", plain_number(pieces, 0), other.item)
                                    : other.item;
    const auto kit = kit_words(buying, other.item, title_of(buying, need.line));
    return kit.empty() ? words : fmt::format("{} ({})", words, kit);
}

// Line by line: what else on record serves it; what may only stand in comes apart.
std::vector<std::string> instead_of(const OrderLine& line, const Buying& buying, const Order& order,
                                    const std::string& currency) {
    std::vector<std::string> found;
    for (const auto& need : buying.needs) {
        if (std::find(line.serves.begin(), line.serves.end(), need.line) == line.serves.end()) continue;
        std::vector<std::string> same, stand_ins;
        for (const auto& serves : need.served_by)
            if (serves.item != line.item)
                (buying.stand_ins.contains(serves.item) ? stand_ins : same)
                    .push_back(in_its_place(serves, given_by(line, need), need, buying, order, currency));
        if (same.empty() && stand_ins.empty()) continue;
        auto words = fmt::format("{}", fmt::join(same, ", "));
        if (!stand_ins.empty())
            words += fmt::format("{}may stand in: {}", words.empty() ? "" : "; ", fmt::join(stand_ins, ", "));
        found.push_back(line.serves.size() == 1 ? words : fmt::format("{}: {}", title_of(buying, need.line), words));
    }
    return found;
}

OrderSheetLine sheet_line(const OrderLine& line, const SellerOrder& seller, const Buying& buying, const Order& order,
                          const std::string& currency) {
    const auto title = title_of(buying, line.item);
    OrderSheetLine made{item_words(buying, line.item),
                        title == line.item ? "" : title,
                        packs_words(buying, seller, line),
                        is_opened(seller, line),
                        line.cents,
                        {},
                        instead_of(line, buying, order, currency),
                        fmt::format("{}", fmt::join(line_terms(buying, seller, line, currency), "; "))};
    for (const auto& role : line.serves) made.serves.push_back(title_of(buying, role));
    return made;
}

SheetRows sums_of(const Order& order, double tax_percent, const std::string& currency) {
    SheetRows rows{{"goods", money_text(order.goods_cents, currency)},
                   {"carriage", money_text(order.carriage_cents, currency)},
                   {"total", money_text(order.total_cents, currency)}};
    if (tax_percent > 0)
        rows.push_back({"with tax", fmt::format("{} ({} % on goods and carriage)",
                                                money_text(order.total_cents + tax_cents(order, tax_percent), currency),
                                                plain_number(tax_percent, 2))});
    if (order.core_cents > 0)
        rows.push_back({"core charges", money_text(order.core_cents, currency) +
                                            " on top; they come back with the old parts, in time"});
    rows.push_back({"everything is here", order.days ? days_text(*order.days) + ": start then, not before"
                                                     : fmt::format("not known: days not said by {}",
                                                                   fmt::join(days_not_said_by(order), ", "))});
    return rows;
}

void add_order(OrderSheet& sheet, const Order& order, const Buying& buying) {
    for (const auto& seller : order.sellers) {
        OrderSheetSeller made{seller.seller,         seller.own_shelf, seller.goods_cents,
                              seller.carriage_cents, seller.days,      {}};
        for (const auto& line : seller.lines)
            made.lines.push_back(sheet_line(line, seller, buying, order, sheet.currency));
        sheet.sellers.push_back(std::move(made));
    }
    sheet.sums = sums_of(order, sheet.tax_percent, sheet.currency);
    for (const auto& bought : order.bought)
        if (bought.spare() > 1e-9)
            sheet.left_over.push_back(
                {title_of(buying, bought.line),
                 fmt::format("{}{}", amount_text(bought.spare(), bought.unit),
                             bought.reserve > 0 ? fmt::format(" (needed: {})", need_text(bought)) : "")});
}

void add_return_cost(OrderSheet& sheet, const ReturnCost& cost) {
    for (const auto& reason : cost.in_doubt) sheet.sums.push_back({"in doubt, right whichever is true", reason});
    sheet.sums.push_back({"if it has to go back", lost_words(cost, sheet.currency)});
}

SheetRows not_ready(const Buying& buying, const Catalog& catalog) {
    SheetRows rows;
    for (const auto& title : buying.open) rows.push_back({title, "check first"});
    for (const auto& name : buying.deciding)
        if (const auto* attribute = catalog.vocabularies().attribute(name))
            rows.push_back({attribute->title, "find out: " + attribute->how});
    std::vector<InTheWay> blocked;
    for (const auto& line : buying.blocked) blocked.push_back({line.title, line.why});
    for (const auto& one : each_once(blocked)) rows.push_back({one.title, "in the way: " + one.why});
    for (const auto& role : buying.not_offered)
        rows.push_back({title_of(buying, role), "nothing on file serves it: casebound offer add"});
    return rows;
}

std::string seller_terms(const OrderSheetSeller& seller, const std::string& currency) {
    if (seller.seller == here_name) return "on order or here already";
    if (seller.own_shelf) return "off the own shelf";
    return fmt::format("goods {}, carriage {}, {}", money_text(seller.goods_cents, currency),
                       money_text(seller.carriage_cents, currency), here_text(seller.days));
}

}  // namespace

OrderSheet order_sheet(Session& session, const Situation& situation, const std::vector<std::string>& asked) {
    const auto jobs = named_or_open_jobs(session, situation, asked);
    const auto buying = plan_buying(session, situation, {jobs, {}, {}, {}});
    OrderSheet sheet{sheet_head(session, situation, buying.list.invented),
                     buying.list.titles,
                     currency_of(session),
                     quantity_in(ShopSettings(session.shop()).get("sales_tax").value_or("0"), ""),
                     {},
                     {},
                     not_ready(buying, session.catalog()),
                     {},
                     {}};
    for (const auto& fact : situation.narrowing().facts)
        if (const auto* column = situation.model().set.column(fact.attribute); column && fact.applies)
            sheet.right_for.push_back(
                {column->attribute.title, fmt::format("{} ({} {})", value_words(column->attribute, fact.text),
                                                      tell_evidence_words(fact.evidence), fact.date)});
    sheet.right_only_if = hearsay_rows(told_words(situation, buying.list.hearsay));
    if (!buying.blocked.empty() || !buying.open.empty() || buying.needs.empty()) return sheet;
    auto best = cheapest_order(buying.needs, buying.market);
    for (const auto& unmet : best.unmet)
        if (std::find(buying.not_offered.begin(), buying.not_offered.end(), unmet.line) == buying.not_offered.end())
            sheet.not_ready.push_back({title_of(buying, unmet.line), unmet.reason});
    if (best.order) {
        add_order(sheet, *best.order, buying);
        if (const auto cost = return_cost(*best.order, buying, situation, true)) add_return_cost(sheet, *cost);
    }
    sheet.order = std::move(best.order);
    return sheet;
}

Sheet sheet_of(const OrderSheet& sheet) {
    Sheet made{"order", sheet.head, {}};
    SheetRows jobs;
    for (const auto& title : sheet.jobs) jobs.push_back({{}, title});
    made.sections.push_back({"jobs", "For", jobs});
    made.sections.push_back({"right_for", "Right for a vehicle with", sheet.right_for, "nothing is told of it"});
    made.sections.push_back({"right_only_if", "RIGHT ONLY IF THIS IS TRUE", sheet.right_only_if, ""});
    for (const auto& seller : sheet.sellers) {
        SheetRows rows{{{}, seller_terms(seller, sheet.currency)}};
        for (const auto& line : seller.lines) {
            std::string text = fmt::format("[ ] {} {} {}, {}, for {}", line.packs, line.opened ? "of" : "x", line.title,
                                           money_text(line.cents, sheet.currency), fmt::join(line.serves, ", "));
            if (!line.instead.empty()) text += fmt::format("; instead: {}", fmt::join(line.instead, "; "));
            if (!line.terms.empty()) text += "; " + line.terms;
            rows.push_back({line.item, text});
        }
        made.sections.push_back({"seller", seller.seller, rows});
    }
    if (!sheet.sums.empty()) made.sections.push_back({"sums", "Sums", sheet.sums});
    made.sections.push_back(
        {"not_ready", sheet.not_ready.empty() ? "In the way" : "NOT READY TO ORDER", sheet.not_ready, "nothing"});
    made.sections.push_back({"left_over", "Left over for the shelf", sheet.left_over, "nothing"});
    return made;
}

}  // namespace casebound
