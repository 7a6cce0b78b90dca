// The command line: one table of commands, global options, exit codes. Results go to standard output, messages to
// standard error.
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>
#include <CLI/CLI.hpp>

#include "core/ground/outlet.h"
#include "core/ground/paths.h"
#include "core/ground/text_layout.h"
#include "core/host/domain_watch.h"
#include "core/program/global_options.h"
#include "core/session/command.h"

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

void add_globals(CLI::App& app, Session::Options& options) {
    for (const auto& option : global_options()) {
        const auto& spec = option.spec;
        const auto name = "--" + spec.name;
        if (spec.value.empty()) {
            app.add_flag_callback(
                name, [&options, set = option.set] { set(options, ""); }, spec.help);
            continue;
        }
        const auto each = [&options, set = option.set](const std::vector<std::string>& values) {
            for (const auto& value : values) set(options, value);
        };
        app.add_option_function<std::vector<std::string>>(name, each, spec.help)
            ->type_name(spec.value)
            ->expected(1)
            ->allow_extra_args(false)
            ->multi_option_policy(spec.many ? CLI::MultiOptionPolicy::TakeAll : CLI::MultiOptionPolicy::Throw);
    }
}

struct Chosen {
    const Command* command = nullptr;
    Args args;
    std::map<std::string, std::vector<std::string>> values;
    std::map<std::string, bool> flags;
};

CLI::App* group_of(CLI::App& app, const std::string& name) {
    try {
        return app.get_subcommand(name);
    } catch (const CLI::OptionNotFound&) {
        auto* group = app.add_subcommand(name, fmt::format("{} ...", name));
        group->require_subcommand(1);
        return group;
    }
}

void add_command(CLI::App& app, const Command& command, Chosen& chosen, Session::Options& options) {
    const auto space = command.name.find(' ');
    auto* parent = space == std::string::npos ? &app : group_of(app, command.name.substr(0, space));
    auto* sub = parent->add_subcommand(space == std::string::npos ? command.name : command.name.substr(space + 1),
                                       command.summary);
    sub->allow_extras(false);
    if (command.most > 0) {
        auto* words =
            sub->add_option("words", chosen.args.words, command.words)->type_name("")->option_text(command.words);
        words->expected(static_cast<int>(command.least), static_cast<int>(command.most));
        if (command.least > 0) words->required();
    }
    for (const auto& option : command.options) {
        const auto key = command.name + "/" + option.name;
        if (option.value.empty()) sub->add_flag("--" + option.name, chosen.flags[key], option.help);
        else
            sub->add_option("--" + option.name, chosen.values[key], option.help)
                ->type_name(option.value)
                ->expected(1)
                ->allow_extra_args(false)
                ->take_all();
    }
    add_globals(*sub, options);
    sub->callback([&chosen, &command] { chosen.command = &command; });
}

Args args_of(const Chosen& chosen) {
    Args args = chosen.args;
    for (const auto& option : chosen.command->options) {
        const auto key = chosen.command->name + "/" + option.name;
        if (const auto value = chosen.values.find(key); value != chosen.values.end() && !value->second.empty())
            args.options[option.name] = value->second;
        if (const auto flag = chosen.flags.find(key); flag != chosen.flags.end() && flag->second)
            args.options[option.name] = {};
    }
    return args;
}

// Nothing for a word that is no global option.
const GlobalOption* global_named(std::string_view word) {
    static const auto all = global_options();
    const auto at = std::find_if(all.begin(), all.end(),
                                 [&](const GlobalOption& one) { return word == "--" + one.spec.name; });
    return at == all.end() ? nullptr : &*at;
}

// A word that is no command may be a loaded domain. Its words are NAME=VALUE, so they need no declaring.
Args inquiry_args(int argc, char** argv, int domain_at, Session::Options& options) {
    Args args;
    for (int i = 1; i < argc; ++i) {
        if (i == domain_at) continue;
        const std::string word = argv[i];
        const auto value = [&]() -> std::string {
            if (i + 1 >= argc) throw Error(Exit::usage, fmt::format("{}: a value is missing", word));
            return argv[++i];
        };
        if (const auto* global = global_named(word)) global->set(options, global->spec.value.empty() ? "" : value());
        else if (word == "--help" || word == "-h") args.options["help"] = {};
        else if (word == "--for") args.options["for"] = {value()};
        else if (word.rfind("--", 0) == 0)
            throw Error(Exit::usage, fmt::format("{}: no such option: --for, --full, --json, --help", word));
        else args.words.push_back(word);
    }
    return args;
}

// Where the command or domain stands: the first word that is neither a global option nor its value.
int first_word(int argc, char** argv) {
    int i = 1;
    while (i < argc && argv[i][0] == '-') {
        const auto* global = global_named(argv[i]);
        i += global && !global->spec.value.empty() ? 2 : 1;
    }
    return i;
}

std::string command_hint(const std::string& word, const std::vector<Command>& table, Session& session) {
    std::vector<std::string> names;
    for (const auto& command : table) names.push_back(command.name.substr(0, command.name.find(' ')));
    for (const auto& domain : session.plugins().domains) names.push_back(domain.name);
    const auto near = nearest(word, names);
    return near.empty() ? "casebound --help lists the commands" : fmt::format("did you mean {}?", near);
}

// What was asked is done even when nobody can be told on standard output; typed again, it would be done twice.
int not_shown(int why) {
    const auto& done = written_files();
    if (why == EPIPE && done.empty()) {  // the reader had enough, as `head` has
        answered();
        std::signal(SIGPIPE, SIG_DFL);
        std::raise(SIGPIPE);
    }
    print_message(fmt::format(
        "casebound: standard output: cannot write ({}): {}\n", std::strerror(why),
        done.empty() ? "check space and permissions"
                     : fmt::format("what was asked IS DONE, and stands in {}: do not type it again, only look",
                                   fmt::join(done, ", "))));
    return static_cast<int>(Exit::cannot_write);
}

int write_out(const Result& result) {
    const int why = print_result(result.output);
    return why == 0 ? static_cast<int>(result.exit) : not_shown(why);
}

std::string help_text(const std::vector<Command>& table) {
    std::string out = wrapped("casebound: what fits this vehicle, before anything is ordered.") + "\n";
    Table rows({"command", "what it does"});
    for (const auto& command : table)
        rows.row(
            {command.name + (command.words.empty() ? "" : " ") + (command.words.size() > 24 ? "..." : command.words),
             command.summary});
    rows.row({"DOMAIN [INQUIRY]", "a domain's computations; `casebound plugin list` names the domains"});
    return out + rows.text() + "\n" +
           wrapped(std::string("Every command takes --json, --full, --help, --catalog FILE, --shop FILE and --plugins "
                               "FOLDER. Exit: ") +
                   usual_exits);
}

std::string help_of(const Command& command) {
    std::string out = wrapped(fmt::format("casebound {} {}", command.name, command.words), 0, 4) +
                      wrapped(command.summary, 2);
    if (command.options.empty()) return out;
    Table rows({"option", "what it is"});
    for (const auto& option : command.options)
        rows.row({"--" + option.name + (option.value.empty() ? "" : " " + option.value), option.help});
    return out + "\n" + rows.text();
}

// Help for the command that was typed, for its group, or for all.
std::string help_for(const std::vector<Command>& table, const std::string& first, const std::string& second) {
    std::string group;
    for (const auto& command : table) {
        if (command.name == first || command.name == first + " " + second) return help_of(command);
        if (command.name.substr(0, command.name.find(' ')) == first) group += help_of(command) + "\n";
    }
    return group.empty() ? help_text(table) : group;
}

bool asks_for_help(int argc, char** argv) {
    return std::any_of(argv + 1, argv + argc, [](const char* word) {
        return std::string_view(word) == "--help" || std::string_view(word) == "-h";
    });
}

int run(int argc, char** argv) {
    Session::Options options;
    const auto paths = data_paths();
    options.catalog = paths.catalog;
    options.shop = paths.shop;
    options.probed = paths.probed;
    options.plugin_folders = {shipped_folder(), paths.plugins};  // --plugins adds more; of two that clash, the first
    const auto table = commands(program_commands());
    for (const auto& command : table) options.reserved.insert(command.name.substr(0, command.name.find(' ')));
    const int first_at = first_word(argc, argv);
    const std::string first = first_at < argc ? argv[first_at] : argc > 1 ? argv[1] : "--help";
    if (first == "--help" || first == "-h" || first == "help") return write_out({Exit::yes, help_text(table)});
    const bool known = first.rfind("-", 0) == 0 || std::any_of(table.begin(), table.end(), [&](const Command& c) {
                           return c.name.substr(0, c.name.find(' ')) == first;
                       });
    if (!known) {
        const auto args = inquiry_args(argc, argv, first_at, options);
        Session session(options);
        if (!session.plugins().find(first))
            throw Error(Exit::usage, fmt::format("{}: neither a command nor a loaded domain: {}", first,
                                                 command_hint(first, table, session)));
        return write_out(run_inquiry(session, first, args));
    }
    if (asks_for_help(argc, argv))
        return write_out({Exit::yes, help_for(table, first, first_at + 1 < argc ? argv[first_at + 1] : "")});
    CLI::App app{"casebound"};
    app.require_subcommand(1);
    app.set_version_flag("--version", "casebound " CASEBOUND_VERSION);
    Chosen chosen;
    add_globals(app, options);
    for (const auto& command : table)  // only the branch that was named: parsing stays cheap
        if (first.rfind("-", 0) == 0 || command.name.substr(0, command.name.find(' ')) == first)
            add_command(app, command, chosen, options);
    try {
        app.parse(argc, argv);
    } catch (const CLI::CallForVersion& version) {
        return write_out({Exit::yes, fmt::format("{}\n", version.what())});
    } catch (const CLI::ParseError& error) {
        throw Error(Exit::usage, fmt::format("{}: casebound {} --help shows its words", error.what(), first));
    }
    Session session(options);
    return write_out(chosen.command->run(session, args_of(chosen)));
}

int run_and_say(int argc, char** argv) {
    try {
        return run(argc, argv);
    } catch (const Error& error) {
        for (const auto& line : error.all()) print_message(fmt::format("casebound: {}\n", line));
        return static_cast<int>(error.exit());
    } catch (const std::exception& error) {
        print_message(fmt::format(
            "casebound: this should not happen: {}: please report it with the command that was typed\n", error.what()));
        return static_cast<int>(Exit::bug);
    }
}

}  // namespace
}  // namespace casebound

int main(int argc, char** argv) {
    casebound::hold_streams();
    casebound::watch_domains();
    casebound::start_single_threaded_sqlite();
    const int status = casebound::run_and_say(argc, argv);
    casebound::answered();
    return status;
}
