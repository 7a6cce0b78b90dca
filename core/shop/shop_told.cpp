#include "core/shop/shop_told.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <set>

#include <fmt/format.h>

#include "core/ground/dates.h"
#include "core/ground/error.h"
#include "core/shop/shop_photos.h"

namespace casebound {

namespace {

struct EvidenceName {
    TellEvidence evidence;
    std::string_view stored, words;
};

constexpr std::array<EvidenceName, 5> evidence_names = {{
    {TellEvidence::measured, "measured", "measured"},
    {TellEvidence::read, "read", "read"},
    {TellEvidence::said, "said", "said"},
    {TellEvidence::seller_said, "seller_said", "seller said"},
    {TellEvidence::assumed, "assumed", "assumed"},
}};

const EvidenceName& named(TellEvidence evidence) { return evidence_names[static_cast<std::size_t>(evidence)]; }

// `stands` is decided here and nowhere else: the newest of what was measured or read, else the newest. What is only
// assumed or hearsay never displaces what somebody looked at; both are kept.
constexpr std::string_view entry_columns =
    "SELECT t.id, t.attribute, t.text, t.right_side, t.evidence, t.date, t.photo, t.note, t.corrects,"
    " t.right_side IS NOT NULL"
    " AND NOT EXISTS (SELECT 1 FROM tellings c WHERE c.corrects = t.id)"
    " AND NOT EXISTS (SELECT 1 FROM tellings n WHERE n.vehicle = t.vehicle AND n.attribute = t.attribute AND n.id > "
    "t.id"
    " AND (n.right_side IS NULL OR n.evidence IN ('measured', 'read') OR t.evidence NOT IN ('measured', 'read')))"
    " AND (t.evidence IN ('measured', 'read') OR NOT EXISTS (SELECT 1 FROM tellings f WHERE f.vehicle = t.vehicle"
    " AND f.attribute = t.attribute AND f.id < t.id AND f.evidence IN ('measured', 'read')"
    " AND NOT EXISTS (SELECT 1 FROM tellings c WHERE c.corrects = f.id)"
    " AND NOT EXISTS (SELECT 1 FROM tellings w WHERE w.vehicle = t.vehicle AND w.attribute = t.attribute AND w.id > "
    "f.id"
    " AND w.right_side IS NULL))) AS stands"
    " FROM tellings t WHERE t.vehicle = ?";

ToldFact entry_of(const Statement& row) {
    ToldFact entry;
    entry.id = row.integer(0);
    entry.attribute = row.str(1);
    entry.text = row.str(2);
    entry.withdrawn = row.is_null(3);
    if (!entry.withdrawn) entry.right_side = RightSide(row.str(3)), entry.evidence = tell_evidence_from(row.text(4));
    entry.date = row.str(5);
    entry.photo = row.str(6);
    entry.note = row.str(7);
    if (!row.is_null(8)) entry.corrects = row.integer(8);
    entry.stands = row.integer(9) != 0;
    return entry;
}

[[noreturn]] void refuse(std::string_view vehicle, std::string_view what) {
    throw Error(Exit::usage, fmt::format("vehicle {}: {}", vehicle, what));
}

void check(std::string_view vehicle, const ToldFact& entry) {
    if (entry.attribute.empty()) refuse(vehicle, "nothing is named: write attribute=value");
    if (entry.text.empty() || entry.right_side.empty())
        refuse(vehicle, fmt::format("{}: no value is given: write {}=value, or withdraw what was told", entry.attribute,
                                    entry.attribute));
    try {
        entry.right_side.spans();
    } catch (const ConditionFault& fault) {
        refuse(vehicle, fmt::format("{}: \"{}\": {}", entry.attribute, entry.text, fault.what()));
    }
    if (entry.date.empty()) return;
    if (!is_date(entry.date))
        refuse(vehicle, fmt::format("{}: \"{}\" is not a date: write YYYY-MM-DD", entry.attribute, entry.date));
    if (entry.date > today())
        refuse(vehicle,
               fmt::format("{}: {} has not come yet: write the day it was found out", entry.attribute, entry.date));
}

void check_once(std::string_view vehicle, const std::vector<ToldFact>& entries) {
    std::set<std::string_view> seen;
    for (const auto& entry : entries)
        if (!seen.insert(entry.attribute).second)
            refuse(vehicle, fmt::format("{} is told twice: tell it once, alternatives as a|b", entry.attribute));
}

std::int64_t append(const Database& database, std::int64_t vehicle, const ToldFact& entry, bool withdrawn) {
    Statement insert(
        database,
        "INSERT INTO tellings (vehicle, attribute, text, right_side, evidence, date, entered, photo, note, corrects)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id");
    const std::string now = today();
    insert.bind(1, vehicle)
        .bind(2, entry.attribute)
        .bind_or_null(3, entry.text)
        .bind_or_null(4, entry.right_side.text());
    insert.bind_or_null(5, withdrawn ? std::string_view() : named(entry.evidence).stored);
    insert.bind(6, entry.date.empty() ? now : entry.date)
        .bind(7, now)
        .bind_or_null(8, entry.photo)
        .bind_or_null(9, entry.note);
    if (entry.corrects) insert.bind(10, *entry.corrects);
    insert.step();
    const auto id = insert.integer(0);
    insert.run();
    link_photos(database, entry.photos, "telling", id);
    return id;
}

}  // namespace

TellEvidence tell_evidence_from(std::string_view words) {
    std::string stored{words};
    for (char& c : stored)
        if (c == ' ' || c == '-') c = '_';
    for (const auto& name : evidence_names)
        if (stored == name.stored) return name.evidence;
    throw Error(
        Exit::usage,
        fmt::format("evidence: \"{}\" is not known: write measured, read, said, seller-said or assumed", words));
}

std::vector<ToldFact> standing_in(const std::vector<ToldFact>& history) {
    std::vector<ToldFact> standing;
    std::copy_if(history.begin(), history.end(), std::back_inserter(standing),
                 [](const ToldFact& one) { return one.stands; });
    std::stable_sort(standing.begin(), standing.end(),
                     [](const ToldFact& a, const ToldFact& b) { return a.attribute < b.attribute; });
    return standing;
}

namespace {

bool is_corrected(const std::vector<ToldFact>& history, const ToldFact& entry) {
    return std::any_of(history.begin(), history.end(), [&](const ToldFact& one) { return one.corrects == entry.id; });
}

// The same as `value` was measured so often, up to the entry that stands, and not taken back.
std::ptrdiff_t times_measured(const std::vector<ToldFact>& history, const ToldFact& value, std::int64_t after,
                              const ToldFact& standing, const SameValue& same) {
    return std::count_if(history.begin(), history.end(), [&](const ToldFact& one) {
        return one.attribute == value.attribute && one.id > after && one.id <= standing.id && !one.withdrawn &&
               one.evidence == TellEvidence::measured && !is_corrected(history, one) && same(one, value);
    });
}

// Measured before, and something else was measured or read since, and neither taken back nor outvoted: what stands was
// measured twice since, or twice in all and more often than the other.
bool measured_otherwise(const std::vector<ToldFact>& history, const ToldFact& entry, const ToldFact& standing,
                        const SameValue& same) {
    if (entry.evidence != TellEvidence::measured || is_hearsay(standing.evidence) || same(entry, standing))
        return false;
    std::int64_t taken_back = 0;
    for (const auto& one : history)
        if (one.attribute == entry.attribute && one.withdrawn && one.id < standing.id) taken_back = one.id;
    if (taken_back > entry.id) return false;
    const auto in_all = times_measured(history, standing, taken_back, standing, same);
    return times_measured(history, standing, entry.id, standing, same) < 2 &&
           (in_all < 2 || in_all <= times_measured(history, entry, taken_back, standing, same));
}

}  // namespace

std::vector<ToldFact> clashes_in(const std::vector<ToldFact>& history, const SameValue& same) {
    std::vector<ToldFact> found;
    for (const auto& standing : standing_in(history))
        for (const auto& entry : history) {
            if (entry.attribute != standing.attribute || entry.withdrawn || entry.right_side == standing.right_side ||
                is_corrected(history, entry))
                continue;
            if (entry.id < standing.id && !measured_otherwise(history, entry, standing, same)) continue;
            std::erase_if(found, [&](const ToldFact& one) {
                return one.attribute == entry.attribute && one.right_side == entry.right_side &&
                       one.evidence == entry.evidence;
            });
            found.push_back(entry);
        }
    return found;
}

std::vector<ToldFact> ShopTold::entries(std::string_view vehicle, bool standing_only) const {
    std::vector<ToldFact> all;
    Statement rows(database_, fmt::format("{}{}", entry_columns,
                                          standing_only ? " AND stands ORDER BY t.attribute" : " ORDER BY t.id"));
    const auto id = vehicle_id(database_, vehicle);
    auto photos = photos_by_entry(database_, id, "telling");
    rows.bind(1, id);
    while (rows.step()) {
        all.push_back(entry_of(rows));
        if (const auto of_it = photos.find(all.back().id); of_it != photos.end())
            all.back().photos = std::move(of_it->second);
    }
    return all;
}

std::vector<ToldFact> ShopTold::standing(std::string_view vehicle) const { return entries(vehicle, true); }
std::vector<ToldFact> ShopTold::history(std::string_view vehicle) const { return entries(vehicle, false); }

std::vector<std::int64_t> add_told(Database& shop, std::string_view vehicle, const std::vector<ToldFact>& facts) {
    for (const auto& entry : facts) check(vehicle, entry);
    check_once(vehicle, facts);
    const auto id = vehicle_id(shop, vehicle);
    const auto standing = ShopTold(shop).standing(vehicle);
    std::vector<std::int64_t> ids;
    for (const auto& entry : facts) {
        const bool may = !entry.corrects || std::any_of(standing.begin(), standing.end(),
                                                        [&](const auto& one) { return one.id == *entry.corrects; });
        if (!may)
            throw Error(
                Exit::no_input,
                fmt::format(
                    "vehicle {}: entry {} does not stand: only what counts now can be corrected; see its history",
                    vehicle, *entry.corrects));
        ids.push_back(append(shop, id, entry, false));
    }
    return ids;
}

std::vector<std::int64_t> ShopTold::tell(std::string_view vehicle, const std::vector<ToldFact>& facts) {
    Transaction transaction(database_);
    auto ids = add_told(database_, vehicle, facts);
    transaction.commit();
    return ids;
}

std::vector<std::int64_t> ShopTold::untell(std::string_view vehicle, const std::vector<std::string>& attributes,
                                           std::string_view note) {
    Transaction transaction(database_);
    const auto id = vehicle_id(database_, vehicle);
    std::vector<std::int64_t> ids;
    for (const auto& attribute : attributes) {
        const auto standing = this->standing(vehicle);
        const auto entry = std::find_if(standing.begin(), standing.end(),
                                        [&](const ToldFact& one) { return one.attribute == attribute; });
        if (entry == standing.end())
            throw Error(
                Exit::no_input,
                fmt::format("vehicle {}: nothing is told about {}: there is nothing to withdraw", vehicle, attribute));
        ToldFact withdrawal;
        withdrawal.attribute = attribute;
        withdrawal.note = note;
        withdrawal.corrects = entry->id;
        ids.push_back(append(database_, id, withdrawal, true));
    }
    transaction.commit();
    return ids;
}

}  // namespace casebound
