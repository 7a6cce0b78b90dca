// Export, import, export: byte for byte, for shops whose every table holds rows with awkward texts and numbers.
#include <catch2/catch.hpp>

#include <filesystem>
#include <map>
#include <random>
#include <string>

#include "core/ground/line_escapes.h"
#include "core/shop/shop.h"
#include "core/shop/shop_export.h"
#include "core/shop/shop_offers.h"
#include "core/shop/shop_records.h"
#include "tests/environment.h"
#include "tests/scratch_folder.h"

using namespace casebound;
namespace files = std::filesystem;

namespace {

class Draw {
public:
    explicit Draw(unsigned seed) : random_(seed) {}
    int upto(int most) { return std::uniform_int_distribution<int>(0, most)(random_); }
    double real() { return std::uniform_real_distribution<double>(0.001, 1e4)(random_) / (upto(3) == 0 ? 3e5 : 1); }
    bool often() { return upto(3) != 0; }
    std::string text() {
        static const std::string pieces[] = {"0012",
                                             "2-Sep",
                                             "1e5",
                                             "a, b",
                                             "say \"no\"",
                                             "two\nlines",
                                             "µ °C ½",
                                             " led by a blank",
                                             "trailing ",
                                             "'",
                                             ";",
                                             "=1+1",
                                             "\xe2\x82\xac",
                                             "NULL",
                                             "none",
                                             "\t",
                                             "x\r\ny",
                                             "C:\\new",
                                             "\x01",
                                             "\xe9 Latin-1",
                                             "\\"};
        std::string all;
        for (int i = 0; i <= upto(2); ++i)
            all += pieces[static_cast<std::size_t>(upto(static_cast<int>(std::size(pieces)) - 1))];
        return all;
    }
    std::string maybe() { return often() ? text() : ""; }

private:
    std::mt19937 random_;
};

NewTell telling(Draw& draw, int number) {
    NewTell tell;
    tell.attribute = "attribute_" + std::to_string(number);
    tell.text = draw.text();
    tell.right_side = std::to_string(draw.upto(99)) + "mm";
    tell.evidence = static_cast<TellEvidence>(draw.upto(3));
    tell.photo = draw.maybe();
    tell.note = draw.maybe();
    return tell;
}

WorkRecord work(Draw& draw, std::int64_t job) {
    WorkRecord one;
    one.job = job;
    one.what = draw.often() ? "fitted" : "proof";
    one.role = draw.maybe(), one.item = draw.maybe(), one.label = draw.maybe(), one.gears = draw.maybe(),
    one.codes = draw.maybe(), one.leaks = draw.maybe(), one.note = draw.maybe();
    if (draw.often()) one.quantity = draw.real();
    if (draw.often()) one.torque_nm = draw.real();
    if (draw.often()) one.seals_out = draw.upto(3), one.seals_in = draw.upto(3);
    if (draw.often()) one.out_l = draw.real(), one.out_temp_c = -draw.real();
    if (draw.often()) one.leak_minutes = draw.real();
    if (draw.often()) one.odometer_km = draw.real();
    if (draw.often()) one.state = "leaking";
    return one;
}

LineEvent event(Draw& draw, std::int64_t job) {
    LineEvent one;
    one.job = job;
    one.role = draw.text();
    one.event = "received";
    one.item = draw.maybe(), one.seller = draw.maybe(), one.note = draw.maybe();
    if (draw.often()) one.return_by = "2026-12-24", one.core_cents = draw.upto(100000);
    return one;
}

OfferOnFile offer(Draw& draw, const std::string& seller) {
    OfferOnFile one;
    one.seller = seller;
    one.item = draw.text();
    one.pack_quantity = draw.real();
    one.price_cents = draw.upto(99999);
    if (draw.often()) one.days = draw.upto(9);
    if (draw.often()) one.returnable = draw.often();
    one.return_fee = 0.15;
    one.return_days = 14;
    one.core_cents = draw.upto(99);
    one.note = draw.maybe();
    return one;
}

void fill(Shop& shop, Draw& draw) {
    shop.set_settings({{"currency", draw.text()}, {"hour_value", "30.5"}, {"jurisdiction", draw.text()}});
    ShopOffers offers(shop.database());
    ShopRecords records(shop.database());
    for (int v = 0; v < 2; ++v) {
        const auto van = "van-" + std::to_string(v);
        shop.create(van, draw.text(), draw.maybe(), "", {telling(draw, 0), telling(draw, 1)});
        shop.tell(van, {telling(draw, 1), telling(draw, 2)});
        shop.untell_all(van, {"attribute_2"}, draw.maybe());
        const auto job = shop.start_job(van, draw.text(), draw.maybe());
        MoneyEntry money;
        money.kind = "parts";
        money.cents = draw.upto(1000000);
        money.note = draw.maybe();
        records.add(van, {{event(draw, job), event(draw, job)},
                          {work(draw, job), work(draw, job)},
                          {money},
                          {{draw.text(), draw.real(), "left over", draw.maybe()}}});
        records.close(van, {job, {}, {}, draw.text(), "no", draw.real(), draw.upto(9999), draw.maybe(), {}});
        const auto seller = draw.text() + std::to_string(v);
        SellerTerms terms;
        terms.name = seller;
        terms.carriage_cents = draw.upto(999);
        offers.put({terms}, {offer(draw, seller)});
    }
}

std::map<std::string, std::string> contents(const std::string& folder) {
    std::map<std::string, std::string> all;
    for (const auto& entry : files::directory_iterator(folder))
        all[entry.path().filename()] = ScratchFolder::read(entry.path());
    return all;
}

}  // namespace

TEST_CASE("a shop that is exported, imported and exported again gives the same bytes") {
    const SetVariable date("CASEBOUND_TODAY", "2026-11-25");
    for (unsigned seed = 1; seed <= 40; ++seed) {
        INFO("seed " << seed);
        const ScratchFolder folder;
        Draw draw(seed);
        Shop first(folder.file("first.sqlite"));
        fill(first, draw);
        for (const auto& table : export_shop(first.database(), folder.file("out"))) {
            INFO(table.name);
            REQUIRE(table.rows > 0);  // every table, so that a new one is not forgotten here
        }
        Shop second(folder.file("second.sqlite"));
        import_shop(second.database(), folder.file("out"));
        export_shop(second.database(), folder.file("again"));
        REQUIRE(contents(folder.file("out")) == contents(folder.file("again")));
        CHECK(contents(folder.file("out")).size() == 13);  // 12 tables and the descriptor
        CHECK(second.history("van-0").size() == first.history("van-0").size());
        CHECK(ShopRecords(second.database()).records("van-1")[1].note ==
              ShopRecords(first.database()).records("van-1")[1].note);
    }
}

TEST_CASE("an import that fails half way leaves the file empty") {
    const ScratchFolder folder;
    Draw draw(7);
    Shop first(folder.file("first.sqlite"));
    fill(first, draw);
    export_shop(first.database(), folder.file("out"));
    const auto closings = folder.file("out") + "/closings.csv";  // the last table that has rows
    folder.write("out/closings.csv", ScratchFolder::read(closings) + "77,99,99,x,maybe,1,1,,2026-01-01,2026-01-01\n");
    Shop second(folder.file("second.sqlite"));
    CHECK_THROWS(import_shop(second.database(), folder.file("out")));
    CHECK(second.vehicles().empty());
    CHECK(second.settings().empty());
}

TEST_CASE("any text goes onto one line and comes back as it was") {
    CHECK(on_one_line("two\nlines \\ and \xff") == "two\\nlines \\\\ and \\xff");
    CHECK(from_one_line("\\q") == std::nullopt);
    CHECK(from_one_line("\\x4") == std::nullopt);
    std::mt19937 random(5);
    std::uniform_int_distribution<int> byte(0, 255), length(0, 12);
    for (int n = 0; n < 20000; ++n) {
        std::string text;
        for (int i = length(random); i > 0; --i) text += static_cast<char>(byte(random));
        REQUIRE(from_one_line(on_one_line(text)) == text);
        REQUIRE(on_one_line(text).find('\n') == std::string::npos);
    }
}
