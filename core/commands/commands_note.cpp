// `note`: one statement of somebody's about a place of a vehicle's line becomes a row of the person's own pack, with who
// says so and how good that is. It is one source among others: nothing in other packs is changed.
#include <algorithm>
#include <array>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/dates.h"
#include "core/ground/text_layout.h"
#include "core/reason/condition_words.h"
#include "core/say/json_of.h"
#include "core/session/command.h"
#include "core/work/own_line.h"

namespace casebound {

namespace {

constexpr std::array<std::string_view, 6> kinds{"maker", "standard", "law", "measured", "common_practice", "memory"};

std::string kind_of(std::string typed) {
    std::replace(typed.begin(), typed.end(), ' ', '_');
    std::replace(typed.begin(), typed.end(), '-', '_');
    if (std::find(kinds.begin(), kinds.end(), typed) != kinds.end()) return typed;
    throw Error(Exit::usage,
                fmt::format("--kind {}: how good is it? Write maker (its own text), standard, law, measured "
                            "(by you, on the part), common-practice or memory",
                            typed));
}

// A part number as printed on the part: blanks become dashes, for keys have none.
std::string part_key(std::string printed) {
    std::replace(printed.begin(), printed.end(), ' ', '-');
    return printed;
}

struct Said {
    std::string role, part, where, kind, who;
    bool fits = true;
    bool no_place() const { return part == "none"; }
};

Said said_in(Session& session, const Args& args) {
    Said said;
    said.role = part_key(args.words.at(1));
    said.part = part_key(args.words.at(2));
    said.where = args.option("where");
    said.kind = kind_of(args.option("kind", "memory"));
    said.who = args.option("says");
    said.fits = !args.has("does-not-fit");
    std::vector<std::string> faults;
    const auto& words = session.catalog().vocabularies();
    if (!words.role(said.role)) {
        std::vector<std::string> roles;
        for (const auto& [role, owned] : words.roles()) roles.push_back(role);
        const auto near = nearest(said.role, roles);
        faults.push_back(
            fmt::format("{}: no such place{}", said.role,
                        near.empty() ? ": see casebound pack words roles" : fmt::format(": did you mean {}?", near)));
    }
    if (said.who.empty())
        faults.emplace_back(
            "who says so? Write --says \"WHO, WHERE, WHEN\", such as --says \"the seller's list, 2026\"");
    if (said.no_place() && !said.fits)
        faults.emplace_back("none: there is no such place, or a part does not fit: not both");
    if (!faults.empty()) throw Error(Exit::usage, faults);
    return said;
}

// The group that the part is of; rows for a part that no pack has.
std::string group_for(Session& session, const Said& said, const Args& args, OwnFact& fact) {
    const auto& catalog = session.catalog();
    if (catalog.group(said.part)) return said.part;
    const auto groups = catalog.groups_of(said.part);
    if (groups.size() == 1) return groups.front();
    if (groups.size() > 1)
        throw Error(Exit::usage,
                    fmt::format("{}: it is in several groups: name one of {}", said.part, fmt::join(groups, ", ")));
    if (!catalog.facts().rows("items", "item", said.part).empty())
        throw Error(Exit::usage,
                    fmt::format("{}: it is in no group of its own, as a kit is: name the part in it", said.part));
    const auto& kind = catalog.vocabularies().role(said.role)->item_kind;
    const auto title = args.option("title", fmt::format("{} {}", spaced(kind), said.part));
    const auto group = "own-" + said.part;
    fact.rows.push_back(
        {"items",
         {{"item", said.part}, {"kind", kind}, {"title", title}, {"pack_quantity", args.option("pack", "1")}}});
    fact.rows.push_back({"groups", {{"group_key", group}, {"kind", kind}, {"title", title}}});
    fact.rows.push_back({"group_members", {{"group_key", group}, {"item", said.part}, {"basis", "same"}}});
    return group;
}

OwnFact fact_for(Session& session, const Situation& situation, const Said& said, const Args& args) {
    OwnFact fact{{}, situation.name(), today(), args.option("note"), said.kind, said.who};
    OwnCells cells{{"line", situation.line()},
                   {"role", said.role},
                   {"says", said.no_place() ? "none_needed"
                            : said.fits     ? "fits"
                                            : "does_not_fit"},
                   {"condition", said.where},
                   {"quantity", args.option("quantity")},
                   {"note", args.option("note")}};
    if (!said.no_place()) cells.emplace_back("group_key", group_for(session, said, args, fact));
    std::erase_if(cells, [](const auto& cell) { return cell.second.empty(); });
    fact.rows.emplace_back("applications", std::move(cells));
    return fact;
}

Result run_note(Session& session, const Args& args) {
    const auto name = args.words.at(0);
    const auto said = said_in(session, args);
    auto situation = session.situation(name);
    const auto fact = fact_for(session, *situation, said, args);
    const auto folder = args.option("pack-folder", own_pack_folder(session));
    situation.reset();
    session.close_catalog();
    const auto rows = keep_fact(session, fact, folder);
    situation = session.situation(name);
    const auto answer = situation->places().role(said.role);
    if (session.json()) {
        auto json = document("note");
        json["rows"] = Json::array();
        for (const auto& [file, row] : rows)
            json["rows"].push_back({{"file", file}, {"row", row.substr(0, row.size() - 1)}});
        json["verdict"] = verdict_name(answer.verdict);
        return {Exit::yes, json_text(json)};
    }
    const auto where = said.where.empty() ? std::string("on all of them")
                                          : "where " + condition_words(said.where, situation->model().set);
    std::string out = wrapped(fmt::format("Written down: {}: {}{}, {}; says {} ({}).", answer.title,
                                          said.no_place() ? "none needed" : said.part, said.fits ? "" : " does not fit",
                                          where, said.who, evidence_words(evidence_from(said.kind))),
                              0, 2);
    out += wrapped(fmt::format("{} on {} now: {}.", answer.title, name, capitalised(verdict_words(answer.verdict))), 0,
                   2);
    return {Exit::yes, out + wrapped(fmt::format("It is in {}.", folder), 0, 2)};
}

}  // namespace

std::vector<Command> note_commands() {
    return {{"note",
             "VEHICLE PLACE PART|none --says WHO",
             "write down what somebody says fits a place of the vehicle, as a row of your own pack",
             3,
             3,
             {{"says", "WHO", "who says so: title, edition, page, or a person's list and its date"},
              {"kind",
               "KIND",
               "how good it is (default: memory)",
               false,
               {"maker", "standard", "law", "measured", "common-practice", "memory"}},
              {"where", "CONDITION", "only where, such as pan_depth=38mm; without it, on all of the line"},
              {"does-not-fit", "", "it says that the part does not fit"},
              {"quantity", "NUMBER", "how much the place takes, in the unit of its kind"},
              {"title", "TEXT", "what is on the label of a part that no pack has"},
              {"pack", "NUMBER", "how much one pack of it holds"},
              {"note", "TEXT", "what the bench should know"},
              {"pack-folder", "FOLDER", "another pack of your own"}},
             run_note,
             "casebound note van pan-filter PF-33 --says \"the seller's list, 2026\""}};
}

}  // namespace casebound
