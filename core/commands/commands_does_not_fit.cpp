// `record VEHICLE does-not-fit`: the part is in the hand and does not match.
#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/commands/mismatch.h"
#include "core/commands/photos_given.h"
#include "core/commands/record_answer.h"
#include "core/ground/dates.h"
#include "core/ground/text_layout.h"
#include "core/say/in_words.h"
#include "core/verdict/part_number.h"
#include "core/work/item_doubt.h"
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

std::string folder_of(Session& session, const KeyValueArgs& words) {
    return words.has("pack") ? words.text("pack") : own_pack_folder(session);
}

// Is it what was kept with that record: of that vehicle and day, about that place, for the same reason?
bool is_of(const OwnStatement& statement, const std::string& vehicle, const LineEvent& record) {
    auto day = record.date;
    std::erase(day, '-');
    const auto* row = statement.main();
    if (!row || !statement.stands() || row->table != "applications" || row->text("says") != "does_not_fit" ||
        row->text("role") != record.role ||
        statement.source.find(fmt::format("+{}-{}-", vehicle, day)) == std::string::npos)
        return false;
    const auto why = row->text("note");
    return record.note == why || record.note.starts_with(why + "; ");
}

// The statement that was kept with the record of this number; nothing where there is none, or it does not stand.
std::optional<OwnStatement> corrected_mismatch(Session& session, const std::string& vehicle,
                                               std::optional<std::int64_t> corrects, const std::string& folder) {
    if (!corrects) return std::nullopt;
    std::optional<OwnStatement> found;
    for (const auto& record : ShopRecords(session.shop()).events(vehicle))
        if (record.id == *corrects && record.event == "mismatched")
            for (auto& statement : own_statements(session, folder))
                if (is_of(statement, vehicle, record)) found = std::move(statement);
    return found;
}

struct WrittenMismatch {
    std::string role, item, measured;
    std::string group, folder;  // what is said not to fit, in which pack; "" when nothing says that it does
};

// The row of the pack before the record is committed: what fails writes neither, and a row said twice says no more.
WrittenMismatch write_mismatch(Session& session, const std::string& vehicle, const KeyValueArgs& words) {
    auto event = event_from(session, vehicle, "mismatched", words);
    const auto item = item_meant(session.catalog(), words.need("item")), measured = words.need("measured");
    event.note = measured + (event.note.empty() ? "" : "; " + event.note);
    auto situation = session.situation(vehicle);
    const auto folder = folder_of(session, words);
    const auto before = corrected_mismatch(session, vehicle, event.corrects, folder);
    const auto group = before ? before->main()->text("group_key")
                              : group_in_place(*situation, situation->places().role(event.role), item);
    const auto fact = fact_of(*situation, event, group, measured);
    situation.reset();
    ShopRecords(session.shop()).add(vehicle, {{event}, {}, {}, {}, {}});
    const WrittenMismatch written{event.role, item, measured, group, folder};
    if (group.empty()) return written;
    session.close_catalog();
    OwnPackChange change(session, folder);
    if (before) change.withdraw(before->source, "corrected: " + measured);
    change.add(fact);
    change.finish();
    return written;
}

Result mismatch_answer(Session& session, const std::string& vehicle, const WrittenMismatch& written) {
    const auto& [role, item, measured, group, folder] = written;
    std::string notes = wrapped(
        fmt::format("{}: {} DOES NOT MATCH: {}. Do not open the vehicle for it.", role, item, measured), 0, 2);
    if (!group.empty())
        notes += wrapped(
            fmt::format("Kept in {}: {} does not fit here, measured. What says that it fits counts no more "
                        "than that: see casebound fits {} {} --full",
                        folder, group, vehicle, role),
            0, 2);
    notes += mismatch_text(what_follows(session, vehicle, role, item));
    return record_answer(session, vehicle, notes, Exit::no, false,
                         {fmt::format("{}: does not match: {}", item, measured)});
}

}  // namespace

bool takes_back_mismatch(Session& session, const std::string& vehicle, const KeyValueArgs& words) {
    return corrected_mismatch(session, vehicle, words.whole("corrects"), folder_of(session, words)).has_value();
}

std::string take_back_mismatch(Session& session, const std::string& vehicle, const LineEvent& event,
                               const KeyValueArgs& words) {
    const auto folder = folder_of(session, words);
    const auto statement = corrected_mismatch(session, vehicle, event.corrects, folder);
    if (!statement) return "";
    session.close_catalog();
    OwnPackChange change(session, folder);
    change.withdraw(statement->source, event.note.empty() ? "its record is corrected" : event.note);
    change.finish();
    return wrapped(fmt::format("Statement {} of your own pack, that {} does not fit, is withdrawn with the record that "
                               "it was kept with; it stays in the history.",
                               statement->number, statement->main()->text("group_key")),
                   0, 2);
}

Result record_does_not_fit(Session& session, const Args& args, const KeyValueArgs& words) {
    refuse_dry_run(args, "a row of your own pack");
    const auto vehicle = session.vehicle(args.words.at(0)).name;
    check_kind(session.catalog(), words.text("role"), item_meant(session.catalog(), words.text("item")));
    return written_with_photos(
        session, args, [&] { return write_mismatch(session, vehicle, words); },
        [&](const WrittenMismatch& written) { return mismatch_answer(session, vehicle, written); });
}

}  // namespace casebound
