// The table book on the page: a size that is in the hand, a table whole, and what no table has.
#include <catch2/catch.hpp>

#include "tests/page/page_document.h"
#include "tests/page/page_shop.h"

using namespace casebound;
using namespace casebound::tests;
using Catch::Matchers::Contains;

TEST_CASE("a seal in the hand is found on the page with where it is from, and leads to its whole table") {
    PageShop shop;
    const auto found = shop.get("/catalog/tables?hand=25+x+32+x+7");
    CHECK(found.status == 200);
    CHECK_THAT(found.body, Contains("bore that it is pressed into 32 mm") && Contains("common practice"));
    CHECK_THAT(found.body, Contains("/catalog/tables?table=filters-seals-shaft-seals"));
    const auto whole = shop.get("/catalog/tables?table=filters-seals-shaft-seals");
    CHECK_THAT(whole.body, Contains("Sizes of shaft seals") && Contains("ISO 6194-1"));
    CHECK_THAT(whole.body, Contains("from=80"));  // in stretches
}

TEST_CASE("every table is in the book, and a size that none has is no no") {
    PageShop shop;
    CHECK_THAT(shop.get("/catalog/tables").body, Contains("Viscosity classes of gear oils") && Contains("Blade fuses"));
    CHECK_THAT(shop.get("/catalog/tables?hand=sprocket+520").body, Contains("Not in a table is not a no"));
    CHECK_THAT(shop.get("/catalog").body, Contains("/catalog/tables"));
}
