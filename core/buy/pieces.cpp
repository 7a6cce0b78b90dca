#include "core/buy/pieces.h"

#include "core/buy/rounding.h"
#include "core/ground/dates.h"
#include "core/shop/shop_offers.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_vehicles.h"
#include "core/work/open_work.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include <fmt/format.h>

namespace casebound {

std::set<std::int64_t> open_jobs_of(Session& session, const std::string& vehicle) {
    std::set<std::int64_t> open;
    for (const auto& job : jobs_not_closed(session, vehicle)) open.insert(job.id);
    return open;
}

namespace {

// What happened to one thing, in all.
struct Count {
    double ordered{}, came{}, returned{}, unfit{}, left_over{}, used{};
    std::string last;
    std::vector<std::string> roles;

    double there() const { return in_all() - used; }
    double in_all() const { return std::max(ordered, came) - std::max(returned, unfit) - left_over; }
    double awaited() const { return came + rounding >= ordered ? 0 : ordered - came; }
    void tell(const LineEvent& event) {
        last = event.date;
        add_role(event.role);
    }
    void add_role(const std::string& role) {
        if (std::find(roles.begin(), roles.end(), role) == roles.end()) roles.push_back(role);
    }
    void add(const LineEvent& event, double quantity) {
        if (event.event == "ordered") ordered += quantity, tell(event);
        if (event.event == "received") came += quantity, tell(event);
        if (event.event == "returned") returned += event.quantity ? quantity : std::max(ordered, came);
        if (event.event == "mismatched") unfit += quantity;
        if (event.event == "left_over") left_over += quantity;
    }
};

// Of the kind that goes in the role: which of the things in a kit was meant is not written down.
std::string kind_of(const Catalog& catalog, const std::string& role) {
    const auto* word = catalog.vocabularies().role(role);
    return word ? word->item_kind : "";
}

double in_kit(const Catalog& catalog, const std::string& kit, const std::string& kind) {
    double pieces = 0;
    for (const auto& row : catalog.facts().rows("kit_contents", "kit", kit)) {
        const auto group = catalog.group(row.text("group_key"));
        if (group && group->kind == kind) pieces += row.number("quantity").value_or(1);
    }
    return pieces > 0 ? pieces : 1;
}

// Of what an order of one job keeps on the own shelf; the events are those of one item.
double still_to_take(const Catalog& catalog, const std::string& item, const std::vector<const LineEvent*>& events) {
    KitCount kept(catalog, item), taken(catalog, item);
    double plain = 0;
    bool keeps = false;
    for (const auto* event : events) {
        const bool takes = event->event == "ordered" && event->seller == own_shelf_name;
        const bool gone = keeps && (event->event == "fitted" || event->event == "returned");
        keeps |= takes;
        if (takes) kept.add(event->role, event->quantity), plain += event->quantity.value_or(1);
        if (gone) taken.add(event->role, event->quantity), plain -= event->quantity.value_or(plain);
    }
    return is_kit(catalog, item) ? kept.kits() - taken.kits() : plain;
}

class Ledger {
public:
    Ledger(Session& session, const std::string& vehicle, const std::vector<std::vector<Need>>& possible)
        : catalog_(session.catalog()), offers_(session.shop()), possible_(possible),
          open_(open_jobs_of(session, vehicle)), fitted_too_(fitted_for_open_jobs(session, vehicle)) {
        const ShopRecords records(session.shop());
        for (auto& event : records.events(vehicle))
            if (event.stands && (!event.job || open_.contains(*event.job))) events_.push_back(std::move(event));
        for (const auto& event : events_)
            if (event.event == "ordered" && event.seller == own_shelf_name) kept_.insert(event.item);
        for (const auto& record : records.records(vehicle))
            if (record.stands && record.made == "own_stock")
                off_the_shelf_.emplace(record.role, record.item, record.date);
    }

    Pieces pieces() {
        Pieces pieces;
        std::set<std::string> items;
        for (const auto& event : events_) {
            if (event.event == "fitted" && event.job) pieces.fitted[event.role].push_back(fitted(event));
            if (!event.item.empty()) items.insert(event.item);
        }
        for (const auto& one : fitted_too_) pieces.fitted[one.event.role].push_back(fitted(one.event));
        for (const auto& item : items) {
            if (!is_kit(catalog_, item)) add_plain(pieces.here, item);
            for (const auto& row : catalog_.facts().rows("kit_contents", "kit", item))
                add_content(pieces.here, item, std::string(row.text("group_key")), row.number("quantity").value_or(1));
        }
        return pieces;
    }

private:
    Fitted fitted(const LineEvent& event) const {
        return {event.item, event.date, event.quantity.value_or(0), !content_for(event.role, event.item).empty()};
    }
    double one_of(const std::string& item) const {
        const auto known = catalog_.item(item);
        const auto* kind = known ? catalog_.vocabularies().item_kind(known->kind) : nullptr;
        return kind && kind->unit != "each" ? known->pack_quantity : 1;
    }

    // What is fitted from the own shelf was taken there, unless an order had kept it.
    bool uses(const LineEvent& event) const {
        return event.event == "fitted" &&
               (kept_.contains(event.item) || !off_the_shelf_.contains({event.role, event.item, event.date}));
    }

    void add_plain(std::vector<Piece>& here, const std::string& item) {
        Count count;
        for (const auto& event : events_)
            if (event.item == item) count.add(event, event.quantity.value_or(one_of(item)));
        for (const auto& event : events_)
            if (event.item == item && uses(event)) count.used += event.quantity.value_or(one_of(item));
        if (count.there() > rounding)
            here.push_back({item, "", count.there(), std::min(count.there(), count.awaited()), arrival_of(item),
                            count.last, count.roles});
    }

    // The latest day by which what is on order comes, by what its sellers say today; "" when one does not say, or the
    // day has passed. What is kept on the own shelf is here.
    std::string arrival_of(const std::string& item) const {
        std::string latest;
        for (const auto& event : events_) {
            if (event.item != item || event.event != "ordered") continue;
            const auto offer = offers_.offer(event.seller, item);
            const bool is_here = event.seller == own_shelf_name;
            if (!is_here && (!offer || !offer->days)) return "";
            latest = std::max(latest, is_here ? today() : days_after(event.date, *offer->days));
        }
        return latest < today() ? "" : latest;
    }

    // Which thing in a kit serves a role, in whatever is possible; "" when none does, or the item is no kit.
    std::string content_for(const std::string& role, const std::string& kit) const {
        std::set<std::string> found;
        for (const auto& needs : possible_)
            for (const auto& need : needs)
                if (need.line == role) found.insert(content_for(needs, need, kit));
        return found.size() == 1 ? *found.begin() : "";
    }
    std::string content_for(const std::vector<Need>& needs, const Need& need, const std::string& kit) const {
        for (const auto& row : catalog_.facts().rows("kit_contents", "kit", kit))
            if (std::string group{row.text("group_key")}; serves_out_of_kit(catalog_, needs, need, kit, group))
                return group;
        return {};
    }

    Count kits(const std::string& kit) const {
        const KitCount none(catalog_, kit);
        KitCount ordered = none, came = none, returned = none, unfit = none, left_over = none;
        bool all_back = false;  // sent back without a word how many
        Count all;
        for (const auto& event : events_) {
            if (event.item != kit) continue;
            if (event.event == "ordered") ordered.add(event.role, event.quantity), all.tell(event);
            if (event.event == "received") came.add(event.role, event.quantity), all.tell(event);
            if (event.event == "returned" && event.quantity) returned.add(event.role, event.quantity);
            all_back |= event.event == "returned" && !event.quantity;
            if (event.event == "mismatched") unfit.add(event.role, event.quantity);
            if (event.event == "left_over") left_over.add(event.role, event.quantity);
        }
        all.ordered = ordered.kits(), all.came = came.kits();
        all.returned = all_back ? std::max(all.ordered, all.came) : returned.kits();
        all.unfit = unfit.kits(), all.left_over = left_over.kits();
        return all;
    }

    // Which of several things went in is not written down: each that may have is counted as used.
    bool may_have_used(const std::string& role, const std::string& kit, const std::string& content,
                       const std::string& kind) const {
        for (const auto& needs : possible_)
            for (const auto& need : needs)
                if (need.line == role && (among(need.groups, content) || among(need.may_be, content))) return true;
        return content_for(role, kit).empty() && kind_of(catalog_, role) == kind;  // of a place that is not asked for
    }

    void add_content(std::vector<Piece>& here, const std::string& kit, const std::string& content, double quantity) {
        auto count = kits(kit);
        double left = count.in_all() * quantity;
        const auto group = catalog_.group(content);
        const auto kind = group ? group->kind : "";
        for (const auto& event : events_)
            if (event.item == kit && uses(event) && may_have_used(event.role, kit, content, kind))
                left -= event.quantity.value_or(1);
        std::erase_if(count.roles, [&](const std::string& role) { return kind_of(catalog_, role) != kind; });
        if (left > rounding)
            here.push_back({kit, content, left, std::min(left, count.awaited() * quantity), arrival_of(kit), count.last,
                            count.roles});
    }

    const Catalog& catalog_;
    const ShopOffers offers_;
    const std::vector<std::vector<Need>>& possible_;
    std::set<std::int64_t> open_;
    std::vector<FittedFor> fitted_too_;
    std::vector<LineEvent> events_;
    std::set<std::tuple<std::string, std::string, std::string>> off_the_shelf_;  // role, item, day
    std::set<std::string> kept_;                                                 // items that an order took off it
};

}  // namespace

void KitCount::add(const std::string& role, std::optional<double> quantity) {
    const auto kind = kind_of(*catalog_, role);
    const double in_one = in_kit(*catalog_, kit_, kind);
    by_kind_[kind] += quantity.value_or(in_one) / in_one;
}

double KitCount::kits() const {
    double most = 0;
    for (const auto& [kind, parts] : by_kind_) most = std::max(most, std::ceil(parts - rounding));
    return most;
}

bool is_kit(const Catalog& catalog, const std::string& item) {
    return !catalog.facts().rows("kit_contents", "kit", item).empty();
}

bool serves_out_of_kit(const Catalog& catalog, const std::vector<Need>& needs, const Need& need, const std::string& kit,
                       const std::string& content) {
    if (!among(need.groups, content)) return false;
    const bool may_be_bought = std::any_of(need.served_by.begin(), need.served_by.end(), [&](const Serves& way) {
        return way.item == kit && way.content == content;
    });
    if (may_be_bought) return true;
    if (const auto known = catalog.item(kit); !known || !known->withdrawn.empty()) return false;
    const auto kind = catalog.group(content)->kind;
    const auto rows = catalog.facts().rows("kit_contents", "kit", kit);
    return std::all_of(rows.begin(), rows.end(), [&](const auto& row) {
        const auto group = catalog.group(row.text("group_key"));
        return !group || group->kind != kind ||
               std::any_of(needs.begin(), needs.end(), [&](const Need& one) { return among(one.groups, group->key); });
    });
}

std::string Piece::key() const { return content.empty() ? item : fmt::format("{} ({})", item, content); }

Pieces pieces_of(Session& session, const std::string& vehicle, const std::vector<std::vector<Need>>& possible) {
    return Ledger(session, vehicle, possible).pieces();
}

std::map<std::string, std::vector<KeptOnShelf>> kept_on_shelf(Session& session) {
    std::map<std::string, std::vector<KeptOnShelf>> kept;
    const ShopRecords records(session.shop());
    for (const auto& vehicle : ShopVehicles(session.shop()).all()) {
        const auto open = open_jobs_of(session, vehicle.name);
        std::map<std::pair<std::string, std::int64_t>, std::vector<const LineEvent*>> takings;  // item and job
        const auto events = records.events(vehicle.name);
        for (const auto& event : events)
            if (event.stands && event.job && open.contains(*event.job))
                takings[{event.item, *event.job}].push_back(&event);
        for (const auto& [what, some] : takings)
            if (const auto quantity = still_to_take(session.catalog(), what.first, some); quantity > rounding)
                kept[what.first].push_back({vehicle.name, fmt::format("job {}", what.second), quantity});
    }
    return kept;
}

}  // namespace casebound
