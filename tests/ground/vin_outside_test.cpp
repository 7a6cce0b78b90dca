// Compares the check digit with an independent program, vin-validator 1.0.0 under Node.
#include <catch2/catch.hpp>

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <random>
#include <string>
#include <vector>

#include "core/ground/vin.h"

using namespace casebound;

namespace {

std::vector<std::string> generated(std::size_t count) {
    constexpr std::string_view permitted = "0123456789ABCDEFGHJKLMNPRSTUVWXYZ", look_alikes = "IOQioq";
    std::mt19937 random(17);
    const auto below = [&](std::size_t n) { return std::uniform_int_distribution<std::size_t>(0, n - 1)(random); };
    std::vector<std::string> vins;
    while (vins.size() < count) {
        std::string vin(17, '0');
        for (char& c : vin) c = permitted[below(permitted.size())];
        if (below(3) > 0) vin[8] = *vin_check_digit(vin);                        // two of three are right, until
        if (below(4) == 0) vin[below(17)] = permitted[below(permitted.size())];  // a character is altered,
        if (below(20) == 0) vin[below(17)] = look_alikes[below(look_alikes.size())];
        if (below(20) == 0) vin.pop_back();  // or lost,
        if (below(20) == 0) vin += '0';
        if (below(10) == 0)
            for (char& c : vin) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        vins.push_back(vin);
    }
    return vins;
}

std::vector<std::string> ask_outside(const std::vector<std::string>& vins) {
    char name[] = "/tmp/casebound-vins-XXXXXX";
    REQUIRE(mkstemp(name) >= 0);
    std::ofstream file(name);
    for (const auto& vin : vins) file << vin << '\n';
    file.close();
    std::vector<std::string> answers;
    FILE* pipe = popen((std::string("node '") + CASEBOUND_NODE_DIR + "/check.js' < " + name).c_str(), "r");
    REQUIRE(pipe);
    char line[64];
    while (std::fgets(line, sizeof line, pipe)) answers.emplace_back(line, std::string_view(line).find('\n'));
    const int status = pclose(pipe);
    std::remove(name);
    INFO("run `npm ci` in " CASEBOUND_NODE_DIR ": this comparison is required");
    REQUIRE(status == 0);
    return answers;
}

}  // namespace

TEST_CASE("2,000 generated numbers are judged as an independent program judges them") {
    const auto vins = generated(2000);
    const auto answers = ask_outside(vins);
    REQUIRE(answers.size() == vins.size());
    std::size_t right = 0;
    for (std::size_t i = 0; i < vins.size(); ++i) {
        const bool holds = read_vin(vins[i]).check_holds.value_or(false);
        INFO(vins[i] << ": outside says " << answers[i]);
        CHECK((holds ? "true" : "false") == answers[i]);
        right += holds;
    }
    CHECK(right > 800);  // both answers really occur
    CHECK(right < 1700);
}
