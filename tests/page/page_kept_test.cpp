// A page that is kept is the page that would be written anew: whatever it rests on changes, it is written anew, and each
// form has an id of its own every time.
#include <catch2/catch.hpp>

#include <fstream>
#include <regex>
#include <set>

#include "core/page/page_kept.h"
#include "core/shop/shop_photos.h"
#include "tests/page/page_shop.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

const std::regex id_field(R"~(name="once" value="([0-9a-f]{32})")~");

std::set<std::string> form_ids(const std::string& body) {
    std::set<std::string> ids;
    for (std::sregex_iterator at(body.begin(), body.end(), id_field), end; at != end; ++at) ids.insert((*at)[1]);
    return ids;
}

std::string without_ids(const std::string& body) { return std::regex_replace(body, id_field, "id"); }

// As a process that has just been started answers: it has kept nothing.
std::string anew(const PageShop& shop, const std::string& address) {
    Session session({shop.catalog, shop.shop, shop.folder.file("probed"), {CASEBOUND_BINARY_DIR "/plugins"}});
    return without_ids(page_reply(session, shop.request(address)).body);
}

bool is_kept(const PageShop& shop, const std::string& address) {
    const auto request = shop.request(address);
    const auto key = kept_under(Visit{*shop.session, request});
    return key && kept_pages().find(*key);
}

const std::vector<std::string> kept{"/", "/vehicle/bookvan", "/vehicle/bookvan?ask=pan_depth"};

}  // namespace

TEST_CASE("a kept page is the page written anew, with other ids of its forms") {
    PageShop shop;
    shop.add_bookvan();
    for (const auto& address : kept) {
        INFO(address);
        shop.get(address);
        REQUIRE(is_kept(shop, address));
        const auto first = shop.get(address).body, second = shop.get(address).body;
        CHECK(without_ids(first) == anew(shop, address));
        CHECK(without_ids(second) == without_ids(first));
        auto ids = form_ids(first);
        const auto one = ids.size();
        REQUIRE(one > 0);
        ids.merge(form_ids(second));
        CHECK(ids.size() == 2 * one);
    }
}

TEST_CASE("what is written, by this page or another process, is on a page that was kept") {
    PageShop shop;
    shop.add_bookvan();
    for (const auto& address : kept) shop.get(address);
    const auto before = shop.get("/vehicle/bookvan").body;
    SECTION("a form of the page") {
        shop.post("/vehicle/bookvan", {{"form", "tell"}, {"attribute", "drive"}, {"value", "rear"}});
    }
    SECTION("another connection, while this session keeps its own") {
        Session other({shop.catalog, shop.shop, shop.folder.file("probed"), {CASEBOUND_BINARY_DIR "/plugins"}});
        page_reply(other, [&] {
            auto told = shop.request("/vehicle/bookvan");
            told.post = true;
            told.form = {{"form", "tell"}, {"attribute", "drive"}, {"value", "rear"}};
            return told;
        }());
    }
    CHECK_FALSE(is_kept(shop, "/vehicle/bookvan"));
    CHECK(shop.get("/vehicle/bookvan").body.find("rear") != std::string::npos);
    CHECK(without_ids(shop.get("/vehicle/bookvan").body) != without_ids(before));
    for (const auto& address : kept) CHECK(without_ids(shop.get(address).body) == anew(shop, address));
}

TEST_CASE("another day, another backup, another reader and another catalog have pages of their own") {
    PageShop shop;
    shop.add_bookvan();
    for (const auto& address : kept) shop.get(address), shop.get(address);
    SECTION("the day") {
        const SetVariable later("CASEBOUND_TODAY", "2027-03-01");
        for (const auto& address : kept) CHECK_FALSE(is_kept(shop, address));
        CHECK(shop.get("/").body.find("There is no backup of the shop") != std::string::npos);
    }
    SECTION("the note of the last backup") {
        std::ofstream(shop.shop + ".last-backup") << "2026-11-24\n/mnt/stick/backup.tar\n";
        CHECK(shop.get("/").body.find("/mnt/stick/backup.tar") != std::string::npos);
    }
    SECTION("who only looks") {
        shop.may_edit = false;
        for (const auto& address : kept) CHECK(form_ids(shop.get(address).body).empty());
    }
    SECTION("the run of the server") {
        auto request = shop.request("/vehicle/bookvan");
        request.form_token = "another-token";
        const auto body = page_reply(*shop.session, request).body;
        CHECK(body.find("another-token") != std::string::npos);
        CHECK(body.find("the-token") == std::string::npos);
    }
    SECTION("the catalog") {
        drop_pack("demo-fleet", shop.catalog);
        CHECK(shop.get("/vehicle/bookvan").status == 404);
        CHECK(shop.get("/").body.find("is in no loaded pack") != std::string::npos);
    }
}

TEST_CASE("a page with photos rests on files, and is never kept") {
    PageShop shop;
    shop.add_bookvan();
    ShopPhotos(shop.session->shop())
        .enter("bookvan", {0, std::string(64, 'a'), "jpeg", 10, 4, 4, "", "2026-11-25", {}});
    shop.get("/vehicle/bookvan");
    shop.get("/vehicle/bookvan");
    CHECK_FALSE(is_kept(shop, "/vehicle/bookvan"));
}

TEST_CASE("kept pages stay within their bounds, and a page without each of its ids once is not kept") {
    KeptPages pages;
    const std::string id(32, 'f'), big(std::size_t{1} << 20, 'x');
    pages.keep("twice", id + " " + id, {id});
    pages.keep("missing", "nothing", {id});
    CHECK_FALSE(pages.find("twice"));
    CHECK_FALSE(pages.find("missing"));
    std::size_t there = 0;
    for (int i = 0; i < 40; ++i) pages.keep(std::to_string(i), big, {});
    for (int i = 0; i < 40; ++i) there += pages.find(std::to_string(i)).has_value();
    CHECK(there >= 1);
    CHECK(there <= 4);
    CHECK(pages.find("39"));
}
