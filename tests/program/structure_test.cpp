// The house rules that a compiler cannot hold: who may name whom, who may include what, what a plugin exports, and
// that the map in DEVELOPERS.md is the order in which core is built up.
#include <catch2/catch.hpp>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <functional>
#include <iterator>
#include <map>
#include <regex>
#include <set>
#include <sstream>
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

// What each pair of .h and .cpp, named by its stem, includes of the same folder or of one below it.
std::map<std::string, std::set<std::string>> includes_of_pairs(const fs::path& folder) {
    std::map<std::string, std::set<std::string>> graph;
    for (const auto& file : sources_under(folder)) {
        const auto stem = fs::path(file).replace_extension().string();
        for (const auto& included : all_between(ScratchFolder::read(file.string()), "#include \"", '"'))
            for (const auto& from : {source_dir, file.parent_path()}) {
                const auto header = (from / included).lexically_normal();
                if (fs::exists(header)) graph[stem].insert(fs::path(header).replace_extension().string());
            }
        graph[stem].erase(stem);
    }
    return graph;
}

// The stems of a circle, each including the next; empty when there is none.
std::vector<std::string> circle_in(const std::map<std::string, std::set<std::string>>& graph) {
    std::set<std::string> done;
    std::vector<std::string> open;
    std::function<bool(const std::string&)> closes = [&](const std::string& stem) {
        if (const auto before = std::find(open.begin(), open.end(), stem); before != open.end()) {
            open.erase(open.begin(), before);
            return true;
        }
        open.push_back(stem);
        if (!done.contains(stem) && graph.contains(stem))
            for (const auto& next : graph.at(stem))
                if (closes(next)) return true;
        done.insert(stem);
        open.pop_back();
        return false;
    };
    for (const auto& [stem, included] : graph)
        if (closes(stem)) return open;
    return {};
}

// The folders of core as the map in DEVELOPERS.md has them, bottom up.
std::vector<std::string> map_of_core() {
    std::vector<std::string> folders;
    const std::string text = ScratchFolder::read((source_dir / "DEVELOPERS.md").string());
    for (const auto& folder : all_between(text, "\n| `", '`')) folders.push_back(folder);
    return folders;
}

// The same order as the build links them.
std::vector<std::string> rooms_of_build() {
    const std::string text = ScratchFolder::read((source_dir / "core/CMakeLists.txt").string());
    std::istringstream words(all_between(text, "set(CASEBOUND_ROOMS ", ')').at(0));
    return {std::istream_iterator<std::string>(words), {}};
}

std::string folder_of(const fs::path& file) { return file.parent_path().filename().string(); }

std::size_t row_of(const std::vector<std::string>& rows, const std::string& folder) {
    return static_cast<std::size_t>(std::find(rows.begin(), rows.end(), folder) - rows.begin());
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

TEST_CASE("text leaves the program in one place") {
    std::set<std::string> writing;
    for (const std::string word : {"stdout", "stderr", "cout", "cerr", "fputs", "printf", "putchar"})
        for (const auto& file : naming(all_sources(), word)) writing.insert(file);
    for (const std::string word : {"STDOUT_FILENO", "STDERR_FILENO"})
        for (const auto& file : naming(sources_under(source_dir / "core"), word)) writing.insert(file);
    // What has crashed cannot go through the other: it may not use the heap.
    CHECK(writing == std::set<std::string>{"core/ground/outlet.cpp", "core/host/domain_watch.cpp"});
}

// plain_number and fixed never write "-0"; a format of its own for a rounded number would. Places in a drawing may.
TEST_CASE("rounded numbers are written in one place") {
    const std::regex rounded(R"(\{:[^}"]*\.[0-9]f\})");
    auto files = matching(all_sources(), [&](const std::string& text) { return std::regex_search(text, rounded); });
    std::erase_if(files, [](const std::string& file) { return file.starts_with("core/html/svg_"); });
    CHECK(files == std::set<std::string>{});
}

TEST_CASE("no build file names a domain, so adding one edits no list") {
    const std::vector<fs::path> files{source_dir / "CMakeLists.txt", source_dir / "plugins/CMakeLists.txt",
                                      source_dir / "plugins/domain.cmake", source_dir / ".packaging/install.cmake"};
    for (const auto& domain : domains()) CHECK(naming(files, domain) == std::set<std::string>{});
}

TEST_CASE("every domain has its schema under the same stem") {
    for (const auto& domain : domains()) CHECK(fs::exists(source_dir / "schema" / (domain + ".sql")));
}

TEST_CASE("only the plugin host knows shared libraries") {
    CHECK(including(all_sources(), "boost/dll") == std::set<std::string>{"core/host/plugin_host.cpp"});
    // The other loads one library by its own name, when it is wanted.
    CHECK(including(all_sources(), "dlfcn.h") ==
          std::set<std::string>{"core/book/workbook_writer.cpp", "core/host/plugin_host.cpp"});
}

TEST_CASE("only the SQLite layer includes SQLite") {
    CHECK(including(all_sources(), "sqlite3") ==
          std::set<std::string>{"core/store/checked_pages.cpp", "core/store/given_rows.cpp", "core/store/sqlite.cpp"});
}

// An answer is a value; text, JSON and page are three writers of it. JSON is read where it comes in from a file.
TEST_CASE("no room reads what another has written, and the page knows no JSON") {
    const auto reading = naming(sources_under(source_dir / "core"), "parse");
    for (const auto& file : reading) {
        INFO(file);
        const auto text = ScratchFolder::read((source_dir / file).string());
        if (text.find("json::parse(") == std::string::npos && text.find("Json::parse(") == std::string::npos) continue;
        CHECK(std::set<std::string>{"core/work/list_mapping.cpp", "core/work/own_pack.cpp",
                                    "core/shop/shop_package.cpp", "core/pack/pack_descriptor.cpp",
                                    "core/pack/pack_describe.cpp", "core/commands/photos_given.cpp"}
                  // adds the photos to what the command said
                  .contains(file));
    }
    for (const auto& file : sources_under(source_dir / "core/page")) {
        INFO(file.string());
        const auto text = ScratchFolder::read(file.string());
        CHECK(text.find("nlohmann") == std::string::npos);
        CHECK(text.find("Json") == std::string::npos);
    }
}

TEST_CASE("only one file of core writes files and gives them other names") {
    const auto writes = matching(sources_under(source_dir / "core"), [](const std::string& text) {
        for (const char* word : {"ofstream", "O_CREAT", "::rename(", "renameat", "fs::rename", "filesystem::rename",
                                 "copy_file", "fs::copy(", "filesystem::copy(", "create_director"})
            if (text.find(word) != std::string::npos) return true;
        return false;
    });
    CHECK(writes == std::set<std::string>{"core/ground/replacement.cpp"});
}

TEST_CASE("a domain sees nothing of core but the contract") {
    for (const auto& file : sources_under(source_dir / "plugins"))
        for (const auto& included : all_between(ScratchFolder::read(file.string()), "#include \"core/", '"')) {
            INFO(file.string());
            CHECK(included.rfind("contract/", 0) == 0);
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

TEST_CASE("no two files include each other in a circle, a header and its source taken as one") {
    CHECK(circle_in({{"a", {"b"}}, {"b", {"c"}}, {"c", {"d", "b"}}, {"d", {}}}) == std::vector<std::string>{"b", "c"});
    CHECK(circle_in({{"a", {"b", "c"}}, {"b", {"d"}}, {"c", {"d"}}}).empty());
    const auto core = includes_of_pairs(source_dir / "core");
    CHECK(core.size() > 100);
    CHECK(circle_in(core) == std::vector<std::string>{});
    for (const auto& domain : domains()) {
        INFO(domain);
        const auto graph = includes_of_pairs(source_dir / "plugins" / domain);
        CHECK_FALSE(graph.empty());
        CHECK(circle_in(graph) == std::vector<std::string>{});
    }
}

TEST_CASE("every folder of core is on the map once, in the order the build links them") {
    const auto rows = map_of_core();
    CHECK(rows.size() > 10);
    CHECK(rows == rooms_of_build());
    std::set<std::string> folders;
    for (const auto& entry : fs::directory_iterator(source_dir / "core")) {
        INFO(entry.path().string());
        if (entry.is_directory()) folders.insert(entry.path().filename().string());
        else CHECK(std::set<std::string>{"CMakeLists.txt", "embed.cmake"}.contains(entry.path().filename().string()));
    }
    CHECK(std::set<std::string>(rows.begin(), rows.end()) == folders);
}

TEST_CASE("a file of core, and a test of a folder, includes only what stands in its own folder or in one before") {
    const auto rows = map_of_core();
    std::size_t seen = 0;
    auto files = sources_under(source_dir / "core");
    for (const auto& file : sources_under(source_dir / "tests"))
        if (row_of(rows, folder_of(file)) < rows.size()) files.push_back(file);
    for (const auto& file : files) {
        const auto row = row_of(rows, folder_of(file));
        INFO(file.string());
        CHECK(row < rows.size());
        for (const auto& included : all_between(ScratchFolder::read(file.string()), "#include \"", '"')) {
            INFO("includes " << included);
            CHECK(fs::exists(source_dir / included));
            const bool shared = fs::path(included).parent_path() == "tests";  // by the tests of every folder
            CHECK((shared || row_of(rows, folder_of(included)) <= row));
            ++seen;
        }
    }
    CHECK(seen > 900);
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
