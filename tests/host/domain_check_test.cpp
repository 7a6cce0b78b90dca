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
    std::string_view title() const override { return about; }
    Vocabulary vocabulary() const override { return words; }
    std::string_view schema() const override { return sql; }
    std::vector<Inquiry> inquiries() const override { return asked; }
};

Answer nothing(const Given&, const Services&) { return Answer::computing(); }

Declared sound() {
    Declared domain;
    domain.words = {{{"rack_play", "play of the rack", ValueKind::number, "mm", 0.1, "Turn the wheel.", 5}},
                    {{"rack", "rack", "each"}},
                    {{"rack-end-2", "rack end", "rack", StandIns::may_be_offered}}};
    domain.asked = {{"play", "Is the play too large?", {number_input("play", "play", "mm", 0, 9)}, nothing}};
    domain.sql = "CREATE TABLE racks_racks (x)";
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
    CHECK(steps == "in title(); in vocabulary(); in schema(); in inquiries(); after its last answer; ");
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
    SECTION("a schema that reaches too far") {
        domain.sql = "CREATE TABLE pumps_x (x)";
        CHECK_THAT(only_fault(domain), Contains("schema of racks: CREATE TABLE pumps_x"));
    }
}

TEST_CASE("all faults are told together") {
    auto domain = sound();
    domain.words.attributes[0].name = "RackPlay";
    domain.words.roles[0].title = "";
    domain.asked[0].run = nullptr;
    CHECK(faults(domain).size() == 3);
}
