// Photos of the shop file: a row is never without its file, a file that nobody names is swept away, and all of them go
// with an export and a backup.
#include <catch2/catch.hpp>

#include <sys/file.h>

#include <fcntl.h>
#include <unistd.h>

#include <filesystem>
#include <set>
#include <string>
#include <vector>

#include "core/ground/error.h"
#include "core/ground/file_stamp.h"
#include "core/shop/shop_backup.h"
#include "core/shop/shop_export.h"
#include "core/shop/shop_file.h"
#include "core/shop/shop_photos.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_told.h"
#include "core/shop/shop_vehicles.h"
#include "tests/environment.h"
#include "tests/photo_made.h"
#include "tests/refusal.h"
#include "tests/scratch_folder.h"

using namespace casebound;
using Catch::Contains;
namespace files = std::filesystem;

namespace {

class PhotoYard {
public:
    PhotoYard() : date_("CASEBOUND_TODAY", "2026-11-25"), shop(open_shop(folder.file("shop.sqlite"))) {
        ShopVehicles(shop).create("bookvan", "drover");
    }
    std::string photos() const { return folder.file("shop.sqlite.photos"); }
    std::set<std::string> files_there() const {
        std::set<std::string> all;
        if (files::exists(photos()))
            for (const auto& entry : files::directory_iterator(photos())) all.insert(entry.path().filename());
        return all;
    }
    // Told with a photo, in one transaction.
    Photo tell(const std::string& value, const std::string& bytes) {
        Transaction writing(shop);
        const auto photo = ShopPhotos(shop).enter("bookvan", ShopPhotos(shop).put(clean_photo(bytes, "x")));
        auto fact = told_fact("pan_depth", value, TellEvidence::measured);
        fact.photos = {photo};
        ShopTold(shop).tell("bookvan", fact);
        writing.commit();
        return photo;
    }

private:
    SetVariable date_;

public:
    ScratchFolder folder;
    Database shop;
};

}  // namespace

TEST_CASE("a photo lies beside the shop file under the hash of its bytes, without what it says of the place") {
    PhotoYard yard;
    const auto photo = yard.tell("41mm", photo_made::jpeg_of_phone());
    CHECK(photo.path == yard.photos() + "/" + photo.sha256 + ".jpg");
    const auto bytes = ScratchFolder::read(photo.path);
    CHECK(sha256_of(bytes) == photo.sha256);
    CHECK(bytes.find("SECRET") == std::string::npos);
    const auto told = ShopTold(yard.shop).standing("bookvan").at(0);
    REQUIRE(told.photos.size() == 1);
    CHECK(told.photos[0].number == photo.number);
    CHECK(told.photos[0].width == 16);  // it stands on its side
    CHECK(told.photos[0].taken == "2026-11-24");
    CHECK(told.photos[0].path == photo.path);
}

TEST_CASE("a photo may show a record, an event, a payment and a statement") {
    PhotoYard yard;
    Transaction writing(yard.shop);
    ShopPhotos photos(yard.shop);
    const auto photo = photos.enter("bookvan", photos.put(clean_photo(photo_made::plain("png"), "x")));
    WorkRecord record;
    record.what = "odometer", record.photos = {photo};
    LineEvent event;
    event.role = "pan-filter", event.event = "received", event.photos = {photo};
    MoneyEntry money;
    money.kind = "parts", money.photos = {photo};
    ShopRecords records(yard.shop);
    records.add("bookvan", {{event}, {record}, {money}, {}, {}});
    photos.shows_statement({photo}, "memory-own+bookvan-20261125-1");
    writing.commit();
    CHECK(records.records("bookvan").at(0).photos.size() == 1);
    CHECK(records.events("bookvan").at(0).photos.size() == 1);
    CHECK(records.money("bookvan").at(0).photos.size() == 1);
    CHECK(photos.of_statement("memory-own+bookvan-20261125-1").size() == 1);
    CHECK(photos.all("bookvan").at(0).shows.size() == 4);
}

TEST_CASE("a photo that is taken back no longer shows anything, and its file goes when no other has the same") {
    PhotoYard yard;
    const auto one = yard.tell("41mm", photo_made::plain("jpg")), same = yard.tell("42mm", photo_made::plain("jpg"));
    CHECK(one.sha256 == same.sha256);
    CHECK(yard.files_there().size() == 1);
    ShopPhotos photos(yard.shop);
    photos.take_back("bookvan", one.number, "the wrong pan");
    photos.sweep();
    CHECK(yard.files_there().size() == 1);
    CHECK(ShopTold(yard.shop).history("bookvan").at(0).photos.empty());
    CHECK(ShopTold(yard.shop).history("bookvan").at(1).photos.size() == 1);
    CHECK(photos.all("bookvan").at(0).why == "the wrong pan");
    CHECK(refusal([&] { photos.take_back("bookvan", one.number, ""); }).exit == Exit::no_input);
    photos.take_back("bookvan", same.number, "");
    photos.sweep();
    CHECK(yard.files_there().empty());
    CHECK(photos.named(same.sha256 + ".jpg").number == 0);
}

TEST_CASE("what is swept is what no row names: of a command that was killed, and nothing that is not ours") {
    PhotoYard yard;
    const auto kept = yard.tell("41mm", photo_made::plain("jpg"));
    const std::string other(64, 'a');
    for (const auto& name : {other + ".jpg", other + ".png.new-4711", std::string(".sent-4711-1"),
                             std::string("mine.jpg"), std::string("notes.txt")})
        yard.folder.write("shop.sqlite.photos/" + name, "x");
    const auto sending = yard.folder.write("shop.sqlite.photos/.sent-4711-2", "x");
    const int file = ::open(sending.c_str(), O_RDONLY);
    REQUIRE(::flock(file, LOCK_SH) == 0);
    ShopPhotos(yard.shop).sweep();
    CHECK(yard.files_there() == std::set<std::string>{kept.sha256 + ".jpg", "mine.jpg", "notes.txt", ".sent-4711-2"});
    ::close(file);
    ShopPhotos(yard.shop).sweep();
    CHECK_FALSE(yard.files_there().contains(".sent-4711-2"));
}

TEST_CASE("what was begun with a photo and not committed leaves no row, and the next sweep no file") {
    PhotoYard yard;
    {
        Transaction writing(yard.shop);
        ShopPhotos photos(yard.shop);
        photos.enter("bookvan", photos.put(clean_photo(photo_made::plain("webp"), "x")));
    }
    CHECK(ShopPhotos(yard.shop).all("bookvan").empty());
    CHECK(yard.files_there().size() == 1);
    ShopPhotos(yard.shop).sweep();
    CHECK(yard.files_there().empty());
}

TEST_CASE("a file that was cut short by hand is written anew when the same photo comes again") {
    PhotoYard yard;
    const auto photo = yard.tell("41mm", photo_made::plain("jpg"));
    files::resize_file(photo.path, 100);
    yard.tell("42mm", photo_made::plain("jpg"));
    CHECK(ScratchFolder::read(photo.path) == photo_made::plain("jpg"));
}

TEST_CASE("a vehicle that is forgotten takes its photos with it, but for those of a statement that stays") {
    PhotoYard yard;
    yard.tell("41mm", photo_made::plain("jpg"));
    ShopPhotos photos(yard.shop);
    {
        Transaction writing(yard.shop);
        const auto photo = photos.enter("bookvan", photos.put(clean_photo(photo_made::plain("png"), "x")));
        photos.shows_statement({photo}, "s");
        writing.commit();
    }
    ShopVehicles(yard.shop).forget("bookvan");
    photos.sweep();
    REQUIRE(yard.files_there().size() == 1);
    CHECK(photos.of_statement("s").at(0).type == "png");
}

TEST_CASE("an export carries the photos, an import checks them by their hash, and both give the same again") {
    PhotoYard yard;
    const auto photo = yard.tell("41mm", photo_made::jpeg_of_phone()),
               gone = yard.tell("42mm", photo_made::plain("png"));
    ShopPhotos(yard.shop).take_back("bookvan", gone.number, "");
    ShopPhotos(yard.shop).sweep();
    const auto out = yard.folder.file("out");
    export_shop(yard.shop, out);
    export_shop(yard.shop, out);  // over itself
    CHECK(ScratchFolder::read(out + "/photos/" + photo.sha256 + ".jpg") == ScratchFolder::read(photo.path));
    auto second = open_shop(yard.folder.file("second.sqlite"));
    import_shop(second, out);
    const auto told = ShopTold(second).history("bookvan").at(0);
    REQUIRE(told.photos.size() == 1);
    CHECK(told.photos[0].path == yard.folder.file("second.sqlite.photos/" + photo.sha256 + ".jpg"));
    CHECK(ScratchFolder::read(told.photos[0].path) == ScratchFolder::read(photo.path));
    const auto refused = [&] {
        auto third = open_shop(yard.folder.file("third.sqlite"));
        const auto no = refusal([&] { import_shop(third, out); });
        CHECK(ShopVehicles(third).all().empty());
        CHECK_FALSE(files::exists(yard.folder.file("third.sqlite.photos")));
        return no;
    };
    yard.folder.write("out/photos/" + photo.sha256 + ".jpg", photo_made::plain("jpg"));
    CHECK_THAT(refused().text, Contains("not what was exported"));
    files::remove(out + "/photos/" + photo.sha256 + ".jpg");
    CHECK_THAT(refused().text, Contains("this photo is missing"));
    yard.folder.write("out/photos/mine.jpg", "x");
    CHECK(refusal([&] { export_shop(yard.shop, out); }).exit == Exit::cannot_create);
}

TEST_CASE("a photo whose file is gone keeps an export from being made, and a backup says that it is not in it") {
    PhotoYard yard;
    const auto photo = yard.tell("41mm", photo_made::plain("jpg"));
    files::remove(photo.path);
    CHECK(refusal([&] { export_shop(yard.shop, yard.folder.file("out")); }).exit == Exit::no_input);
    CHECK_FALSE(files::exists(yard.folder.file("out")));
    const auto backup = back_up_shop(yard.shop, {}, yard.folder.file("stick"));
    REQUIRE(backup.missing.size() == 1);
    CHECK_THAT(backup.missing[0], Contains(photo.path));
}

TEST_CASE("a backup carries the photos, and nothing of it is put back when one of them is another") {
    PhotoYard yard;
    const auto photo = yard.tell("41mm", photo_made::jpeg_of_phone());
    const auto backup = back_up_shop(yard.shop, {}, yard.folder.file("stick"));
    CHECK(backup.files == std::vector<std::string>{"shop.sqlite", "photos/" + photo.sha256 + ".jpg"});
    CHECK(stamp_file(backup.path).sha256 == backup.sha256);
    files::create_directories(yard.folder.file("new"));
    const auto restore = [&](const std::string& file) {
        return refusal([&] { restore_shop(file, yard.folder.file("new/shop.sqlite"), yard.folder.file("new/packs")); });
    };
    auto bytes = ScratchFolder::read(backup.path);
    const auto at = bytes.find("ICC_PROFILE");
    REQUIRE(at != std::string::npos);
    bytes[at] = 'X';
    CHECK(restore(yard.folder.write("bad.tar", bytes)).exit == Exit::bad_data);
    CHECK(files::is_empty(yard.folder.file("new")));
    CHECK(restore(backup.path).exit == Exit::yes);
    auto shop = open_shop(yard.folder.file("new/shop.sqlite"));
    CHECK(ScratchFolder::read(ShopTold(shop).standing("bookvan").at(0).photos.at(0).path) ==
          ScratchFolder::read(photo.path));
}
