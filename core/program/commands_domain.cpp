// `domain new`: for whoever writes a domain.
#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/host/domain_check.h"
#include "core/program/new_domain.h"
#include "core/say/json_of.h"
#include "core/session/command.h"

namespace casebound {

namespace {

// Tables of `a` and `a_b` could not be told apart; a command of the same name would hide the domain.
void require_free(const std::string& name, const Plugins& plugins) {
    constexpr std::size_t longest = 24;  // so that what the template makes of it stays readable
    if (!is_snake_case(name) || name.size() > longest)
        throw Error(Exit::usage, fmt::format("{}: the name of a domain is snake_case, at most {} letters: brake_hoses",
                                             name, longest));
    for (const auto& other : plugins.domains)
        if (other.name == name || name.rfind(other.name + "_", 0) == 0 || other.name.rfind(name + "_", 0) == 0)
            throw Error(Exit::usage, fmt::format("{}: the domain {} is loaded from {}: take another name", name,
                                                 other.name, other.path));
    for (const auto& command : commands(program_commands()))
        if (command.name.substr(0, command.name.find(' ')) == name || name == "core" || name == "help")
            throw Error(Exit::usage, fmt::format("{}: casebound has a word of that name: take another one", name));
}

std::string next_steps(const NewDomain& written, const std::string& name) {
    if (written.in_tree)
        return fmt::format(
            "  clang-format -i $(find plugins/{0} -name '*.cpp' -o -name '*.h')\n"
            "  cmake --preset release && cmake --build --preset release\n"
            "  CASEBOUND_CASES=cases/{0} .build/release/tests/casebound_program_tests 'every text case*'\n",
            name);
    return fmt::format(
        "  cd {}\n  cmake -B build && cmake --build build\n"
        "  ctest --test-dir build --output-on-failure\n",
        written.folder);
}

Result run_new(Session& session, const Args& args) {
    const auto& name = args.words.at(0);
    require_free(name, session.plugins());
    const auto tree = args.words.size() > 1 ? std::filesystem::path() : source_tree_above(".");
    const auto written = tree.empty() ? write_domain_project(name, args.words.size() > 1 ? args.words[1] : name,
                                                             session.plugins())
                                      : write_domain_in_tree(name, tree, session.plugins());
    if (session.json()) {
        auto json = document("domain-new");
        json["folder"] = written.folder;
        json["in_tree"] = written.in_tree;
        json["files"] = written.files;
        return {Exit::yes, json_text(json)};
    }
    std::string out = fmt::format("{} in {}:\n", plural(written.files.size(), "file"), written.folder);
    for (const auto& file : written.files) out += fmt::format("  {}\n", file);
    return {Exit::yes, out + "Next:\n" + next_steps(written, name)};
}

}  // namespace

std::vector<Command> domain_commands() {
    return {{"domain new",
             "NAME [FOLDER]",
             "write a domain to begin with: here, where this is casebound's source; else a project of its own",
             1,
             2,
             {},
             run_new,
             "casebound domain new brake_hoses"}};
}

}  // namespace casebound
