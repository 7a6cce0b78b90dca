// Photos through the page: sent with what is told, recorded and noted, shown with it, and taken back.
#include <catch2/catch.hpp>

#include "core/shop/shop_photos.h"
#include "tests/page/page_shop.h"
#include "tests/photo_made.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

PageReply photo_sent(const PageShop& shop, const std::string& address, Fields form, const std::string& bytes) {
    auto request = shop.request(address);
    request.post = true;
    request.form = std::move(form);
    request.files = {{"photo", "IMG_1.jpg", shop.folder.write(".sent-1", bytes)}};
    return page_reply(*shop.session, request);
}

bool shows(const PageReply& reply, const std::string& words) { return reply.body.find(words) != std::string::npos; }

const Fields told_depth{{"form", "tell"}, {"attribute", "pan_depth"}, {"value", "41mm"}, {"evidence", "measured"}};

std::string only_photo(const PageShop& shop) {
    const auto all = ShopPhotos(shop.session->shop()).all("bookvan");
    REQUIRE(all.size() == 1);
    return "/photo/" + photo_file_name(all[0]);
}

}  // namespace

TEST_CASE("a photo sent with what is told is shown with it, without the place where it was taken") {
    PageShop shop;
    shop.add_bookvan();
    const auto form = shop.get("/vehicle/bookvan");
    CHECK(shows(form, "capture=\"environment\""));
    CHECK(shows(form, "enctype=\"multipart/form-data\""));
    REQUIRE(photo_sent(shop, "/vehicle/bookvan", told_depth, photo_made::jpeg_of_phone()).status == 303);
    const auto address = only_photo(shop);
    const auto shown = shop.get("/vehicle/bookvan");
    CHECK(shows(shown, "<img src=\"" + address + "\" alt=\"Photo 1: pan depth"));
    const auto photo = shop.get(address);
    CHECK(photo.status == 200);
    CHECK(photo.type == "image/jpeg");
    const auto bytes = ScratchFolder::read(photo.file);
    CHECK(bytes.find("SECRET") == std::string::npos);
    CHECK(clean_photo(bytes, "x").turn == 6);
}

TEST_CASE("the same form sent again keeps its photo once") {
    PageShop shop;
    shop.add_bookvan();
    auto form = told_depth;
    form.emplace_back("once", "the-same");
    CHECK(photo_sent(shop, "/vehicle/bookvan", form, photo_made::plain("jpg")).status == 303);
    CHECK(photo_sent(shop, "/vehicle/bookvan", form, photo_made::plain("jpg")).status == 303);
    CHECK(ShopPhotos(shop.session->shop()).all("bookvan").size() == 1);
    CHECK(photo_sent(shop, "/vehicle/bookvan", form, photo_made::plain("png")).status == 303);  // another wish
    CHECK(ShopPhotos(shop.session->shop()).all("bookvan").size() == 2);
}

TEST_CASE("what is no photo is refused beside its field by the name it was sent under, and nothing is told") {
    PageShop shop;
    shop.add_bookvan();
    const auto refused = photo_sent(shop, "/vehicle/bookvan", told_depth, "<svg><script>alert(1)</script></svg>");
    CHECK(refused.status == 422);
    CHECK(shows(refused, "IMG_1.jpg: by its content it is no picture"));
    CHECK_FALSE(shows(refused, ".sent-"));
    CHECK_FALSE(shows(refused, "41mm (measured"));
    CHECK(ShopPhotos(shop.session->shop()).all("bookvan").empty());
    CHECK_FALSE(std::filesystem::exists(shop.shop + ".photos"));
}

TEST_CASE("a photo is shown with a record, with a statement, in the proof and on the sheets") {
    PageShop shop;
    shop.add_bookvan();
    CHECK(photo_sent(shop, "/vehicle/bookvan/record",
                     {{"form", "record/part"}, {"what", "fitted"}, {"role", "pan-filter"}, {"item", "Q312-1141"}},
                     photo_made::plain("jpg"))
              .status == 303);
    const auto address = only_photo(shop);
    CHECK(shows(shop.get("/vehicle/bookvan/record"), address));
    CHECK(shows(shop.get("/vehicle/bookvan/sheet?kind=history"), "<img src=\"" + address));
    CHECK_FALSE(shows(shop.get("/vehicle/bookvan/sheet?kind=disclosure"), "<img"));
    CHECK(shows(shop.get("/vehicle/bookvan/sheet?kind=disclosure&photos=yes"), "<img src=\"" + address));
    CHECK(photo_sent(shop, "/vehicle/bookvan", told_depth, photo_made::plain("png")).status == 303);
    const auto told = "/photo/" + photo_file_name(ShopPhotos(shop.session->shop()).all("bookvan").at(1));
    CHECK(shows(shop.get("/vehicle/bookvan/why?item=Q312-1141"), told));
    CHECK(
        photo_sent(
            shop, "/vehicle/bookvan/note",
            {{"form", "note"}, {"role", "pan-filter"}, {"part", "PF-33"}, {"who", "the label"}, {"how-good", "maker"}},
            photo_made::plain("webp"))
            .status == 303);
    const auto noted = "/photo/" + photo_file_name(ShopPhotos(shop.session->shop()).all("bookvan").at(2));
    CHECK(shows(shop.get("/own"), noted));
}

TEST_CASE("a photo is taken back by who may edit, and then nobody is shown it") {
    PageShop shop;
    shop.add_bookvan();
    CHECK(photo_sent(shop, "/vehicle/bookvan", told_depth, photo_made::plain("jpg")).status == 303);
    const auto address = only_photo(shop);
    shop.may_edit = false;
    CHECK_FALSE(shows(shop.get("/vehicle/bookvan"), "Take back photo"));
    CHECK(shop.post("/vehicle/bookvan", {{"form", "photo-back/1"}, {"number", "1"}}).status == 403);
    shop.may_edit = true;
    CHECK(shows(shop.get("/vehicle/bookvan"), "Take back photo 1"));
    CHECK(shop.post("/vehicle/bookvan", {{"form", "photo-back/1"}, {"number", "1"}}).status == 303);
    CHECK_FALSE(shows(shop.get("/vehicle/bookvan"), address));
    CHECK(shop.get(address).status == 404);
    CHECK(std::filesystem::is_empty(shop.shop + ".photos"));
}

TEST_CASE("no other file is served under the address of a photo") {
    PageShop shop;
    shop.add_bookvan();
    CHECK(photo_sent(shop, "/vehicle/bookvan", told_depth, photo_made::plain("jpg")).status == 303);
    shop.folder.write("shop.sqlite.photos/" + std::string(64, 'a') + ".jpg", "nobody's");
    for (const auto& name : {"../shop.sqlite", "..%2Fshop.sqlite", "%2e%2e/shop.sqlite", "", ".", "x.jpg"}) {
        INFO(name);
        CHECK(shop.get(std::string("/photo/") + name).status == 404);
    }
    CHECK(shop.get("/photo/" + std::string(64, 'a') + ".jpg").status == 404);
    auto other_type = only_photo(shop);
    other_type.replace(other_type.size() - 3, 3, "png");
    CHECK(shop.get(other_type).status == 404);
}
