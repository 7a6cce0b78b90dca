#include "core/program/help.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/text_layout.h"
#include "core/program/global_options.h"

namespace casebound {

namespace {

// What a newcomer needs, in the order of the work.
struct FirstSteps {
    std::string_view title;
    std::vector<std::string_view> commands;
};
const std::vector<FirstSteps>& first_steps() {
    static const std::vector<FirstSteps> steps{
        {"Add a vehicle, and say what you found out", {"vehicle new", "vehicle tell", "ask"}},
        {"See what fits it", {"list", "fits", "why"}},
        {"Order, and write down what was done", {"offer add", "buy", "record", "sheet"}}};
    return steps;
}

// Where to see what may stand for a word in capitals.
struct WordSeen {
    std::string_view word, where;
};
constexpr WordSeen seen[] = {{"VEHICLE", "casebound vehicle list"},
                             {"JOB", "casebound list VEHICLE names the jobs"},
                             {"PLACE", "a place of a part: casebound fits VEHICLE; all of them: casebound pack words"},
                             {"ATTRIBUTE", "casebound vehicle show VEHICLE"},
                             {"DOUBT", "casebound buy VEHICLE JOB names it"}};

bool is_capital(char c) { return c >= 'A' && c <= 'Z'; }

// As a word of its own: not the JOB of UNIT-JOBS.
bool has_word(std::string_view text, std::string_view word) {
    for (auto at = text.find(word); at != std::string_view::npos; at = text.find(word, at + 1)) {
        const auto end = at + word.size();
        if ((at == 0 || !is_capital(text[at - 1])) && (end == text.size() || !is_capital(text[end]))) return true;
    }
    return false;
}

bool takes(const Command& command, std::string_view word) {
    return has_word(command.words, word) ||
           std::any_of(command.options.begin(), command.options.end(),
                       [&](const OptionSpec& one) { return has_word(one.value, word); });
}

std::string with_words(const Command& command) {
    return command.words.empty() ? command.name : command.name + " " + command.words;
}

// As far as its first clause: the rest is said by `help COMMAND`.
std::string in_short(const Command& command) { return command.summary.substr(0, command.summary.find(';')); }

std::string words_section(const Command& command) {
    std::string out;
    for (const auto& list : command.lists)
        out += wrapped(fmt::format("{}: {}", list.name, fmt::join(list.words, ", ")), 2, 2);
    for (const auto& one : seen)
        if (takes(command, one.word)) out += wrapped(fmt::format("{}: {}", one.word, one.where), 2, 2);
    return out.empty() ? out : "\n" + out;
}

std::string options_section(const Command& command) {
    if (command.options.empty()) return "";
    Table rows({"option", "what it is"});
    for (const auto& option : command.options)
        rows.row({"--" + option.name + (option.value.empty() ? "" : " " + option.value), option_words(option)});
    return "\n" + rows.text();
}

std::string of_every_command() {
    std::string all;
    for (const auto& one : global_options())
        all += fmt::format("--{}{}, ", one.spec.name, one.spec.value.empty() ? "" : " " + one.spec.value);
    return all + "--help";
}

}  // namespace

std::string option_words(const OptionSpec& option) {
    return option.values.empty() ? option.help : fmt::format("{}: {}", option.help, fmt::join(option.values, ", "));
}

std::string usage_line(const Command& command) { return "usage: casebound " + with_words(command); }

std::string start_text(const std::vector<Command>& table) {
    std::string out = wrapped("casebound: what fits this vehicle, before anything is ordered.");
    for (const auto& step : first_steps()) {
        out += "\n" + wrapped(std::string(step.title) + ":");
        Table rows({"", ""});
        for (const auto& name : step.commands)
            for (const auto& command : table)
                if (command.name == name) rows.row({"casebound " + command.name, in_short(command)});
        out += rows.text();
    }
    return out + "\n" +
           wrapped(
               "All commands: casebound help. One of them: casebound help list. The whole tool in a browser: casebound "
               "page.");
}

std::string help_text(const std::vector<Command>& table) {
    std::string out = wrapped("casebound: what fits this vehicle, before anything is ordered.") + "\n";
    Table rows({"command", "what it does"});
    for (const auto& command : table)
        rows.row({command.words.size() > 24 ? command.name + " ..." : with_words(command), in_short(command)});
    rows.row({"DOMAIN [INQUIRY]", "a domain's computations; `casebound plugin list` names the domains"});
    return out + rows.text() + "\n" +
           wrapped(
               fmt::format("One of them whole: casebound help COMMAND. Every command takes {}. `casebound --version` "
                           "shows version and licence. Exit: {}",
                           of_every_command(), usual_exits));
}

std::string help_of(const Command& command) {
    return wrapped("casebound " + with_words(command), 0, 4) + wrapped(command.summary, 2) + words_section(command) +
           options_section(command) + "\n" + wrapped("Example: " + command.example, 0, 4);
}

std::string help_for(const std::vector<Command>& table, const std::string& first, const std::string& second) {
    std::string found;
    for (const auto& command : table) {
        if (command.name == first || command.name == first + " " + second) {
            found = help_of(command);
            break;
        }
        if (command.name.rfind(first + " ", 0) == 0) found += help_of(command) + "\n";
    }
    return found.empty() ? found
                         : found + wrapped(fmt::format("Every command also takes {}.", of_every_command()), 0, 4);
}

std::string version_text() {
    return fmt::format("casebound {}\nCopyright (c) 2026 the casebound contributors\n", CASEBOUND_VERSION) +
           wrapped(
               "Licence: MIT. Free to use, to change and to pass on, with this notice; there is no warranty, as far as "
               "the law allows.");
}

}  // namespace casebound
