// The causes of wrong orders that were mended are put back by hand now and then (mutants/run). Each must still have its
// place in today's source, or the next run ends before it begins.
#include <catch2/catch.hpp>

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

#include "tests/scratch_folder.h"

namespace {

namespace fs = std::filesystem;
const std::string root = CASEBOUND_SOURCE_DIR;

std::string between(std::string_view text, std::string_view start, std::string_view stop) {
    const auto from = text.find(start);
    if (from == std::string_view::npos) return {};
    text.remove_prefix(from + start.size());
    return std::string(text.substr(0, text.find(stop)));
}

// The texts that a mutant takes out.
std::vector<std::string> taken_out(std::string_view mutant) {
    std::vector<std::string> texts;
    for (auto at = mutant.find("<<<<\n"); at != std::string_view::npos; at = mutant.find("<<<<\n", at + 1))
        texts.push_back(between(mutant.substr(at), "<<<<\n", "\n====\n"));
    return texts;
}

int times(std::string_view text, std::string_view part) {
    int count = 0;
    for (auto at = text.find(part); at != std::string_view::npos; at = text.find(part, at + part.size())) ++count;
    return count;
}

}  // namespace

TEST_CASE("every cause of a wrong order that a mutant puts back has its one place in the source") {
    int seen = 0;
    for (const auto& entry : fs::directory_iterator(root + "/tests/chain/mutants")) {
        if (entry.path().extension() != ".mutant") continue;
        INFO(entry.path().filename().string());
        const auto mutant = ScratchFolder::read(entry.path().string());
        const auto source = between(mutant, "\nin ", "\n");
        INFO(source);
        REQUIRE(fs::exists(root + "/" + source));
        const auto text = ScratchFolder::read(root + "/" + source);
        const auto texts = taken_out(mutant);
        CHECK_FALSE(texts.empty());
        for (const auto& one : texts) {
            INFO(one);
            CHECK(times(text, one) == 1);
        }
        ++seen;
    }
    CHECK(seen >= 55);
}
