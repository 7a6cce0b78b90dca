// A backup is one file with its day and hash; it is put back into an empty place, whole, or refused.
#include <catch2/catch.hpp>

#include <filesystem>
#include <string>

#include "core/ground/error.h"
#include "core/ground/file_stamp.h"
#include "core/ground/tar.h"
#include "core/shop/shop_backup.h"
#include "core/shop/shop_file.h"
#include "core/shop/shop_told.h"
#include "core/shop/shop_vehicles.h"
#include "tests/environment.h"
#include "tests/refusal.h"
#include "tests/scratch_folder.h"

using namespace casebound;
using Catch::Contains;
namespace files = std::filesystem;

namespace {

// A shop with a vehicle, and an own pack.
class Yard {
public:
    Yard() : date_("CASEBOUND_TODAY", "2026-11-25") {
        auto shop = open_shop(shop_path());
        ShopVehicles(shop).create("bookvan", "drover");
        ShopTold(shop).tell("bookvan", told_fact("note", "kept", TellEvidence::measured));
        files::create_directories(folder.file("own"));
        folder.write("own/sources.csv", "source,kind\nmade,measured\n");
        folder.write("own/datapackage.json", "{}\n");
    }
    std::string shop_path() const { return folder.file("shop.sqlite"); }
    Backup back_up() const {
        return back_up_shop(open_shop(shop_path()), {{"own", folder.file("own")}}, folder.file("stick"));
    }
    Restored restore(const std::string& file) const {
        return restore_shop(file, folder.file("new/shop.sqlite"), folder.file("new/packs"));
    }
    ScratchFolder folder;

private:
    SetVariable date_;
};

}  // namespace

TEST_CASE("a backup is one file with its day and hash, and restores shop and own packs byte for byte") {
    const Yard yard;
    const auto backup = yard.back_up();
    CHECK_THAT(backup.path, Contains("casebound-backup-2026-11-25-" + backup.sha256.substr(0, 12) + ".tar"));
    CHECK(stamp_file(backup.path).sha256 == backup.sha256);
    CHECK(backup.files.size() == 3);
    CHECK(last_backup(yard.shop_path())->path == backup.path);
    files::create_directories(yard.folder.file("new"));
    const auto restored = yard.restore(backup.path);
    CHECK(restored.date == "2026-11-25");
    auto shop = open_shop(yard.folder.file("new/shop.sqlite"));
    CHECK(ShopTold(shop).history("bookvan").at(0).text == "kept");
    for (const std::string name : {"sources.csv", "datapackage.json"})
        CHECK(ScratchFolder::read(yard.folder.file("new/packs/own/" + name)) ==
              ScratchFolder::read(yard.folder.file("own/" + name)));
    CHECK_FALSE(last_backup(yard.folder.file("new/shop.sqlite")));
    const auto twice = refusal([&] { yard.restore(backup.path); });
    CHECK(twice.exit == Exit::usage);
    CHECK_THAT(twice.text, Contains("it is there already"));
}

TEST_CASE("a pack whose folder is gone is said to be missing, and what a killed restoring left is no hindrance") {
    const Yard yard;
    const auto gone = back_up_shop(open_shop(yard.shop_path()), {{"own", yard.folder.file("own")}, {"old", "/nowhere"}},
                                   yard.folder.file("stick"));
    CHECK(gone.missing == std::vector<std::string>{"pack old: /nowhere"});
    const auto backup = yard.back_up();
    files::create_directories(yard.folder.file("new/packs"));
    files::copy(yard.folder.file("own"), yard.folder.file("new/packs/own"));
    CHECK(yard.restore(backup.path).packs.size() == 1);
    files::remove(yard.folder.file("new/shop.sqlite"));
    yard.folder.write("new/packs/own/sources.csv", "mine\n");
    CHECK(refusal([&] { yard.restore(backup.path); }).exit == Exit::usage);
    CHECK_FALSE(files::exists(yard.folder.file("new/shop.sqlite")));
}

TEST_CASE("a backup with any byte changed, cut short, or with other files in it restores nothing") {
    const Yard yard;
    const auto tar = ScratchFolder::read(yard.back_up().path);
    files::create_directories(yard.folder.file("new"));
    const auto refused = [&](const std::string& bytes) {
        const auto no = refusal([&] { yard.restore(yard.folder.write("bad.tar", bytes)); });
        CHECK(files::is_empty(yard.folder.file("new")));
        return no.exit;
    };
    int harmless = 0;
    for (std::size_t at = 0; at < tar.size(); at += 97) {
        auto bytes = tar;
        bytes[at] = static_cast<char>(bytes[at] ^ 4);
        const auto no = refusal([&] { yard.restore(yard.folder.write("bad.tar", bytes)); });
        INFO("byte " << at);
        REQUIRE((no.exit == Exit::bad_data || no.exit == Exit::yes));
        harmless += no.exit == Exit::yes;  // padding between files
        files::remove_all(yard.folder.file("new"));
        files::create_directories(yard.folder.file("new"));
    }
    CHECK(harmless < 40);
    CHECK(refused(tar.substr(0, tar.size() / 2)) == Exit::bad_data);
    CHECK(refused("") == Exit::bad_data);
    const auto with = [&](const std::string& name) {
        const std::string shop = "x", list = "casebound backup 1\n2026-11-25\n" + sha256_of(shop) + "  " + name + "\n";
        return refused(tar_of({{"casebound-backup.txt", list}, {name, shop}}));
    };
    CHECK(with("shop.sqlite") == Exit::bad_data);
    CHECK(with("packs/own/deeper/x.csv") == Exit::bad_data);
    CHECK(refused(tar_of({{"other.txt", "x"}})) == Exit::bad_data);
}

TEST_CASE("a tar has no room for a name that leads elsewhere, and none is read") {
    const std::vector<std::string> elsewhere{
        "../x", "/x", "a//b", "a/../b", "", ".", "a/", "x\n", std::string(101, 'x')};
    for (const auto& name : elsewhere) CHECK(refusal([&] { tar_of({{name, "x"}}); }).exit == Exit::usage);
    auto tar = tar_of({{"aa/x", "text"}});
    CHECK(files_in_tar(tar, "t").at(0).text == "text");
    tar.replace(0, 2, "..");
    CHECK(refusal([&] { files_in_tar(tar, "t"); }).exit == Exit::bad_data);  // its sum is wrong
    std::uint64_t sum = 0;
    for (std::size_t at = 0; at < 512; ++at) sum += at >= 148 && at < 156 ? ' ' : static_cast<unsigned char>(tar[at]);
    char digits[8];
    std::snprintf(digits, sizeof digits, "%06o", static_cast<unsigned>(sum));
    tar.replace(148, 6, digits);
    CHECK_THAT(refusal([&] { files_in_tar(tar, "t"); }).text, Contains("is no file of a backup"));  // its sum is right
}
