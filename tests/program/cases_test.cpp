// Runs tests/cases/**/*.case: short scripts that any mechanic can read. See tests/cases/README.md for the words. A case
// that is wrong today runs with all others: it must fail one of its expectations, and is counted.
#include <catch2/catch.hpp>

#include <sys/wait.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include <fmt/format.h>

#include "tests/environment.h"
#include "tests/scratch_folder.h"

namespace fs = std::filesystem;

namespace {

const fs::path source_dir = CASEBOUND_SOURCE_DIR, binary_dir = CASEBOUND_BINARY_DIR;

struct Ran {
    int exit;
    std::string output;
};

Ran run(const std::string& command) {
    std::string output;
    FILE* pipe = popen(("( " + command + " ) 2>&1").c_str(), "r");
    REQUIRE(pipe);
    char buffer[4096];
    for (std::size_t got; (got = fread(buffer, 1, sizeof buffer, pipe)) > 0;) output.append(buffer, got);
    const int status = pclose(pipe);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, output};
}

// Words in any layout: wrapping and column widths are not what a case is about.
std::string squeezed(const std::string& text) {
    std::istringstream words(text);
    std::string out, word;
    while (words >> word) out += (out.empty() ? "" : " ") + word;
    return out;
}

// The seed data loaded once, the domains looked at once; each case starts from a copy.
const fs::path& loaded_home() {
    static const fs::path home = [] {
        const fs::path folder = binary_dir / "case-home";
        fs::remove_all(folder);
        fs::create_directories(folder);
        std::string packs;
        for (const auto& entry : fs::directory_iterator(source_dir / "seed-data"))
            if (entry.is_directory() && entry.path().filename() != "demo-fleet")
                packs += fmt::format(" '{}'", entry.path().string());
        packs += fmt::format(" '{}'", (source_dir / "seed-data/demo-fleet").string());
        const auto ran = run(fmt::format("CASEBOUND_HOME='{}' '{}' pack load {}", folder.string(),
                                         (binary_dir / "casebound").string(), packs));
        INFO(ran.output);
        REQUIRE(ran.exit == 0);
        return folder;
    }();
    return home;
}

// "served COMMAND": let it serve until it says that Ctrl-C ends it, or has ended, then end it. What an earlier one said
// is wiped out first.
constexpr const char* served =
    "served() { : > served.txt; \"$@\" > served.txt 2>&1 & server=$!; waits=0; "
    "until grep -q 'Ctrl-C ends it' served.txt || [ $waits = 1000 ]; do sleep 0.02; waits=$((waits + 1)); done; "
    "kill -INT $server; wait $server; code=$?; cat served.txt; return $code; }";

struct Case {
    fs::path file;
    fs::path home;
    int line = 0;
    Ran last{0, ""};
    bool ran = false, exit_checked = true;
    std::string wrong_today{};         // why, where the case is known to fail
    std::vector<std::string> unmet{};  // its expectations that failed

    void expected(const std::string& what) {
        if (wrong_today.empty()) fail(what);
        else unmet.push_back(fmt::format("{}: {}", line, what));
    }

    void fail(const std::string& what) const {
        FAIL_CHECK(file.filename().string() << ":" << line << ": " << what << "\nexit " << last.exit << "\n"
                                            << last.output);
    }

    void command(const std::string& text) {
        if (ran && !exit_checked && last.exit != 0) fail("ended with an exit code the case does not name");
        const auto script = fmt::format(
            "cd '{}' && export CASEBOUND_HOME='{}' CASEBOUND_TODAY=2026-11-25 COLUMNS=80 PATH='{}':\"$PATH\" SEED='{}' "
            "TOY='{}' TOY_SEED='{}' && {}; {}",
            home.string(), home.string(), binary_dir.string(), (source_dir / "seed-data").string(),
            (binary_dir / "toy").string(), (source_dir / "tests/toy/seed-data").string(), served, text);
        last = run(script);
        ran = true;
        exit_checked = false;
    }

    void expect_exit(const std::string& number) {
        exit_checked = true;
        if (last.exit != std::stoi(number)) expected(fmt::format("expected exit {}, not {}", number, last.exit));
    }

    void expect_text(const std::string& text, bool present) {
        const bool found = squeezed(last.output).find(squeezed(text)) != std::string::npos;
        if (found != present) expected(fmt::format("{}: {}", present ? "missing" : "must not appear", text));
    }

    // "world NAME": a pack that several cases start from, to be completed by files of the case.
    void copy_world(const std::string& name) const {
        const auto from = source_dir / "tests/cases/worlds" / name;
        if (fs::is_directory(from)) fs::copy(from, home / "world", fs::copy_options::recursive);
        else fail("no such world: " + name);
    }

    void finish() const {
        if (!exit_checked && last.exit != 0) fail("ended with an exit code the case does not name");
        if (!ran) fail("runs no command");
        if (!wrong_today.empty() && unmet.empty()) fail("comes out right now: take the line \"wrong today\" out");
        if (std::getenv("CASEBOUND_CASES"))
            for (const auto& what : unmet) WARN(file.filename().string() << ":" << what);
    }

    // "file NAME" and the lines indented below it: a file of the case's own folder.
    void write_file(const std::string& name, std::ifstream& in, std::string& next) {
        const auto path = home / name;
        fs::create_directories(path.parent_path());
        std::ofstream out(path, std::ios::binary);
        while (std::getline(in, next)) {
            ++line;
            if (next.rfind("    ", 0) != 0) return;
            out << next.substr(4) << "\n";
        }
        next.clear();
    }
};

// What stands behind "wrong today:"; empty where the line is another one.
std::string why_wrong_today(const std::string& line) {
    const std::string mark = "wrong today: ";
    return line.rfind(mark, 0) == 0 ? line.substr(mark.size()) : "";
}

void play(const fs::path& file) {
    ScratchFolder scratch;
    Case played{file, scratch.path()};
    std::ifstream in(file);
    std::string text;
    std::getline(in, text);
    ++played.line;
    REQUIRE(text.rfind("# ", 0) == 0);  // the claim, in one sentence
    bool empty_home = false;
    for (bool have = static_cast<bool>(std::getline(in, text)); have;) {
        ++played.line;
        if (played.line == 2) played.wrong_today = why_wrong_today(text);
        if (text == "empty home") empty_home = true;
        if (text.rfind("$ ", 0) == 0 && !played.ran && !empty_home)
            for (const auto* name : {"catalog.sqlite", "plugins.probed"})
                fs::copy_file(loaded_home() / name, played.home / name, fs::copy_options::skip_existing);
        if (text.rfind("file ", 0) == 0) {
            played.write_file(text.substr(5), in, text);
            have = static_cast<bool>(in) || !text.empty();
            --played.line;
            if (!have) break;
            continue;
        }
        if (text.rfind("$ ", 0) == 0) played.command(text.substr(2));
        else if (text.rfind("world ", 0) == 0) played.copy_world(text.substr(6));
        else if (text.rfind("exit ", 0) == 0) played.expect_exit(text.substr(5));
        else if (text.rfind("> ", 0) == 0) played.expect_text(text.substr(2), true);
        else if (text.rfind("! ", 0) == 0) played.expect_text(text.substr(2), false);
        else if (!text.empty() && text[0] != '#' && text != "empty home" &&
                 (played.line > 2 || played.wrong_today.empty()))
            played.fail("not a word of a case: " + text);
        have = static_cast<bool>(std::getline(in, text));
    }
    played.finish();
}

// Of all topics, where none is given.
std::vector<fs::path> case_files(const std::string& topic) {
    std::vector<fs::path> files;
    for (const auto& entry : fs::recursive_directory_iterator(source_dir / "tests/cases" / topic))
        if (entry.path().extension() == ".case") files.push_back(entry.path());
    std::sort(files.begin(), files.end());
    return files;
}

}  // namespace

TEST_CASE("every text case comes out as it is written") {
    std::vector<std::string> topics;
    for (const auto& entry : fs::directory_iterator(source_dir / "tests/cases"))
        if (entry.is_directory()) topics.push_back(entry.path().filename().string());
    std::sort(topics.begin(), topics.end());
    const char* only = std::getenv("CASEBOUND_CASES");  // a part of a path, to run some by hand
    for (const auto& topic : topics)
        for (const auto& file : case_files(topic)) {
            if (only && file.string().find(only) == std::string::npos) continue;
            DYNAMIC_SECTION(topic << "/" << file.stem().string()) { play(file); }
        }
}

TEST_CASE("the cases that are wrong today are as many as their README says") {
    std::size_t count = 0;
    for (const auto& file : case_files("")) {
        std::ifstream in(file);
        std::string claim, second;
        std::getline(in, claim), std::getline(in, second);
        const auto reason = why_wrong_today(second);
        if (reason.empty()) continue;
        ++count;
        fmt::print("wrong today: {}: {}\n", fs::relative(file, source_dir / "tests/cases").string(), reason);
    }
    fmt::print("{} cases are wrong today\n", count);
    const auto readme = ScratchFolder::read((source_dir / "tests/cases/README.md").string());
    CHECK(readme.find(fmt::format("\nCases that are wrong today: {}.\n", count)) != std::string::npos);
}

TEST_CASE("there are at least sixty text cases for the main job") {
    std::size_t count = 0;
    for (const auto& entry : fs::recursive_directory_iterator(source_dir / "tests/cases"))
        count += entry.path().extension() == ".case";
    CHECK(count >= 60);
}
