#include "core/buy/pieces.h"

#include "core/buy/rounding.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_vehicles.h"

#include <algorithm>
#include <cmath>
#include <set>
#include <tuple>

#include <fmt/format.h>

namespace casebound {

namespace {

std::set<std::int64_t> open_jobs_of(Session& session, const std::string& vehicle) {
    std::set<std::int64_t> open;
    for (const auto& job : ShopRecords(session.shop()).jobs(vehicle)) open.insert(job.id);
    for (const auto& closing : ShopRecords(session.shop()).closings(vehicle)) open.erase(closing.job);
    return open;
}

// What happened to one thing, in all.
struct Count {
    double ordered{}, came{}, returned{}, unfit{}, left_over{}, used{};
    std::string last;
    std::vector<std::string> roles;

    double there() const { return std::max(ordered, came) - std::max(returned, unfit) - left_over - used; }
    double in_all() const { return std::max(ordered, came) - std::max(returned, unfit) - left_over; }
    bool all_came() const { return came + rounding >= ordered; }
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

class Ledger {
public:
    Ledger(Session& session, const std::string& vehicle, const std::vector<Need>& needs)
        : catalog_(session.catalog()), needs_(needs), open_(open_jobs_of(session, vehicle)) {
        const ShopRecords records(session.shop());
        for (auto& event : records.events(vehicle))
            if (event.stands && (!event.job || open_.contains(*event.job))) events_.push_back(std::move(event));
        for (const auto& record : records.records(vehicle))
            if (record.stands && record.made == "own_stock")
                off_the_shelf_.emplace(record.role, record.item, record.date);
    }

    Pieces pieces() {
        Pieces pieces;
        std::set<std::string> items;
        for (const auto& event : events_) {
            if (event.event == "fitted" && event.job)
                pieces.fitted[event.role].push_back({event.item, event.date, event.quantity.value_or(0)});
            if (!event.item.empty()) items.insert(event.item);
        }
        for (const auto& item : items) {
            const auto contents = catalog_.facts().rows("kit_contents", "kit", item);
            if (contents.empty()) add_plain(pieces.here, item);
            for (const auto& row : contents)
                add_content(pieces.here, item, std::string(row.text("group_key")), row.number("quantity").value_or(1));
        }
        return pieces;
    }

private:
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
            if (event.item == item && event.event == "ordered" && event.seller == own_shelf_name) kept_.insert(item);
        for (const auto& event : events_)
            if (event.item == item) count.add(event, event.quantity.value_or(one_of(item)));
        for (const auto& event : events_)
            if (event.item == item && uses(event)) count.used += event.quantity.value_or(one_of(item));
        if (count.there() > rounding)
            here.push_back({item, "", count.there(), count.all_came(), count.last, count.roles});
    }

    const Serves* serves(const std::string& role, const std::string& kit) const {
        for (const auto& need : needs_)
            for (const auto& way : need.served_by)
                if (need.line == role && way.item == kit && !way.content.empty()) return &way;
        return nullptr;
    }

    // Of the kind that goes in the role: which of the things in it was meant is not written down.
    std::string kind_of(const std::string& role) const {
        const auto* word = catalog_.vocabularies().role(role);
        return word ? word->item_kind : "";
    }
    double in_kit(const std::string& kit, const std::string& kind) const {
        double pieces = 0;
        for (const auto& row : catalog_.facts().rows("kit_contents", "kit", kit)) {
            const auto group = catalog_.group(row.text("group_key"));
            if (group && group->kind == kind) pieces += row.number("quantity").value_or(1);
        }
        return std::max(pieces, 1.0);
    }

    // How many of a kit: one is written down once, or once for every role that it serves.
    Count kits(const std::string& kit) const {
        std::map<std::string, Count> by_kind;
        for (const auto& event : events_) {
            if (event.item != kit) continue;
            const auto kind = kind_of(event.role);
            const double in_one = in_kit(kit, kind);
            by_kind[kind].add(event, event.quantity.value_or(in_one) / in_one);
        }
        Count all;
        for (const auto& [kind, count] : by_kind) {
            const auto most = [](double& known, double parts) { known = std::max(known, std::ceil(parts - rounding)); };
            most(all.ordered, count.ordered), most(all.came, count.came), most(all.returned, count.returned);
            most(all.unfit, count.unfit), most(all.left_over, count.left_over);
            if (!count.last.empty()) all.last = count.last;
            for (const auto& role : count.roles) all.add_role(role);
        }
        return all;
    }

    void add_content(std::vector<Piece>& here, const std::string& kit, const std::string& content, double quantity) {
        const auto count = kits(kit);
        double left = count.in_all() * quantity;
        for (const auto& event : events_) {
            const auto* way = event.item == kit && uses(event) ? serves(event.role, kit) : nullptr;
            if (way && way->content == content) left -= event.quantity.value_or(1);
        }
        if (left > rounding) here.push_back({kit, content, left, count.all_came(), count.last, count.roles});
    }

    const Catalog& catalog_;
    const std::vector<Need>& needs_;
    std::set<std::int64_t> open_;
    std::vector<LineEvent> events_;
    std::set<std::tuple<std::string, std::string, std::string>> off_the_shelf_;  // role, item, day
    std::set<std::string> kept_;                                                 // items that an order took off it
};

}  // namespace

std::string Piece::key() const { return content.empty() ? item : fmt::format("{} ({})", item, content); }

Pieces pieces_of(Session& session, const std::string& vehicle, const std::vector<Need>& needs) {
    return Ledger(session, vehicle, needs).pieces();
}

std::map<std::string, std::vector<KeptOnShelf>> kept_on_shelf(Session& session) {
    std::map<std::string, std::vector<KeptOnShelf>> kept;
    const ShopRecords records(session.shop());
    for (const auto& vehicle : ShopVehicles(session.shop()).all()) {
        const auto open = open_jobs_of(session, vehicle.name);
        std::map<std::pair<std::string, std::int64_t>, double> left;  // item and job
        for (const auto& event : records.events(vehicle.name)) {
            if (!event.stands || !event.job || !open.contains(*event.job)) continue;
            const bool takes = event.event == "ordered" && event.seller == own_shelf_name;
            const auto known = left.find({event.item, *event.job});
            if (takes) left[{event.item, *event.job}] += event.quantity.value_or(1);
            else if (known != left.end() && (event.event == "fitted" || event.event == "returned"))
                known->second -= event.quantity.value_or(known->second);
        }
        for (const auto& [what, quantity] : left)
            if (quantity > rounding)
                kept[what.first].push_back({vehicle.name, fmt::format("job {}", what.second), quantity});
    }
    return kept;
}

}  // namespace casebound
