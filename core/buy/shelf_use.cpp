#include "core/buy/shelf_use.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/buy/order_text.h"
#include "core/buy/shelf_keeping.h"
#include "core/ground/text_layout.h"
#include "core/shop/shop_offers.h"

namespace casebound {

namespace {

bool used(const std::vector<const Order*>& orders, const std::string& item) {
    for (const auto* order : orders)
        for (const auto& seller : order->sellers)
            if (seller.own_shelf && std::any_of(seller.lines.begin(), seller.lines.end(),
                                                [&](const OrderLine& line) { return line.item == item; }))
                return true;
    return false;
}

// Specs of what the orders give the line.
std::set<std::string> specs_taken(const std::vector<const Order*>& orders, const Need& need) {
    std::set<std::string> specs;
    for (const auto* order : orders)
        for (const auto& seller : order->sellers)
            for (const auto& line : seller.lines)
                for (const auto& way : need.served_by)
                    if (way.item == line.item &&
                        std::find(line.serves.begin(), line.serves.end(), need.line) != line.serves.end())
                        specs.insert(way.spec);
    return specs;
}

std::string why_not_used(const std::vector<const Order*>& orders, const Need& need, const Serves& way,
                         double quantity) {
    if (need.unit == "each" && quantity < 1) return "less than one";
    const auto taken = specs_taken(orders, need);
    if (!taken.empty() && taken.count(way.spec) == 0)
        return fmt::format("{}: not mixed with {}, of which the order is", way.spec, fmt::join(taken, " or "));
    return "using it would make no order cheaper: what is taken covers the line without it";
}

std::string why_not_outright(const SwapAnswer& swap, const std::string& vehicle) {
    std::vector<std::string> terms(swap.conditions);
    terms.insert(terms.end(), swap.requirements.begin(), swap.requirements.end());
    for (const auto& group : swap.also_requires) terms.push_back("with " + group);
    terms.insert(terms.end(), swap.differences.begin(), swap.differences.end());
    return fmt::format("for {}: {}{}{}; yours to choose: casebound swap {} {} --for {}", swap.wanted_group,
                       swap_words(swap.verdict), terms.empty() ? "" : ": ", fmt::join(terms, "; "), swap.wanted_group,
                       swap.offered_group, vehicle);
}

// Why an item that has to do with the line may not be ordered for it; "" when it has nothing to do with it.
std::string why_kept_out(const ListLine& line, const std::string& item, const Catalog& catalog,
                         const std::string& vehicle) {
    const auto is_it = [&](const Member& member) { return member.item == item; };
    const auto holds_it = [&](const std::string& key) -> const Member* {
        const auto group = catalog.group(key);
        if (!group) return nullptr;
        const auto& members = catalog.members(group->id);
        const auto found = std::find_if(members.begin(), members.end(), is_it);
        return found == members.end() ? nullptr : &*found;
    };
    for (const auto& option : line.options) {
        if (std::any_of(option.claimed.begin(), option.claimed.end(), is_it))
            return fmt::format("only its seller claims that it serves as {}", option.group);
        if (const auto* member = holds_it(option.group); member && !member->withdrawn.empty())
            return fmt::format("no longer to be used: {}", member->withdrawn);
    }
    for (const auto& swap : line.stand_ins)
        if (!may_be_ordered(swap) && holds_it(swap.offered_group)) return why_not_outright(swap, vehicle);
    return "";
}

std::vector<Need> all_needs(const Buying& buying) {
    auto needs = buying.possible.empty() ? buying.needs : std::vector<Need>{};
    for (const auto& possibility : buying.possible)
        needs.insert(needs.end(), possibility.needs.begin(), possibility.needs.end());
    return needs;
}

struct Reason {
    std::string role, unit, why;
};

// Of one item on the shelf: the first line it would serve, and why it stays.
std::optional<Reason> reason(const Buying& buying, const std::vector<Need>& needs,
                             const std::vector<const Order*>& orders, const OnShelf& one, const Catalog& catalog,
                             const std::string& vehicle) {
    for (const auto& need : needs)
        for (const auto& way : need.served_by)
            if (way.item == one.item)
                return Reason{need.line, need.unit, why_not_used(orders, need, way, one.quantity)};
    for (const auto& line : buying.list.lines) {
        const bool needed = std::any_of(needs.begin(), needs.end(),
                                        [&](const Need& need) { return need.line == line.answer.role; });
        if (!needed) continue;
        if (auto why = why_kept_out(line, one.item, catalog, vehicle); !why.empty())
            return Reason{line.answer.role, line.answer.unit, std::move(why)};
    }
    return std::nullopt;
}

}  // namespace

namespace {

// For whom an item waits; the quantity is what is left beside it.
std::string waits_for(const std::vector<KeptOnShelf>& kept, double& quantity) {
    std::vector<std::string> words;
    for (const auto& one : kept) {
        quantity -= one.quantity;
        words.push_back(fmt::format("{} ({})", one.vehicle, one.job));
    }
    return fmt::format("{}", fmt::join(words, ", "));
}

}  // namespace

namespace {

// An opened pack that has passed its keeping time, and would serve a line.
std::optional<ShelfLeft> passed_too_long(const Catalog& catalog, const Buying& buying, const std::vector<Need>& needs,
                                         const OnShelf& one) {
    const auto passed = passed_keeping(catalog, one);
    if (passed.empty()) return std::nullopt;
    for (const auto& need : needs)
        for (const auto& way : need.served_by)
            if (way.item == one.item)
                return ShelfLeft{one.item,
                                 catalog.item(one.item)->title,
                                 opened_part(catalog, one.item, one.quantity),
                                 need.unit,
                                 need.line,
                                 title_of(buying, need.line),
                                 passed,
                                 false};
    return std::nullopt;
}

}  // namespace

std::vector<ShelfLeft> left_on_shelf(Session& session, const Buying& buying, const std::vector<const Order*>& orders,
                                     const std::string& vehicle) {
    std::vector<ShelfLeft> left;
    if (orders.empty()) return left;
    const auto needs = all_needs(buying);
    const auto kept = kept_on_shelf(session);
    for (const auto& one : ShopOffers(session.shop()).shelf()) {
        const auto item = session.catalog().item(one.item);
        if (!item) continue;
        if (auto passed = passed_too_long(session.catalog(), buying, needs, one)) left.push_back(std::move(*passed));
        if (used(orders, one.item) || (!left.empty() && left.back().item == one.item)) continue;
        auto found = reason(buying, needs, orders, one, session.catalog(), vehicle);
        if (!found) continue;
        double quantity = one.quantity;
        const auto waits = kept.find(one.item);
        const auto whom = waits == kept.end() ? "" : waits_for(waits->second, quantity);
        const bool is_kept = !whom.empty() && quantity < 1e-6;
        left.push_back({one.item, item->title, is_kept ? one.quantity : quantity, found->unit, found->role,
                        title_of(buying, found->role), is_kept ? "waits for " + whom : std::move(found->why), is_kept});
    }
    return left;
}

std::string left_on_shelf_text(const std::vector<ShelfLeft>& left) {
    if (left.empty()) return "";
    std::string out, waits;
    for (const auto& one : left)
        if (one.kept)
            waits += wrapped(fmt::format("On the shelf, but not free: {} of {} {}.",
                                         amount_text(one.quantity, one.unit), one.item, one.why),
                             0, 2);
        else
            out += wrapped(
                fmt::format("{} of {} for {}: {}.", amount_text(one.quantity, one.unit), one.item, one.line, one.why),
                2, 4);
    return (out.empty() ? "" : "On the own shelf, and not used:\n" + out) + waits;
}

Json json_of(const std::vector<ShelfLeft>& left) {
    Json json = Json::array();
    for (const auto& one : left)
        json.push_back(
            {{"item", one.item}, {"quantity", one.quantity}, {"unit", one.unit}, {"role", one.role}, {"why", one.why}});
    return json;
}

}  // namespace casebound
