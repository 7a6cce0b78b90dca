#pragma once
// Evaluates expressions with the program bc, an implementation of arithmetic
// independent of ours. A missing program is a failure of the test, never a skip.
// REQUIRES: expressions in bc's language with -l (s, c, a, l, e, sqrt).

#include <catch2/catch.hpp>

#include <unistd.h>

#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace casebound::tests {

// A number as bc reads it: no exponent.
inline std::string plain(double value) {
    std::array<char, 512> text{};
    std::snprintf(text.data(), text.size(), "%.20f", value);
    return text.data();
}

class ScriptFile {
public:
    ScriptFile(const std::vector<std::string>& expressions, const std::string& definitions) {
        const int descriptor = mkstemp(path_.data());
        REQUIRE(descriptor >= 0);
        close(descriptor);
        std::ofstream script(path_);
        script << "scale=40\n" << definitions;
        for (const std::string& expression : expressions) script << expression << '\n';
    }
    ~ScriptFile() { std::remove(path_.c_str()); }
    ScriptFile(const ScriptFile&) = delete;
    ScriptFile& operator=(const ScriptFile&) = delete;
    const std::string& path() const { return path_; }

private:
    std::string path_ = (std::filesystem::temp_directory_path() / "bc_script_XXXXXX").string();
};

// `definitions`: functions of bc that the expressions use, each line ended.
inline std::vector<double> run_bc(const std::vector<std::string>& expressions, const std::string& definitions = {}) {
    const ScriptFile script(expressions, definitions);
    const std::string command = "BC_LINE_LENGTH=0 bc -l '" + script.path() + "' 2>&1 </dev/null";
    FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string output;
    std::array<char, 4096> block{};
    while (std::fgets(block.data(), static_cast<int>(block.size()), pipe) != nullptr) output += block.data();
    INFO("bc must be installed and accept every line; it said: " << output.substr(0, 200));
    REQUIRE(pclose(pipe) == 0);
    std::vector<double> values;
    std::istringstream lines(output);
    for (double value = 0.0; lines >> value;) values.push_back(value);
    REQUIRE(lines.eof());
    REQUIRE(values.size() == expressions.size());
    return values;
}

}  // namespace casebound::tests
