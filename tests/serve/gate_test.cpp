// What stands in a target and a form, and tokens. (The gate itself is tested from outside: server_hostile_test.cpp.)
#include <catch2/catch.hpp>

#include <set>

#include "core/ground/secret.h"
#include "core/html/html.h"
#include "core/serve/form_fields.h"

using namespace casebound;

TEST_CASE("a target is taken apart as RFC 3986 and the form encoding say") {
    const auto target = target_of("/vehicle/a%20b+c?q=two+words%2b&q=&flag&%C3%A9=1");
    REQUIRE(target);
    CHECK(target->path == "/vehicle/a b+c");  // a plus is a space in a query only
    CHECK(target->query == Fields{{"q", "two words+"}, {"q", ""}, {"flag", ""}, {"\u00e9", "1"}});
    for (const char* bad : {"", "vehicle", "*", "//other/", "/%2Fother", "/%", "/%2", "/%zz", "/%00", "/%0d", "/%c3",
                            "/?a=%c3", "/?a=%00", "http://x/"}) {
        INFO(bad);
        CHECK_FALSE(target_of(bad));
    }
}

TEST_CASE("a form keeps its line ends and is bounded") {
    CHECK(form_of("note=a%0D%0Ab%09c") == Fields{{"note", "a\r\nb\tc"}});
    CHECK(form_of("&&a=1&") == Fields{{"a", "1"}});
    CHECK_FALSE(form_of("note=%07"));
    std::string many;
    for (std::size_t i = 0; i < most_fields; ++i) many += "a=1&";
    CHECK(form_of(many)->size() == most_fields);
    CHECK_FALSE(form_of(many + "a=1"));
}

TEST_CASE("a cookie is found by its whole name") {
    CHECK(cookie_of("xcasebound=1; casebound=2;casebound=3", "casebound") == "2");
    CHECK(cookie_of("casebounds=1", "casebound").empty());
    CHECK(cookie_of("", "casebound").empty());
}

TEST_CASE("secrets are long, new each time, and equal only to themselves") {
    std::set<std::string> seen;
    for (int i = 0; i < 1000; ++i) seen.insert(new_secret());
    CHECK(seen.size() == 1000);
    for (const auto& secret : seen) REQUIRE(secret.size() == 32);
    const auto kept = new_secret();
    CHECK(same_secret(kept, kept));
    CHECK_FALSE(same_secret(kept + kept, kept));
    CHECK_FALSE(same_secret(kept.substr(1), kept));
    CHECK_FALSE(same_secret("", kept));
    CHECK_FALSE(same_secret("", ""));
    auto other = kept;
    other.back() = other.back() == '0' ? '1' : '0';
    CHECK_FALSE(same_secret(other, kept));
}
