// `record VEHICLE does-not-fit`: the part is in the hand and does not match.
#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/commands/mismatch.h"
#include "core/commands/record_answer.h"
#include "core/ground/dates.h"
#include "core/ground/text_layout.h"
#include "core/say/in_words.h"
#include "core/verdict/part_number.h"
#include "core/work/measured_pack.h"
#include "core/work/own_line.h"
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

}  // namespace

Result record_does_not_fit(Session& session, const std::string& vehicle, const KeyValueArgs& words) {
    auto event = event_from(session, vehicle, "mismatched", words);
    const auto item = item_meant(session.catalog(), words.need("item")), measured = words.need("measured");
    event.note = measured + (event.note.empty() ? "" : "; " + event.note);
    auto situation = session.situation(vehicle);
    const auto group = group_in_place(*situation, situation->places().role(event.role), item);
    const auto fact = fact_of(*situation, event, group, measured);
    situation.reset();
    ShopRecords(session.shop()).add(vehicle, {{event}, {}, {}, {}, {}});
    std::string notes = wrapped(
        fmt::format("{}: {} DOES NOT MATCH: {}. Do not open the vehicle for it.", event.role, item, measured), 0, 2);
    if (!group.empty()) {
        const auto folder = words.has("pack") ? words.text("pack") : own_pack_folder(session);
        session.close_catalog();
        keep_fact(session, fact, folder);
        notes += wrapped(
            fmt::format("Kept in {}: {} does not fit here, measured. What says that it fits counts no more "
                        "than that: see casebound fits {} {} --full",
                        folder, group, vehicle, event.role),
            0, 2);
    }
    notes += mismatch_text(what_follows(session, vehicle, event.role, item));
    return record_answer(session, vehicle, notes, Exit::no, false,
                         {fmt::format("{}: does not match: {}", item, measured)});
}

}  // namespace casebound
