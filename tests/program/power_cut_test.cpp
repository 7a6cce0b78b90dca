// Cuts the power at every sync of a command, and after it has said done. What then lies on the disk is worked out from
// what was synced (power_cut.cpp): contents always as last synced, names once as last synced and once as they were,
// because a disk may write names before contents.
#include <catch2/catch.hpp>

#include <sys/wait.h>

#include <cstdlib>
#include <filesystem>
#include <sstream>
#include <string>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/shop/shop_export.h"
#include "core/shop/shop_file.h"
#include "core/shop/shop_photos.h"
#include "core/shop/shop_told.h"
#include "core/store/migrations.h"
#include "tests/environment.h"
#include "tests/own_pack_state.h"
#include "tests/program/power_cut_disk.h"
#include "tests/scratch_folder.h"

namespace casebound {
extern const char* const shop_sql;  // schema/shop.sql
}

using namespace casebound;
namespace files = std::filesystem;

namespace {

const std::string program = CASEBOUND_BINARY_DIR "/casebound";

void must_run(const std::string& words) {
    INFO(words);
    REQUIRE(std::system(fmt::format("'{}' {} > /dev/null", program, words).c_str()) == 0);
}

// An open file or folder, closed at the end of the scope.
class Opened {
public:
    explicit Opened(const files::path& path) : file_(::open(path.c_str(), O_RDONLY | O_CLOEXEC)) {}
    ~Opened() { ::close(file_); }
    Opened(const Opened&) = delete;
    Opened& operator=(const Opened&) = delete;
    int number() const { return file_; }

private:
    int file_;
};

enum class Names { as_synced, as_they_were };

// A yard in a folder, and a disk that is sure to hold all of it.
class Yard {
public:
    Yard() { files::create_directories(root()); }

    std::string root() const { return folder_.file("root"); }
    std::string own() const { return root() + "/own"; }
    std::string out() const { return root() + "/out"; }
    std::string home() const { return root() + "/home"; }

    void remember() const {
        files::remove_all(folder_.file("start"));
        files::copy(root(), folder_.file("start"), files::copy_options::recursive);
    }
    void back_to_start() const {
        files::remove_all(root());
        files::copy(folder_.file("start"), root(), files::copy_options::recursive);
    }

    // Runs a command; true when the power was cut in it. `after`: the number of a sync, 0 for never.
    bool run(const std::string& words, int after, const std::string& forgets = {}) const {
        files::remove_all(disk());
        files::create_directories(disk());
        all_is_synced(root());
        const auto how = std::system(
            fmt::format(
                "cd '{}' && exec env ASAN_OPTIONS=verify_asan_link_order=0 POWER_CUT_DISK='{}' {} {} LD_PRELOAD='{}' "
                "'{}' {} > /dev/null",
                root(), disk(), after > 0 ? fmt::format("POWER_CUT_AFTER={}", after) : "",
                forgets.empty() ? "" : fmt::format("POWER_CUT_FORGETS='{}'", forgets), CASEBOUND_POWER_CUT, program,
                words)
                .c_str());
        const bool cut = WIFSIGNALED(how) || (WIFEXITED(how) && WEXITSTATUS(how) == 128 + SIGKILL);
        INFO(words);
        REQUIRE((cut || how == 0));
        return cut;
    }

    // What lies on the disk, as a folder like root().
    std::string after_the_cut(Names names) const {
        const auto image = folder_.file("image");
        files::remove_all(image);
        const Opened top(root());
        lay_out(power_cut::key_of(top.number(), ""), names == Names::as_they_were ? root() : "", image);
        return image;
    }

private:
    std::string disk() const { return folder_.file("disk"); }

    void all_is_synced(const files::path& path) const {
        if (files::is_symlink(path)) return;
        power_cut::record(disk(), Opened(path).number());
        if (files::is_directory(path))
            for (const auto& entry : files::directory_iterator(path)) all_is_synced(entry.path());
    }

    std::string on_disk(const std::string& kind, const std::string& key) const {
        const auto path = fmt::format("{}/{}-{}", disk(), kind, key);
        return files::exists(path) ? ScratchFolder::read(path) : "";
    }

    // `live`: where its names are read today; "" for those that were synced.
    void lay_out(const std::string& key, const std::string& live, const std::string& into) const {
        files::create_directories(into);
        std::istringstream names(live.empty() ? on_disk("names", key) : power_cut::names_in(Opened(live).number()));
        std::string of, name;
        while (names >> of && std::getline(names.ignore(1), name)) {
            const bool folder = live.empty() ? files::exists(fmt::format("{}/names-{}", disk(), of))
                                             : files::is_directory(live + "/" + name);
            if (folder) lay_out(of, live.empty() ? "" : live + "/" + name, into + "/" + name);
            else std::ofstream(into + "/" + name, std::ios::binary) << on_disk("contents", of);
        }
    }

    ScratchFolder folder_;
};

constexpr const char* keep = "keep van applications role=pan-filter item=Q312-1141 --pack own --confirm";

void new_yard() {
    std::string folders;
    for (const auto* name : {"filters_seals", "mounts", "solenoids", "transmission_fluids", "demo-fleet"})
        folders += fmt::format(" '{}/seed-data/{}'", CASEBOUND_SOURCE_DIR, name);
    must_run("pack load" + folders);
    must_run("vehicle new van quernmoor-packet year=2007 engine=2.6 cooler=no pan_depth=41mm measured");
    must_run("record van fitted role=pan-filter item=Q312-1141 made=new");
}

// What was told of the van "damaged: ..." when the file is not sound.
std::string leak_told(const std::string& shop) {
    try {
        Database file = open_shop(shop);
        Statement sound(file, "PRAGMA integrity_check");
        if (!sound.step() || sound.text(0) != "ok") return "damaged: " + sound.str(0);
        for (const auto& one : ShopTold(file).standing("van"))
            if (one.attribute == "leak_at") return one.text;
        return "";
    } catch (const Error& error) { return std::string("damaged: ") + error.what(); }
}

// "before" or "after": an export that an import takes, with or without what was told since; else what is wrong.
std::string export_state(const std::string& folder, const ScratchFolder& scratch) {
    try {
        const auto path = scratch.file("imported.sqlite");
        files::remove(path);
        Database shop = open_shop(path);
        import_shop(shop, folder);
        return leak_told(path).empty() ? "before" : "after";
    } catch (const Error& error) { return error.what(); }
}

}  // namespace

TEST_CASE("power cut: an own pack is as before or as after keeping, and what was said done stays") {
    const SetVariable date("CASEBOUND_TODAY", "2026-11-25");
    const Yard yard;
    const SetVariable home("CASEBOUND_HOME", yard.home().c_str());
    new_yard();
    must_run("record van fitted role=pan-filter item=ZK-77 made=new");
    const std::string part = "keep van part item=ZK-77 title='filter, 41 mm pan' role=pan-filter --pack own --confirm";
    REQUIRE_FALSE(yard.run(part, 0));  // a new pack; later keepings copy its files and do not write to them
    for (const auto names : {Names::as_synced, Names::as_they_were}) {
        const auto own = yard.after_the_cut(names) + "/own";
        CHECK(pack_damage(own, 1 - rows_in(own + "/applications.csv")) == "");
        CHECK(rows_in(own + "/items.csv") == 1);
    }
    const auto at_first = kept_in(yard.own()), others = rows_in(yard.own() + "/sources.csv") - at_first;
    yard.remember();
    int cuts = 0, before = 0, after = 0;
    for (bool cut = true; cut; ++cuts) {
        yard.back_to_start();
        cut = yard.run(keep, cuts + 1);
        for (const auto names : {Names::as_synced, Names::as_they_were}) {
            INFO("sync " << cuts + 1 << ", names " << (names == Names::as_synced ? "as synced" : "as they were"));
            const auto image = yard.after_the_cut(names);
            REQUIRE(pack_damage(image + "/own", others) == "");
            const auto kept = kept_in(image + "/own") - at_first;
            REQUIRE((kept == 0 || kept == 1));
            if (!cut) REQUIRE(kept == 1);
            (kept == 0 ? before : after) += 1;
        }
    }
    CHECK(cuts > 10);
    CHECK(before > 0);
    CHECK(after > 2);
}

TEST_CASE("power cut: what is told, an export and the copy before a migration stay once they are said done") {
    const SetVariable date("CASEBOUND_TODAY", "2026-11-25");
    const ScratchFolder scratch;
    const Yard yard;
    const SetVariable home("CASEBOUND_HOME", yard.home().c_str());
    new_yard();
    must_run(fmt::format("shop export '{}'", yard.out()));
    yard.remember();
    int cuts = 0;
    for (bool cut = true; cut; ++cuts) {
        yard.back_to_start();
        cut = yard.run("vehicle tell van leak_at=dry measured", cuts + 1);
        for (const auto names : {Names::as_synced, Names::as_they_were}) {
            INFO("sync " << cuts + 1);
            const auto told = leak_told(yard.after_the_cut(names) + "/home/shop.sqlite");
            REQUIRE((told == "dry" || (cut && told.empty())));
        }
    }
    CHECK(cuts > 3);
    cuts = 0;
    for (bool cut = true; cut; ++cuts) {
        yard.back_to_start();
        must_run("vehicle tell van leak_at=dry measured");
        cut = yard.run("shop export out", cuts + 1);
        for (const auto names : {Names::as_synced, Names::as_they_were}) {
            INFO("sync " << cuts + 1);
            const auto state = export_state(yard.after_the_cut(names) + "/out", scratch);
            REQUIRE((state == "after" || (cut && state == "before")));
        }
    }
    CHECK(cuts > 10);
}

TEST_CASE("power cut: what is told with a photo is never without its file, and stays once it is said done") {
    const SetVariable date("CASEBOUND_TODAY", "2026-11-25");
    const Yard yard;
    const SetVariable home("CASEBOUND_HOME", yard.home().c_str());
    new_yard();
    files::copy(CASEBOUND_SOURCE_DIR "/tests/ground/photos/plain.jpg", yard.root() + "/pan.jpg");
    yard.remember();
    for (const std::string words :
         {"vehicle tell van leak_at=dry measured --photo pan.jpg", "vehicle photos van --take-back 1"}) {
        const bool back = words.starts_with("vehicle photos");
        int cuts = 0, with_photo = 0, without = 0;
        for (bool cut = true; cut; ++cuts) {
            yard.back_to_start();
            if (back) must_run(fmt::format("vehicle tell van leak_at=dry measured --photo '{}/pan.jpg'", yard.root()));
            cut = yard.run(words, cuts + 1);
            for (const auto names : {Names::as_synced, Names::as_they_were}) {
                INFO(words << ", sync " << cuts + 1);
                const auto path = yard.after_the_cut(names) + "/home/shop.sqlite";
                const auto told = leak_told(path);
                REQUIRE((told == "dry" || (cut && told.empty())));
                const auto photos = photo_files(Database(path, Database::Mode::read_write), photos_folder(path));
                for (const auto& photo : photos) REQUIRE(is_there(photo));
                REQUIRE((back || photos.size() == (told.empty() ? 0 : 1)));
                REQUIRE((cut || photos.empty() == back));
                (photos.empty() ? without : with_photo) += 1;
            }
        }
        CHECK(cuts > 3);
        CHECK(with_photo > 0);
        CHECK(without > 0);
    }
}

TEST_CASE("power cut: a shop file of an older version is never without its copy once it is migrated") {
    const SetVariable date("CASEBOUND_TODAY", "2026-11-25");
    const Yard yard;
    const SetVariable home("CASEBOUND_HOME", yard.home().c_str());
    must_run("vehicle list");
    files::remove(yard.home() + "/shop.sqlite");
    {
        Database old(yard.home() + "/shop.sqlite", Database::Mode::create);
        old.execute(ScratchFolder::read(CASEBOUND_SOURCE_DIR "/tests/shop/shop_v1.sql"));
        old.execute("PRAGMA application_id=1667396456; PRAGMA user_version=1");  // 0x63627368
    }
    yard.remember();
    const auto newest = static_cast<std::int64_t>(schema_versions(shop_sql).size());
    int cuts = 0, migrated = 0;
    for (bool cut = true; cut; ++cuts) {
        yard.back_to_start();
        cut = yard.run("vehicle list", cuts + 1);
        for (const auto names : {Names::as_synced, Names::as_they_were}) {
            INFO("sync " << cuts + 1);
            const auto image = yard.after_the_cut(names) + "/home";
            const auto version =
                Database(image + "/shop.sqlite", Database::Mode::read_write).integer("PRAGMA user_version");
            REQUIRE((version == 1 || version == newest));
            if (!cut) REQUIRE(version == newest);
            migrated += version == newest;
            const auto copy = image + "/shop-v1-20261125T000000.sqlite";
            if (version == 1 && !files::exists(copy)) continue;
            const Database kept(copy, Database::Mode::read_only);
            REQUIRE(kept.integer("PRAGMA user_version") == 1);
            REQUIRE(kept.integer("SELECT count(*) FROM vehicles") == 2);
        }
    }
    CHECK(cuts > 5);
    CHECK(migrated > 1);
}

TEST_CASE("positive control: with syncing switched off the power cut does its damage and is caught") {
    const SetVariable date("CASEBOUND_TODAY", "2026-11-25");
    const Yard yard;
    const SetVariable home("CASEBOUND_HOME", yard.home().c_str());
    new_yard();
    must_run(fmt::format("keep van applications role=pan-filter item=Q312-1141 --pack '{}' --confirm", yard.own()));
    yard.remember();
    REQUIRE_FALSE(yard.run(keep, 0, "files"));
    CHECK(pack_damage(yard.after_the_cut(Names::as_synced) + "/own") != "");
    CHECK(pack_damage(yard.after_the_cut(Names::as_they_were) + "/own") != "");
    yard.back_to_start();
    REQUIRE_FALSE(yard.run(keep, 0, "folders"));
    CHECK(kept_in(yard.after_the_cut(Names::as_synced) + "/own") == 1);  // said done, and lost
    yard.back_to_start();
    REQUIRE_FALSE(yard.run("vehicle tell van leak_at=dry measured", 0, "later folders"));
    CHECK(leak_told(yard.after_the_cut(Names::as_synced) + "/home/shop.sqlite") == "");  // said done, and lost
    yard.back_to_start();
    REQUIRE_FALSE(yard.run("vehicle tell van leak_at=dry measured", 0, "files"));
    CHECK(leak_told(yard.after_the_cut(Names::as_they_were) + "/home/shop.sqlite") != "dry");
}
