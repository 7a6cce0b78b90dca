#include "core/sheets/photo_words.h"

#include <filesystem>
#include <map>

#include <fmt/format.h>

#include "core/buy/order_report.h"
#include "core/ground/units.h"
#include "core/sheets/sheet_rows.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_told.h"
#include "core/work/own_line.h"
#include "core/work/own_words.h"

namespace casebound {

namespace {

using Worded = std::map<std::int64_t, std::string>;

// Without naming the photo that they stand beside.
template <class Entry, class RowOf> Worded worded(std::vector<Entry> entries, RowOf row_of_entry) {
    Worded all;
    for (auto& entry : entries) {
        entry.photos.clear();
        const SheetRow row = row_of_entry(entry);
        all[entry.id] = fmt::format("{}{}{}, {}{}", row.subject, row.subject.empty() ? "" : ": ", row.text, row.date,
                                    row.stands ? "" : " (no longer stands)");
    }
    return all;
}

// What is told and recorded of one vehicle, in words, by the kind of its row.
std::map<std::string, Worded> worded_entries(Session& session, const std::string& vehicle) {
    const auto& words = session.catalog().vocabularies();
    const ShopRecords records(session.shop());
    const auto currency = currency_of(session);
    const auto with_words = [&](const auto& entry) { return row_of(entry, words); };
    return {{"telling", worded(ShopTold(session.shop()).history(vehicle), with_words)},
            {"record", worded(records.records(vehicle), with_words)},
            {"event", worded(records.events(vehicle), with_words)},
            {"money", worded(records.money(vehicle), [&](const auto& one) { return row_of(one, currency); })}};
}

std::string statement_of(Session& session, const std::vector<OwnStatement>& own, const std::string& source) {
    for (const auto& one : own)
        if (one.source == source)
            return fmt::format(
                "statement {}{}: {}", one.number, one.stands() ? "" : " (withdrawn)",
                one.main() ? statement_words(session.catalog(), one.main()->table, one.main()->cells) : one.title);
    return fmt::format("a statement of another pack of your own ({})", source);
}

}  // namespace

std::vector<WordedPhoto> worded_photos(Session& session, const std::string& vehicle) {
    std::vector<WordedPhoto> all;
    const auto kept = ShopPhotos(session.shop()).all(vehicle);
    if (kept.empty()) return all;
    const auto entries = worded_entries(session, vehicle);
    const auto own = own_statements(session, own_pack_folder(session));
    for (const auto& photo : kept) {
        WordedPhoto one{photo, {}, std::filesystem::is_regular_file(photo.path)};
        for (const auto& shows : photo.shows) {
            if (shows.kind == "statement") {
                one.of.push_back(statement_of(session, own, shows.statement));
                continue;
            }
            const auto& of_kind = entries.at(shows.kind);
            if (const auto found = of_kind.find(shows.entry); found != of_kind.end()) one.of.push_back(found->second);
        }
        all.push_back(std::move(one));
    }
    return all;
}

std::string photo_measure(const Photo& photo) {
    constexpr double mega = 1e6, kilo = 1e3;
    const auto bytes = static_cast<double>(photo.bytes);
    return fmt::format("{} x {} pixels, {}{}{}", photo.width, photo.height,
                       bytes >= mega ? plain_number(bytes / mega, 1) + " MB" : plain_number(bytes / kilo, 1) + " kB",
                       photo.taken.empty() ? "" : ", taken ", photo.taken);
}

}  // namespace casebound
