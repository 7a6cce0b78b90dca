// A seller's list through the page: sent, looked at with what each row becomes, confirmed, loaded; and what is not let in.
#include <catch2/catch.hpp>

#include "tests/page/page_shop.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

constexpr const char* june =
    "Ref;Description;Category;Price\nPF 33.1;Filter for the shallow pan;Pan filter;12,50\n"
    "PF-34;A filter;Oil sieve;9,80\n";

PageReply sent(const PageShop& shop, const std::string& name, const std::string& bytes, const std::string& once = "") {
    auto request = shop.request("/lists");
    request.post = true;
    request.form = {{"form", "list-send"}, {"name", name}, {"once", once}};
    request.files = {{"list", "../../june.csv", shop.folder.write("sent", bytes)}};
    return page_reply(*shop.session, request);
}

bool says_of(const PageReply& reply, const std::string& words) { return reply.body.find(words) != std::string::npos; }

}  // namespace

TEST_CASE("a list is sent, shown with what its rows become, confirmed and loaded") {
    PageShop shop;
    CHECK(says_of(shop.get("/offers"), "href=\"/lists\""));
    CHECK(says_of(shop.get("/lists"), "enctype=\"multipart/form-data\""));
    const auto reply = sent(shop, "kelder", june);
    REQUIRE(reply.status == 303);
    CHECK(reply.location == "/lists/kelder");
    const auto first = shop.get(reply.location);
    CHECK(first.status == 200);
    CHECK(says_of(first, "`;` between cells"));
    CHECK(says_of(first, "Still to be said"));
    CHECK_FALSE(says_of(first, "list-confirm"));  // the part number and the seller are not said yet
    CHECK_FALSE(std::filesystem::exists(shop.folder.file("lists/kelder")));
    const std::string said = "/lists/kelder?column-0=Ref%3Ditem&seller=Kelder&words=Oil+sieve%3Dpan-filter";
    const auto shown = shop.get(said);
    CHECK(says_of(shown, "row 2: PF-33.1, pan-filter"));
    CHECK(says_of(shown, "2 rows: 2 parts"));
    const auto confirmed = shop.post(
        said,
        {{"form", "list-confirm"}, {"column-0", "Ref=item"}, {"seller", "Kelder"}, {"words", "Oil sieve=pan-filter"}});
    REQUIRE(confirmed.status == 303);
    CHECK(ScratchFolder::read(shop.folder.file("lists/kelder.offers.csv")).find("Kelder,PF-33.1,12.50") !=
          std::string::npos);
    CHECK(says_of(shop.get("/lists/kelder"), "Load the pack that was written"));
    CHECK(shop.post("/lists/kelder", {{"form", "list-load"}}).status == 303);
    CHECK(shop.session->catalog().item("PF-33.1"));
    const auto offers = shop.post("/lists/kelder", {{"form", "list-offers"}});
    CHECK(offers.status == 422);  // the carriage of this seller is not said
    CHECK(says_of(offers, "seller Kelder is not on file"));
    shop.post("/offers",
              {{"form", "offer"}, {"item", "PF-34"}, {"seller", "Kelder"}, {"price", "1"}, {"carriage", "4.90"}});
    CHECK(shop.post("/lists/kelder", {{"form", "list-offers"}}).status == 303);
    CHECK(says_of(shop.get("/offers"), "PF-33.1 by Kelder: 12.50"));
}

TEST_CASE("the next edition of a list is shown by what was confirmed, and looking at it writes nothing") {
    PageShop shop;
    sent(shop, "kelder", june);
    shop.post("/lists/kelder", {{"form", "list-confirm"},
                                {"column-0", "Ref=item"},
                                {"seller", "Kelder"},
                                {"kind", "pan-filter"},
                                {"words", "Oil sieve=pan-filter"}});
    const auto before = ScratchFolder::read(shop.folder.file("lists/kelder.offers.csv"));
    REQUIRE_FALSE(before.empty());
    sent(shop, "kelder", "Ref;Description;Category;Price\nPF 33.1;Filter for the shallow pan;Pan filter;13,50\n");
    CHECK(says_of(shop.get("/lists/kelder"), "offered at 13.50"));
    CHECK(ScratchFolder::read(shop.folder.file("lists/kelder.offers.csv")) == before);
}

TEST_CASE("a list of a bad name, no list, no file, and one who may only look are refused") {
    PageShop shop;
    const std::vector<std::string> names{"../kelder", "a/b", "", ".", "..", "Kelder", std::string(65, 'a')};
    for (const auto& name : names) {
        INFO(name);
        CHECK(sent(shop, name, june).status == 422);
    }
    CHECK(shop.get("/lists/none").status == 404);
    CHECK(shop.post("/lists", {{"form", "list-send"}, {"name", "kelder"}}).status == 422);
    sent(shop, "broken", std::string("PK\x03\x04 no workbook", 16));
    CHECK(says_of(shop.get("/lists/broken"), "it is not a workbook, or it is cut short"));
    shop.may_edit = false;
    CHECK(sent(shop, "late", june).status == 403);
    CHECK_FALSE(std::filesystem::exists(shop.folder.file("lists/late.list")));
}

TEST_CASE("the same list sent twice from one form is one wish, another list is another") {
    PageShop shop;
    CHECK(sent(shop, "kelder", june, "once-1").status == 303);
    std::filesystem::remove(shop.folder.file("lists/kelder.list"));
    CHECK(sent(shop, "kelder", june, "once-1").status == 303);
    CHECK_FALSE(std::filesystem::exists(shop.folder.file("lists/kelder.list")));
    CHECK(sent(shop, "kelder", "Ref;Price\n", "once-1").status == 303);
    CHECK(std::filesystem::exists(shop.folder.file("lists/kelder.list")));
}
