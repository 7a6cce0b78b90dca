// The optimum of a mixed-integer program in LP format, by glpsol (GLPK, Debian package glpk-utils) run as a program
// of its own. A missing program is a failure of the test, never a skip.
#pragma once

#include <catch2/catch.hpp>

#include <cstdlib>
#include <optional>
#include <sstream>
#include <string>

#include "tests/scratch_folder.h"

// Nothing when glpsol says that there is no solution.
inline std::optional<double> glpsol_optimum(const ScratchFolder& folder, const std::string& lp_text) {
    const std::string problem = folder.write("problem.lp", lp_text), answer = folder.file("answer");
    const int status = std::system(("glpsol --lp '" + problem + "' -w '" + answer + "' >/dev/null 2>&1").c_str());
    INFO("glpsol (Debian package glpk-utils) must be installed: this comparison is required");
    REQUIRE(status == 0);
    std::istringstream lines(ScratchFolder::read(answer));
    for (std::string line; std::getline(lines, line);) {
        std::istringstream words(line);
        std::string s, mip, rows, columns, verdict;
        double cost = 0;
        words >> s >> mip >> rows >> columns >> verdict >> cost;  // "s mip 12 20 o 4711"
        if (s != "s" || mip != "mip") continue;
        if (verdict == "o") return cost;
        REQUIRE((verdict == "n" || verdict == "u"));
        return std::nullopt;
    }
    FAIL("glpsol wrote no answer");
    return std::nullopt;
}
