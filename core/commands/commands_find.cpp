// `find`: parts of numbers, titles and words, best first, and where on the yard each is used.
#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/say/in_words.h"
#include "core/say/json_of.h"
#include "core/session/command.h"
#include "core/work/find_uses.h"

namespace casebound {

namespace {

// A group of parts goes by the number of one of them; a line and a job are typed by their titles as well.
std::string number_of(const Catalog& catalog, const Found& found) {
    if (found.kind == FoundKind::item) return found.key;
    return found.kind == FoundKind::group ? group_words(catalog, found.key) : named("", found.key);
}

std::string topics_text(const std::vector<Topic>& topics) {
    std::string out;
    for (const auto& one : topics)
        out += wrapped(fmt::format("{}: {}: {}", one.computed ? "to work out" : "to tell", one.title, one.command()), 2,
                       4);
    return out;
}

Result run_find(Session& session, const Args& args) {
    const auto typed = fmt::format("{}", fmt::join(args.words, " "));
    const auto answer = found_in(session, typed, session.full() ? 200 : 12);
    const auto uses = uses_of(session, answer.found);
    const auto topics = topics_of(session, typed);
    const auto exit = answer.found.empty() && topics.empty() ? Exit::no : Exit::yes;
    if (session.json()) {
        auto json = document("find");
        json["words"] = typed;
        json["found"] = Json::array();
        for (std::size_t i = 0; i < answer.found.size(); ++i)
            json["found"].push_back({{"kind", found_kind_words(answer.found[i].kind)},
                                     {"key", answer.found[i].key},
                                     {"title", answer.found[i].title},
                                     {"used", uses[i]}});
        json["topics"] = Json::array();
        for (const auto& one : topics)
            json["topics"].push_back(
                {{"kind", one.computed ? "computed" : "told"}, {"title", one.title}, {"command", one.command()}});
        json["more"] = answer.more;
        json["did_you_mean"] = answer.did_you_mean;
        return {exit, json_text(json)};
    }
    if (answer.found.empty() && !topics.empty()) return {exit, topics_text(topics)};
    if (answer.found.empty())
        return {exit,
                wrapped(fmt::format("{}: in no loaded pack. Not recorded is not a no.{}", typed,
                                    answer.did_you_mean.empty()
                                        ? ""
                                        : fmt::format(" Did you mean {}?", fmt::join(answer.did_you_mean, " or "))),
                        0, 2)};
    Table table({"what", "number", "title"});
    for (std::size_t i = 0; i < answer.found.size(); ++i) {
        table.row({std::string(found_kind_words(answer.found[i].kind)), number_of(session.catalog(), answer.found[i]),
                   answer.found[i].title});
        for (const auto& use : uses[i]) table.under(use);
    }
    return {exit, table.text() + topics_text(topics) +
                      (answer.more ? "There are more: one more word narrows it; --full shows more\n" : "")};
}

}  // namespace

std::vector<Command> find_commands() {
    return {{"find",
             "WORDS...",
             "look up parts of numbers, titles and words: filter 41; says where it is used on your "
             "vehicles",
             1,
             any_number,
             {},
             run_find,
             "casebound find filter 41"}};
}

}  // namespace casebound
