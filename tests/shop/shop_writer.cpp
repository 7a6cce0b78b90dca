// Writes to a shop file until it is killed; the number of each finished write goes to stdout. Every write is one
// call of the shop and marks all its rows with its number: told findings, then work with parts, money and shelf,
// offers, closings, settings, in turn. `unsound` takes the rollback journal away: the positive control of the kill
// test, which must be caught.
#include <sqlite3.h>
#include <unistd.h>

#include <string>
#include <vector>

#include "core/shop/shop_file.h"
#include "core/shop/shop_offers.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_settings.h"
#include "core/shop/shop_told.h"

using namespace casebound;

namespace {

constexpr int batch_size = 300, work_size = 100;
constexpr const char* van = "bookvan";

void take_the_journal_away(Database& database) {
    sqlite3_db_config(database.handle(), SQLITE_DBCONFIG_DEFENSIVE, 0, nullptr);  // it forbids journal_mode=OFF
    database.execute("PRAGMA journal_mode=OFF");
    database.execute("PRAGMA cache_size=5");  // pages reach the file in the middle of a transaction
}

std::vector<ToldFact> tellings(std::int64_t number) {
    std::vector<ToldFact> entries(batch_size);
    for (int i = 0; i < batch_size; ++i) {
        ToldFact& entry = entries[static_cast<std::size_t>(i)];
        entry = told_fact("a" + std::to_string(i), std::to_string(number), TellEvidence::assumed);
        entry.note = std::string(400, 'x');
    }
    return entries;
}

NewWork work(std::int64_t number) {
    const auto mark = std::to_string(number);
    NewWork all;
    for (int i = 0; i < work_size; ++i) {
        LineEvent event;
        event.role = "pan-filter";
        event.event = i % 2 == 0 ? "fitted" : "left_over";
        event.note = mark;
        WorkRecord record;
        record.what = "fitted";
        record.note = mark;
        record.label = std::string(400, 'x');
        MoneyEntry money;
        money.kind = "parts";
        money.cents = number;
        money.note = mark;
        all.events.push_back(event);
        all.records.push_back(record);
        all.money.push_back(money);
        all.shelf.push_back({"item" + std::to_string(i), 1, "left over", mark});
    }
    return all;
}

std::vector<OfferOnFile> offers(std::int64_t number) {
    std::vector<OfferOnFile> all(batch_size);
    for (int i = 0; i < batch_size; ++i) {
        auto& offer = all[static_cast<std::size_t>(i)];
        offer.seller = "seller";
        offer.item = "item" + std::to_string(i);
        offer.price_cents = number;
        offer.note = std::to_string(number);
    }
    return all;
}

void write_one(Database& shop, std::int64_t number) {
    const auto mark = std::to_string(number);
    switch (number % 5) {
        case 0: ShopTold(shop).tell(van, tellings(number)); break;
        case 1: ShopRecords(shop).add_to_job(van, "job-" + mark, mark, work(number)); break;
        case 2: ShopOffers(shop).put({{"seller", number, {}, 0, {}}}, offers(number)); break;
        case 3: ShopRecords(shop).close(van, {1, {}, {}, mark, "yes", 1, number, {}, {}}); break;
        case 4:
            ShopSettings(shop).set(
                {{"cash_limit", mark}, {"hour_value", mark}, {"margin", mark}, {"project_limit", mark}});
            break;
    }
}

void report(std::int64_t number) {
    if (write(STDOUT_FILENO, &number, sizeof number) != sizeof number) _exit(3);
}

}  // namespace

int main(int count, char** words) {
    if (count != 4) return 64;
    Database shop = open_shop(words[1]);
    if (words[2] == std::string("unsound")) take_the_journal_away(shop);
    std::int64_t number = std::stoll(words[3]);
    report(number);
    for (;;) {
        write_one(shop, ++number);
        report(number);
    }
}
