// A double click, or a reload of what a form did, writes once.
#include <catch2/catch.hpp>

#include "core/page/page_once.h"
#include "core/shop/shop_records.h"
#include "tests/page/page_shop.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

// What stands in the hidden field "once" of the form of this key.
std::string once_of(const PageReply& reply, const std::string& key) {
    const Document page(reply.body);
    std::string once;
    bool here = false;
    for (const auto& element : page.elements) {
        if (element.name == "input" && element.attribute("name") == "form") here = element.attribute("value") == key;
        if (element.name == "input" && element.attribute("name") == "once" && here) once = element.attribute("value");
    }
    return once;
}

const std::string record_address = "/vehicle/bookvan/record";

}  // namespace

TEST_CASE("money sent twice from one form is written once, and the second answer shows what the first did") {
    PageShop shop;
    shop.add_bookvan();
    const auto paid = [&](const std::string& amount, const std::string& once) {
        return shop.post(record_address,
                         {{"form", "record/money"}, {"once", once}, {"kind", "parts"}, {"amount", amount}});
    };
    const auto spent = [&] { return ShopRecords(shop.session->shop()).spent_cents("bookvan"); };
    const auto once = once_of(shop.get(record_address), "record/money");
    REQUIRE(once.size() == 32);
    CHECK(once_of(shop.get(record_address), "record/money") != once);  // each showing has its own
    const auto first = paid("12.50", once);
    REQUIRE(first.status == 303);
    const auto second = paid("12.50", once);
    CHECK(second.status == 303);
    CHECK(second.location == first.location);
    CHECK(spent() == 1250);
    CHECK(paid("7.00", once).status == 303);  // gone back, and other words
    CHECK(spent() == 1950);
    CHECK(paid("12.50", once_of(shop.get(record_address), "record/money")).status == 303);  // meant again
    CHECK(spent() == 3200);
}

TEST_CASE("a form that was refused may be sent again") {
    PageShop shop;
    shop.add_bookvan();
    const Fields wrong{{"form", "record/money"}, {"once", "one-showing"}, {"kind", "parts"}, {"amount", "a lot"}};
    CHECK(shop.post(record_address, wrong).status == 422);
    CHECK(shop.post(record_address, wrong).status == 422);
    CHECK(ShopRecords(shop.session->shop()).money("bookvan").empty());
}

TEST_CASE("what forms did is kept for the newest thousand, and not for forms without an id") {
    FormsDone done;
    PageRequest request;
    const auto with = [&](const std::string& once) {
        request.form = {{"form", "money"}, {"once", once}};
        return request;
    };
    for (int n = 0; n <= 1000; ++n) done.begin(with(std::to_string(n)), {303, "", "", "/" + std::to_string(n)});
    CHECK_FALSE(done.answer(with("0")));
    REQUIRE(done.answer(with("1000")));
    CHECK(done.answer(with("1000"))->location == "/1000");
    done.begin(with(""), {303, "", "", "/"});
    CHECK_FALSE(done.answer(with("")));
}
