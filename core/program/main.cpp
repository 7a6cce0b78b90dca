// The command line: one table of commands, global options, exit codes. Results go to standard output, messages to
// standard error.
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <new>
#include <string_view>
#include <system_error>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/colour.h"
#include "core/ground/large_page.h"
#include "core/ground/memory_reserve.h"
#include "core/ground/outlet.h"
#include "core/ground/paths.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/host/domain_watch.h"
#include "core/program/help.h"
#include "core/program/typed_words.h"

namespace casebound {

namespace {

// Where the shipped domains lie: CASEBOUND_PLUGINS, else beside the program as built or installed. What is installed may
// be moved as a whole, so no folder is fixed when it is built.
std::string shipped_folder() {
    if (const char* folder = std::getenv("CASEBOUND_PLUGINS")) return folder;
    std::error_code ignored;
    const auto self = std::filesystem::read_symlink("/proc/self/exe", ignored).parent_path();
    for (const auto& folder : {self / "plugins", self / "../lib/casebound/plugins"})
        if (std::filesystem::is_directory(folder, ignored)) return std::filesystem::weakly_canonical(folder).string();
    return {};
}

bool is_dumb() {
    const char* term = std::getenv("TERM");
    return !term || !*term || std::string_view(term) == "dumb";
}

std::string done_all_the_same() {
    const auto& files = written_files();
    return fmt::format("what was asked IS DONE{}{}: do not type it again, only look",
                       files.empty() ? "" : ", and stands in ", fmt::join(files, ", "));
}

// What was asked is done even when nobody can be told on standard output; typed again, it would be done twice.
int not_shown(int why) {
    const bool done = is_anything_written();
    if (why == EPIPE && !done) {  // the reader had enough, as `head` has
        answered();
        std::signal(SIGPIPE, SIG_DFL);
        std::raise(SIGPIPE);
    }
    print_message(fmt::format("casebound: standard output: cannot write ({}): {}\n", std::strerror(why),
                              done ? done_all_the_same() : "check space and permissions"));
    return static_cast<int>(Exit::cannot_write);
}

// `pager`: what shows it page by page; empty: at once.
int write_out(const Result& result, const std::string& pager = {}) {
    if (!pager.empty() && print_paged(result.output, pager)) return static_cast<int>(result.exit);
    const int why = print_result(result.output);
    return why == 0 ? static_cast<int>(result.exit) : not_shown(why);
}

// Where a person reads at a terminal and the answer is longer than it. PAGER set to nothing, or to cat, is no pager.
std::string pager_for(const std::string& output, const Session::Options& options) {
    const bool reads_along = results_go_to_a_terminal() && ::isatty(STDIN_FILENO) == 1 && !is_dumb();
    if (!options.pager || options.json || !reads_along) return {};
    const auto rows = terminal_size().value_or(TerminalSize{0, 0}).rows;
    const auto lines = static_cast<std::size_t>(std::count(output.begin(), output.end(), '\n'));
    if (rows == 0 || lines < rows) return {};
    const char* named = std::getenv("PAGER");
    const std::string pager = named ? named : "less -FRX";
    return pager == "cat" ? "" : pager == "less" ? "less -FRX" : pager;
}

int write_out(const Result& result, const Session::Options& options) {
    return write_out(result, pager_for(result.output, options));
}

bool asks_for_help(const std::vector<std::string>& words) {
    return std::any_of(words.begin(), words.end(),
                       [](const std::string& word) { return word == "--help" || word == "-h"; });
}

// The page is as wide as the terminal; what goes to a file or another program is as wide as ever.
void fit_the_terminal() {
    if (!results_go_to_a_terminal()) return;
    const char* said = std::getenv("COLUMNS");
    const auto columns = said ? std::strtoul(said, nullptr, 10) : 0;
    use_page_width(columns > 0 ? columns : terminal_size().value_or(TerminalSize{usual_width, 0}).columns);
}

// https://no-color.org: set and not empty.
bool wants_colours(const Session::Options& options) {
    if (options.json || options.colour == "never") return false;
    if (options.colour == "always") return true;
    const char* none = std::getenv("NO_COLOR");
    return results_go_to_a_terminal() && !(none && *none) && !is_dumb();
}

void show_as_asked(const Session::Options& options) {
    use_colours(wants_colours(options));
    show_keys(options.keys);
}

// Nothing of it is written by closing it, and the system takes back at once what would be given back piece by piece: a
// twelfth of the time that a short command takes.
Session& session_to_the_end(const Session::Options& options) {
    static Session* const kept = new Session(options);
    return *kept;
}

// A word that is no command may be a loaded domain.
int run_domain(const std::vector<std::string>& words, std::size_t at, const std::vector<Command>& table,
               Session::Options& options) {
    const auto args = typed_inquiry(words, at, options);
    show_as_asked(options);
    auto& session = session_to_the_end(options);
    auto domain = words[at];  // its name may be typed with dashes
    std::replace(domain.begin(), domain.end(), '-', '_');
    if (session.plugins().find(domain)) return write_out(run_inquiry(session, domain, args), options);
    std::vector<std::string> domains;
    for (const auto& one : session.plugins().domains) domains.push_back(one.name);
    throw Error(Exit::usage, fmt::format("{}: neither a command nor a loaded domain: {}", words[at],
                                         command_hint(words[at], table, domains)));
}

Session::Options usual_options(const std::vector<Command>& table) {
    Session::Options options;
    const auto paths = data_paths();
    options.catalog = paths.catalog;
    options.shop = paths.shop;
    options.probed = paths.probed;
    options.plugin_folders = {shipped_folder(), paths.plugins};  // --plugins adds more; of two that clash, the first
    for (const auto& command : table) options.reserved.insert(first_part(command));
    return options;
}

int run(const std::vector<std::string>& words) {
    fit_the_terminal();
    const auto table = commands(program_commands());
    if (words.empty()) return write_out({Exit::yes, start_text(table)});
    auto options = usual_options(table);
    const auto at = first_word(words);
    const bool none = at == words.size();
    if (none && asks_for_help(words)) return write_out({Exit::yes, help_text(table)}, options);
    if (none && words.back() == "--version") return write_out({Exit::yes, version_text()});
    const bool known = none || std::any_of(table.begin(), table.end(),
                                           [&](const Command& one) { return first_part(one) == words[at]; });
    if (!known) return run_domain(words, at, table, options);
    if (asks_for_help(words))
        return write_out({Exit::yes, help_for(table, words[at], at + 1 < words.size() ? words[at + 1] : "")}, options);
    const auto typed = typed_command(words, table, options);
    show_as_asked(options);
    auto& session = session_to_the_end(options);
    return write_out(typed.command->run(session, typed.args), options);
}

// Wrapped where a person reads it; a program finds each message on one line.
void say_error(const std::string& line) {
    const auto text = "casebound: " + line;
    print_message(messages_go_to_a_terminal() ? wrapped(text, 0, 2) : text + "\n");
}

// What was taken is given back by now, so there mostly is some for the message; where there is none, a few words say it.
int out_of_memory(std::string_view what_was_done) {
    const bool done = is_anything_written();
    try {
        say_error(fmt::format("out of memory{}{}: ", what_was_done.empty() ? "" : " while ", what_was_done) +
                  (done ? done_all_the_same() : "nothing was changed: close other programs, or ask for less at once"));
    } catch (const std::bad_alloc&) {
        print_without_memory(done ? "casebound: out of memory, after what was asked IS DONE\n"
                                  : "casebound: out of memory: nothing was changed\n");
    }
    return static_cast<int>(done ? Exit::cannot_write : Exit::busy);
}

int run_and_say(int argc, char** argv) {
    try {
        return run({argv + std::min(argc, 1), argv + argc});
    } catch (const Error& error) {
        for (const auto& line : error.all()) say_error(line);
        return static_cast<int>(error.exit());
    } catch (const OutOfMemoryIn& error) { return out_of_memory(error.what()); } catch (const std::bad_alloc&) {
        return out_of_memory("");
    } catch (const std::exception& error) {
        const auto* of_system = dynamic_cast<const std::system_error*>(&error);
        if (of_system && of_system->code() == std::errc::not_enough_memory) return out_of_memory("");
        say_error(
            fmt::format("this should not happen: {}: please report it with the command that was typed", error.what()));
        return static_cast<int>(Exit::bug);
    }
}

}  // namespace
}  // namespace casebound

int main(int argc, char** argv) {
    // What loads a pack takes much more, for long, and malloc finds figures for that by itself.
    if (argc < 2 || std::strcmp(argv[1], "pack") != 0) casebound::heap_on_large_pages();
    casebound::keep_memory_back();
    casebound::hold_streams();
    casebound::watch_domains();
    casebound::start_single_threaded_sqlite();
    const int status = casebound::run_and_say(argc, argv);
    casebound::answered();
    return status;
}
