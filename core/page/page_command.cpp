#include "core/page/page_command.h"

#include <algorithm>

#include <fmt/format.h>

namespace casebound {

Result run_command(Session& session, std::string_view command, const Args& args) {
    const auto table = commands();
    const auto found = std::find_if(table.begin(), table.end(),
                                    [&](const Command& one) { return one.name == command; });
    if (found == table.end()) throw Error(Exit::bug, fmt::format("{}: no such command", command));
    if (args.words.size() < found->least)
        throw Error(Exit::usage, fmt::format("{}: more words are needed: it takes {}", command, found->words));
    return found->run(session, args);
}

std::vector<std::string> key_value_args_asked(const Visit& visit, const std::vector<std::string>& names) {
    std::vector<std::string> words;
    for (const auto& name : names)
        if (const auto value = visit.asked(name); !value.empty()) words.push_back(fmt::format("{}={}", name, value));
    return words;
}

std::vector<std::string> key_value_args_of(const Visit& visit, const std::vector<std::string>& names) {
    std::vector<std::string> words;
    for (const auto& name : names)
        if (const auto value = visit.typed(name); !value.empty()) words.push_back(fmt::format("{}={}", name, value));
    return words;
}

void add_options(Args& args, const Visit& visit, const std::vector<std::string>& names) {
    for (const auto& name : names)
        if (const auto value = visit.typed(name); !value.empty()) args.options[name] = {value};
}

void add_photos(Args& args, const Visit& visit) {
    for (const auto& file : visit.request.files)
        if (file.field == "photo") args.options["photo"].push_back(file.path);
}

}  // namespace casebound
