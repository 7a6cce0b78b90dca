// Every inquiry of every shipped domain where there is no row to read: no pack was ever loaded, the first load failed, or
// the catalog is older than the domain. None fails, none speaks of tables, and what is missing is said.
#include <catch2/catch.hpp>

#include <algorithm>
#include <filesystem>
#include <string>

#include "core/ground/error.h"
#include "core/pack/catalog_file.h"
#include "core/session/command.h"
#include "core/session/inquiry_session.h"
#include "tests/scratch_folder.h"

using namespace casebound;
using Catch::Contains;

namespace {

// A value that the input can have, and that no pack knows.
std::string some_value(const Input& input) {
    switch (input.kind) {
        case Input::Kind::number:
        case Input::Kind::number_list: return std::to_string(std::clamp(1.0, input.min, input.max));
        case Input::Kind::yes_no: return "yes";
        case Input::Kind::choice: return input.choices.front();
        case Input::Kind::date: return "2026-11-25";
        case Input::Kind::text:
        case Input::Kind::text_list: return "none-such";
    }
    return "";
}

struct Home {
    ScratchFolder folder;
    Session session{{folder.file("catalog.sqlite"),
                     folder.file("shop.sqlite"),
                     folder.file("probed"),
                     {CASEBOUND_BINARY_DIR "/plugins"}}};

    std::string answer(const std::string& domain, const Args& args) {
        try {
            const auto result = run_inquiry(session, domain, args);
            CHECK(result.exit != Exit::bug);
            return result.output;
        } catch (const Error& error) {
            CHECK((error.exit() == Exit::usage || error.exit() == Exit::bad_data));
            return error.what();
        }
    }

    // How many of the inquiries say that there is no row.
    int ask_all() {
        int honest = 0;
        for (const auto& domain : session.plugins().domains)
            for (const auto& inquiry : inquiries_of(domain.domain)) {
                Args nothing{{inquiry.name}, {}}, everything = nothing, words = nothing;
                for (const auto& input : inquiry.inputs) {
                    everything.words.push_back(input.name + "=" + some_value(input));
                    if (input.required) nothing.words.push_back(everything.words.back());
                    if (input.kind != Input::Kind::text || input.required)
                        words.words.push_back(everything.words.back());
                }
                for (const auto& args : {nothing, words, everything}) {
                    const auto said = answer(domain.name, args);
                    INFO(domain.name << " " << inquiry.name << ": " << said);
                    CHECK_THAT(said, !Contains("not a table") && !Contains("NOT ANSWERED") && !Contains("failed in"));
                    honest += said.find("No rows on file") != std::string::npos;
                }
            }
        return honest;
    }
};

}  // namespace

TEST_CASE("with no pack loaded no inquiry fails, and those that look for rows say that there are none") {
    Home home;
    REQUIRE(home.session.plugins().domains.size() >= 4);
    CHECK(home.ask_all() > 10);
}

TEST_CASE("after a first load that failed no inquiry fails, and those that look for rows say that there are none") {
    Home home;
    std::filesystem::create_directories(home.folder.file("bad"));
    home.folder.write("bad/datapackage.json", "[]");
    const auto commands_there = commands({});
    const auto load = std::find_if(commands_there.begin(), commands_there.end(),
                                   [](const Command& command) { return command.name == "pack load"; });
    REQUIRE(load != commands_there.end());
    Exit exit = Exit::yes;
    try {
        exit = load->run(home.session, {{home.folder.file("bad")}, {}}).exit;
    } catch (const Error& error) { exit = error.exit(); }
    CHECK(exit == Exit::bad_data);
    CHECK(home.ask_all() > 10);
}

TEST_CASE(
    "in a catalog that is older than the domains no inquiry fails, and those that look for rows say there are none") {
    Home home;
    { const auto made = open_catalog_to_write(home.folder.file("catalog.sqlite"), true); }  // with core's tables alone
    CHECK(home.ask_all() > 10);
}
