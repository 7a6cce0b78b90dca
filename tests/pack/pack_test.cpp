// Packs in and out of the catalog: what is stored, what is a no-op, what is refused because others need it.
#include <catch2/catch.hpp>

#include <functional>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/pack/facts.h"
#include "tests/pack/pack_fixture.h"

using namespace casebound;
using namespace casebound::tests;

namespace {

// Loads, and says what was wrong.
std::string load(const PackFolder& pack, const CatalogFolder& catalog, const Plugins& with_plugins = plugins()) {
    return joined(texts(load_pack(pack.path(), catalog.path(), with_plugins).faults));
}

std::string refusal_of(const std::function<void()>& deed) {
    try {
        deed();
    } catch (const Error& error) { return error.what(); }
    return "nothing was refused";
}

// More than a megabyte of applications; `last` is the line's name in the last row.
Files large_yard(const std::string& last) {
    auto files = yard();
    auto& rows = files.at("applications.csv");
    for (int i = 0; i < 30000; ++i)
        rows += fmt::format("plover,washer,fits,fluid,year=200{},{},\"the {}th of many rows\",,s-made\n", 3 + i % 3,
                            1 + i % 7, i);
    rows += last + ",washer,fits,fluid,,2,the last,,s-made\n";
    return files;
}

}  // namespace

TEST_CASE("what a pack says comes back from the catalog row by row") {
    const CatalogFolder catalog;
    const PackFolder pack(yard());
    REQUIRE(load(pack, catalog).empty());
    CHECK(catalog.integer("SELECT count(*) FROM applications") == 6);
    CHECK(catalog.text("SELECT line || '|' || role || '|' || says || '|' || group_key || '|' || condition || '|' || "
                       "quantity || '|' || source FROM applications ORDER BY origin LIMIT 1") ==
          "tern|head-lamp|fits|round|depth<=40mm|2.0|s-made");
    CHECK(catalog.text("SELECT note FROM applications WHERE says = 'does_not_fit'") == "rim too small, by eye");
    CHECK(catalog.text("SELECT withdrawn FROM applications WHERE withdrawn IS NOT NULL") == "mixed up with another");
    CHECK(catalog.integer("SELECT count(*) FROM applications WHERE group_key IS NULL AND says = 'none_needed'") == 1);
    CHECK(catalog.text(
              "SELECT item || '|' || kind || '|' || title || '|' || pack_quantity FROM items WHERE item = 'OIL-5'") ==
          "OIL-5|washer-fluid|Washer fluid, 5 L|5.0");
    CHECK(catalog.text("SELECT basis FROM group_members WHERE item = 'OIL-5'") == "claimed");
    CHECK(catalog.integer("SELECT origin & 0xffffffff FROM items WHERE item = 'BW-3'") == 4);
    CHECK(catalog.integer("SELECT origin >> 32 FROM lamps_lamps LIMIT 1") ==
          catalog.integer("SELECT id FROM pack WHERE name = 'yard'"));
    CHECK(catalog.text("SELECT domain FROM known_role WHERE role = 'head-lamp'") == "lamps");
    CHECK(catalog.text("SELECT domain FROM known_attribute WHERE attribute = 'bulkhead'") == "pack yard");
    CHECK(catalog.text("SELECT choices FROM known_attribute WHERE attribute = 'socket'") == "round|square");
    CHECK(catalog.text("SELECT domain FROM known_attribute WHERE attribute = 'year'") == "core");
}

TEST_CASE("the tables of a line's applications and a group's members lie in key order") {
    const CatalogFolder catalog;
    REQUIRE(load(PackFolder(yard()), catalog).empty());
    REQUIRE(load(PackFolder(depot(), "depot"), catalog).empty());
    const auto tern = catalog.integer("SELECT id FROM name WHERE text = 'tern'");
    CHECK(catalog.integer("SELECT count(*) FROM application WHERE id >> 20 = " + std::to_string(tern)) == 4);
    CHECK(catalog.integer("SELECT max(id) & 1048575 FROM application WHERE id >> 20 = " + std::to_string(tern)) == 3);
    CHECK(catalog.text("SELECT source FROM applications WHERE line = 'tern' ORDER BY origin DESC LIMIT 1") == "d-made");
    CHECK(catalog.integer(
              "SELECT max(id) & 1048575 FROM member WHERE id >> 20 = (SELECT id FROM name WHERE text = 'round')") == 2);
}

TEST_CASE("loading the same pack twice changes nothing, a changed one replaces it whole") {
    const CatalogFolder catalog;
    const PackFolder pack(yard());
    const auto first = load_pack(pack.path(), catalog.path(), plugins());
    CHECK_FALSE(first.summary.unchanged);
    CHECK(first.summary.rows.size() == 15);
    const auto bytes = catalog.bytes();
    CHECK(load_pack(pack.path(), catalog.path(), plugins()).summary.unchanged);
    CHECK(catalog.bytes() == bytes);
    const auto dump = catalog.dump();
    pack.replace("jobs.csv", "Change a lamp", "Change the lamp");
    const auto changed = load_pack(pack.path(), catalog.path(), plugins());
    CHECK(changed.faults.empty());
    CHECK_FALSE(changed.summary.unchanged);
    CHECK(catalog.text("SELECT title FROM jobs") == "Change the lamp");
    pack.replace("jobs.csv", "Change the lamp", "Change a lamp");
    REQUIRE(load(pack, catalog).empty());
    CHECK(catalog.dump() == dump);
}

TEST_CASE("checking a pack changes nothing, and finds what loading would") {
    const CatalogFolder catalog;
    const PackFolder pack(yard());
    REQUIRE(load(pack, catalog).empty());
    const auto dump = catalog.dump();
    pack.replace("jobs.csv", "lamp,20", "lamp,25");
    CHECK(check_pack(pack.path(), catalog.path(), plugins()).faults.empty());
    CHECK(catalog.dump() == dump);
    pack.replace("lamps_lamps.csv", "square,60", "square,600");
    CHECK(texts(check_pack(pack.path(), catalog.path(), plugins()).faults) ==
          std::vector<std::string>{"lamps_lamps.csv:3:2: power_w: no lamp draws this much: write W"});
    CHECK(catalog.dump() == dump);
}

TEST_CASE("a domain's check sees the rows of the pack as they will be, and its no rolls everything back") {
    class Curious final : public LampDomain {
    public:
        std::vector<RowFault> check(const Facts& facts, std::string_view pack) const override {
            applications = facts.rows("applications", "line", "tern").size();
            lamps_seen = facts.rows("lamps_lamps").size();
            members = facts.rows("group_members", "group_key", "round").size();
            refused = false;
            try {
                facts.rows("known_role");
            } catch (const std::invalid_argument&) { refused = true; }
            const auto row = facts.rows("lamps_lamps", "group_key", "square").at(0);
            CHECK(row.origin.pack == pack);
            CHECK(row.origin.file == "lamps_lamps.csv");
            CHECK(row.origin.line == 3);
            CHECK(row.origin.source == "Label on the box");
            CHECK(row.origin.evidence == Evidence::measured);
            CHECK(row.text("power_w") == "60");
            CHECK(row.text("low_v").empty());
            return say_no ? std::vector<RowFault>{{row.origin, "power_w", "no"}, {{}, "", "no in general"}}
                          : std::vector<RowFault>{};
        }
        mutable std::size_t applications = 0, lamps_seen = 0, members = 0;
        mutable bool refused = false;
        bool say_no = false;
    };
    Curious domain;
    const auto curious = with(domain);
    const CatalogFolder catalog;
    const PackFolder pack(yard());
    REQUIRE(load(pack, catalog, curious).empty());
    CHECK(domain.applications == 3);
    CHECK(domain.lamps_seen == 2);
    CHECK(domain.members == 1);
    CHECK(domain.refused);
    const auto dump = catalog.dump();
    domain.say_no = true;
    pack.replace("jobs.csv", "lamp,20", "lamp,25");
    CHECK(load(pack, catalog, curious) == "no in general\nlamps_lamps.csv:3:2: power_w: no\n");
    CHECK(catalog.dump() == dump);
}

TEST_CASE("a domain whose check throws loads nothing") {
    class Broken final : public LampDomain {
        std::vector<RowFault> check(const Facts& facts, std::string_view) const override {
            facts.rows("no_such_table");
            return {};
        }
    };
    const Broken domain;
    const CatalogFolder catalog;
    CHECK_THAT(load(PackFolder(yard()), catalog, with(domain)),
               Catch::StartsWith("datapackage.json: lamps failed in check(yard): rows of `no_such_table`"));
    CHECK(catalog.integer("SELECT count(*) FROM pack") == 0);
}

TEST_CASE("a pack with rows of a domain that is not loaded is refused by the domain's name") {
    const CatalogFolder catalog;
    const PackFolder pack(yard());
    CHECK_THAT(load(pack, catalog, {}),
               Catch::Contains(
                   "resources[14].name: `lamps_lamps` is not a table of core, and no domain that is loaded has it"));
    REQUIRE(load(pack, catalog).empty());
    const auto dump = catalog.dump();
    pack.replace("jobs.csv", "lamp,20", "lamp,25");
    CHECK_THAT(
        load(pack, catalog, {}),
        Catch::Equals(
            "datapackage.json: resources[14].name: domain lamps is not loaded: `casebound plugin list` says why\n"));
    CHECK(catalog.dump() == dump);
}

TEST_CASE("a domain whose plugin was refused is named, even in a new catalog") {
    const CatalogFolder catalog;
    Plugins refused;
    refused.refused.push_back({"/somewhere/lamps.so", "another stamp"});
    CHECK(load(PackFolder(yard()), catalog, refused).find("resources[14].name: domain lamps is not loaded") !=
          std::string::npos);
}

TEST_CASE("roles of a domain that is not loaded today are still known") {
    const CatalogFolder catalog;
    REQUIRE(load(PackFolder(yard()), catalog).empty());
    const PackFolder other(depot(), "depot");
    CHECK(load(other, catalog, {}).empty());
    CHECK(catalog.text("SELECT domain FROM known_role WHERE role = 'head-lamp'") == "lamps");
}

TEST_CASE("one pack may refer to another, and a key that both give is refused with both places") {
    const CatalogFolder catalog;
    REQUIRE(load(PackFolder(yard()), catalog).empty());
    const PackFolder other(depot(), "depot");
    REQUIRE(load(other, catalog).empty());
    const auto dump = catalog.dump();
    other.replace("items.csv", "NK-9,", "BW-1,");
    CHECK_THAT(load(other, catalog),
               Catch::Contains("items.csv:2:1: item: `BW-1` is already in pack yard, items.csv:2: rename it"));
    other.replace("items.csv", "BW-1,", "NK-9,");
    other.replace("group_members.csv", "BW-3,claimed", "BW-1,claimed");
    CHECK_THAT(load(other, catalog), Catch::Equals("group_members.csv:3:1: group_key: group_key, item are already in "
                                                   "pack yard, group_members.csv:2: round,BW-1; delete one row\n"));
    CHECK(catalog.dump() == dump);
}

TEST_CASE("a pack that refers to one that is not there is refused") {
    const CatalogFolder catalog;
    CHECK_THAT(load(PackFolder(depot(), "depot"), catalog),
               Catch::Contains("group_members.csv:2:1: group_key: `round` is not in groups of this pack or another"));
    CHECK(catalog.integer("SELECT count(*) FROM pack") == 0);
}

TEST_CASE("a loop of supersedes across packs is printed") {
    const CatalogFolder catalog;
    REQUIRE(load(PackFolder(yard()), catalog).empty());
    auto files = depot();
    files["stand_ins.csv"] =
        "offered,relation,wanted,condition,requirement,also_requires,difference,withdrawn,source\nsquare,supersedes,"
        "round,,,,,,d-made\n";
    CHECK_THAT(load(PackFolder(files, "depot"), catalog),
               Catch::Contains("stand_ins.csv:2:1: offered: a loop of supersedes: square -> round -> square"));
    files["stand_ins.csv"] =
        "offered,relation,wanted,condition,requirement,also_requires,difference,withdrawn,source\nsquare,supersedes,"
        "round,,,,,it was a misprint,d-made\n";
    CHECK(load(PackFolder(files, "depot"), catalog).empty());
}

TEST_CASE("a kit that contains itself through another pack is printed") {
    const CatalogFolder catalog;
    REQUIRE(load(PackFolder(yard()), catalog).empty());
    auto files = depot();
    files["items.csv"] += "KIT-2,kit,Large kit,1,,d-made\n";
    files["kit_contents.csv"] = "kit,group_key,quantity,source\nKIT-2,kits,1,d-made\n";
    CHECK(load(PackFolder(files, "depot"), catalog).empty());
    files["group_members.csv"] += "kits,KIT-2,same,d-made\n";
    CHECK_THAT(load(PackFolder(files, "depot"), catalog),
               Catch::Contains("a kit that contains itself: KIT-2 -> kits -> KIT-2"));
}

TEST_CASE("dropping a pack leaves the catalog as if it had never been there") {
    const CatalogFolder catalog;
    REQUIRE(load(PackFolder(yard()), catalog).empty());
    const auto dump = catalog.dump();
    REQUIRE(load(PackFolder(depot(), "depot"), catalog).empty());
    const auto summary = drop_pack("depot", catalog.path());
    CHECK(summary.name == "depot");
    CHECK(catalog.dump() == dump);
    drop_pack("yard", catalog.path());
    for (const char* table : {"pack", "name", "item", "item_group", "member", "application", "lamps_lamps", "sources"})
        CHECK(catalog.integer(std::string("SELECT count(*) FROM ") + table) == 0);
    CHECK(list_packs(catalog.path()).empty());
    CHECK(catalog.text("SELECT domain FROM known_role WHERE role = 'washer'") == "lamps");
}

TEST_CASE("a pack that others need is not dropped, and every row that needs it is named") {
    const CatalogFolder catalog;
    REQUIRE(load(PackFolder(yard()), catalog).empty());
    REQUIRE(load(PackFolder(depot(), "depot"), catalog).empty());
    const auto dump = catalog.dump();
    const auto refusal = refusal_of([&] { drop_pack("yard", catalog.path()); });
    CHECK_THAT(refusal, Catch::StartsWith("pack yard: not dropped: other packs need it"));
    for (const char* place : {"`round` is still needed by pack depot, group_members.csv:2 (group_key)",
                              "`BW-3` is still needed by pack depot, group_members.csv:3 (item)",
                              "`tern` is still needed by pack depot, applications.csv:2 (line)",
                              "`s-made` is still needed by pack depot, applications.csv:3 (source)",
                              "`deep` is still needed by pack depot, stand_ins.csv:2 (wanted)",
                              "`kits` is still needed by pack depot, stand_ins.csv:2 (also_requires)"})
        CHECK_THAT(refusal, Catch::Contains(place));
    CHECK(catalog.dump() == dump);
    CHECK_THAT(refusal_of([&] { drop_pack("depo", catalog.path()); }), Catch::Contains("did you mean depot?"));
}

TEST_CASE("a new version of a pack may not pull the ground from under another") {
    const CatalogFolder catalog;
    REQUIRE(load(PackFolder(yard()), catalog).empty());
    REQUIRE(load(PackFolder(depot(), "depot"), catalog).empty());
    const auto refused = [&](const std::string& file, const std::string& from, const std::string& to,
                             const std::string& fault) {
        const PackFolder pack(yard());
        const auto dump = catalog.dump();
        pack.replace(file, from, to);
        CHECK(load(pack, catalog) == fault);
        CHECK(catalog.dump() == dump);
    };
    auto files = yard();
    files["groups.csv"].erase(files["groups.csv"].find("kits,kit,kits,s-made\n"), 21);
    files["group_members.csv"].erase(files["group_members.csv"].find("kits,KIT-1,same,s-made\n"), 23);
    const auto dump = catalog.dump();
    CHECK(load(PackFolder(files), catalog) ==
          "groups.csv: `kits` is still needed by pack depot, stand_ins.csv:2 (also_requires): keep it, or change that "
          "pack first\n");
    CHECK(catalog.dump() == dump);
    refused("configurations.csv", "engine=2.0|2.2", "engine=2.1|2.2",
            "configurations.csv: the condition of pack depot, applications.csv:2 would no longer hold: no "
            "configuration of tern has engine=2.0: there is 2.1, 2.2: keep it, or change that pack first\n");
    const PackFolder sound(yard());
    sound.replace("group_members.csv", "kits,KIT-1,same,s-made\n", "");
    CHECK(load(sound, catalog).empty());
}

TEST_CASE("a group that another pack counts on keeps its kind") {
    const CatalogFolder catalog;
    REQUIRE(load(PackFolder(yard()), catalog).empty());
    auto other = depot();
    other.erase("stand_ins.csv");
    other["applications.csv"] = "line,role,says,group_key,condition,quantity,note,withdrawn,source\n";
    other["group_members.csv"] = "group_key,item,basis,source\nkits,KIT-2,same,d-made\n";
    other["items.csv"] = "item,kind,title,pack_quantity,withdrawn,source\nKIT-2,kit,Kit,1,,d-made\n";
    REQUIRE(load(PackFolder(other, "depot"), catalog).empty());
    const PackFolder pack(yard());
    pack.replace("groups.csv", "kits,kit,kits", "kits,lamp,kits");
    pack.replace("group_members.csv", "kits,KIT-1,same,s-made\n", "");
    CHECK(load(pack, catalog) ==
          "groups.csv: `kits` must stay of kind kit: pack depot, group_members.csv:2 counts on it: keep it, or change "
          "that pack first\n");
}

TEST_CASE("an attribute that another pack uses stays as it is") {
    const CatalogFolder catalog;
    REQUIRE(load(PackFolder(yard()), catalog).empty());
    auto other = depot();
    other["stand_ins.csv"] =
        "offered,relation,wanted,condition,requirement,also_requires,difference,withdrawn,source\nround,stands_in_if,"
        "deep,bulkhead=yes,,,,,d-made\n";
    REQUIRE(load(PackFolder(other, "depot"), catalog).empty());
    auto files = yard();
    files.erase("attributes.csv");
    files["configurations.csv"].erase(files["configurations.csv"].find("; bulkhead=yes|no"), 17);
    files["applications.csv"].erase(files["applications.csv"].find("plover,head-lamp"));
    const auto faults = load(PackFolder(files), catalog);
    CHECK_THAT(faults, Catch::Contains("attributes.csv: pack depot, stand_ins.csv:2 would no longer hold: at character "
                                       "1: `bulkhead` is not an attribute"));
    CHECK_THAT(faults, Catch::Contains("configurations.csv: the condition of pack depot, applications.csv:3 would no "
                                       "longer hold: at character 1: `bulkhead` is not an attribute"));
}

TEST_CASE("a line's configurations may come from two packs, but with the same attributes and each once") {
    const CatalogFolder catalog;
    REQUIRE(load(PackFolder(yard()), catalog).empty());
    auto files = depot();
    const std::string header = "line,attribute_values,share,source\n";
    files["configurations.csv"] = header + "tern,engine=2.4; drive=4wd; depth=58mm,,d-made\n";
    REQUIRE(load(PackFolder(files, "depot"), catalog).empty());
    files["configurations.csv"] = header + "tern,engine=2.2; drive=4wd; depth=5.8cm,,d-made\n";
    CHECK_THAT(load(PackFolder(files, "depot"), catalog),
               Catch::Contains("configurations.csv:2:2: attribute_values: a configuration of it stands on pack yard, "
                               "configurations.csv:3 already"));
    files["configurations.csv"] = header + "tern,engine=2.4; drive=4wd,,d-made\n";
    CHECK_THAT(load(PackFolder(files, "depot"), catalog),
               Catch::Contains("configurations.csv:2:2: attribute_values: gives drive, engine, but pack yard, "
                               "configurations.csv:2 gives depth, drive, engine"));
}

TEST_CASE("a large table is stored row by row, and a fault in its last row is found and nothing loaded") {
    const CatalogFolder catalog;
    const PackFolder sound(large_yard("plover"));
    const auto report = load_pack(sound.path(), catalog.path(), plugins());
    for (const auto& fault : report.faults) FAIL(fault.text());
    CHECK(catalog.integer("SELECT count(*) FROM application") == 6 + 30001);
    CHECK(catalog.integer("SELECT count(*) FROM applications WHERE note = 'the ' || (((origin & 4294967295) - 8) || "
                          "'th of many rows') AND line = 'plover' AND quantity = 1 + ((origin & 4294967295) - 8) % 7 "
                          "AND condition = 'year=' || (2003 + ((origin & 4294967295) - 8) % 3)") == 30000);
    CHECK(catalog.integer("SELECT count(*) FROM applications WHERE note = 'the last' AND condition IS NULL") == 1);
    const auto before = catalog.dump();
    const PackFolder wrong(large_yard("plovr"));
    const auto refused = load_pack(wrong.path(), catalog.path(), plugins());
    REQUIRE(refused.faults.size() == 1);
    CHECK(refused.faults[0].file == "applications.csv");
    CHECK(refused.faults[0].line == 30008);
    CHECK(refused.faults[0].text().find("did you mean plover?") != std::string::npos);
    CHECK(catalog.dump() == before);
}
