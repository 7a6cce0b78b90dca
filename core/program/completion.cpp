#include <map>

#include <fmt/format.h>

#include "core/ground/error.h"
#include "core/program/global_options.h"
#include "core/program/help.h"
#include "core/program/manual.h"
#include "core/program/word_offers.h"

namespace casebound {

namespace {

// What may follow a command, and what may follow the first word of a command of two.
struct Follows {
    std::string after;  // "", "list", "pack", "pack load"
    std::vector<Offered> offered;
};

void offer_once(std::vector<Offered>& offered, std::string word, std::string what) {
    for (const auto& one : offered)
        if (one.word == word) return;
    offered.push_back({std::move(word), std::move(what)});
}

Follows options_of(const Command& command) {
    Follows follows{command.name, {}};
    for (const auto& option : command.options) follows.offered.push_back({"--" + option.name, option_words(option)});
    for (const auto& option : global_options())
        follows.offered.push_back({"--" + option.spec.name, option_words(option.spec)});
    follows.offered.push_back({"--help", "what it takes"});
    return follows;
}

std::vector<Follows> all_that_follows(const std::vector<Command>& table) {
    Follows first{"", {}};
    std::vector<Follows> groups, commands;
    for (const auto& command : table) {
        const auto space = command.name.find(' ');
        const auto group = command.name.substr(0, space);
        offer_once(first.offered, group, space == std::string::npos ? command.summary : group + " ...");
        if (space != std::string::npos) {
            if (groups.empty() || groups.back().after != group) groups.push_back({group, {}});
            groups.back().offered.push_back({command.name.substr(space + 1), command.summary});
        }
        commands.push_back(options_of(command));
    }
    for (auto& follows : commands)  // the words of help are those of the commands
        if (follows.after == "help")
            follows.offered.insert(follows.offered.begin(), first.offered.begin(), first.offered.end());
    std::vector<Follows> all{first};
    all.insert(all.end(), groups.begin(), groups.end());
    all.insert(all.end(), commands.begin(), commands.end());
    return all;
}

// In single quotes of any of the three shells: each `'` becomes `quote`.
std::string quoted(std::string_view text, std::string_view quote) {
    std::string out = "'";
    for (const char c : text) c == '\'' ? out.append(quote) : out.append(1, c);
    return out + "'";
}

// What is typed so far, its options left out, looked up with two words, then with one. Behind a command the program is
// asked what is on file; where nothing is offered, the shell completes names of files.
std::string bash_script(const std::vector<Follows>& all) {
    std::string cases;
    for (const auto& follows : all) {
        std::string words;
        for (const auto& one : follows.offered) words += (words.empty() ? "" : " ") + one.word;
        cases += fmt::format("    '{}') words='{}' ;;\n", follows.after, words);
    }
    return "# bash completion of casebound\n_casebound_after() {\n  words=\n  case $1 in\n" + cases +
           "    *) return 1 ;;\n  esac\n}\n"
           "_casebound() {\n  local words word typed=()\n"
           "  for word in \"${COMP_WORDS[@]:1:COMP_CWORD-1}\"; do [[ $word == -* ]] || typed+=(\"$word\"); done\n"
           "  _casebound_after \"${typed[*]:0:2}\" || _casebound_after \"${typed[0]}\"\n"
           "  if [[ ${COMP_WORDS[COMP_CWORD]} != -* && $words == --* ]]; then\n"
           "    words=$(\"${COMP_WORDS[0]}\" completion next -- \"${COMP_WORDS[@]:1:COMP_CWORD-1}\" 2>/dev/null | cut "
           "-f1)\n"
           "  fi\n"
           "  COMPREPLY=($(compgen -W \"$words\" -- \"${COMP_WORDS[COMP_CWORD]}\"))\n}\n"
           "complete -o default -F _casebound casebound\n";
}

std::string zsh_script(const std::vector<Follows>& all) {
    std::string cases;
    for (const auto& follows : all) {
        cases += fmt::format("    '{}') offered=(", follows.after);
        for (const auto& one : follows.offered) {
            std::string word;
            for (const char c : one.word) word += c == ':' ? std::string("\\:") : std::string(1, c);
            cases += "\n      " + quoted(word + ":" + one.what, "'\\''");
        }
        cases += ") ;;\n";
    }
    return "#compdef casebound\n_casebound_after() {\n  offered=()\n  case $1 in\n" + cases +
           "    *) return 1 ;;\n  esac\n}\n"
           "_casebound() {\n  local -a offered typed\n"
           "  typed=(${${words[2,CURRENT-1]}:#-*})\n"
           "  _casebound_after \"${typed[1,2]}\" || _casebound_after \"${typed[1]}\"\n"
           "  if [[ $words[CURRENT] != -* && ${offered[1]} == --* ]]; then\n"
           "    offered=(${(f)\"$($words[1] completion next -- ${words[2,CURRENT-1]} 2>/dev/null | tr '\\t' ':')\"})\n"
           "    (( $#offered )) || { _files; return }\n"
           "  fi\n"
           "  _describe casebound offered || _files\n}\n"
           "if [[ $funcstack[1] == _casebound ]]; then _casebound \"$@\"; else compdef _casebound casebound; fi\n";
}

std::string fish_script(const std::vector<Follows>& all) {
    std::string out =
        "# fish completion of casebound\nfunction __casebound_typed\n"
        "  set -l typed (string match --invert -- '-*' (commandline --tokenize --cut-at-cursor --current-process))\n"
        "  set -e typed[1]\n  string match --quiet -- $argv[1] \"$typed \"\nend\n"
        "function __casebound_next\n"
        "  set -l typed (commandline --tokenize --cut-at-cursor --current-process)\n"
        "  type --query $typed[1]; and command $typed[1] completion next -- $typed[2..-1] 2>/dev/null\nend\n"
        "complete -c casebound -a '(__casebound_next)'\n";
    for (const auto& follows : all)
        for (const auto& one : follows.offered) {
            const bool option = one.word.rfind("--", 0) == 0;
            const auto when = follows.after.empty()
                                  ? "__casebound_typed \" \""
                                  : fmt::format("__casebound_typed \"{} {}\"", follows.after, option ? "*" : "");
            out += fmt::format("complete -c casebound -n {} {} {} -d {}\n", quoted(when, "\\'"),
                               option ? "-l" : "-f -a", option ? one.word.substr(2) : one.word,
                               quoted(one.what, "\\'"));
        }
    return out;
}

}  // namespace

std::string completion_script(std::string_view shell, const std::vector<Command>& table) {
    const auto all = all_that_follows(table);
    if (shell == "bash") return bash_script(all);
    if (shell == "zsh") return zsh_script(all);
    if (shell == "fish") return fish_script(all);
    throw Error(Exit::usage, fmt::format("{}: completions are written for bash, zsh and fish", shell));
}

}  // namespace casebound
