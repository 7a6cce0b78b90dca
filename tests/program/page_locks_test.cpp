// An open page beside other processes: it holds no lock between two requests, and sees files that were put in the place
// of those it knew.
#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>

#include "core/ground/error.h"
#include "core/shop/shop_file.h"
#include "core/shop/shop_vehicles.h"
#include "tests/page/page_shop.h"
#include "tests/refusal.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

// Whether another could write at once.
Refusal locked(const std::string& path) {
    Database other(path, Database::Mode::read_write);
    other.wait_at_most(0);
    return refusal([&] { other.execute("BEGIN EXCLUSIVE; ROLLBACK"); });
}

}  // namespace

TEST_CASE("a page that was shown keeps nobody from writing to the catalog or the shop") {
    PageShop shop;
    shop.add_bookvan();
    const std::vector<std::string> start{"/", "/vehicle/bookvan", "/vehicle/bookvan/list?job=pan-service",
                                         "/vehicle/bookvan/order?job=pan-service", "/catalog"};
    std::vector<std::string> addresses;
    for (const auto& [address, reply] : crawled(shop, start, 60)) addresses.push_back(address);
    CHECK(addresses.size() == 60);
    for (const auto& address : addresses) {
        shop.session->close_catalog();  // what was read before is not read again
        shop.get(address);
        INFO(address);
        CHECK(locked(shop.catalog).text == "");
        CHECK(locked(shop.shop).text == "");
    }
    shop.post("/vehicle/bookvan",
              {{"form", "tell"}, {"attribute", "pan_depth"}, {"evidence", "measured"}, {"value", "41 mm"}});
    CHECK(locked(shop.shop).text == "");
    shop.post("/vehicle/bookvan",
              {{"form", "tell"}, {"attribute", "pan_depth"}, {"evidence", "measured"}, {"value", "no depth"}});
    CHECK(locked(shop.catalog).text == "");
    CHECK(locked(shop.shop).text == "");
}

TEST_CASE("a statement that is not finished holds the lock until the session rests") {
    PageShop shop;
    shop.add_bookvan();
    auto& catalog = shop.session->catalog().database();
    Statement rows(catalog, "SELECT text FROM name");
    REQUIRE(rows.step());
    CHECK(locked(shop.catalog).exit == Exit::busy);
    shop.session->rest();
    CHECK(locked(shop.catalog).text == "");
}

TEST_CASE("a shop file restored under an open page is seen, and one that is gone is said") {
    PageShop shop;
    shop.add_bookvan();
    CHECK(shop.get("/vehicle/bookvan").status == 200);
    const auto kept = shop.folder.file("kept.sqlite"), aside = shop.folder.file("aside.sqlite");
    {
        Database older = open_shop(kept);
        ShopVehicles(older).create("old-cart", "quernmoor-packet");
    }
    std::filesystem::rename(shop.shop, aside);
    const auto gone = shop.get("/vehicle/bookvan");
    CHECK(gone.status == 404);
    CHECK(gone.body.find("the shop file is gone") != std::string::npos);
    CHECK_FALSE(std::filesystem::exists(shop.shop));
    std::filesystem::rename(kept, shop.shop);
    CHECK(shop.get("/vehicle/old-cart").status == 200);
    CHECK(shop.get("/vehicle/bookvan").status == 404);
}

TEST_CASE("a shop file that a backup was copied over, in place, is seen by an open page") {
    PageShop shop;
    shop.add_bookvan();
    CHECK(shop.get("/vehicle/bookvan").status == 200);
    const auto kept = shop.folder.file("kept.sqlite");
    {
        auto older = open_shop(kept);
        ShopVehicles(older).create("old-cart", "quernmoor-packet");
    }
    const auto bytes = ScratchFolder::read(kept);
    std::ofstream(shop.shop, std::ios::binary | std::ios::trunc) << bytes;  // the same file, as `cp` writes it
    CHECK(shop.get("/vehicle/old-cart").status == 200);
    CHECK(shop.get("/vehicle/bookvan").status == 404);
}
