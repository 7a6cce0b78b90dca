// Every command's --json is described by a draft-07 schema in schema/answers/, and keeps to it.
#include <catch2/catch.hpp>

#include <sys/wait.h>

#include <cstdio>
#include <filesystem>
#include <fstream>
#include <set>
#include <string>
#include <vector>

#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validation_results.hpp>
#include <valijson/validator.hpp>

#include "tests/scratch_folder.h"

namespace fs = std::filesystem;
using nlohmann::json;

namespace {

const fs::path source_dir = CASEBOUND_SOURCE_DIR, binary_dir = CASEBOUND_BINARY_DIR;

std::string output_of(const std::string& home, const std::string& words) {
    const bool serves = words.rfind("page", 0) == 0;  // until it is told to end
    const auto said = "'" + home + "/said.json'";
    auto command = "CASEBOUND_HOME='" + home + "' CASEBOUND_TODAY=2026-11-25 '" + (binary_dir / "casebound").string() +
                   "' " + words + " --json 2>/dev/null";
    if (serves)
        command += " > " + said + " & n=0; until [ -s " + said +
                   " ] || [ $n = 1000 ]; do sleep 0.02; n=$((n + 1)); done; kill $!; wait; cat " + said;
    std::string output;
    FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe);
    char buffer[4096];
    for (std::size_t got; (got = fread(buffer, 1, sizeof buffer, pipe)) > 0;) output.append(buffer, got);
    pclose(pipe);
    return output;
}

json read(const fs::path& file) {
    std::ifstream in(file);
    return json::parse(in);
}

// What does not keep to the schema, one line each; empty when all does.
std::string faults(const json& schema_text, const json& document) {
    valijson::Schema schema;
    valijson::SchemaParser parser;
    parser.populateSchema(valijson::adapters::NlohmannJsonAdapter(schema_text), schema);
    valijson::Validator validator;
    valijson::ValidationResults results;
    const valijson::adapters::NlohmannJsonAdapter target(document);
    if (validator.validate(schema, target, &results)) return "";
    std::string text;
    for (const auto& error : results) {
        for (const auto& part : error.context) text += part;
        text += ": " + error.description + "\n";
    }
    return text;
}

struct Home {
    ScratchFolder scratch;
    Home() {
        std::string packs;
        for (const auto& entry : fs::directory_iterator(source_dir / "seed-data"))
            if (entry.is_directory() && entry.path().filename() != "demo-fleet")
                packs += " '" + entry.path().string() + "'";
        first = output_of(scratch.path(),
                          "pack load" + packs + " '" + (source_dir / "seed-data/demo-fleet").string() + "'");
    }
    std::string first;
};

}  // namespace

TEST_CASE("every command answers in JSON as its schema says") {
    Home home;
    const auto at = home.scratch.path();
    const auto seed = (source_dir / "seed-data").string();
    const auto photo = (source_dir / "tests/ground/photos/plain.jpg").string();
    std::ofstream(home.scratch.file("notjson")) << "x";
    std::ofstream(home.scratch.file("thread_offers.csv"))
        << "seller,item,price,returnable,days,carriage\nPier,LD-K4142,44,yes,5,4.50\nPier,Q-QF4-5,36,no,5,\n";
    const std::vector<std::string> asked{
        "shop set currency=crowns",
        "offer load '" + at + "/thread_offers.csv'",
        "offer list",
        "shelf put item=Q-QF4-5 quantity=1L",
        "shelf list",
        "vehicle new c quernmoor-packet year=2007 engine=2.6 cooler=no pan_depth=41mm measured",
        "vehicle new d quernmoor-packet year=2007 engine=2.6 cooler=no measured",
        "buy c pan-service",
        "buy c pan-service --within 1",
        "buy d pan-service",
        "vehicle new e quernmoor-packet year=2007 engine=2.6 cooler=no pan_depth=41mm seller-said",
        "vehicle correct e --market islands",
        "buy e pan-service",
        "buy d pan-service --without drain-plug-washer",
        "decide c",
        "decide c purchase=1 look=pan worked=3 failed=1",
        "decide c --failed-fix",
        "record c start job=pan-service",
        "record c received role=pan-filter item=LD-K4142 seller=Pier",
        "buy c pan-service --ordered",
        "shelf keep c",
        "decide c --job pan-service",
        "record c received role=pan-gasket item=Q312-5116 seller=Pier",
        "record c does-not-fit role=pan-gasket item=Q312-5116 measured=thin pack='" + at + "/ownpack'",
        "due",
        "sheet c",
        "sheet c order",
        "sheet d order pan-service",
        "sheet c bench-match",
        "sheet c history",
        "sheet c disclosure",
        "record c fitted role=pan-filter item=Q312-1141 made=new",
        "keep c applications role=pan-filter item=Q312-1141 --pack '" + at + "/ownpack'",
        "close c pan-service cause=seal worked=yes hours=2 money=0 open=counted",
        "shop settings",
        "shop export '" + at + "/out'",
        "shop backup '" + at + "/away'",
        "shop restore '" + at + "/away/'*.tar --shop '" + at + "/restored.sqlite'",
        "vehicle list",
        "vehicle new a quernmoor-packet year=2007 measured",
        "vehicle new b skarn-tender drive=4wd measured",
        "vehicle tell a engine=2.6 cooler=no measured",
        "vehicle show a",
        "vehicle tell a pan_depth=41mm measured --photo '" + photo + "'",
        "vehicle photos a",
        "why a LD-2161",
        "sheet a history",
        "triage a",
        "vehicle tell a gears_obtained=3-3-3-3 fluid_smell=none seller-said",
        "triage a",
        "triage a purchase=900 sale=2600 as-is=400 seller-right=80%",
        "vehicle list",
        "fits a",
        "fits b",
        "ask a",
        "ask b pan-service",
        "list a pan-service engine-mounts",
        "list b pan-service shift-solenoid-a",
        "why a LD-2161",
        "why a SW-ALL-1",
        "why a DOT-4",
        "swap QF-3 QF-4",
        "swap QF-4 QF-3",
        "swap QF-LV SW-ALL-5",
        "swap mount-pk-l-hyd-26 mount-pk-l-solid --for a",
        "note a pan-filter Q312-1141 --says 'the label'",
        "own show",
        "own tables",
        "own correct 1 --where pan_depth=41mm",
        "own withdraw 2",
        "find filter 41",
        "pack diff own-pack own-pack",
        "pack load --preview '" + seed + "/mounts'",
        "audit",
        "audit --sources",
        "tables",
        "tables filters-seals-sizes",
        "tables ring, 1.8 section, 9.2 inside",
        "plugin list",
        "plugin check",
        "pack list",
        "pack words seal",
        "pack check '" + seed + "/mounts'",
        "pack check '" + at + "'",
        "pack check '" + (source_dir / "tests/cases/lists/made/prices.ods").string() + "'",
        "pack draft '" + at + "/thread_offers.csv' '" + at + "/pier' --kind pan-filter --seller Pier",
        "pack draft '" + at + "/thread_offers.csv' '" + at +
            "/pier' --kind pan-filter --seller Pier --column returnable=line --confirm",
        "pack load '" + seed + "/mounts'",
        "pack new '" + at + "/own'",
        "domain new brake_hoses '" + at + "/project'",
        "pack drop own-pack --yes",
        "transmission_fluids",
        "transmission_fluids viscosity-index kv40=34 kv100=7.1",
        "filters_seals",
        "mounts",
        "solenoids",
        "vehicle forget b --yes",
        "page --port 0"};
    std::set<std::string> seen;
    std::vector<std::string> outputs{home.first};
    for (const auto& words : asked) outputs.push_back(output_of(at, words));
    for (std::size_t i = 0; i < outputs.size(); ++i) {
        INFO((i == 0 ? "pack load" : asked[i - 1]) << "\n" << outputs[i].substr(0, 400));
        if (outputs[i].empty()) {  // an error answers on stderr alone
            CHECK(i > 0);
            continue;
        }
        const auto document = json::parse(outputs[i]);
        const auto name = document.at("schema").get<std::string>();
        REQUIRE(name.rfind("casebound.", 0) == 0);
        const auto stem = name.substr(10, name.find('/') - 10);
        seen.insert(stem);
        CHECK(faults(read(source_dir / "schema/answers" / (stem + ".json")), document) == "");
    }
    for (const auto& entry : fs::directory_iterator(source_dir / "schema/answers")) {
        INFO("no command was asked that answers by " << entry.path().filename());
        CHECK(seen.count(entry.path().stem().string()) == 1);
    }
}

TEST_CASE("a JSON answer with a field too many or too few does not pass its schema") {
    Home home;
    const auto schema = read(source_dir / "schema/answers/vehicles.json");
    auto document = json::parse(output_of(home.scratch.path(), "vehicle list"));
    CHECK(faults(schema, document) == "");
    document["guess"] = 1;
    CHECK(faults(schema, document) != "");
    document.erase("guess");
    document.erase("vehicles");
    CHECK(faults(schema, document) != "");
}
