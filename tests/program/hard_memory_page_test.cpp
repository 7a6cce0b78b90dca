// Refuses memory to an open page while a form is sent to it: it goes on answering, what was sent is written down once or
// not at all, and sent again it is written down once in all.
#include <fstream>

#include "core/shop/shop_file.h"
#include "core/shop/shop_records.h"
#include "tests/program/hard_yard.h"
#include "tests/serve/page_server.h"

#ifndef __SANITIZE_ADDRESS__  // which hands out memory itself

using namespace casebound;

namespace {

struct ShortPage {
    ShortPage(const hard::Yard& yard, long at)
        : requests(yard.root() + ".requests"),
          serving({"/usr/bin/env", fmt::format("LD_PRELOAD={}", CASEBOUND_FAILING_MEMORY),
                   fmt::format("MEMORY_AT={}", at), fmt::format("MEMORY_COUNT={}", requests), hard::program, "page",
                   "--port", "0"}) {}

    std::string page(const std::string& path) { return answer_of(serving, request(serving, "GET " + path)); }
    int get(const std::string& path) { return status_of(page(path)); }

    // What every form of this server carries.
    bool opened() {
        const auto shown = page("/vehicle/van/record");
        const std::string before = R"(name="token" value=")";
        const auto at = shown.find(before);
        if (at != std::string::npos) token = shown.substr(at + before.size(), 32);
        return status_of(shown) == 200 && token.size() == 32;
    }
    int pay() {
        const auto form = "token=" + token + "&form=record/money&once=one-showing&kind=parts&amount=12.50";
        return status_of(
            answer_of(serving, request(serving, "POST /vehicle/van/record",
                                       fmt::format("Origin: http://{}\r\nContent-Type: "
                                                   "application/x-www-form-urlencoded\r\nContent-Length: {}\r\n",
                                                   serving.host(), form.size()),
                                       form)));
    }

    std::string token{};
    std::string requests;
    Serving serving;
};

long spent_cents(const hard::Yard& yard) {
    auto shop = open_shop(yard.root() + "/home/shop.sqlite");
    return static_cast<long>(ShopRecords(shop).spent_cents("van"));
}

long count_in(const std::string& file) {
    long count = 0;
    std::ifstream(file) >> count;
    return count;
}

}  // namespace

TEST_CASE("hard: a page that is refused memory goes on, and money sent twice from one form is written once") {
    hard::Yard yard;
    yard.begin(false);
    const auto before = spent_cents(yard);
    long begun = 0, all = 0;
    {
        ShortPage page(yard, 0);
        REQUIRE(page.opened());
        REQUIRE(page.serving.stop() == 0);
        begun = count_in(page.requests);
    }
    {
        ShortPage page(yard, 0);
        REQUIRE(page.opened());
        REQUIRE(page.pay() == 303);
        REQUIRE(page.serving.stop() == 0);
        all = count_in(page.requests);
        REQUIRE(spent_cents(yard) == before + 1250);
    }
    REQUIRE(all > begun + 300);
    const long step = (all - begun) / (hard::is_long() ? 400 : 12) + 1;
    int tried = 0, written = 0;
    for (long at = begun; at <= all; at += step) {
        yard.begin(false);
        ShortPage page(yard, at);
        INFO("refused request " << at << " of " << all);
        REQUIRE(page.opened());
        const int first = page.pay(), again = page.pay();
        ++tried;
        written += first == 303;
        INFO(first << ", sent again " << again);
        CHECK((again == 303 || first == 303));
        CHECK(page.get("/vehicle/van") == 200);
        CHECK(page.serving.stop() == 0);
        CHECK(spent_cents(yard) == before + 1250);
    }
    WARN(tried << " refusals of memory to a page, " << tried - written << " of them seen by the browser");
}
#endif
