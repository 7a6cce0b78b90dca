// The habits of the terminal, a line a point, each with the command that shows it. Points are those of the command line
// interface guidelines (clig.dev) and of the GNU coding standards, 4.7 and 4.8, that apply to a program of this kind.
#include <catch2/catch.hpp>

#include <cstdio>
#include <regex>
#include <string>
#include <vector>

#include <fmt/format.h>
#include <sys/wait.h>

#include "tests/environment.h"
#include "tests/scratch_folder.h"

namespace {

struct Point {
    std::string from, point, command;
    int exit;
    std::string shows;     // a regular expression, found in what is printed
    std::string not_this;  // found nowhere in it; empty: anything may be
};

// `tty N COMMAND...`: at a terminal of N columns, `screen COMMAND...`: of 80 columns and 24 rows. Control characters are
// shown as ^[.
const std::string words =
    "tty() { n=$1; shift; script -qec \"stty cols $n; $*\" /dev/null </dev/null | cat -v; }; screen() { script -qec "
    "\"stty cols 80 rows 24; $*\" /dev/null </dev/null | cat -v; }; van() { casebound vehicle "
    "new van quernmoor-packet year=2007 read >/dev/null; }; ";

const std::vector<Point>& points() {
    static const std::vector<Point> all{
        {"clig", "help is shown for --help", "casebound --help", 0, "vehicle new", ""},
        {"clig", "help is shown for -h", "casebound -h", 0, "vehicle new", ""},
        {"clig", "help is shown for help", "casebound help", 0, "vehicle new", ""},
        {"clig", "help COMMAND is that command's --help",
         "casebound help list > a; casebound list --help > b; cmp a b && cat a", 0, "casebound list VEHICLE JOB", ""},
        {"clig", "without words: what it is, a few commands, and where all are", "casebound", 0,
         "See what fits it:[\\s\\S]*casebound list[\\s\\S]*All commands: casebound help", "shelf put"},
        {"clig", "help leads with an example", "casebound help buy", 0, "Example: casebound buy van", ""},
        {"clig", "every command's help ends with an example that can be typed",
         "for one in $(casebound manual | sed -n 's/^\\.SS \\([a-z]*\\).*/\\1/p' | sort -u); do casebound help $one | "
         "grep "
         "-c '^Example: casebound' | grep -q '^0' && echo without $one; done; echo all read",
         0, "all read", "without"},
        {"clig", "every computation's help ends with an example, and the example works as it stands",
         "casebound vehicle new bookvan quernmoor-packet year=2007 engine=2.6 cooler=no read >/dev/null; for domain in "
         "$(casebound plugin list | sed -n 's/^  \\([a-z_]*\\)  .*/\\1/p' | grep -v '^domain$'); do casebound $domain "
         "| sed -n "
         "'s/^  \\([a-z][a-z0-9-]*\\)  .*/\\1/p' | grep -v '^inquiry$' | while read one; do example=$(casebound "
         "$domain $one --help | sed -n '/^Example: /,$p' | tr -s ' \\n' ' ' | sed 's/^Example: //'); test \"$example\" "
         "|| "
         "echo $domain $one has none; eval \"$example\" >out 2>&1; test $? -le 2 || { echo no: $example; cat out; }; "
         "echo asked; done; done > all; grep -v asked all; grep -c asked all | sed 's/$/ computations asked/'",
         0, "(^|\\n)[7-9][0-9] computations asked", "no:|has none"},
        {"clig", "the first help is short: a clause a command, the rest in help COMMAND",
         "casebound | grep -c . | sed 's/$/ lines/'; casebound help vehicle tell", 0,
         "[12][0-9] lines[\\s\\S]*cannot-get-at-it", ""},
        {"clig", "a word of a job's name is met with the job", "van; casebound list van gasket", 64,
         "did you mean pan-gasket \\(Pan off for its gasket alone\\)\\?", ""},
        {"clig", "a misspelled vehicle is met with the nearest", "van; casebound list vam pan-service", 66,
         "did you mean van\\?", ""},
        {"clig", "a misspelled part is met with the nearest", "van; casebound why van Q312-1142", 64,
         "did you mean Q312-114", ""},
        {"clig", "a misspelled setting is met with the nearest", "casebound shop set curency=EUR", 64,
         "did you mean currency\\?", ""},
        {"clig", "a misspelled word of how it is known is met with the nearest",
         "van; casebound vehicle tell van pan depth 41 mm mesured", 64, "mesured: did you mean measured\\?", ""},
        {"clig", "a value of a computation may be typed as it is said", "casebound mounts shake shake=in-gear", 2,
         "shake", "did you mean"},
        {"clig", "what nobody reads to the end ends quietly", "casebound help | head -1; echo ended", 0, "ended",
         "cannot|Broken"},
        {"clig", "help of an option names all its values where they are few", "casebound help sheet", 0, "a4, letter",
         ""},
        {"clig", "a wrong command is met with the nearest", "casebound vehicel list", 64, "did you mean vehicle\\?",
         ""},
        {"clig", "a wrong second word is met with the nearest", "casebound pack lod x", 64, "did you mean pack load\\?",
         ""},
        {"clig", "a wrong option is met with the nearest", "casebound list van x --ful", 64, "did you mean --full\\?",
         ""},
        {"clig", "a wrong value is met with the nearest", "casebound sheet van --paper leter", 64,
         "did you mean letter\\?", ""},
        {"clig", "nothing that was guessed is run",
         "casebound vehicle nww van quernmoor-packet; casebound vehicle list", 0, "No vehicle yet", ""},
        {"clig", "what is missing is said as a person would, with the usage", "casebound swap QF-4", 64,
         "swap: OFFERED is missing\ncasebound: usage: casebound swap WANTED OFFERED", "At least"},
        {"clig", "results go to standard output, messages to standard error",
         "casebound lst van 2>/dev/null; casebound help list 2>/dev/null", 0, "^casebound list", "did you mean"},
        {"clig", "an empty answer is an answer, and says what to type", "casebound offer list", 0,
         "No offer on file: casebound offer add", ""},
        {"clig", "the output is wrapped to the terminal", "tty 60 casebound help sheet", 0, ".{45,60}\\^M\n", ".{64}"},
        {"clig", "a terminal that is very wide is not filled", "tty 200 casebound help", 0, ".{90}", ".{104}"},
        {"clig", "what is piped is as wide as ever", "COLUMNS=60 casebound help | cat", 0, ".{75}", ".{81}"},
        {"clig", "colour on a terminal, beside the word", "van; tty 80 casebound fits van pan-filter", 0,
         "\\^\\[\\[33mCHECK FIRST\\^\\[\\[0m", ""},
        {"clig", "no colour where it is piped", "van; casebound fits van pan-filter | cat -v", 0, "CHECK FIRST",
         "\\^\\["},
        {"clig", "no colour with NO_COLOR", "van; NO_COLOR=1 tty 80 casebound fits van pan-filter", 0, "CHECK FIRST",
         "\\^\\[\\["},
        {"clig", "no colour where TERM is dumb", "van; TERM=dumb tty 80 casebound fits van pan-filter", 0,
         "CHECK FIRST", "\\^\\[\\["},
        {"clig", "no colour with --color never", "van; tty 80 casebound fits van pan-filter --color=never", 0,
         "CHECK FIRST", "\\^\\[\\["},
        {"clig", "colour with --color always", "van; casebound fits van pan-filter --color=always | cat -v", 0,
         "\\^\\[\\[33mCHECK FIRST", ""},
        {"clig", "JSON with --json, without colour",
         "van; casebound fits van pan-filter --json --color=always | cat -v", 0, "\"schema\": \"casebound.fits",
         "\\^\\["},
        {"clig", "long output goes through a pager", "export PAGER='sed s/^/paged:/'; screen casebound help", 0,
         "paged:", ""},
        {"clig", "what fits the screen does not", "export PAGER='sed s/^/paged:/'; screen casebound help list", 0,
         "casebound list", "paged:"},
        {"clig", "no pager with --no-pager", "export PAGER='sed s/^/paged:/'; screen casebound help --no-pager", 0,
         "vehicle new", "paged:"},
        {"clig", "no pager where it is piped", "export PAGER='sed s/^/paged:/'; casebound help | cat", 0, "vehicle new",
         "paged:"},
        {"clig", "without the pager that is named, the output all the same",
         "export PAGER=no-such-pager; screen casebound help", 0, "vehicle new", ""},
        {"clig", "completions offer the vehicles on file", "van; casebound completion next -- list", 0,
         "van\tquernmoor-packet", ""},
        {"clig", "completions offer the jobs", "van; casebound completion next -- list van", 0, "pan-service\t", ""},
        {"clig", "completions offer places and parts",
         "van; casebound completion next -- fits van; casebound completion next -- why van", 0,
         "pan-filter\t[\\s\\S]*Q312-1141\t", ""},
        {"clig", "completions offer the values of an option", "casebound completion next -- sheet van job --paper", 0,
         "^a4\nletter\n$", ""},
        {"clig", "a manual page out of the same table", "casebound manual | man --warnings -l - 2>&1 | cat", 0,
         "vehicle tell VEHICLE", "warning"},
        {"clig", "what is typed may be a name in words",
         "van; casebound vehicle tell van pan depth 41 measured; casebound fits van Pan filter", 0, "pan filter: FITS",
         ""},
        {"clig", "--dry-run writes nothing",
         "casebound vehicle new van quernmoor-packet --dry-run; casebound vehicle list", 0,
         "NOTHING WAS WRITTEN[\\s\\S]*No vehicle yet", ""},
        {"clig", "- is standard input",
         "printf 'seller,item,price,carriage\\nGullane,Q312-1141,9.50,4\\n' | casebound offer load -", 0,
         "1 offer on file", ""},
        {"clig", "a fault of standard input is named by its line",
         "printf 'seller,item,price\\nGullane,Q312-1141,dear\\n' | casebound offer load -", 65, "standard input:2", ""},
        {"clig", "danger asks for a word of its own", "casebound help vehicle forget", 0, "--records-too", ""},
        {"GNU", "--version: name, number, copyright, licence, no warranty", "casebound --version", 0,
         "^casebound [0-9]+\\.[0-9]+\\.[0-9]+\nCopyright[\\s\\S]*Licence: MIT[\\s\\S]*no warranty", ""},
        {"GNU", "long options take = or a blank",
         "van; casebound list van pan-service --color=never >a; casebound list --color never van pan-service >b; cmp a "
         "b",
         0, "", "differ"},
        {"GNU", "options may stand before, between and behind words",
         "van; casebound --full fits van pan-filter >a; casebound fits --full van pan-filter >b; casebound fits van "
         "pan-filter --full >c; cmp a b && cmp b c",
         0, "", "differ"},
        {"GNU", "after -- nothing is an option", "casebound fits -- --van", 66, "--van: no such vehicle", ""},
        {"GNU", "errors begin with the program's name", "casebound fits van x --ful", 64, "^casebound: ", ""},
        {"GNU", "an option without its value is said", "casebound list van x --catalog", 64,
         "--catalog: FILE is missing", ""},
        {"GNU", "a flag that is given a value is said", "casebound list van x --full=yes", 64, "it takes no value", ""},
    };
    return all;
}

struct Ran {
    int exit;
    std::string output;
};

Ran run(const std::string& folder, const std::string& command) {
    const auto script = fmt::format(
        "cd '{}' && export CASEBOUND_HOME='{}' CASEBOUND_TODAY=2026-11-25 PATH='{}':\"$PATH\" TERM=xterm; unset "
        "COLUMNS "
        "NO_COLOR; ( {}{} ) 2>&1",
        folder, folder, CASEBOUND_BINARY_DIR, words, command);
    FILE* pipe = popen(script.c_str(), "r");
    REQUIRE(pipe);
    std::string output;
    char part[4096];
    for (std::size_t got; (got = fread(part, 1, sizeof part, pipe)) > 0;) output.append(part, got);
    const int status = pclose(pipe);
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, output};
}

// Piece by piece where anything may stand between: over a long text the library would go down one call a character.
bool found(const std::string& text, const std::string& pattern) {
    constexpr std::string_view anything = "[\\s\\S]*";
    auto at = text.cbegin();
    for (std::size_t from = 0; from != std::string::npos;) {
        const auto end = pattern.find(anything, from);
        const std::regex piece(pattern.substr(from, end == std::string::npos ? end : end - from));
        std::smatch match;
        if (!std::regex_search(
                at, text.cend(), match, piece,
                at == text.cbegin() ? std::regex_constants::match_default : std::regex_constants::match_prev_avail))
            return false;
        at = match.suffix().first;
        from = end == std::string::npos ? end : end + anything.size();
    }
    return true;
}

}  // namespace

TEST_CASE("every point of the guidelines that applies is shown by a command") {
    const ScratchFolder loaded;
    REQUIRE(run(loaded.path(), "casebound pack load --reference && casebound pack load '" CASEBOUND_SOURCE_DIR
                               "/seed-data/demo-fleet'")
                .exit == 0);
    const auto catalog = ScratchFolder::read(loaded.file("catalog.sqlite"));
    for (const auto& point : points()) {
        ScratchFolder home;
        home.write("catalog.sqlite", catalog);
        const auto ran = run(home.path(), point.command);
        INFO(point.from << ": " << point.point << "\n$ " << point.command << "\nexit " << ran.exit << "\n"
                        << ran.output);
        CHECK(ran.exit == point.exit);
        CHECK(found(ran.output, point.shows));
        if (!point.not_this.empty()) CHECK_FALSE(found(ran.output, point.not_this));
    }
    CHECK(points().size() > 30);
}
