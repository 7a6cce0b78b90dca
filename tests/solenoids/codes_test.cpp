// Generic trouble codes by number (SAE J2012 / ISO 15031-6).
#include <catch2/catch.hpp>

#include <algorithm>
#include <random>

#include "plugins/solenoids/science/code_list.h"
#include "plugins/solenoids/science/codes.h"

using namespace casebound::solenoids;
using Catch::Matchers::Contains;

namespace {

Code code(const char* text) {
    const auto read = read_code(text);
    REQUIRE(read);
    return *read;
}

std::vector<Code> codes(const std::vector<const char*>& texts) {
    std::vector<Code> all;
    for (const char* text : texts) all.push_back(code(text));
    return all;
}

const std::vector<CodeClass> endings{CodeClass::circuit, CodeClass::stuck_off, CodeClass::stuck_on,
                                     CodeClass::electrical, CodeClass::intermittent};

// The wording published lists agree on, P0740 to P0779, in order of number.
std::vector<CodeRow> published_rows() {
    const std::vector<std::string> solenoid_endings{"Malfunction", "Performance or Stuck Off", "Stuck On", "Electrical",
                                                    "Intermittent"};
    const std::vector<std::string> names{"Torque Converter Clutch Circuit",
                                         "Pressure Control Solenoid",
                                         "Shift Solenoid A",
                                         "Shift Solenoid B",
                                         "Shift Solenoid C",
                                         "Shift Solenoid D",
                                         "Shift Solenoid E",
                                         "Pressure Control Solenoid B"};
    std::vector<CodeRow> rows;
    int number = 740;
    for (const auto& name : names)
        for (const auto& ending : solenoid_endings)
            rows.push_back({code(("P0" + std::to_string(number++)).c_str()), name + " " + ending});
    return rows;
}

}  // namespace

TEST_CASE("P0750 to P0774 are solenoids A to E with the same five endings") {
    int number = 750;
    for (char letter = 'A'; letter <= 'E'; ++letter)
        for (CodeClass ending : endings) {
            const Code one = code(("P0" + std::to_string(number++)).c_str());
            const auto known = meaning(one);
            REQUIRE(known);
            CHECK(known->function == Function::shift_solenoid);
            CHECK(known->which == std::string{letter});
            CHECK(known->kind == ending);
            CHECK(known->evidence == CodeEvidence::lists_agree);
            CHECK(shift_solenoid_code(letter, ending) == one);
        }
    CHECK(number == 775);
}

TEST_CASE("P0751 to P0754 are stuck off, stuck on, electrical, intermittent") {
    CHECK(described(code("P0751")) == "P0751: shift solenoid A, performance or stuck off");
    CHECK(described(code("P0752")) == "P0752: shift solenoid A, stuck on");
    CHECK(described(code("P0753")) == "P0753: shift solenoid A, electrical");
    CHECK(described(code("P0754")) == "P0754: shift solenoid A, intermittent");
    CHECK(described(code("P0750")) == "P0750: shift solenoid A, circuit");
    CHECK(described(code("P0768")) == "P0768: shift solenoid D, electrical");
}

TEST_CASE("converter clutch and pressure control share the five endings") {
    const std::vector<std::pair<int, Function>> bases{{740, Function::converter_clutch},
                                                      {745, Function::pressure_control},
                                                      {775, Function::pressure_control},
                                                      {795, Function::pressure_control}};
    for (const auto& [base, function] : bases)
        for (std::size_t i = 0; i < endings.size(); ++i) {
            const auto known = meaning(code(("P0" + std::to_string(base + static_cast<int>(i))).c_str()));
            REQUIRE(known);
            CHECK(known->function == function);
            CHECK(known->kind == endings[i]);
        }
    CHECK(meaning(code("P0748"))->which == "A");
    CHECK(meaning(code("P0778"))->which == "B");
    CHECK(meaning(code("P0798"))->which == "C");
}

TEST_CASE("ratio codes name their gear") {
    CHECK(described(code("P0730")) == "P0730: gear ratio, incorrect ratio");
    for (int gear = 1; gear <= 5; ++gear)
        CHECK(meaning(code(("P073" + std::to_string(gear)).c_str()))->which == std::to_string(gear));
    CHECK(meaning(code("P0729"))->which == "6");
    CHECK(meaning(code("P0736"))->which == "R");
}

TEST_CASE("P0700 sends one to the transmission controller, P0657 to the supply") {
    const auto request = meaning(code("P0700"));
    CHECK(request->kind == CodeClass::request);
    CHECK(request->evidence == CodeEvidence::from_memory);
    CHECK(where_to_look(CodeClass::request).empty());
    const auto supply = meaning(code("P0657"));
    CHECK(supply->function == Function::actuator_supply);
    CHECK(where_to_look(supply->kind).front() == Cause::shared_feed);
}

TEST_CASE("sensor families read as circuit, range, low, high, intermittent") {
    CHECK(described(code("P0705")) == "P0705: range sensor, circuit");
    CHECK(described(code("P0706")) == "P0706: range sensor, range or performance");
    CHECK(described(code("P0712")) == "P0712: fluid temperature sensor, low");
    CHECK(described(code("P0713")) == "P0713: fluid temperature sensor, high");
    CHECK(described(code("P0717")) == "P0717: input speed, no signal");
    CHECK(described(code("P0718")) == "P0718: input speed, intermittent");
    CHECK(described(code("P0788")) == "P0788: shift timing solenoid A, high");
    CHECK(described(code("P0783")) == "P0783: shift 3-4, malfunction");
}

TEST_CASE("where lists differ or only one speaks, the evidence says so") {
    CHECK(meaning(code("P0722"))->evidence == CodeEvidence::from_memory);
    CHECK(meaning(code("P0720"))->evidence == CodeEvidence::lists_agree);
    CHECK(described(code("P075A")) == "P075A: shift solenoid G, circuit");
    CHECK(described(code("P076E")) == "P076E: shift solenoid H, intermittent");
    CHECK(meaning(code("P075A"))->evidence == CodeEvidence::one_list);
    CHECK(word(CodeEvidence::one_list) == "one published list only");
}

TEST_CASE("a code that is not recorded is not given a meaning") {
    for (const char* text : {"P0719", "P0999", "P0420", "P1750", "C0750", "U0100", "P075F"})
        CHECK_FALSE(meaning(code(text)));
    CHECK(described(code("P0999")) == "P0999: not recorded");
}

TEST_CASE("codes are read whatever the case, and rubbish is not a code") {
    CHECK(read_code(" p075a ") == code("P075A"));
    for (const char* text : {"", "P", "P075", "P07530", "0753", "X0753", "P0G53", "P4753", "PA753", "P 753", "P-753"}) {
        INFO(text);
        CHECK_FALSE(read_code(text));
    }
}

TEST_CASE("every code survives being written and read") {
    for (const char system : {'P', 'C', 'B', 'U'})
        for (unsigned number = 0; number < 0x4000; number += 7) {
            const Code one{system, static_cast<std::uint16_t>(number)};
            REQUIRE(read_code(code_text(one)) == one);
        }
}

TEST_CASE("a maker's own codes are told from generic ones") {
    // Structure of the second and third character: from memory.
    CHECK(is_makers_own(code("P1750")));
    CHECK(is_makers_own(code("P3000")));
    CHECK(is_makers_own(code("P33FF")));
    CHECK_FALSE(is_makers_own(code("P3400")));
    CHECK_FALSE(is_makers_own(code("P0750")));
    CHECK_FALSE(is_makers_own(code("P2750")));
}

TEST_CASE("no number outside A to E and the five endings is a code by function") {
    CHECK_FALSE(shift_solenoid_code('F', CodeClass::circuit));
    CHECK_FALSE(shift_solenoid_code('A', CodeClass::ratio));
    CHECK(shift_solenoid_code('b', CodeClass::stuck_off) == code("P0756"));
}

TEST_CASE("electrical codes point to wiring before the coil, stuck codes to the fluid first") {
    CHECK(where_to_look(CodeClass::electrical).front() == Cause::shared_feed);
    CHECK(where_to_look(CodeClass::stuck_off).front() == Cause::fluid);
    CHECK(where_to_look(CodeClass::ratio).front() == Cause::fluid);
    const auto stuck = where_to_look(CodeClass::stuck_on);
    CHECK(std::find(stuck.begin(), stuck.end(), Cause::coil) == stuck.end());
}

TEST_CASE("three electrical circuits at once point to what they share") {
    // Scenario: stuck in third with two shift solenoids and the lock-up circuit.
    const auto stored = codes({"P0700", "P0753", "P0758", "P0743"});
    CHECK(failed_circuits(stored).size() == 3);
    CHECK(shared_suspicion(stored) == SharedSuspicion::several_circuits);
    const Circuit a{Function::shift_solenoid, "A"};
    const Circuit b{Function::shift_solenoid, "B"};
    const Circuit lock{Function::converter_clutch, ""};
    const Circuit pressure{Function::pressure_control, "A"};
    const auto suspects = suspect_nodes(stored, {{"case connector", {a, b, lock, pressure}},
                                                 {"feed fuse", {a, b, lock}},
                                                 {"shift ground", {a, b}},
                                                 {"pressure feed", {pressure, a}}});
    REQUIRE(suspects.size() == 3);
    CHECK(suspects[0].name == "feed fuse");
    CHECK(suspects[0].failed_on == 3);
    CHECK(suspects[1].name == "case connector");
    CHECK(suspects[1].silent_on == 1);
    CHECK(suspects[2].name == "shift ground");
    CHECK(suspects[2].failed_off == 1);
}

TEST_CASE("two codes of one circuit, or a stuck code beside it, are not several circuits") {
    CHECK(shared_suspicion(codes({"P0750", "P0753"})) == SharedSuspicion::none);
    CHECK(shared_suspicion(codes({"P0753", "P0756"})) == SharedSuspicion::none);
    CHECK(shared_suspicion(codes({"P0753", "P0758"})) == SharedSuspicion::several_circuits);
    CHECK(shared_suspicion({}) == SharedSuspicion::none);
    CHECK(shared_suspicion(codes({"P0657"})) == SharedSuspicion::supply_reported);
    CHECK(suspect_nodes(codes({"P0753"}), {{"fuse", {{Function::shift_solenoid, "A"}}}}).empty());
}

TEST_CASE("the list all public sources agree on is judged to agree") {
    const auto judged = judge_list(published_rows());
    CHECK(judged.verdict == ListVerdict::agrees);
    CHECK(judged.own == 40);
    CHECK(judged.judged == 40);
}

TEST_CASE("a list shifted by one row, either way, is found out") {
    // One much-copied public list gives P0750 the text of P0749.
    auto rows = published_rows();
    const auto good = rows;
    for (std::size_t i = 1; i < rows.size(); ++i) rows[i].text = good[i - 1].text;
    CHECK(judge_list(rows).verdict == ListVerdict::shifted);
    for (std::size_t i = 0; i + 1 < rows.size(); ++i) rows[i].text = good[i + 1].text;
    CHECK(judge_list(rows).verdict == ListVerdict::shifted);
}

TEST_CASE("other wordings are not taken for a shift, and few rows say nothing") {
    auto rows = published_rows();
    for (auto& row : rows) row.text = "something else";
    CHECK(judge_list(rows).verdict == ListVerdict::disagrees);
    rows.resize(4);
    CHECK(judge_list(rows).verdict == ListVerdict::too_short_to_say);
}

TEST_CASE("a date number in place of words is damage from a spreadsheet") {
    // "1-2 Shift Malfunction" became "45689 Shift Malfunction" in one list.
    CHECK(looks_damaged("45689 Shift Malfunction"));
    CHECK_FALSE(looks_damaged("1-2 Shift Malfunction"));
    CHECK_FALSE(looks_damaged("456890 Shift"));
    const auto judged = judge_list({{code("P0781"), "45689 Shift Malfunction"}});
    CHECK(judged.damaged == std::vector<Code>{code("P0781")});
}

TEST_CASE("whatever generated text is read as a code is described under its own number") {
    std::mt19937 random(7);
    std::uniform_int_distribution<int> letter(32, 126);
    std::uniform_int_distribution<std::size_t> length(0, 8);
    for (int i = 0; i < 3000; ++i) {
        std::string text(length(random), ' ');
        for (char& c : text) c = static_cast<char>(letter(random));
        const auto read = read_code(text);
        if (read) CHECK(described(*read).substr(0, 5) == code_text(*read));
    }
}
