#include "core/sheets/bench_sheet.h"

#include <algorithm>
#include <set>

#include <fmt/format.h>

#include "core/reason/condition_words.h"
#include "core/say/report.h"
#include "core/work/why.h"

namespace casebound {

namespace {

std::string items_of(const Catalog& catalog, std::int64_t group) {
    std::vector<std::string> keys;
    for (const auto& member : catalog.members(group))
        if (member.withdrawn.empty() && member.basis != Basis::claimed) keys.push_back(member.item);
    if (keys.size() < 2) return keys.empty() ? "" : keys.front();
    return fmt::format("{}, the same part as {}", keys.front(), fmt::join(keys.begin() + 1, keys.end(), ", "));
}

std::set<std::uint16_t> values_on(const Possibilities::Column& column, const Bits& part) {
    std::set<std::uint16_t> values;
    part.for_each([&](std::size_t i) { values.insert(column.at[i]); });
    return values;
}

// Attributes whose values differ between the groups.
std::vector<BenchMark> marks_of(const RoleAnswer& answer, const Situation& situation) {
    std::vector<BenchMark> marks;
    const auto told = situation.told();
    for (const auto& name : answer.speaks_of()) {
        const auto* column = situation.model().set.column(name);
        if (!column) continue;
        std::set<std::set<std::uint16_t>> kinds;
        for (const auto& group : answer.groups)
            if (!group.on_line.none()) kinds.insert(values_on(*column, group.on_line));
        if (kinds.size() < 2) continue;
        BenchMark mark{name, column->attribute.title, column->attribute.how, {}};
        for (const auto& one : told)
            if (one.attribute == name)
                mark.told = fmt::format("{} ({})", value_words(column->attribute, one.text),
                                        tell_evidence_words(one.evidence));
        marks.push_back(std::move(mark));
    }
    return marks;
}

std::string where_of(const Situation& situation, const RoleAnswer& answer, const GroupAnswer& group) {
    const auto& set = situation.model().set;
    if (group.on_line.none()) return "no version built";
    const auto where = where_words(set, group.on_line, set.all(), answer.speaks_of());
    return where.empty() ? "every version built" : where;
}

BenchLine line_of(const ListLine& line, const Situation& situation, const Catalog& catalog) {
    BenchLine made{line.answer.role, line.answer.title, need_text(line), {}, marks_of(line.answer, situation), {}};
    for (const auto& doubt : line.doubts) made.doubts.push_back(fmt::format("{}: {}", doubt.reason, doubt.until));
    for (const auto& group : line.answer.groups)
        made.parts.push_back({items_of(catalog, group.id), group.title, where_of(situation, line.answer, group),
                              std::string(verdict_words(group.verdict))});
    return made;
}

}  // namespace

BenchSheet bench_sheet(Session& session, const Situation& situation, const std::vector<std::string>& asked) {
    const auto jobs = named_or_open_jobs(session, situation, asked);
    const auto list = make_parts_list(situation.places(), jobs);
    BenchSheet sheet{sheet_head(session, situation, list.invented), list.titles, {}};
    for (const auto& line : list.lines)
        if (!line.answer.groups.empty() && line.answer.unit == "each")
            sheet.lines.push_back(line_of(line, situation, session.catalog()));
    return sheet;
}

Sheet sheet_of(const BenchSheet& sheet) {
    Sheet made{"bench-match", sheet.head, {}};
    SheetRows jobs;
    for (const auto& title : sheet.jobs) jobs.push_back({{}, title});
    made.sections.push_back({"jobs", "For", jobs});
    for (const auto& line : sheet.lines) {
        SheetRows rows;
        for (const auto& doubt : line.doubts) rows.push_back({"in doubt", doubt});
        for (const auto& part : line.parts)
            rows.push_back({part.items.empty() ? part.title : part.items,
                            fmt::format("[ ] {}: {}; for {}", part.verdict, part.title, part.where)});
        for (const auto& mark : line.marks)
            rows.push_back({"look at " + mark.title, fmt::format("{}{}; old part: ______ new part: ______", mark.how,
                                                                 mark.told.empty() ? "" : " Told: " + mark.told)});
        made.sections.push_back({line.role, fmt::format("{}, {}", line.title, line.need), rows});
    }
    return made;
}

}  // namespace casebound
