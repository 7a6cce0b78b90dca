// Kills a writing process at random moments. A killed process leaves its file to the kernel, so this says nothing about
// power cuts; those are in power_cut_test.cpp, and rest on synchronous=EXTRA, which is checked here too.
#include <catch2/catch.hpp>

#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <random>
#include <string>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/shop/shop_file.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_vehicles.h"
#include "tests/scratch_folder.h"

using namespace casebound;

namespace {

// As in shop_writer.cpp: rows of one write in each table, and where its number stands.
struct Written {
    const char *table, *mark;
    std::int64_t kind, rows;
};

constexpr Written all_written[] = {
    {"tellings", "right_side", 0, 300}, {"jobs_started", "note", 1, 1},      {"line_events", "note", 1, 100},
    {"records", "note", 1, 100},        {"money", "note", 1, 100},           {"shelf_entries", "note", 1, 100},
    {"offers", "note", 2, 300},         {"sellers", "carriage_cents", 2, 1}, {"closings", "cause", 3, 1},
    {"settings", "value", 4, 4},
};
constexpr std::int64_t kinds = 5;

std::string new_shop(const ScratchFolder& folder) {
    const std::string path = folder.file("shop.sqlite");
    std::filesystem::remove(path);
    std::filesystem::remove(path + "-journal");
    Database shop = open_shop(path);
    ShopVehicles(shop).create("bookvan", "drover");
    ShopRecords(shop).start_job("bookvan", "pan-service");
    return path;
}

struct Kill {
    std::int64_t acknowledged = -1;  // the last batch the writer said was done
    bool within_a_write{};           // a journal that must be rolled back was left
};

Kill write_and_kill(const std::string& path, const char* mode, std::int64_t from, useconds_t after_us) {
    int pipe_ends[2];
    REQUIRE(pipe(pipe_ends) == 0);
    const pid_t child = fork();
    if (child == 0) {
        dup2(pipe_ends[1], STDOUT_FILENO);
        close(pipe_ends[0]);
        close(pipe_ends[1]);
        execl(CASEBOUND_SHOP_WRITER, "shop_writer", path.c_str(), mode, std::to_string(from).c_str(), nullptr);
        _exit(127);
    }
    close(pipe_ends[1]);
    Kill result;
    std::int64_t number = 0;
    if (read(pipe_ends[0], &number, sizeof number) == sizeof number) result.acknowledged = number;
    usleep(after_us);
    kill(child, SIGKILL);
    int status = 0;
    waitpid(child, &status, 0);
    while (read(pipe_ends[0], &number, sizeof number) == sizeof number) result.acknowledged = number;
    close(pipe_ends[0]);
    const std::string journal = path + "-journal";
    result.within_a_write = std::filesystem::exists(journal) && std::filesystem::file_size(journal) > 0;
    REQUIRE(WIFSIGNALED(status));
    REQUIRE(WTERMSIG(status) == SIGKILL);  // it did not end by itself
    REQUIRE(result.acknowledged >= 0);     // it had begun
    return result;
}

// The highest number that any table holds; 0 when nothing was written yet.
std::int64_t newest(const Database& database) {
    std::int64_t last = 0;
    for (const auto& one : all_written)
        last = std::max(last, database.integer(fmt::format("SELECT coalesce(max(CAST({} AS INTEGER)), 0) FROM {}",
                                                           one.mark, one.table)));
    return last;
}

std::string half_written(const Written& one) {
    return fmt::format("SELECT count(*) FROM (SELECT 1 FROM {} GROUP BY {} HAVING count(*) <> {})", one.table, one.mark,
                       one.rows);
}

// One write fills several tables: all of them, or none.
std::string kind_missing(const Database& database, std::int64_t last) {
    for (const auto& one : all_written)
        for (auto number = last; number >= 1 && number > last - kinds; --number)
            if (number % kinds == one.kind &&
                database.integer(fmt::format("SELECT count(*) FROM {} WHERE CAST({} AS INTEGER) = {}", one.table,
                                             one.mark, number)) != one.rows)
                return fmt::format("write {} is missing in {}", number, one.table);
    return "";
}

// "" when the file is as before or as after the write that was cut off.
std::string damage(const std::string& path, std::int64_t acknowledged) {
    try {
        const Database database = open_shop(path);
        Statement sound(database, "PRAGMA integrity_check");
        if (!sound.step() || sound.text(0) != "ok") return "integrity: " + sound.str(0);
        Statement keys(database, "PRAGMA foreign_key_check");
        if (keys.step()) return "a row points nowhere";
        const auto last = newest(database);
        if (last < acknowledged) return "a finished write is lost";
        if (last > acknowledged + 1) return "a write nobody made";
        for (const auto& one : all_written)
            if (database.integer(half_written(one)) > 0) return fmt::format("half a write in {}", one.table);
        return kind_missing(database, last);
    } catch (const Error& error) { return error.what(); }
}

}  // namespace

TEST_CASE("a shop file that is killed while writing is as before the write or as after it") {
    const ScratchFolder folder;
    std::mt19937 random(200);
    std::uniform_int_distribution<useconds_t> moment(0, 25000);
    std::int64_t last = 0;
    int within = 0;
    for (int n = 0; n < 200; ++n) {
        if (n % 20 == 0) last = 0;
        const std::string path = n % 20 == 0 ? new_shop(folder) : folder.file("shop.sqlite");
        const Kill killed = write_and_kill(path, "sound", last, moment(random));
        within += killed.within_a_write;
        INFO("kill " << n << ", acknowledged " << killed.acknowledged);
        REQUIRE(damage(path, killed.acknowledged) == "");
        last = std::max<std::int64_t>(0, newest(open_shop(path)));
    }
    CHECK(within >= 20);  // otherwise the moments missed the writes and nothing was shown
}

TEST_CASE("positive control: without the rollback journal the same kills do damage") {
    const ScratchFolder folder;
    std::mt19937 random(201);
    std::uniform_int_distribution<useconds_t> moment(0, 25000);
    std::string first;
    for (int n = 0; n < 200 && first.empty(); ++n) {
        const std::string path = new_shop(folder);
        const Kill killed = write_and_kill(path, "unsound", 0, moment(random));
        first = damage(path, killed.acknowledged);
    }
    INFO("otherwise the checks of this test would not notice a torn write");
    CHECK_THAT(first, Catch::Matchers::StartsWith("half a write") || Catch::Matchers::Contains("is missing in") ||
                          Catch::Matchers::StartsWith("integrity: ") || Catch::Matchers::Contains("malformed"));
}

TEST_CASE("the shop file is synced with its folder and keeps no write-ahead log") {
    const ScratchFolder folder;
    const Database database = open_shop(new_shop(folder));
    CHECK(database.integer("PRAGMA synchronous") == 3);  // EXTRA
    Statement mode(database, "PRAGMA journal_mode");
    REQUIRE(mode.step());
    CHECK(mode.text(0) == "delete");
}
