// What a terminal acts on never gets out of the program, wherever it came from: what is typed, the shop file, a pack, a
// plugin's words; in text and in JSON, on standard output and standard error.
#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "core/ground/outlet.h"
#include "core/ground/utf8.h"
#include "tests/environment.h"
#include "tests/scratch_folder.h"

using namespace casebound;
namespace files = std::filesystem;

namespace {

const std::string program = CASEBOUND_BINARY_DIR "/casebound";

// ESC, a C1 character, marks of direction, a bell, a carriage return, a raw byte of C1, DEL.
const std::string evil =
    "\x1b[31mred\xc2\x9b"
    "2J\xe2\x80\xae"
    "desrever\xe2\x81\xa6\a\rover\x9b\x7f";

// Each character that a terminal acts on, beside line ends and tabs; "" when there is none.
std::string acted_upon(const std::string& text) {
    std::string found;
    for (std::size_t at = 0; at < text.size();) {
        const auto length = character_bytes(text, at);
        const auto one = text.substr(at, std::max<std::size_t>(length, 1));
        if (length == 0 || (steers(one) && one != "\n" && one != "\t")) found += fmt::format("{} ", at);
        at += one.size();
    }
    return found;
}

class Yard {
public:
    Yard() : home_("CASEBOUND_HOME", folder_.path().c_str()), date_("CASEBOUND_TODAY", "2026-11-25") {}
    const ScratchFolder& folder() const { return folder_; }
    // Both streams. The words go by as they are, each an argument.
    std::string run(const std::vector<std::string>& words) const {
        std::string line = "'" + program + "'";
        for (const auto& word : words) {
            std::string quoted;
            for (const char c : word) quoted += c == '\'' ? std::string("'\\''") : std::string(1, c);
            line += " '" + quoted + "'";
        }
        [[maybe_unused]] const int ignored = std::system((line + " > '" + folder_.file("said") + "' 2>&1").c_str());
        return ScratchFolder::read(folder_.file("said"));
    }

private:
    ScratchFolder folder_;
    SetVariable home_, date_;
};

}  // namespace

TEST_CASE("no character that a terminal acts on gets out, whatever it came from") {
    const Yard yard;
    yard.run({"pack", "load", "--reference"});
    yard.run({"pack", "load", CASEBOUND_SOURCE_DIR "/seed-data/demo-fleet"});
    yard.run({"vehicle", "new", "van", "quernmoor-packet", "year=2007", "engine=2.6", "cooler=no", "pan_depth=41mm"});
    yard.folder().write("evil.csv", evil);
    files::create_directories(yard.folder().file("pack"));
    yard.folder().write("pack/sources.csv", "source,kind,title,edition,note\nmade,invented," +
                                                std::string("\xe2\x80\xae\xc2\x9b") + "title,,\n");
    yard.folder().write("pack/items.csv", "item,kind,title,pack_quantity,withdrawn,source\n" + evil + ",x,y,1,,made\n");
    const std::vector<std::vector<std::string>> all{
        {evil},
        {"fits", "van", evil},
        {"fits", evil, "pan-filter"},
        {"list", "van", evil},
        {"--" + evil},
        {"list", "van", "pan-service", "--" + evil},
        {"vehicle", "tell", "van", "leak_at=dry", "--note", evil},
        {"vehicle", "tell", "van", "leak_at=dry", "--note", "\xe2\x80\xae\xc2\x9b\x1b note"},
        {"vehicle", "tell", "van", evil + "=1"},
        {"vehicle", "tell", "van", "engine=" + evil},
        {"vehicle", "history", "van"},
        {"vehicle", "show", "van", "--full"},
        {"vehicle", "show", "van", "--json"},
        {"record", "van", "start", "job=pan-service", "note=\x1b]0;title\a\xe2\x80\xae"},
        {"sheet", "van", "history"},
        {"sheet", "van", "history", "--json"},
        {"shop", "set", "currency=\x1b[1m\xc2\x9b"},
        {"shop", "settings"},
        {"offer", "add", "seller=\xe2\x80\xae\x1bsel", "carriage=1", "item=Q-QF4-1", "price=8"},
        {"offer", "list"},
        {"offer", "list", "--json"},
        {"pack", "new", yard.folder().file("pack")},
        {"pack", "check", yard.folder().file("pack")},
        {"pack", "check", yard.folder().file("pack"), "--json"},
        {"pack", "load", yard.folder().file(evil)},
        {"--shop", yard.folder().file("evil.csv"), "vehicle", "list"},
        {"--catalog", evil, "list", "van", "pan-service"},
        {"shop", "import", evil},
        {"shop", "restore", yard.folder().file("evil.csv")},
    };
    for (const auto& words : all) {
        const auto said = yard.run(words);
        INFO(fmt::format("{}", harmless(said)));
        CHECK_FALSE(said.empty());
        CHECK(acted_upon(said) == "");
    }
}

TEST_CASE("positive control: characters that a terminal acts on are found, and a text without any stays as it is") {
    for (const std::string one : {"\x1b", "\xc2\x9b", "\xe2\x80\xae", "\xe2\x81\xa6", "\a", "\r", "\x9b", "\x7f"})
        CHECK(acted_upon("plain " + one) != "");
    const std::string plain = "µ °C ½ \xe2\x82\xac, a tab\tand\nline ends, \xf0\x9f\x94\xa7";
    CHECK(acted_upon(plain) == "");
    CHECK(harmless(plain) == plain);
    CHECK(harmless(std::string("a\0b", 3)) == "a\\u0000b");
}

TEST_CASE("in JSON what was made harmless is read back as it was") {
    const std::string text = "\xc2\x9b\xe2\x80\xae\x7f\x1b plain";
    const auto said = harmless(nlohmann::json{{"note", text}}.dump());
    CHECK(acted_upon(said) == "");
    CHECK(nlohmann::json::parse(said).at("note").get<std::string>() == text);
}
