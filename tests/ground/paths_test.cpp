#include <catch2/catch.hpp>

#include <sys/stat.h>

#include <filesystem>
#include <fstream>
#include <string>

#include "core/ground/dates.h"
#include "core/ground/error.h"
#include "core/ground/paths.h"
#include "tests/environment.h"
#include "tests/refusal.h"
#include "tests/scratch_folder.h"

using namespace casebound;
using Catch::Matchers::Contains;
namespace files = std::filesystem;

TEST_CASE("files are kept in CASEBOUND_HOME, else XDG_DATA_HOME, else under the home folder") {
    const ScratchFolder folder;
    const SetVariable own("CASEBOUND_HOME", nullptr), data("XDG_DATA_HOME", nullptr),
        home("HOME", folder.path().c_str());
    CHECK(data_paths().home == folder.path() + "/.local/share/casebound");
    const SetVariable relative("XDG_DATA_HOME", "relative");  // ignored, as the XDG Base Directory Specification asks
    CHECK(data_paths().home == folder.path() + "/.local/share/casebound");
    const SetVariable absolute("XDG_DATA_HOME", folder.file("data").c_str());
    CHECK(data_paths().shop == folder.path() + "/data/casebound/shop.sqlite");
    const SetVariable first("CASEBOUND_HOME", folder.file("mine").c_str());
    const Paths paths = data_paths();
    CHECK(paths.catalog == folder.path() + "/mine/catalog.sqlite");
    CHECK(paths.probed == folder.path() + "/mine/plugins.probed");
    CHECK(files::exists(folder.file("mine")));
}

TEST_CASE("a data folder that has to be made is for its owner only") {
    const ScratchFolder folder;
    const SetVariable own("CASEBOUND_HOME", folder.file("a/b").c_str());
    const std::string home = data_paths().home;
    for (const std::string& made : {home, folder.file("a")}) {
        struct stat status {};
        REQUIRE(::stat(made.c_str(), &status) == 0);
        CHECK((status.st_mode & 0777) == 0700);
    }
}

TEST_CASE("a data folder that cannot be is refused with what to set") {
    const ScratchFolder folder;
    std::ofstream(folder.file("file")) << "x";
    const SetVariable own("CASEBOUND_HOME", folder.file("file").c_str());
    CHECK_THAT(refusal([] { data_paths(); }).text, Contains("set CASEBOUND_HOME to a folder of your own"));
    const SetVariable none("CASEBOUND_HOME", nullptr), data("XDG_DATA_HOME", nullptr), home("HOME", nullptr);
    CHECK(refusal([] { data_paths(); }).exit == Exit::cannot_create);
}

TEST_CASE("today is the clock's, unless CASEBOUND_TODAY says otherwise") {
    const SetVariable unset("CASEBOUND_TODAY", nullptr);
    CHECK(is_date(today()));
    CHECK(time_stamp().size() == 15);
    const SetVariable fixed("CASEBOUND_TODAY", "2026-11-25");
    CHECK(today() == "2026-11-25");
    CHECK(time_stamp() == "20261125T000000");
    const SetVariable bad("CASEBOUND_TODAY", "tomorrow");
    CHECK(refusal([] { today(); }).text ==
          "CASEBOUND_TODAY: \"tomorrow\" is not a date: write YYYY-MM-DD, or unset it");
}

TEST_CASE("a date is a day of the Gregorian calendar") {
    for (const std::string good : {"2026-11-25", "2024-02-29", "2000-02-29", "1999-12-31"}) CHECK(is_date(good));
    for (const std::string bad : {"2026-02-29", "1900-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "2026-1-1",
                                  "26-11-25", "2026/11/25", "2026-11-25 ", "", "2026-11-2x", "0000-01-01"}) {
        INFO(bad);
        CHECK_FALSE(is_date(bad));
    }
}
