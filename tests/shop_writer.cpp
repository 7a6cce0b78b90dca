// Writes batches to a shop file until it is killed; the number of each finished batch goes to stdout.
// `unsound` takes the rollback journal away: the positive control of the kill test, which must be caught.
#include <sqlite3.h>
#include <unistd.h>

#include <string>
#include <vector>

#include "core/shop.h"

using namespace casebound;

namespace {

constexpr int batch_size = 300;

void take_the_journal_away(Database& database) {
    sqlite3_db_config(database.handle(), SQLITE_DBCONFIG_DEFENSIVE, 0, nullptr);  // it forbids journal_mode=OFF
    database.execute("PRAGMA journal_mode=OFF");
    database.execute("PRAGMA cache_size=5");  // pages reach the file in the middle of a transaction
}

std::vector<NewTell> batch(std::int64_t number) {
    std::vector<NewTell> entries(batch_size);
    for (int i = 0; i < batch_size; ++i) {
        NewTell& entry = entries[static_cast<std::size_t>(i)];
        entry.attribute = "a" + std::to_string(i);
        entry.text = entry.right_side = std::to_string(number);
        entry.note = std::string(400, 'x');
    }
    return entries;
}

void report(std::int64_t number) {
    if (write(STDOUT_FILENO, &number, sizeof number) != sizeof number) _exit(3);
}

}  // namespace

int main(int count, char** words) {
    if (count != 3) return 64;
    Database database = open_shop(words[1]);
    if (words[2] == std::string("unsound")) take_the_journal_away(database);
    std::int64_t number = database.integer("SELECT count(*) FROM tellings") / batch_size;
    Shop shop(std::move(database));
    report(number);
    for (;;) {
        shop.tell("bookvan", batch(++number));
        report(number);
    }
}
