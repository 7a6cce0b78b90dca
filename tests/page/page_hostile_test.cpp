// Text from outside stays text, whatever it is; a session outlives what goes wrong in one request.
#include <catch2/catch.hpp>

#include <fmt/format.h>

#include <random>

#include "core/html/html.h"
#include "core/page/page_routes.h"
#include "tests/page/page_shop.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

const std::string hostile = "<script>alert(1)</script>\"' onload='x' ]]>&#60;svg/&lt;";

}  // namespace

TEST_CASE("whatever bytes are written as text or attribute, the page is well-formed and says the same") {
    std::mt19937 random(11);
    const std::string alphabet = "<>&\"'=/ ab\n\t\x01\x7f\x80\xc3\xa9\xe2\x82\xac\xf0\x9f\xff;#39";
    for (int round = 0; round < 3000; ++round) {
        std::string text;
        for (auto length = random() % 24; length > 0; --length)
            text += round % 2 == 0 ? static_cast<char>(random() % 256) : alphabet[random() % alphabet.size()];
        Html html;
        html.open("html", {{"title", text}});
        html.element("p", text);
        const auto whole = "<!DOCTYPE html>" + html.take();
        const Document page(whole);
        INFO(whole);
        REQUIRE(page.fault == "");
        REQUIRE(page.elements.size() == 2);
        CHECK(page.elements[0].attribute("title") == page.elements[1].text);
        const bool plain = std::all_of(text.begin(), text.end(),
                                       [](char c) { return (c >= 0x20 && c < 0x7f) || c == '\n' || c == '\t'; });
        if (plain) CHECK(page.elements[1].text == text);
    }
}

TEST_CASE("script in every text field comes out inert on every page") {
    PageShop shop;
    shop.add_bookvan();
    shop.post("/vehicle/bookvan", {{"form", "tell"}, {"attribute", "year"}, {"value", "2007"}, {"note", hostile}});
    CHECK(shop.post("/offers", {{"form", "offer"},
                                {"item", "LD-2141"},
                                {"seller", hostile},
                                {"price", "24"},
                                {"carriage", "1"},
                                {"note", hostile}})
              .status == 303);
    shop.post("/vehicle/bookvan/record", {{"form", "record/start"}, {"job", "pan-service"}, {"note", hostile}});
    CHECK(shop.post("/vehicle/bookvan/record", {{"form", "record/part"},
                                                {"what", "fitted"},
                                                {"role", "pan-filter"},
                                                {"item", hostile},
                                                {"label", hostile},
                                                {"note", hostile}})
              .status == 303);
    CHECK(shop.post("/vehicle/bookvan/record", {{"form", "close"},
                                                {"job", "pan-service"},
                                                {"cause", hostile},
                                                {"worked", "yes"},
                                                {"open", "counted"},
                                                {"hours", "1"},
                                                {"note", hostile}})
              .status == 303);
    std::size_t met = 0;
    for (const auto& [address, reply] : crawled(shop, {"/", "/vehicle/bookvan/order?job=pan-service"}, 400)) {
        INFO(address);
        const Document page(reply.body);
        CHECK(page.fault == "");
        CHECK(page.all("script").empty());
        met += page.all("main")[0]->text.find("<script>alert(1)</script>") != std::string::npos;
    }
    CHECK(met >= 3);  // it was shown, as text
}

TEST_CASE("script in an address or a refused form comes out inert") {
    PageShop shop;
    shop.add_bookvan();
    const auto word = url_escaped(hostile);
    std::vector<PageReply> replies{shop.get("/" + word),
                                   shop.get("/vehicle/" + word),
                                   shop.get("/vehicle/bookvan/list?job=" + word),
                                   shop.get("/vehicle/bookvan/why?item=" + word),
                                   shop.get("/swap?wanted=" + word + "&offered=" + word),
                                   shop.get("/catalog/find?key=" + word),
                                   shop.get("/catalog/tables?hand=" + word),
                                   shop.get("/catalog/tables?table=" + word),
                                   shop.get("/catalog/line?key=" + word),
                                   shop.get("/catalog/item?key=" + word),
                                   shop.get("/catalog/group?key=" + word),
                                   shop.get("/catalog/sources?pack=" + word),
                                   shop.get("/compute/" + word + "/" + word),
                                   shop.get("/compute/mounts/" + word),
                                   shop.get("/offers?item=" + word),
                                   shop.get("/vehicle/bookvan?ask=" + word + "&" + word + "=" + word),
                                   shop.get("/vehicle/bookvan/decide?fix=" + word),
                                   shop.get("/vehicle/bookvan/order?job=pan-service&within=" + word)};
    for (const auto& domain : shop.session->plugins().domains) {
        const auto inquiries = domain.domain.inquiries();
        for (const auto& inquiry : inquiries.answer.value()) {
            std::string address = "/compute/" + domain.name + "/" + inquiry.name +
                                  "?go=1&for=" + (inquiry.inputs.size() % 2 ? "bookvan" : word);
            for (const auto& input : inquiry.inputs) address += "&" + input.name + "=" + word;
            replies.push_back(shop.get(address));
        }
    }
    for (const auto& action : page_actions()) {
        Fields form{{"form", action.form + "/" + hostile}};
        for (const char* name : {"name", "line", "attribute", "value", "item", "seller", "price", "what", "role", "job",
                                 "cause", "worked", "hours", "quantity"})
            form.emplace_back(name, hostile);
        replies.push_back(shop.post("/vehicle/bookvan", form));
    }
    for (const auto& reply : replies) {
        if (reply.status == 303) continue;
        const Document page(reply.body);
        INFO(reply.body.substr(0, 1500));
        CHECK(page.fault == "");
        CHECK(page.all("script").empty());
        CHECK(reply.body.find("<script") == std::string::npos);
        CHECK(reply.location.empty());
    }
}

TEST_CASE("where a form sends on has no line break and leads nowhere else") {
    PageShop shop;
    shop.add_bookvan();
    const auto reply = shop.post("/vehicle/bookvan?back=//elsewhere%0d%0aX:%20y",
                                 {{"form", "tell"}, {"attribute", "year"}, {"value", "2007"}});
    CHECK(reply.status == 303);
    CHECK(reply.location.rfind("/vehicle/bookvan", 0) == 0);
    CHECK(reply.location.find_first_of("\r\n") == std::string::npos);
}

TEST_CASE("a catalog that another process has changed is seen by the next request") {
    PageShop shop;
    CHECK(shop.get("/catalog/sources").body.find("demo-fleet") != std::string::npos);
    const auto plugins = load_plugins({CASEBOUND_BINARY_DIR "/plugins"}, shop.folder.file("probed"));
    drop_pack("demo-fleet", shop.catalog);
    CHECK(shop.get("/catalog/sources").body.find("demo-fleet") == std::string::npos);
    CHECK(shop.get("/catalog/line?key=quernmoor-packet").status == 404);
    CHECK(load_pack(CASEBOUND_SOURCE_DIR "/seed-data/demo-fleet", shop.catalog, plugins).faults.empty());
    CHECK(shop.get("/catalog/line?key=quernmoor-packet").status == 200);
}

TEST_CASE("a catalog that is gone or damaged is said, and the session answers again when it is back") {
    PageShop shop;
    shop.add_bookvan();
    const auto bytes = ScratchFolder::read(shop.catalog);
    std::filesystem::remove(shop.catalog);
    const auto gone = shop.get("/vehicle/bookvan");
    CHECK(gone.status == 404);
    CHECK(gone.body.find("there is no catalog yet") != std::string::npos);
    shop.folder.write("catalog.sqlite", "this is no catalog");
    CHECK(shop.get("/vehicle/bookvan").status >= 400);
    std::filesystem::remove(shop.catalog);
    shop.folder.write("catalog.sqlite", bytes);
    CHECK(shop.get("/vehicle/bookvan").status == 200);
}

TEST_CASE("a long yard is read in stretches") {
    PageShop shop;
    for (int i = 0; i < 95; ++i)
        shop.post("/", {{"form", "new-vehicle"}, {"name", fmt::format("van{:02}", i)}, {"line", "quernmoor-packet"}});
    const auto first = shop.get("/");
    CHECK(first.body.find("1 to 40 of 95") != std::string::npos);
    CHECK(first.body.find("van00") != std::string::npos);
    CHECK(first.body.find("van40") == std::string::npos);
    CHECK(shop.get("/?from=80").body.find("van94") != std::string::npos);
    CHECK(shop.get("/?from=9999999").body.find("van94") != std::string::npos);
    CHECK(shop.get("/?from=x").body.find("van00") != std::string::npos);
}
