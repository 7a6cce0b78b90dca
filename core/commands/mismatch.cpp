#include "core/commands/mismatch.h"

#include <algorithm>
#include <map>
#include <set>

#include <fmt/format.h>

#include "core/buy/order_text.h"
#include "core/cover/market.h"
#include "core/ground/dates.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/say/in_words.h"
#include "core/say/report.h"
#include "core/sheets/check_off.h"
#include "core/shop/shop_offers.h"
#include "core/shop/shop_settings.h"

namespace casebound {

namespace {

// What rests on the same statement: the parts of every group that the place knows and the item belongs to.
std::set<std::string> items_beside(const Situation& situation, const RoleAnswer& place, const std::string& item) {
    const auto& catalog = situation.judge().catalog();
    std::set<std::string> items{item};
    for (const auto& key : catalog.groups_of(item)) {
        const auto group = catalog.group(key);
        const bool of_place = std::any_of(place.groups.begin(), place.groups.end(),
                                          [&](const GroupAnswer& one) { return one.key == key; });
        if (group && of_place)
            for (const auto& member : catalog.members(group->id)) items.insert(member.item);
    }
    return items;
}

std::vector<std::string> others_held(Session& session, const std::string& vehicle, const std::string& role,
                                     const std::set<std::string>& items) {
    std::vector<std::string> held;
    for (const auto& other : ShopVehicles(session.shop()).all()) {
        if (other.name == vehicle) continue;
        for (const auto& line : check_off(session, other.name))
            if (line.role == role && items.contains(line.item) && (line.unfinished || line.open_job))
                held.push_back(fmt::format("HOLD {}: {}, {}: measure it before it is fitted.", other.name, line.item,
                                           line.state_with_doubt()));
    }
    for (const auto& one : ShopOffers(session.shop()).shelf())
        if (items.contains(one.item))
            held.push_back(fmt::format("HOLD own shelf: {} of {}: measure it before it is fitted.",
                                       plain_number(one.quantity, 2), one.item));
    return held;
}

// What came of an item in a role, newest last: who sent it, and until when it may go back.
LineEvent newest_of(Session& session, const std::string& vehicle, const std::string& role, const std::string& item) {
    LineEvent found;
    for (const auto& one : ShopRecords(session.shop()).events(vehicle)) {
        if (!one.stands || one.role != role || one.item != item) continue;
        if (one.event != "ordered" && one.event != "received") continue;
        if (!one.seller.empty()) found.seller = one.seller;
        if (!one.return_by.empty()) found.return_by = one.return_by;
    }
    return found;
}

std::string terms_of(Session& session, const std::string& seller, const std::string& item) {
    const auto offer = seller.empty() ? std::nullopt : ShopOffers(session.shop()).offer(seller, item);
    if (offer && offer->returnable == false) return "by the offer it cannot go back: ask all the same";
    if (!offer || !offer->returnable) return "on what terms is not on file: ask before sending it";
    const auto kept = static_cast<std::int64_t>(static_cast<double>(offer->price_cents) * offer->return_fee + 0.5);
    return fmt::format("it costs {}: {} kept and {} to send it",
                       money_text(kept + offer->return_carriage_cents, currency_of(session)), cents_text(kept),
                       cents_text(offer->return_carriage_cents));
}

void begin_return(Session& session, const std::string& vehicle, Mismatch& mismatch) {
    const auto came = newest_of(session, vehicle, mismatch.role, mismatch.item);
    const auto day = came.return_by.empty()     ? std::string("the last day is not on file: today")
                     : came.return_by < today() ? fmt::format("the last day, {}, has PASSED: ask", came.return_by)
                                                : fmt::format("until {}", came.return_by);
    mismatch.back = fmt::format("SEND IT BACK{}: {}; {}.", came.seller.empty() ? "" : " to " + came.seller, day,
                                terms_of(session, came.seller, mismatch.item));
    mismatch.back_command = fmt::format("casebound record {} returned role={} item={}", vehicle, mismatch.role,
                                        mismatch.item);
}

// What told facts the place hangs on, those that nobody here has seen first: one of them may be wrong.
void look_again(const Situation& situation, const RoleAnswer& place, Mismatch& mismatch) {
    const auto names = place.speaks_of();
    std::vector<const ToldFact*> told;
    for (const auto& fact : situation.narrowing().facts)
        if (fact.applies && std::find(names.begin(), names.end(), fact.attribute) != names.end()) told.push_back(&fact);
    std::stable_sort(told.begin(), told.end(), [](const ToldFact* a, const ToldFact* b) {
        return is_hearsay(a->evidence) > is_hearsay(b->evidence);
    });
    if (told.empty()) {
        mismatch.next = "put the old part beside it, and record what does fit.";
        mismatch.next_command = fmt::format("casebound record {} matched role={} item=NUMBER ATTRIBUTE=VALUE",
                                            situation.name(), place.role);
        return;
    }
    const auto& attribute = situation.model().set.column(told.front()->attribute)->attribute;
    mismatch.next = fmt::format("is {} right? {}", told_words(situation, {told.front()->said()}).front(),
                                attribute.how);
    mismatch.next_command = fmt::format("casebound vehicle tell {} {} VALUE measured", situation.name(),
                                        spaced(attribute.name));
}

void ask_next(const Situation& situation, const RoleAnswer& place, Mismatch& mismatch) {
    const auto line = open_line(place);
    const auto& left = situation.narrowing().left;
    const auto next = line.settled(left)
                          ? std::nullopt
                          : next_question(situation.model().set, left, {line}, situation.narrowing().not_asked());
    if (!next) return look_again(situation, place, mismatch);
    const auto& attribute = next->column->attribute;
    mismatch.next = fmt::format("{}. {}", attribute.title, attribute.how);
    mismatch.next_command = tell_command(*next, situation.name());
}

}  // namespace

Mismatch what_follows(Session& session, const std::string& vehicle, const std::string& role, const std::string& item) {
    Mismatch mismatch{role, item, {}, {}, {}, {}, {}};
    const auto situation = session.situation(vehicle);
    const auto place = situation->places().role(role);
    mismatch.held = others_held(session, vehicle, role, items_beside(*situation, place, item));
    begin_return(session, vehicle, mismatch);
    ask_next(*situation, place, mismatch);
    return mismatch;
}

std::string mismatch_text(const Mismatch& mismatch) {
    std::string out;
    for (const auto& one : mismatch.held) out += wrapped(one, 0, 2);
    out += wrapped(fmt::format("{} When it is gone: {}", mismatch.back, mismatch.back_command), 0, 2);
    return out + wrapped(fmt::format("Find out next: {} {}", mismatch.next, mismatch.next_command), 0, 2);
}

std::vector<Mismatch> mismatches_open(Session& session, const std::string& vehicle) {
    std::map<std::pair<std::string, std::string>, bool> open;  // by role and item
    for (const auto& one : ShopRecords(session.shop()).events(vehicle))
        if (one.stands && !one.item.empty()) open[{one.role, one.item}] = one.event == "mismatched";
    std::vector<Mismatch> found;
    for (const auto& [which, wrong] : open)
        if (wrong) found.push_back(what_follows(session, vehicle, which.first, which.second));
    return found;
}

Json json_of(const std::vector<Mismatch>& mismatches) {
    Json json = Json::array();
    for (const auto& one : mismatches)
        json.push_back({{"role", one.role},
                        {"item", one.item},
                        {"held", one.held},
                        {"back", one.back},
                        {"back_command", one.back_command},
                        {"next", one.next},
                        {"next_command", one.next_command}});
    return json;
}

}  // namespace casebound
