// Export, import, export: byte for byte, for shops whose every table holds rows with awkward texts and numbers. An export
// is one moment of a shop that is written meanwhile; an import is whole or nothing; exports of every version are read.
#include <catch2/catch.hpp>

#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <optional>
#include <random>
#include <string>
#include <utility>
#include <vector>

#include <nlohmann/json.hpp>

#include "core/ground/line_escapes.h"
#include "core/shop/shop_export.h"
#include "core/shop/shop_file.h"
#include "core/shop/shop_offers.h"
#include "core/shop/shop_photos.h"
#include "core/shop/shop_reach.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_settings.h"
#include "core/shop/shop_told.h"
#include "core/shop/shop_vehicles.h"
#include "core/store/migrations.h"
#include "tests/environment.h"
#include "tests/photo_made.h"
#include "tests/refusal.h"
#include "tests/scratch_folder.h"

namespace casebound {
extern const char* const shop_sql;  // schema/shop.sql
}

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

ToldFact telling(Draw& draw, int number) {
    ToldFact tell;
    tell.attribute = "attribute_" + std::to_string(number);
    tell.text = draw.text();
    tell.right_side = RightSide(std::to_string(draw.upto(99)) + "mm");
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

// Two that show something, one of them taken back.
void photograph(Database& shop, const std::string& van, Draw& draw) {
    ShopPhotos photos(shop);
    const auto first = photos.enter(
        van, photos.put(clean_photo(photo_made::jpeg_of_size(2000 + static_cast<std::size_t>(draw.upto(4000))), "x")));
    const auto second = photos.enter(van, photos.put(clean_photo(photo_made::png_of_phone(), "x")));
    photos.shows_statement({first, second}, "own+" + van + draw.text());
    auto fact = told_fact("attribute_9", "1", TellEvidence::measured);
    fact.photos = {first};
    ShopTold(shop).tell(van, fact);
    photos.take_back(van, second.number, draw.maybe());
}

void fill(Database& shop, Draw& draw) {
    ShopSettings(shop).set({{"currency", draw.text()}, {"hour_value", "30.5"}, {"jurisdiction", "elsewhere"}});
    ShopOffers offers(shop);
    ShopRecords records(shop);
    for (int v = 0; v < 2; ++v) {
        const auto van = "van-" + std::to_string(v);
        ShopVehicles(shop).create(van, draw.text(), draw.maybe(), "", {telling(draw, 0), telling(draw, 1)});
        ShopTold(shop).tell(van, {telling(draw, 1), telling(draw, 2)});
        ShopTold(shop).untell(van, {"attribute_2"}, draw.maybe());
        const auto job = ShopRecords(shop).start_job(van, draw.text(), draw.maybe());
        MoneyEntry money;
        money.kind = "parts";
        money.cents = draw.upto(1000000);
        money.note = draw.maybe();
        records.add(van, {{event(draw, job), event(draw, job)},
                          {work(draw, job), work(draw, job)},
                          {money},
                          {{draw.text(), draw.real(), "left over", draw.maybe()}},
                          {{"attribute_0", draw.text(), draw.text(), job}}});
        tell_reach(shop, van, "attribute_1", draw.often(), draw.maybe());
        photograph(shop, van, draw);
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
    for (const auto& entry : files::recursive_directory_iterator(folder))
        if (entry.is_regular_file()) all[files::relative(entry.path(), folder)] = ScratchFolder::read(entry.path());
    return all;
}

// As exports were before rows and hashes stood in the descriptor: what is in the rows decides alone.
void without_counts(const std::string& folder) {
    auto package = nlohmann::ordered_json::parse(ScratchFolder::read(folder + "/datapackage.json"));
    for (auto& resource : package["resources"])
        for (const char* key : {"bytes", "hash", "rows"}) REQUIRE(resource.erase(key) == 1);
    std::ofstream(folder + "/datapackage.json") << package.dump(2);
}

std::int64_t rows_in_all(const Database& shop) {
    std::int64_t rows = 0;
    for (const char* table : {"vehicles", "papers", "tellings", "jobs_started", "settings", "sellers", "offers",
                              "shelf_entries", "line_events", "records", "money", "closings", "out_of_reach",
                              "accepted", "photos", "photo_shows", "photos_taken_back"})
        rows += shop.integer(std::string("SELECT count(*) FROM ") + table);
    return rows;
}

// Another process that writes until the end of the scope.
class Writer {
public:
    explicit Writer(const std::string& shop) : child_(::fork()) {
        if (child_ != 0) return;
        ::dup2(::open("/dev/null", O_WRONLY), STDOUT_FILENO);
        ::execl(CASEBOUND_SHOP_WRITER, "shop_writer", shop.c_str(), "sound", "0", nullptr);
        ::_exit(127);
    }
    ~Writer() {
        ::kill(child_, SIGKILL);
        ::waitpid(child_, nullptr, 0);
    }
    Writer(const Writer&) = delete;
    Writer& operator=(const Writer&) = delete;

private:
    pid_t child_;
};

}  // namespace

TEST_CASE("a shop that is exported, imported and exported again gives the same bytes") {
    const SetVariable date("CASEBOUND_TODAY", "2026-11-25");
    for (unsigned seed = 1; seed <= 40; ++seed) {
        INFO("seed " << seed);
        const ScratchFolder folder;
        Draw draw(seed);
        Database first = open_shop(folder.file("first.sqlite"));
        fill(first, draw);
        for (const auto& table : export_shop(first, folder.file("out"))) {
            INFO(table.name);
            REQUIRE(table.rows > 0);  // every table, so that a new one is not forgotten here
        }
        Database second = open_shop(folder.file("second.sqlite"));
        import_shop(second, folder.file("out"));
        export_shop(second, folder.file("again"));
        REQUIRE(contents(folder.file("out")) == contents(folder.file("again")));
        const auto out = contents(folder.file("out"));
        CHECK(std::count_if(out.begin(), out.end(), [](const auto& one) { return one.first.ends_with(".csv"); }) == 17);
        CHECK(out.size() == 20);  // and the descriptor, and a photo of each vehicle
        CHECK(ShopTold(second).history("van-0").size() == ShopTold(first).history("van-0").size());
        CHECK(ShopRecords(second).records("van-1")[1].note == ShopRecords(first).records("van-1")[1].note);
    }
}

TEST_CASE("an import that fails half way leaves the file empty") {
    const ScratchFolder folder;
    Draw draw(7);
    Database first = open_shop(folder.file("first.sqlite"));
    fill(first, draw);
    export_shop(first, folder.file("out"));
    without_counts(folder.file("out"));
    const auto closings = folder.file("out") + "/closings.csv";  // the last table that has rows
    folder.write("out/closings.csv", ScratchFolder::read(closings) + "77,99,99,x,maybe,1,1,,2026-01-01,2026-01-01\n");
    Database second = open_shop(folder.file("second.sqlite"));
    CHECK_THROWS(import_shop(second, folder.file("out")));
    CHECK(ShopVehicles(second).all().empty());
    CHECK(ShopSettings(second).all().empty());
}

// At every size of the disk from an empty shop file to the whole import.
TEST_CASE("an import onto a full disk writes nothing") {
    const ScratchFolder folder;
    Draw draw(11);
    Database first = open_shop(folder.file("first.sqlite"));
    fill(first, draw);
    std::vector<ToldFact> many(40);
    for (std::size_t n = 0; n < many.size(); ++n) {
        many[n] = told_fact("a" + std::to_string(n), "1", TellEvidence::assumed);
        many[n].note = std::string(3000, 'x');
    }
    ShopTold(first).tell("van-0", many);
    export_shop(first, folder.file("out"));
    int full = 0;
    for (int pages = 0;; ++pages) {
        const auto path = folder.file("second.sqlite");
        files::remove(path);
        Database second = open_shop(path);
        auto& database = second;
        database.execute("PRAGMA max_page_count=" + std::to_string(database.integer("PRAGMA page_count") + pages));
        const auto no = refusal([&] { import_shop(database, folder.file("out")); });
        if (no.exit == Exit::yes) break;
        INFO(pages << " pages more: " << no.text);
        REQUIRE(no.exit == Exit::cannot_write);
        REQUIRE(rows_in_all(database) == 0);
        ++full;
    }
    CHECK(full > 20);
}

TEST_CASE("an export made while another process writes is the shop at one moment") {
    const SetVariable date("CASEBOUND_TODAY", "2026-11-25");
    const ScratchFolder folder;
    Database shop = open_shop(folder.file("shop.sqlite"));
    ShopVehicles(shop).create("bookvan", "drover");
    ShopRecords(shop).start_job("bookvan", "pan-service");
    const Writer writer(folder.file("shop.sqlite"));
    std::int64_t before = 0;
    int moved_on = 0;
    for (int n = 0; n < 8; ++n) {
        ::usleep(60000);
        export_shop(shop, folder.file("out"));
        Database taken = open_shop(folder.file("taken" + std::to_string(n) + ".sqlite"));
        INFO("export " << n);
        REQUIRE_NOTHROW(import_shop(taken, folder.file("out")));
        const auto count = [&](const char* table) {
            return taken.integer(std::string("SELECT count(*) FROM ") + table);
        };
        // As shop_writer.cpp writes: together with each job but the first, 100 rows in each of these.
        REQUIRE(count("line_events") == 100 * (count("jobs_started") - 1));
        REQUIRE(count("records") == count("line_events"));
        REQUIRE(count("money") == count("line_events"));
        REQUIRE(count("shelf_entries") == count("line_events"));
        moved_on += std::exchange(before, rows_in_all(taken)) != rows_in_all(taken);
    }
    CHECK(moved_on > 3);  // otherwise nothing was written meanwhile, and nothing was shown
}

// tests/shop/shop_exports/N is in the form that the program of shop version N wrote (of 1, which had no export, in that of
// 2); N-counted has rows and hashes in its descriptor. Whoever adds a version adds its folder.
TEST_CASE("an export of every version of the shop file is read") {
    const auto newest = schema_versions(shop_sql).size();
    std::vector<std::string> exports{"4-counted"};
    for (std::size_t version = 1; version <= newest; ++version) exports.push_back(std::to_string(version));
    for (const auto& name : exports) {
        INFO("export of version " << name);
        const ScratchFolder folder;
        Database shop = open_shop(folder.file("shop.sqlite"));
        import_shop(shop, CASEBOUND_SOURCE_DIR "/tests/shop/shop_exports/" + name);
        const auto told = ShopTold(shop).standing("bookvan");
        REQUIRE(told.size() == 1);  // the engine was taken back
        CHECK(told[0].text == "41mm");
        CHECK(ShopVehicles(shop).find("Tender.2")->vin == "11111111111111111");
        CHECK(ShopSettings(shop).get("hour_value") == "30");
        CHECK(ShopRecords(shop).jobs("bookvan").size() == 1);
        if (name == "1") continue;
        ShopRecords records(shop);
        CHECK(records.events("bookvan").at(0).note == "compared:\nbolts, \"neck\" C:\\photos");
        CHECK(records.records("bookvan").at(0).odometer_km == 131800.5);
        CHECK(records.spent_cents("bookvan") == 8450);
        CHECK(records.rate_of("pan-service").worked == 1);
        const auto offer = ShopOffers(shop).offer("Pier", "zeros");
        REQUIRE(offer);
        CHECK(offer->return_fee == 0.15);
        CHECK_FALSE(offer->days);  // of versions 2 and 3 a 0, which said nothing
        CHECK(records.records("bookvan").at(0).leak_minutes == (name == "2" ? std::nullopt : std::optional(1440.0)));
        CHECK(ShopOffers(shop).on_shelf("Q-QF4-5") == 0.7);
        if (name < "6") continue;  // photos, one of them taken back
        REQUIRE(told[0].photos.size() == 1);
        CHECK(ScratchFolder::read(told[0].photos[0].path) == photo_made::plain("jpg"));
        CHECK(ShopPhotos(shop).all("bookvan").at(1).why == "the wrong pan");
    }
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

TEST_CASE("a text that a spreadsheet would take for a formula is harmless in an export and comes back as it was") {
    for (const std::string text : {"=1+1", "=cmd|'/c x'!A0", "+49 30 1", "-x", "@SUM(A1)", "--1", "-", "=", "- 4"}) {
        const auto line = on_one_line_for_spreadsheets(text);
        INFO(text);
        CHECK(line.front() == '\\');
        CHECK(from_one_line(line) == text);
    }
    for (const std::string number : {"-40", "+3.5", "-1e3", "40", "0", "-0.5"})
        CHECK(on_one_line_for_spreadsheets(number) == number);
    CHECK(on_one_line("\xc2\x9b\xe2\x80\xae") == "\\xc2\\x9b\\xe2\\x80\\xae");
    const ScratchFolder folder;
    auto shop = open_shop(folder.file("shop.sqlite"));
    ShopVehicles(shop).create("bookvan", "drover");
    auto formula = told_fact("a", "1", TellEvidence::measured);
    formula.text = "=1+1";  // as typed
    auto minus = told_fact("b", "-40", TellEvidence::measured);
    minus.note = "@home";
    ShopTold(shop).tell("bookvan", {formula, minus});
    export_shop(shop, folder.file("out"));
    const auto csv = ScratchFolder::read(folder.file("out/tellings.csv"));
    CHECK_THAT(csv, Catch::Contains(",\\x3d1+1,") && Catch::Contains(",-40,") && Catch::Contains(",\\x40home"));
    auto again = open_shop(folder.file("again.sqlite"));
    import_shop(again, folder.file("out"));
    CHECK(ShopTold(again).history("bookvan").at(0).text == "=1+1");
    CHECK(ShopTold(again).history("bookvan").at(1).text == "-40");
    CHECK(ShopTold(again).history("bookvan").at(1).note == "@home");
}

TEST_CASE("an import refuses a vehicle whose name is no name") {
    const ScratchFolder folder;
    auto shop = open_shop(folder.file("shop.sqlite"));
    ShopVehicles(shop).create("bookvan", "drover");
    shop.execute("UPDATE vehicles SET name = '../<b>x'");
    export_shop(shop, folder.file("out"));
    auto again = open_shop(folder.file("again.sqlite"));
    const auto no = refusal([&] { import_shop(again, folder.file("out")); });
    CHECK(no.exit == Exit::bad_data);
    CHECK_THAT(no.text, Catch::Contains("`../<b>x` cannot be a vehicle's name"));
    CHECK(ShopVehicles(again).all().empty());
}

TEST_CASE("money that comes to more than can be counted is refused, not counted wrong") {
    const ScratchFolder folder;
    auto shop = open_shop(folder.file("shop.sqlite"));
    ShopVehicles(shop).create("bookvan", "drover");
    for (int n = 0; n < 2; ++n)
        shop.execute(
            "INSERT INTO money (vehicle, kind, cents, date, entered) VALUES (1, 'parts', "
            "9000000000000000000, '2026-11-25', '2026-11-25')");
    const auto no = refusal([&] { ShopRecords(shop).spent_cents("bookvan"); });
    CHECK(no.exit == Exit::bad_data);
    CHECK_THAT(no.text, Catch::Contains("more than can be counted"));
    export_shop(shop, folder.file("out"));
    auto again = open_shop(folder.file("again.sqlite"));
    CHECK_THAT(refusal([&] { import_shop(again, folder.file("out")); }).text,
               Catch::Contains("money.csv: cents: an amount of more than 99999999999 cents"));
}
