// `record VEHICLE does-not-fit`: the part is in the hand and does not match.
#include <algorithm>
#include <filesystem>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/commands/record_answer.h"
#include "core/cover/market.h"
#include "core/ground/dates.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/say/in_words.h"
#include "core/say/report.h"
#include "core/sheets/check_off.h"
#include "core/shop/shop_settings.h"
#include "core/verdict/part_number.h"
#include "core/work/measured_pack.h"
#include "core/work/record_words.h"

namespace casebound {

namespace {

// The group by which the item counts as right in the place; "" when no statement says so.
std::string group_in_place(const Situation& situation, const RoleAnswer& place, const std::string& item) {
    const auto& catalog = situation.judge().catalog();
    std::vector<std::string> groups;
    for (const auto& key : catalog.group(item) ? std::vector<std::string>{item} : catalog.groups_of(item))
        for (const auto& group : place.groups)
            if (group.key == key && group.on.any()) groups.push_back(key);
    return groups.empty() ? "" : groups.front();
}

// Only what somebody here measured or read: the row may hold back too much, and never claims less than was seen.
std::string firmly_told(const Situation& situation) {
    std::string text;
    for (const auto& fact : situation.narrowing().facts)
        if (fact.applies && !is_hearsay(fact.evidence))
            text += fmt::format("{}{}={}", text.empty() ? "" : "; ", fact.attribute, fact.right_side.text());
    return text;
}

std::string own_pack_folder(Session& session, const KeyValueArgs& words) {
    if (words.has("pack")) return words.text("pack");
    if (const auto folder = ShopSettings(session.shop()).get("own_pack")) return *folder;
    return (std::filesystem::path(session.options().shop).parent_path() / "own-pack").string();
}

OwnFact fact_of(const Situation& situation, const LineEvent& event, const std::string& group,
                const std::string& measured) {
    OwnFact fact;
    fact.vehicle = situation.name();
    fact.date = event.date.empty() ? today() : event.date;
    fact.note = measured;
    fact.rows.push_back({"applications",
                         {{"line", situation.line()},
                          {"role", event.role},
                          {"says", "does_not_fit"},
                          {"group_key", group},
                          {"condition", firmly_told(situation)},
                          {"note", measured}}});
    return fact;
}

std::set<std::string> items_of(const Catalog& catalog, const std::string& group, const std::string& item) {
    std::set<std::string> items{item};
    if (const auto known = catalog.group(group))
        for (const auto& member : catalog.members(known->id)) items.insert(member.item);
    return items;
}

// Open orders of every other vehicle, and pieces on the own shelf, that rest on the same statement.
std::string others_held(Session& session, const std::string& vehicle, const std::string& role,
                        const std::set<std::string>& items) {
    std::string out;
    for (const auto& other : ShopVehicles(session.shop()).all()) {
        if (other.name == vehicle) continue;
        for (const auto& line : check_off(session, other.name))
            if (line.role == role && items.contains(line.item) && (line.unfinished || line.open_job))
                out += wrapped(
                    fmt::format("HOLD {}: {}, {}: measure it before it is fitted.", other.name, line.item, line.state),
                    0, 2);
    }
    for (const auto& one : ShopOffers(session.shop()).shelf())
        if (items.contains(one.item))
            out += wrapped(fmt::format("HOLD own shelf: {} of {}: measure it before it is fitted.",
                                       plain_number(one.quantity, 2), one.item),
                           0, 2);
    return out;
}

// What came of an item in a role, newest last: who sent it, and until when it may go back.
LineEvent newest_of(Session& session, const std::string& vehicle, const LineEvent& event) {
    LineEvent found;
    for (const auto& one : ShopRecords(session.shop()).events(vehicle)) {
        if (!one.stands || one.role != event.role || one.item != event.item) continue;
        if (one.event != "ordered" && one.event != "received") continue;
        if (!one.seller.empty()) found.seller = one.seller;
        if (!one.return_by.empty()) found.return_by = one.return_by;
    }
    return found;
}

// The return, with its last day and its cost.
std::string return_text(Session& session, const std::string& vehicle, const LineEvent& event) {
    const auto came = newest_of(session, vehicle, event);
    const auto currency = ShopSettings(session.shop()).currency();
    const auto offer = came.seller.empty() ? std::nullopt : ShopOffers(session.shop()).offer(came.seller, event.item);
    std::string terms = "on what terms is not on file: ask before sending it";
    if (offer && offer->returnable == false) terms = "by the offer it cannot go back: ask all the same";
    else if (offer && offer->returnable.value_or(false)) {
        const auto kept = static_cast<std::int64_t>(static_cast<double>(offer->price_cents) * offer->return_fee + 0.5);
        terms = fmt::format("it costs {} {}: {} kept and {} to send it",
                            cents_text(kept + offer->return_carriage_cents), currency, cents_text(kept),
                            cents_text(offer->return_carriage_cents));
    }
    const auto day = came.return_by.empty()     ? std::string("the last day is not on file: today")
                     : came.return_by < today() ? fmt::format("the last day, {}, has PASSED: ask", came.return_by)
                                                : fmt::format("until {}", came.return_by);
    return wrapped(
        fmt::format("SEND IT BACK{}: {}; {}. When it is gone: casebound record {} returned role={} item={}",
                    came.seller.empty() ? "" : " to " + came.seller, day, terms, vehicle, event.role, event.item),
        0, 2);
}

// What told facts the place hangs on, those that nobody here has seen first: one of them may be wrong.
std::string look_again_text(const Situation& situation, const RoleAnswer& place) {
    const auto names = place.speaks_of();
    std::vector<const ToldFact*> told;
    for (const auto& fact : situation.narrowing().facts)
        if (fact.applies && holds(names, fact.attribute)) told.push_back(&fact);
    std::stable_sort(told.begin(), told.end(), [](const ToldFact* a, const ToldFact* b) {
        return is_hearsay(a->evidence) > is_hearsay(b->evidence);
    });
    if (told.empty())
        return wrapped(
            fmt::format("Find out next: put the old part beside it, and record what does fit: casebound record "
                        "{} matched role={} item=NUMBER ATTRIBUTE=VALUE",
                        situation.name(), place.role),
            0, 2);
    const auto& attribute = situation.model().set.column(told.front()->attribute)->attribute;
    return wrapped(fmt::format("Find out next: is {} right? {} casebound vehicle tell {} {} VALUE measured",
                               told_words(situation, {told.front()->said()}).front(), attribute.how, situation.name(),
                               spaced(attribute.name)),
                   0, 2);
}

std::string next_text(Session& session, const std::string& vehicle, const std::string& role) {
    const auto situation = session.situation(vehicle);
    const auto place = situation->places().role(role);
    const auto line = open_line(place);
    const auto& left = situation->narrowing().left;
    if (!line.settled(left))
        if (const auto next = next_question(situation->model().set, left, {line}, situation->narrowing().not_asked()))
            return question_text(*next, vehicle, 1);
    return look_again_text(*situation, place);
}

}  // namespace

Result record_does_not_fit(Session& session, const std::string& vehicle, const KeyValueArgs& words) {
    auto event = event_from(session, vehicle, "mismatched", words);
    const auto item = item_meant(session.catalog(), words.need("item")), measured = words.need("measured");
    event.note = measured + (event.note.empty() ? "" : "; " + event.note);
    auto situation = session.situation(vehicle);
    const auto group = group_in_place(*situation, situation->places().role(event.role), item);
    const auto items = items_of(session.catalog(), group, item);
    const auto fact = fact_of(*situation, event, group, measured);
    situation.reset();
    ShopRecords(session.shop()).add(vehicle, {{event}, {}, {}, {}, {}});
    std::string notes = wrapped(
        fmt::format("{}: {} DOES NOT MATCH: {}. Do not open the vehicle for it.", event.role, item, measured), 0, 2);
    if (!group.empty()) {
        const auto folder = own_pack_folder(session, words);
        session.close_catalog();
        keep_fact(session, fact, folder);
        notes += wrapped(
            fmt::format("Kept in {}: {} does not fit here, measured. What says that it fits counts no more "
                        "than that: see casebound fits {} {} --full",
                        folder, group, vehicle, event.role),
            0, 2);
    }
    notes += others_held(session, vehicle, event.role, items) + return_text(session, vehicle, event) +
             next_text(session, vehicle, event.role);
    return record_answer(session, vehicle, notes, Exit::no, false,
                         {fmt::format("{}: does not match: {}", item, measured)});
}

}  // namespace casebound
