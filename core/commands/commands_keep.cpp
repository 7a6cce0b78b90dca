// `keep`: one confirmation turns what was measured and fitted on a vehicle into rows of the shop's own pack. Only what
// was recorded on that vehicle is kept: a part that was fitted, received or matched there, and facts somebody looked at.
#include <algorithm>
#include <set>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/commands/keeping.h"
#include "core/ground/dates.h"
#include "core/ground/text_layout.h"
#include "core/say/json_of.h"
#include "core/say/report.h"
#include "core/session/command.h"
#include "core/shop/shop_records.h"
#include "core/verdict/part_number.h"
#include "core/work/key_value_args.h"
#include "core/work/measured_pack.h"
#include "core/work/own_line.h"

namespace casebound {

namespace {

// What was told as one value and narrows the line: the row must not claim more than was seen.
std::string condition_of(const Situation& situation) {
    std::string text;
    for (const auto& fact : situation.narrowing().facts) {
        if (!fact.applies) continue;
        if (is_hearsay(
                fact.evidence))  // a row "measured here" may not rest on hearsay, nor leave it out and claim more
            throw Error(Exit::usage,
                        fmt::format("{}: {}: that is not measured: look for yourself and tell it anew, or take it back",
                                    situation.name(), fact.said()));
        text += fmt::format("{}{}={}", text.empty() ? "" : "; ", fact.attribute, fact.right_side.text());
    }
    if (text.empty())
        throw Error(Exit::usage, fmt::format("{}: nothing is told that tells its configurations apart, so the row "
                                             "would claim the whole line: tell first",
                                             situation.name()));
    return text;
}

std::string group_of(Session& session, const std::string& typed) {
    const auto item = item_meant(session.catalog(), typed);
    if (session.catalog().group(item)) return item;
    const auto groups = session.catalog().groups_of(item);
    if (groups.size() == 1) return groups.front();
    if (groups.empty() && !session.catalog().facts().rows("items", "item", item).empty())
        throw Error(
            Exit::usage,
            fmt::format("{}: it is in no group of its own, as a kit is: name the part in it, or its group", item));
    throw Error(
        Exit::usage,
        fmt::format("{}: {}", item,
                    groups.empty() ? fmt::format("neither an item nor a group of a loaded pack: keep it as a new part "
                                                 "first: casebound keep VEHICLE part item={} title=TEXT role=PLACE",
                                                 item)
                                   : fmt::format("it is in several groups: name one of {}", fmt::join(groups, ", "))));
}

// The newest day a part of these keys was in hand on the vehicle; `only`: events that count.
std::string day_in_hand(Session& session, const std::string& vehicle, const std::set<std::string>& keys,
                        std::initializer_list<std::string_view> only, std::string_view role = {}) {
    const ShopRecords records(session.shop());
    std::string day;
    const auto counts = [&](std::string_view what) { return std::find(only.begin(), only.end(), what) != only.end(); };
    for (const auto& one : records.records(vehicle))
        if (one.stands && counts(one.what) && keys.contains(one.item) && (role.empty() || one.role == role))
            day = std::max(day, one.date);
    for (const auto& one : records.events(vehicle))
        if (one.stands && counts(one.event) && keys.contains(one.item) && (role.empty() || one.role == role))
            day = std::max(day, one.date);
    return day;
}

std::string day_looked_at(Session& session, const std::string& vehicle, std::string_view role) {
    std::string day;
    for (const auto& one : ShopRecords(session.shop()).records(vehicle))
        if (one.stands && one.role == role && one.what == "looked_at") day = std::max(day, one.date);
    return day;
}

// The group, and what may be written on its box.
std::set<std::string> keys_of(Session& session, const std::string& group) {
    std::set<std::string> keys{group};
    for (const auto& row : session.catalog().facts().rows("group_members", "group_key", group))
        keys.emplace(row.text("item"));
    return keys;
}

std::string text_of(const OwnCells& cells, std::string_view name) {
    for (const auto& [column, text] : cells)
        if (column == name) return text;
    return {};
}

class Keeping {
public:
    Keeping(Session& session, const Situation& situation, const Args& args)
        : session_(session), situation_(situation), fact_{{}, situation.name(), {}, args.option("note")} {
        for (std::size_t i = 2; i < args.words.size(); ++i) cells_.push_back(key_value_arg(args.words[i]));
    }

    OwnFact fact(const std::string& table) {
        if (table == "part") new_part();
        else if (table == "applications") application(std::move(cells_));
        else property(table);
        return std::move(fact_);
    }

private:
    std::string text(std::string_view name) const { return text_of(cells_, name); }
    std::string need(std::string_view name) const {
        if (auto value = text(name); !value.empty()) return value;
        throw Error(Exit::usage, fmt::format("{0}: it is needed here: write {0}=...", name));
    }
    void require_day(std::string day, const std::string& what) {
        if (day.empty())
            throw Error(Exit::usage, fmt::format("{}: {}: record it first, so that the row says only what was seen",
                                                 fact_.vehicle, what));
        fact_.date = std::move(day);
    }

    void application(OwnCells cells) {
        const auto cell = [&](std::string_view name) {
            return std::find_if(cells.begin(), cells.end(), [&](const auto& one) { return one.first == name; });
        };
        if (const auto item = cell("item"); item != cells.end())
            *item = {"group_key", group_of(session_, item->second)};
        if (cell("says") == cells.end()) cells.emplace_back("says", "fits");
        const auto role = cell("role") == cells.end() ? need("role") : cell("role")->second;
        const auto says = cell("says")->second;
        if (says == "none_needed") {
            require_day(day_looked_at(session_, fact_.vehicle, role),
                        fmt::format("nobody has looked at {} there", role));
        } else {
            const auto group = cell("group_key") == cells.end() ? need("item") : cell("group_key")->second;
            const auto keys = keys_of(session_, group);
            const auto day = says == "fits" ? day_in_hand(session_, fact_.vehicle, keys, {"fitted", "matched"}, role)
                                            : day_in_hand(session_, fact_.vehicle, keys, {"mismatched"}, role);
            require_day(day, fmt::format("no {} as {} is on record as {}", group, role,
                                         says == "fits" ? "fitted or held against the old one" : "not matching"));
        }
        add_application(std::move(cells));
    }

    void add_application(OwnCells cells) {
        const auto has = [&](std::string_view name) {
            return std::any_of(cells.begin(), cells.end(), [&](const auto& one) { return one.first == name; });
        };
        cells.emplace_back("line", situation_.line());
        if (!has("condition")) cells.emplace_back("condition", condition_of(situation_));
        fact_.rows.emplace_back("applications", std::move(cells));
    }

    // A part that no pack has: itself, its group (or its place in an existing one), and where it was fitted.
    void new_part() {
        const auto item = need("item"), role = need("role"), title = need("title");
        const auto* known = session_.catalog().vocabularies().role(role);
        if (!known) throw Error(Exit::usage, fmt::format("{}: no such role", role));
        require_day(day_in_hand(session_, fact_.vehicle, {item}, {"fitted", "matched"}, role),
                    fmt::format("no {} as {} is on record as fitted or held against the old one", item, role));
        const auto own = [&] {
            auto key = item;
            std::transform(key.begin(), key.end(), key.begin(),
                           [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
            return "own-" + key;
        }();
        const auto group = text("group").empty() ? own : text("group");
        const auto* kind = session_.catalog().vocabularies().item_kind(known->item_kind);
        const auto pack = text("pack_quantity");
        if (pack.empty() && kind && kind->unit != "each")
            throw Error(Exit::usage, fmt::format("{}: say how much one pack of it holds, in {}: pack-quantity=...",
                                                 item, kind->unit));
        fact_.rows.push_back({"items",
                              {{"item", item},
                               {"kind", known->item_kind},
                               {"title", title},
                               {"pack_quantity", pack.empty() ? "1" : pack}}});
        if (!session_.catalog().group(group))
            fact_.rows.push_back({"groups", {{"group_key", group}, {"kind", known->item_kind}, {"title", title}}});
        fact_.rows.push_back({"group_members", {{"group_key", group}, {"item", item}, {"basis", "same"}}});
        OwnCells cells{{"role", role}, {"says", "fits"}, {"group_key", group}};
        if (const auto quantity = text("quantity"); !quantity.empty()) cells.emplace_back("quantity", quantity);
        add_application(std::move(cells));
    }

    // Of a part: it was in hand there. Of the vehicle's line: on what was told, and how it was measured is said.
    void property(const std::string& table) {
        const bool of_line = own_table_has(session_, table, "line");
        const auto part = !text("group_key").empty() ? text("group_key") : text("item");
        if (!part.empty()) {
            const auto keys = session_.catalog().group(part) ? keys_of(session_, part) : std::set<std::string>{part};
            require_day(day_in_hand(session_, fact_.vehicle, keys,
                                    {"fitted", "matched", "mismatched", "received", "left_over"}),
                        fmt::format("no {} was in hand there", part));
        } else if (of_line) {
            if (fact_.note.empty())
                throw Error(Exit::usage, fmt::format("{}: say how it was measured: --note TEXT", table));
            fact_.date = today();
        } else {
            throw Error(
                Exit::usage,
                fmt::format(
                    "{}: a row of it is about no part and no vehicle line, so nothing measured on {} can be kept in it",
                    table, fact_.vehicle));
        }
        if (of_line && text("line").empty()) cells_.emplace_back("line", situation_.line());
        if (of_line && text("condition").empty() && own_table_has(session_, table, "condition"))
            cells_.emplace_back("condition", condition_of(situation_));
        fact_.rows.emplace_back(table, std::move(cells_));
    }

    Session& session_;
    const Situation& situation_;
    OwnFact fact_;
    OwnCells cells_;
};

// What the kept rows make of the role on this vehicle: a contradiction is said loudly.
std::string what_now(Session& session, const OwnFact& fact) {
    std::string out;
    for (const auto& [table, cells] : fact.rows) {
        if (table != "applications") continue;
        const auto role = text_of(cells, "role"), group = text_of(cells, "group_key");
        const auto answer = session.situation(fact.vehicle)->places().role(role);
        const auto one = std::find_if(answer.groups.begin(), answer.groups.end(),
                                      [&](const GroupAnswer& other) { return other.key == group; });
        const auto verdict = one == answer.groups.end() ? answer.verdict : one->verdict;
        out += wrapped(
            fmt::format(
                "{} as {} on {} now: {}.", group.empty() ? "none" : group, answer.title, fact.vehicle,
                verdict == Verdict::sources_disagree ? "SOURCES DISAGREE" : std::string(verdict_words(verdict))),
            0, 2);
        if (verdict == Verdict::sources_disagree)
            out += wrapped(
                fmt::format(
                    "Another source says otherwise and is not overwritten; both stay: casebound fits {} {} --full",
                    fact.vehicle, role),
                2, 2);
    }
    return out;
}

// What the catalog says to the contrary of the rows today, before anything is asked for.
std::vector<std::string> contradicted(const Situation& situation, const OwnFact& fact) {
    std::vector<std::string> all;
    for (const auto& [table, cells] : fact.rows) {
        if (table != "applications") continue;
        const auto answer = situation.places().role(text_of(cells, "role"));
        const auto group = text_of(cells, "group_key"), says = text_of(cells, "says");
        const auto one = std::find_if(answer.groups.begin(), answer.groups.end(),
                                      [&](const GroupAnswer& other) { return other.key == group; });
        const auto verdict = one == answer.groups.end() ? answer.verdict : one->verdict;
        const bool of_group = one != answer.groups.end();
        const bool against = says == "fits" ? (of_group && verdict == Verdict::does_not_fit) ||
                                                  (!of_group && verdict == Verdict::none_needed)
                                            : verdict == Verdict::fits || (says == "does_not_fit" && of_group &&
                                                                           verdict == Verdict::check_first);
        if (against)
            all.push_back(fmt::format("{} as {} on {}: the row says {}, the catalog says {}",
                                      group.empty() ? "none" : group, answer.title, fact.vehicle, spaced(says),
                                      verdict_words(verdict)));
    }
    return all;
}

// A row without the end of its line.
std::string bare(const std::string& row) { return row.substr(0, row.size() - 1); }

Result keep_answer(Session& session, const OwnFact& fact, const KeptRows& kept, bool confirmed) {
    const auto exit = confirmed ? Exit::yes : Exit::cannot_tell;
    if (session.json()) {
        auto json = document("keep");
        json["kept"] = confirmed;
        json["rows"] = Json::array();
        for (const auto& [file, row] : kept.rows) json["rows"].push_back({{"file", file}, {"row", row}});
        json["contradicts"] = kept.contradicts;
        return {exit, json_text(json)};
    }
    std::string out;
    for (const auto& one : kept.contradicts)
        out += wrapped(fmt::format("CONTRADICTS THE CATALOG: {}. Look again; if it stays, both are kept, and the "
                                   "answer is that sources disagree.",
                                   one),
                       0, 2);
    out += confirmed ? "Kept and loaded:\n" : "Not kept yet. These rows would be added; repeat with --confirm:\n";
    for (const auto& [file, row] : kept.rows) out += wrapped(fmt::format("{}: {}", file, row), 2, 2);
    return {exit, out + (confirmed ? what_now(session, fact) : "")};
}

// Shown, and written where it is confirmed. Closes the catalog.
std::pair<OwnFact, KeptRows> keep(Session& session, const Args& args) {
    const auto folder = args.has("pack") ? args.option("pack") : own_pack_folder(session);
    auto situation = session.situation(args.words.at(0));
    auto fact = Keeping(session, *situation, args).fact(args.words.at(1));
    KeptRows kept{rows_of(session, fact, folder), contradicted(*situation, fact)};
    situation.reset();
    session.close_catalog();
    if (args.has("confirm")) kept.rows = keep_fact(session, fact, folder);
    for (auto& [file, row] : kept.rows) row = bare(row);
    return {std::move(fact), std::move(kept)};
}

Result run_keep(Session& session, const Args& args) {
    const auto [fact, kept] = keep(session, args);
    return keep_answer(session, fact, kept, args.has("confirm"));
}

}  // namespace

KeptRows rows_to_keep(Session& session, const Args& args) { return keep(session, args).second; }

std::vector<Command> keep_commands() {
    return {{"keep",
             "VEHICLE applications role=PLACE item=KEY | VEHICLE part item=KEY title=TEXT role=PLACE | VEHICLE TABLE "
             "COLUMN=VALUE...",
             "turn what was measured and fitted on a vehicle into rows of your own pack",
             3,
             any_number,
             {{"pack", "FOLDER",
               "your own pack, made when missing (default: as the setting own-pack says, else beside the shop file)"},
              {"note", "TEXT", "how it was measured"},
              {"confirm", "", "write it; without this it is only shown"}},
             run_keep,
             "casebound keep van applications role=pan-filter item=PF-33"}};
}

}  // namespace casebound
