// A catalog with a bit that has changed is said to be damaged, with what rebuilds it, or the bit is not read: the answer
// is never another one, and never "this should not happen".
#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>
#include <string>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/pack/catalog_file.h"
#include "core/store/checked_pages.h"
#include "tests/environment.h"
#include "tests/scratch_folder.h"

using namespace casebound;
namespace files = std::filesystem;

namespace {

const std::string program = CASEBOUND_BINARY_DIR "/casebound";

struct Ended {
    int exit{};
    std::string said;
};

class Yard {
public:
    Yard() : home_("CASEBOUND_HOME", folder_.path().c_str()), date_("CASEBOUND_TODAY", "2026-11-25") {
        for (const std::string words :
             {"pack load --reference", "pack load '" CASEBOUND_SOURCE_DIR "/seed-data/demo-fleet'",
              "vehicle new van quernmoor-packet year=2007 engine=2.6 cooler=no pan_depth=41mm"})
            REQUIRE(run(words).exit == 0);
        sound_ = ScratchFolder::read(catalog());
    }
    std::string catalog() const { return folder_.file("catalog.sqlite"); }
    std::size_t bits() const { return sound_.size() * 8; }
    void with_bit_changed(std::size_t bit) const {
        auto bytes = sound_;
        bytes[bit / 8] = static_cast<char>(bytes[bit / 8] ^ (1 << bit % 8));
        folder_.write("catalog.sqlite", bytes);
    }
    void sound() const { folder_.write("catalog.sqlite", sound_); }
    Ended run(const std::string& words) const {
        const int how = std::system(fmt::format("'{}' {} > '{}' 2>&1", program, words, folder_.file("said")).c_str());
        return {WIFEXITED(how) ? WEXITSTATUS(how) : 128 + WTERMSIG(how), ScratchFolder::read(folder_.file("said"))};
    }

private:
    ScratchFolder folder_;
    SetVariable home_, date_;
    std::string sound_;
};

const std::string list = "list van pan-service --full";

// "" when it answers as the sound one, or says that it is damaged and how it is rebuilt.
std::string wrong(const Ended& ended, const Ended& sound) {
    const bool same = ended.exit == sound.exit && ended.said == sound.said;
    const bool says = ended.exit == 65 && ended.said.find("DAMAGED") != std::string::npos &&
                      ended.said.find("casebound pack load --reference") != std::string::npos;
    const bool foreign = ended.exit == 65 && ended.said.find("not a catalog of casebound") != std::string::npos;
    return same || says || foreign ? "" : fmt::format("exit {}: {}", ended.exit, ended.said);
}

}  // namespace

TEST_CASE("hard: a catalog with a changed bit is said to be damaged and never answers something else") {
    const Yard yard;
    const auto sound = yard.run(list);
    REQUIRE(sound.exit <= 2);
    std::mt19937_64 random(204);
    const char* how = std::getenv("CASEBOUND_HARD");
    const int changes = how && std::string(how) == "long" ? 2000 : 60;
    int damaged = 0;
    for (int n = 0; n < changes; ++n) {
        const auto bit = n < changes / 3 ? random() % 800 : random() % yard.bits();  // the header, and all of it
        yard.with_bit_changed(bit);
        const auto ended = yard.run(list);
        INFO("bit " << bit);
        REQUIRE(wrong(ended, sound) == "");
        damaged += ended.exit == 65;
    }
    CHECK(damaged > changes / 4);
    yard.with_bit_changed(8 * 200);                       // of the page that every command reads
    CHECK(yard.run("pack load --reference").exit == 65);  // nor is anything built on it
    files::remove(yard.catalog());
    CHECK(yard.run("pack load --reference").exit == 0);  // as it was said
}

TEST_CASE("hard, positive control: a catalog that was changed together with its checksums answers something else") {
    const Yard yard;
    const auto sound = yard.run(list);
    {
        auto catalog = open_catalog_file(yard.catalog(), Database::Mode::read_write);
        catalog.execute("UPDATE item SET title = upper(title)");
    }
    const auto changed = yard.run(list);
    CHECK(wrong(changed, sound) != "");
    yard.sound();
    CHECK(wrong(yard.run(list), sound) == "");
}

TEST_CASE("a change in any word of a page changes its checksum, and so does its place") {
    std::mt19937_64 random(205);
    std::string page(4088, '\0');
    for (auto& byte : page) byte = static_cast<char>(random());
    const auto kept = page_checksum(page, 4096);
    CHECK(kept != page_checksum(page, 8192));
    for (std::size_t bit = 0; bit < page.size() * 8; bit += 7) {
        page[bit / 8] = static_cast<char>(page[bit / 8] ^ (1 << bit % 8));
        REQUIRE(page_checksum(page, 4096) != kept);
        page[bit / 8] = static_cast<char>(page[bit / 8] ^ (1 << bit % 8));
    }
    CHECK(page_checksum(page, 4096) == kept);
}
