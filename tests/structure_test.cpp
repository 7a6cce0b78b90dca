// The house rules that a compiler cannot hold: who may name whom, who may include what, what a plugin exports, and
// that the map in DEVELOPERS.md is the order in which core is built up.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <functional>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "tests/scratch_folder.h"
#include "tests/text_scan.h"

namespace {

namespace fs = std::filesystem;

const fs::path source_dir = CASEBOUND_SOURCE_DIR;

std::vector<fs::path> sources_under(const fs::path& folder) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::recursive_directory_iterator(folder))
        if (entry.path().extension() == ".cpp" || entry.path().extension() == ".h") files.push_back(entry.path());
    return files;
}

std::vector<std::string> domains() {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(source_dir / "plugins"))
        if (entry.is_directory()) names.push_back(entry.path().filename().string());
    return names;
}

// Files whose text satisfies `wanted`, by their path in the source.
std::set<std::string> matching(const std::vector<fs::path>& files,
                               const std::function<bool(const std::string&)>& wanted) {
    std::set<std::string> found;
    for (const auto& file : files)
        if (wanted(ScratchFolder::read(file.string()))) found.insert(fs::relative(file, source_dir).string());
    return found;
}

std::set<std::string> naming(const std::vector<fs::path>& files, const std::string& word) {
    return matching(files, [&](const std::string& text) { return has_word(text, word); });
}

std::set<std::string> including(const std::vector<fs::path>& files, const std::string& header) {
    return matching(files, [&](const std::string& text) {
        return text.find("#include <" + header) != std::string::npos ||
               text.find("#include \"" + header) != std::string::npos;
    });
}

std::vector<fs::path> all_sources() {
    std::vector<fs::path> files = sources_under(source_dir / "core");
    for (const auto& file : sources_under(source_dir / "plugins")) files.push_back(file);
    return files;
}

std::string output_of(const std::string& command) {
    FILE* const pipe = ::popen(command.c_str(), "r");
    REQUIRE(pipe != nullptr);
    std::string text;
    char part[4096];
    while (std::fgets(part, sizeof part, pipe)) text += part;
    INFO(command);
    CHECK(::pclose(pipe) == 0);
    return text;
}

std::map<std::string, std::vector<std::string>> includes_of_headers(const fs::path& folder) {
    std::map<std::string, std::vector<std::string>> graph;
    for (const auto& file : sources_under(folder))
        if (file.extension() == ".h")
            for (const auto& included : all_between(ScratchFolder::read(file.string()), "#include \"", '"'))
                graph[file.filename().string()].push_back(fs::path(included).filename().string());
    return graph;
}

// The rows of the map of core in DEVELOPERS.md, each with the nouns in its first cell; `noun*` is every file so begun.
std::vector<std::vector<std::string>> map_of_core() {
    const std::string text = ScratchFolder::read((source_dir / "DEVELOPERS.md").string());
    std::vector<std::vector<std::string>> rows;
    for (const auto& line : all_between(text, "\n| `", '\n')) {
        const std::string cell = "`" + line.substr(0, line.find(" |"));
        std::vector<std::string> nouns;
        for (std::size_t open = cell.find('`'); open != std::string::npos;) {
            const auto close = cell.find('`', open + 1);
            nouns.push_back(cell.substr(open + 1, close - open - 1));
            open = cell.find('`', close + 1);
        }
        rows.push_back(std::move(nouns));
    }
    return rows;
}

// The row a file of core stands on: an exact noun before the longest beginning; none: rows.size().
std::size_t row_of(const std::vector<std::vector<std::string>>& rows, const std::string& stem) {
    std::size_t best = rows.size(), longest = 0;
    for (std::size_t i = 0; i < rows.size(); ++i)
        for (const auto& noun : rows[i]) {
            if (noun == stem || noun == stem + ".h") return i;
            if (noun.back() != '*' || stem.rfind(noun.substr(0, noun.size() - 1), 0) != 0 || noun.size() <= longest)
                continue;
            longest = noun.size();
            best = i;
        }
    return best;
}

}  // namespace

TEST_CASE("core knows no domain by name") {
    REQUIRE(domains().size() >= 4);
    std::vector<fs::path> files;
    for (const auto& entry : fs::recursive_directory_iterator(source_dir / "core"))
        if (entry.is_regular_file()) files.push_back(entry.path());
    for (const auto& domain : domains()) {
        std::string in_words = domain;
        std::replace(in_words.begin(), in_words.end(), '_', '-');
        INFO(domain);
        CHECK(naming(files, domain) == std::set<std::string>{});
        CHECK(naming(files, in_words) == std::set<std::string>{});
    }
}

TEST_CASE("no build file names a domain, so adding one edits no list") {
    const std::vector<fs::path> files{source_dir / "CMakeLists.txt", source_dir / "plugins/CMakeLists.txt",
                                      source_dir / "plugins/domain.cmake"};
    for (const auto& domain : domains()) CHECK(naming(files, domain) == std::set<std::string>{});
}

TEST_CASE("every domain has its schema under the same stem") {
    for (const auto& domain : domains()) CHECK(fs::exists(source_dir / "schema" / (domain + ".sql")));
}

TEST_CASE("only the plugin host knows shared libraries") {
    CHECK(including(all_sources(), "boost/dll") == std::set<std::string>{"core/plugin_host.cpp"});
    CHECK(including(all_sources(), "dlfcn.h") == std::set<std::string>{"core/plugin_host.cpp"});
}

TEST_CASE("only the SQLite layer includes SQLite") {
    CHECK(including(all_sources(), "sqlite3") == std::set<std::string>{"core/sqlite.cpp"});
}

TEST_CASE("only one file of core writes files and gives them other names") {
    const auto writes = matching(sources_under(source_dir / "core"), [](const std::string& text) {
        for (const char* word : {"ofstream", "O_CREAT", "::rename(", "renameat", "fs::rename", "filesystem::rename",
                                 "copy_file", "fs::copy(", "filesystem::copy(", "create_director"})
            if (text.find(word) != std::string::npos) return true;
        return false;
    });
    CHECK(writes == std::set<std::string>{"core/replacement.cpp"});
}

TEST_CASE("a domain sees nothing of core but the contract") {
    const std::set<std::string> contract{"plugin.h", "attribute_rows.h", "inquiry_inputs.h", "answer_lines.h",
                                         "told_trouble.h"};
    for (const auto& file : sources_under(source_dir / "plugins"))
        for (const auto& included : all_between(ScratchFolder::read(file.string()), "#include \"core/", '"')) {
            INFO(file.string());
            CHECK(contract.contains(included));
        }
}

TEST_CASE("a domain opens no file, prints nothing and starts no thread") {
    const auto files = sources_under(source_dir / "plugins");
    for (const std::string header :
         {"fstream>", "iostream>", "filesystem>", "thread>", "future>", "unistd.h>", "fcntl.h>", "spawn.h>"})
        CHECK(including(files, header) == std::set<std::string>{});
    for (const std::string call : {"fopen", "popen", "system", "printf", "puts"})
        CHECK(naming(files, "std::" + call) == std::set<std::string>{});
}

TEST_CASE("core's headers do not include each other in a circle") {
    const auto graph = includes_of_headers(source_dir / "core");
    std::set<std::string> done, open;
    std::function<void(const std::string&)> visit = [&](const std::string& header) {
        if (done.contains(header) || !graph.contains(header)) return;
        INFO(header);
        REQUIRE(open.insert(header).second);
        for (const auto& next : graph.at(header)) visit(next);
        open.erase(header);
        done.insert(header);
    };
    for (const auto& [header, included] : graph) visit(header);
    CHECK(done.size() > 5);
}

TEST_CASE("every file of core is on the map, and includes only what stands on its own row or before") {
    const auto rows = map_of_core();
    CHECK(rows.size() > 10);
    for (const auto& file : sources_under(source_dir / "core")) {
        const auto row = row_of(rows, file.stem().string());
        INFO(file.filename().string());
        CHECK(row < rows.size());
        for (const auto& included : all_between(ScratchFolder::read(file.string()), "#include \"", '"')) {
            INFO("includes " << included);
            CHECK(row_of(rows, fs::path(included).stem().string()) <= row);
        }
    }
}

TEST_CASE("every plugin exports its manifest and nothing else, and none needs SQLite") {
    std::set<std::string> checked;
    for (const fs::path folder : {CASEBOUND_BINARY_DIR "/plugins", CASEBOUND_BINARY_DIR "/toy/plugins"}) {
        if (!fs::exists(folder)) continue;
        for (const auto& entry : fs::directory_iterator(folder)) {
            if (entry.path().extension() != ".so") continue;
            const std::string exported = output_of("nm -D --defined-only --format=posix '" + entry.path().string() +
                                                   "'");
            INFO(exported);
            CHECK(exported.substr(0, exported.find(' ')) == "casebound_manifest");
            CHECK(std::count(exported.begin(), exported.end(), '\n') == 1);
            const std::string needed = output_of("readelf -d '" + entry.path().string() + "'");
            CHECK(needed.find("libstdc++") != std::string::npos);
            CHECK(needed.find("sqlite") == std::string::npos);
            checked.insert(entry.path().stem().string());
        }
    }
    for (const auto& domain : domains()) CHECK(checked.contains(domain));
    CHECK(checked.contains("door_seals"));
}
