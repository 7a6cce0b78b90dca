// Whoever changes what a plugin sees raises its number. The text of the contract, comments and blanks aside, is
// remembered by its sha256 for the number it has.
#include <catch2/catch.hpp>

#include <filesystem>
#include <map>
#include <string>

#include <fmt/format.h>

#include "core/contract/plugin.h"
#include "core/ground/file_stamp.h"
#include "tests/scratch_folder.h"

using namespace casebound;
namespace files = std::filesystem;

namespace {

// Without comments and blanks; what stands in quotes stays as it is.
std::string normalised(const std::string& text) {
    std::string kept;
    for (std::size_t i = 0; i < text.size(); ++i) {
        if (text.compare(i, 2, "//") == 0) i = std::min(text.find('\n', i), text.size());
        else if (text.compare(i, 2, "/*") == 0) {
            i = std::min(text.find("*/", i), text.size()) + 1;
            continue;
        } else if (text[i] == '"') do
                kept += text[i];
            while (++i < text.size() && (text[i] != '"' || text[i - 1] == '\\'));
        if (i < text.size() && !std::isspace(static_cast<unsigned char>(text[i]))) kept += text[i];
    }
    return kept;
}

std::string contract_text() {
    std::map<std::string, std::string> headers;
    for (const auto& entry : files::directory_iterator(CASEBOUND_SOURCE_DIR "/core/contract"))
        headers[entry.path().filename()] = normalised(ScratchFolder::read(entry.path()));
    std::string all;
    for (const auto& [name, text] : headers) all += name + "\n" + text + "\n";
    return all;
}

}  // namespace

TEST_CASE("the contract has not changed without its number being raised") {
    const auto line = fmt::format("{} {}\n", contract_number, sha256_of(contract_text()));
    INFO("the headers of core/contract are others than those of contract "
         << contract_number << ": raise CASEBOUND_CONTRACT, and write this line in tests/program/contract.sha256:\n"
         << line);
    CHECK(ScratchFolder::read(CASEBOUND_SOURCE_DIR "/tests/program/contract.sha256") == line);
}

TEST_CASE("a comment or a blank is no change of the contract, and any word of it is") {
    const std::string text = "struct Row {  // a row\n    int line{};\n    const char* name = \"a // b\";\n};\n";
    CHECK(normalised(text) == "structRow{intline{};constchar*name=\"a // b\";};");
    CHECK(normalised("/* why */ " + text) == normalised(text));
    CHECK(normalised(text + "bool more;") != normalised(text));
}
