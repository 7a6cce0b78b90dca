// `keep`: one confirmation turns what was measured and fitted on a vehicle into a row of the shop's own pack.
#include <algorithm>

#include <fmt/format.h>

#include "command.h"
#include "dates.h"
#include "json_of.h"
#include "keyed_words.h"
#include "own_pack.h"
#include "text_layout.h"

namespace casebound {

namespace {

// What was told as one value and narrows the line: the row must not claim more than was seen.
std::string condition_of(const Situation& situation) {
    std::string text;
    for (const auto& fact : situation.narrowing().facts) {
        if (!fact.applies) continue;
        if (fact.evidence != "measured" && fact.evidence != "read")  // a row "measured here" may not rest on hearsay, nor leave it out and claim more
            throw Error(Exit::usage, fmt::format("{}: {}: that is not measured: look for yourself and tell it anew, or take it back", situation.name(), fact.said()));
        text += fmt::format("{}{}={}", text.empty() ? "" : "; ", fact.attribute, fact.right_side);
    }
    if (text.empty()) throw Error(Exit::usage, fmt::format("{}: nothing is told that tells its configurations apart, so the row would claim the whole line: tell first", situation.name()));
    return text;
}

std::string group_of(Session& session, const std::string& item) {
    if (session.catalog().group(item)) return item;
    const auto groups = session.catalog().groups_of(item);
    if (groups.size() == 1) return groups.front();
    throw Error(Exit::usage, fmt::format("{}: {}", item, groups.empty() ? "neither an item nor a group of a loaded pack" : fmt::format("it is in several groups: name one of {}", fmt::join(groups, ", "))));
}

Result run_keep(Session& session, const Args& args) {
    auto situation = session.situation(args.words.at(0));
    const auto folder = args.option("pack");
    if (folder.empty()) throw Error(Exit::usage, "keep: name the folder of your own pack: --pack FOLDER");
    OwnFact fact{args.words.at(1), {}, situation->name(), today(), args.option("note")};
    for (std::size_t i = 2; i < args.words.size(); ++i) fact.cells.push_back(keyed_word(args.words[i]));
    const auto cell = [&](std::string_view name) { return std::find_if(fact.cells.begin(), fact.cells.end(), [&](const auto& one) { return one.first == name; }); };
    if (fact.table == "applications") {
        if (const auto item = cell("item"); item != fact.cells.end()) *item = {"group_key", group_of(session, item->second)};
        fact.cells.emplace_back("line", situation->line());
        if (cell("says") == fact.cells.end()) fact.cells.emplace_back("says", "fits");
        if (cell("condition") == fact.cells.end()) fact.cells.emplace_back("condition", condition_of(*situation));
    }
    const auto rows = rows_of(session, fact, folder);
    const bool confirmed = args.has("confirm");
    situation.reset();
    session.close_catalog();
    if (confirmed) keep_fact(session, fact, folder);
    if (session.json()) {
        auto json = document("keep");
        json["kept"] = confirmed;
        json["rows"] = Json::array();
        for (const auto& [file, row] : rows) json["rows"].push_back({{"file", file}, {"row", row.substr(0, row.size() - 1)}});
        return {confirmed ? Exit::yes : Exit::cannot_tell, json_text(json)};
    }
    std::string out = confirmed ? "Kept and loaded:\n" : "Not kept yet. These rows would be added; repeat with --confirm:\n";
    for (const auto& [file, row] : rows) out += wrapped(fmt::format("{}: {}", file, row.substr(0, row.size() - 1)), 2, 2);
    return {confirmed ? Exit::yes : Exit::cannot_tell, out};
}

}  // namespace

std::vector<Command> keep_commands() {
    return {{"keep", "VEHICLE applications role=ROLE item=KEY | VEHICLE TABLE COLUMN=VALUE...", "turn what was measured on a vehicle into a row of your own pack", 3, any_number,
             {{"pack", "FOLDER", "your own pack, made when missing"}, {"note", "TEXT", "how it was measured"}, {"confirm", "", "write it; without this it is only shown"}}, run_keep}};
}

}  // namespace casebound
