// Two of the same command at once. The write lock is held from here until both have begun, so that a check made before
// the lock would see the same in both.
#include <catch2/catch.hpp>

#include <unistd.h>

#include <cstdlib>
#include <filesystem>
#include <future>
#include <string>

#include <fmt/format.h>

#include "core/shop/shop_file.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_told.h"
#include "tests/environment.h"
#include "tests/own_pack_state.h"
#include "tests/scratch_folder.h"

using namespace casebound;
namespace files = std::filesystem;

namespace {

const std::string program = CASEBOUND_BINARY_DIR "/casebound";

int run(const std::string& words) {
    return WEXITSTATUS(std::system(fmt::format("'{}' {} > /dev/null 2>&1", program, words).c_str()));
}

void must_run(const std::string& words) {
    INFO(words);
    REQUIRE(run(words) == 0);
}

void new_yard() {
    std::string packs;
    for (const auto* name : {"filters_seals", "mounts", "solenoids", "transmission_fluids", "demo-fleet"})
        packs += fmt::format(" '{}/seed-data/{}'", CASEBOUND_SOURCE_DIR, name);
    must_run("pack load" + packs);
    must_run("vehicle new van quernmoor-packet year=2007 engine=2.6 cooler=no pan_depth=41mm measured");
}

void both(const std::string& one, const std::string& other) {
    auto first = std::async(std::launch::async, [&] { return run(one); });
    auto second = std::async(std::launch::async, [&] { return run(other); });
    first.get(), second.get();
}

void both_behind_a_lock(const std::string& shop, const std::string& one, const std::string& other) {
    Database holder(shop, Database::Mode::read_write);
    Transaction held(holder);
    auto done = std::async(std::launch::async, [&] { both(one, other); });
    constexpr useconds_t until_both_wait_us = 800000;
    ::usleep(until_both_wait_us);
    held.commit();
    done.get();
}

int standing(Database& shop, std::string_view event) {
    int count = 0;
    for (const auto& one : ShopRecords(shop).events("van")) count += one.stands && one.event == event;
    return count;
}

}  // namespace

TEST_CASE("two at once: an order is written once, a part goes back once, and both findings stand") {
    const ScratchFolder folder;
    const SetVariable home("CASEBOUND_HOME", folder.path().c_str()), date("CASEBOUND_TODAY", "2026-11-25");
    new_yard();
    must_run("offer add seller=Ayle carriage=5 item=Q-QF4-5 price=36 days=2");
    must_run("record van received role=pan-filter item=Q312-1141 quantity=1");
    const auto shop = folder.file("shop.sqlite");
    const std::string order =
        "buy van pan-service --without filter-neck-seal --without pan-gasket --without pan-filter --ordered";
    both_behind_a_lock(shop, order, order);
    const std::string back = "record van returned role=pan-filter item=Q312-1141 quantity=1";
    both_behind_a_lock(shop, back, back);
    both_behind_a_lock(shop, "vehicle tell van leak_at+=pan_rail measured",
                       "vehicle tell van leak_at+=cooler_line measured");
    Database now = open_shop(shop);
    CHECK(standing(now, "ordered") == 1);
    CHECK(standing(now, "returned") == 1);
    std::string leaks;
    for (const auto& one : ShopTold(now).standing("van"))
        if (one.attribute == "leak_at") leaks = one.right_side.text();
    CHECK_THAT(leaks, Catch::Contains("pan_rail") && Catch::Contains("cooler_line"));
}

TEST_CASE("two at once: a pack that two keep in has the rows of both") {
    const ScratchFolder folder;
    const SetVariable home("CASEBOUND_HOME", folder.path().c_str()), date("CASEBOUND_TODAY", "2026-11-25");
    new_yard();
    must_run("record van fitted role=pan-filter item=Q312-1141 made=new");
    const auto pack = folder.file("own");
    const auto keep = fmt::format("keep van applications role=pan-filter item=Q312-1141 --pack '{}' --confirm", pack);
    constexpr int rounds = 5;
    for (int n = 1; n <= rounds; ++n) {
        INFO("round " << n);
        both(keep, keep);
        REQUIRE(pack_damage(pack) == "");
        REQUIRE(kept_in(pack) == 2 * n);
    }
    must_run(fmt::format("pack check '{}'", pack));
    CHECK_FALSE(files::exists(folder.file(".own.new")));
}

TEST_CASE("a transaction within another is a part of it") {
    Database shop(":memory:", Database::Mode::create);
    shop.execute("CREATE TABLE t (x)");
    {
        Transaction whole(shop);
        shop.execute("INSERT INTO t VALUES (1)");
        {
            const Transaction dropped(shop);
            shop.execute("INSERT INTO t VALUES (2)");
        }
        CHECK(shop.integer("SELECT count(*) FROM t") == 1);
        Transaction kept(shop);
        shop.execute("INSERT INTO t VALUES (3)");
        kept.commit();
        whole.commit();
    }
    CHECK(shop.integer("SELECT count(*) FROM t") == 2);
    {
        const Transaction whole(shop);
        Transaction part(shop);
        shop.execute("INSERT INTO t VALUES (4)");
        part.commit();
    }
    CHECK(shop.integer("SELECT count(*) FROM t") == 2);  // a part is committed only with the whole
}
