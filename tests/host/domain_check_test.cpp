// The form of what a domain declares; every fault is told, not the first.
#include <catch2/catch.hpp>

#include <string>

#include "core/contract/inquiry_inputs.h"
#include "core/ground/error.h"
#include "core/host/domain_check.h"

using namespace casebound;
using Catch::Contains;

namespace {

struct Declared : Domain {
    std::string about = "racks";
    Vocabulary words;
    std::vector<Inquiry> asked;
    std::string sql;
    std::vector<std::string> other_tables;
    std::vector<ServiceInquiry> services;
    std::string_view title() const override { return about; }
    Vocabulary vocabulary() const override { return words; }
    std::string_view schema() const override { return sql; }
    std::vector<Inquiry> inquiries() const override { return asked; }
    std::vector<std::string> reads() const override { return other_tables; }
    std::vector<ServiceInquiry> services_due() const override { return services; }
};

Answer nothing(const Given&, const Services&) { return Answer::computing(); }

Declared sound() {
    Declared domain;
    domain.words = {{{"rack_play", "play of the rack", ValueKind::number, "mm", 0.1, "Turn the wheel.", 5}},
                    {{"rack", "rack", "each"}},
                    {{"rack-end-2", "rack end", "rack", StandIns::may_be_offered}}};
    domain.asked = {{"play", "Is the play too large?", {number_input("play", "play", "mm", 0, 9)}, nothing}};
    domain.sql =
        "CREATE TABLE racks_racks (\n  origin INTEGER PRIMARY KEY,\n  group_key TEXT,  -- the rack\n"
        "  play_mm REAL,  -- play, mm\n  source TEXT NOT NULL REFERENCES sources (source)  -- from where\n"
        ") STRICT;";
    return domain;
}

std::vector<std::string> faults(const Declared& domain) {
    try {
        check_domain(domain, "racks", [](std::string_view) {});
    } catch (const Error& error) { return error.all(); }
    return {};
}

std::string only_fault(const Declared& domain) {
    const auto all = faults(domain);
    return all.size() == 1 ? all[0] : std::to_string(all.size()) + " faults";
}

}  // namespace

TEST_CASE("names are snake_case or kebab-case, with nothing at the ends and no joint twice") {
    for (const std::string_view name : {"a", "pan_depth", "axle2_ratio", "p_2"}) CHECK(is_snake_case(name));
    for (const std::string_view name : {"", "_a", "a_", "a__b", "2a", "A", "a-b", "a b", "\xc3\xa4", "a_b\n"})
        CHECK_FALSE(is_snake_case(name));
    for (const std::string_view name : {"a", "filter-neck-seal", "s1-2"}) CHECK(is_kebab_case(name));
    for (const std::string_view name : {"", "-a", "a-", "a--b", "a_b", "A-b"}) CHECK_FALSE(is_kebab_case(name));
}

TEST_CASE("a domain in good form has no fault, and is asked in a fixed order") {
    std::string steps;
    CHECK_NOTHROW(check_domain(sound(), "racks", [&](std::string_view step) { steps += std::string(step) + "; "; }));
    CHECK(steps ==
          "in title(); in vocabulary(); in schema(); in reads(); in inquiries(); in services_due(); after its last "
          "answer; ");
}

TEST_CASE("each fault of form is told with what to do") {
    auto domain = sound();
    SECTION("an attribute's name") {
        domain.words.attributes[0].name = "rack-play";
        CHECK(only_fault(domain) == "attribute `rack-play` is not snake_case: rename it");
    }
    SECTION("an attribute without a title") {
        domain.words.attributes[0].title = "";
        CHECK_THAT(only_fault(domain), Contains("`rack_play` has no title: say what it is"));
    }
    SECTION("an attribute nobody can find out") {
        domain.words.attributes[0].how = "";
        CHECK_THAT(only_fault(domain), Contains("does not say how to find it out"));
    }
    SECTION("no effort") {
        domain.words.attributes[0].minutes = 0;
        CHECK_THAT(only_fault(domain), Contains("give minutes above 0"));
    }
    SECTION("a tolerance below nothing") {
        domain.words.attributes[0].tolerance = -1;
        CHECK_THAT(only_fault(domain), Contains("has a tolerance below 0"));
    }
    SECTION("an item kind's unit") {
        domain.words.item_kinds[0].unit = "";
        CHECK_THAT(only_fault(domain), Contains("item kind `rack` has no title or no unit"));
    }
    SECTION("a role's item kind") {
        domain.words.roles[0].item_kind = "";
        CHECK_THAT(only_fault(domain), Contains("role `rack-end-2` has no title or no item kind"));
    }
    SECTION("a word twice") {
        domain.words.roles.push_back(domain.words.roles[0]);
        CHECK(only_fault(domain) == "role `rack-end-2` is declared twice: keep one");
    }
    SECTION("an inquiry without a computation") {
        domain.asked[0].run = nullptr;
        CHECK_THAT(only_fault(domain), Contains("inquiry `play` has no computation: set its `run`"));
    }
    SECTION("an inquiry's name") {
        domain.asked[0].name = "Play";
        CHECK_THAT(only_fault(domain), Contains("inquiry `Play` is not kebab-case"));
    }
    SECTION("an input twice") {
        domain.asked[0].inputs.push_back(domain.asked[0].inputs[0]);
        CHECK_THAT(only_fault(domain), Contains("inquiry `play`: input `play` is declared twice"));
    }
    SECTION("an input without a name") {
        domain.asked[0].inputs[0].name = "";
        CHECK_THAT(only_fault(domain), Contains("has no name"));
    }
    SECTION("a choice of nothing") {
        domain.asked[0].inputs[0].kind = Input::Kind::choice;
        CHECK_THAT(only_fault(domain), Contains("is a choice of nothing: list the choices"));
    }
    SECTION("a range upside down") {
        domain.asked[0].inputs[0].min = 10;
        CHECK_THAT(only_fault(domain), Contains("has no valid range"));
    }
    SECTION("no title") {
        domain.about = "";
        CHECK(only_fault(domain) == "it has no title: say in words what it is about");
    }
    SECTION("a role of a kind that is not declared") {
        domain.words.roles[0].item_kind = "pinion";
        CHECK_THAT(only_fault(domain), Contains("takes items of kind `pinion`, which is not declared"));
    }
    SECTION("units that nobody knows") {
        domain.words.attributes[0].unit = "furlong";
        CHECK_THAT(only_fault(domain),
                   Contains("attribute `rack_play` has the unit `furlong`, which core does not know"));
    }
    SECTION("an item kind counted in what nobody knows") {
        domain.words.item_kinds[0].unit = "bag";
        CHECK_THAT(only_fault(domain), Contains("item kind `rack` has the unit `bag`"));
    }
    SECTION("an input in what nobody knows") {
        domain.asked[0].inputs[0].unit = "furlong";
        CHECK_THAT(only_fault(domain), Contains("input `play` of inquiry `play` has the unit `furlong`"));
    }
    SECTION("an input recorded in a table that is not there") {
        domain.asked[0].inputs[0].recorded = Recorded{"pumps_pumps", "play_mm", {}};
        CHECK_THAT(only_fault(domain), Contains("is recorded in `pumps_pumps`, which is no table of this domain"));
    }
    SECTION("an input recorded in a column that is not there, and one matched by it") {
        domain.asked[0].inputs[0].recorded = Recorded{"racks_racks", "paly_mm", {{"side", "play"}}};
        CHECK(faults(domain).size() == 2);
        CHECK_THAT(faults(domain).at(0),
                   Contains("the column `paly_mm`, which racks_racks does not have: take one of"));
    }
    SECTION("an input matched by one that the inquiry does not have") {
        domain.asked[0].inputs[0].recorded = Recorded{"racks_racks", "play_mm", {{"group_key", "rack"}}};
        CHECK_THAT(only_fault(domain), Contains("matches the input `rack`, which the inquiry does not have"));
    }
    SECTION("a key of a table without keys") {
        domain.asked[0].inputs[0].key_of = "lines";
        CHECK_THAT(only_fault(domain), Contains("the column `group_key`, which lines does not have"));
    }
    SECTION("a role decided by a table that is not there, and by a column that is not") {
        domain.words.roles[0].decided_by = {"pumps_pumps", {{"play_mm", "play, mm"}}};
        CHECK_THAT(faults(domain).at(0), Contains("what decides role `rack-end-2` is recorded in `pumps_pumps`"));
        domain.words.roles[0].decided_by = {"racks_racks", {{"play_mm", "play, mm"}, {"paly_mm", "play, mm"}}};
        CHECK_THAT(only_fault(domain), Contains("the column `paly_mm`, which racks_racks does not have"));
    }
    SECTION("a service of no role of its own, and an input that is not there") {
        domain.services = {{"pump", domain.asked[0], "today", "", "", "", ""}};
        CHECK(faults(domain).size() == 2);
    }
    SECTION("a schema that reaches too far") {
        domain.sql = "CREATE TABLE pumps_x (x)";
        CHECK_THAT(only_fault(domain), Contains("schema of racks: CREATE TABLE pumps_x"));
    }
}

TEST_CASE("an input may be recorded in a column of its own table, of core's, or in a table that the domain reads") {
    auto domain = sound();
    domain.other_tables = {"pumps_pumps"};
    const auto recorded_in = GENERATE(as<std::string>(), "racks_racks", "applications", "pumps_pumps");
    domain.asked[0].inputs[0].recorded = Recorded{
        recorded_in, recorded_in == "applications" ? "quantity" : "play_mm", {}};
    CHECK(faults(domain).empty());
}

TEST_CASE("every law of the schema that is broken is told, for every table") {
    auto domain = sound();
    const auto [sql, parts] = GENERATE(table<std::string, std::vector<std::string>>({
        {"CREATE TABLE racks_a (x TEXT)",
         {"racks_a is not STRICT", "has no `origin INTEGER PRIMARY KEY`", "has no source",
          "does not say what its column x is"}},
        {"CREATE TABLE racks_a (x TEXT, -- x\n origin INTEGER PRIMARY KEY, source TEXT NOT NULL REFERENCES sources "
         "(source) -- s\n) STRICT",
         {"as its first column"}},
        {"CREATE TABLE racks_a (origin INTEGER PRIMARY KEY, source TEXT NOT NULL -- s\n) STRICT",
         {"does not refer to sources (source)"}},
        {"CREATE TABLE racks_a (origin INTEGER PRIMARY KEY, x BLOB, -- x\n source TEXT NOT NULL REFERENCES sources "
         "(source) -- s\n) STRICT",
         {"a column x of the type `BLOB`: use TEXT, REAL or INTEGER"}},
        {"CREATE TABLE racks_a (origin INTEGER PRIMARY KEY, x TEXT REFERENCES items (title), -- x\n source TEXT NOT "
         "NULL "
         "REFERENCES sources (source) -- s\n) STRICT",
         {"refers to items by x: refer by one column to one that is UNIQUE there"}},
    }));
    domain.sql = sql;
    const auto told = faults(domain);
    CHECK(told.size() == parts.size());
    for (std::size_t i = 0; i < std::min(told.size(), parts.size()); ++i) CHECK_THAT(told[i], Contains(parts[i]));
}

TEST_CASE("all faults are told together") {
    auto domain = sound();
    domain.words.attributes[0].name = "RackPlay";
    domain.words.roles[0].title = "";
    domain.asked[0].run = nullptr;
    CHECK(faults(domain).size() == 3);
}
