#include "core/verdict/list_line.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

namespace casebound {

bool PartsList::nothing_to_order() const {
    return !lines.empty() && std::all_of(lines.begin(), lines.end(), [](const ListLine& line) {
        return !line.must_order() || line.answer.verdict == Verdict::none_needed;
    });
}

bool ListLine::blocks() const {
    if (!must_order()) return false;
    // Where there is no such place nothing is held but by a doubt of that.
    if (answer.verdict == Verdict::none_needed) return !doubts.empty();
    return !only_where.empty() || waits() || amount_open || answer.verdict != Verdict::fits;
}

double spill_reserve_l(double need_l) { return need_l * 0.03 + 0.3; }

OpenLine open_line(const RoleAnswer& answer) {
    OpenLine line{answer.title, [answer](const Bits& cell) { return answer.settled_on(cell); }, {}};
    for (const auto& group : answer.groups) {
        line.marks.push_back(group.on_line);
        if (group.disagreed_line.any()) line.marks.push_back(group.disagreed_line);
        if (group.doubted_line.any()) line.marks.push_back(group.doubted_line);
    }
    if (answer.none_line.size()) line.marks.push_back(answer.none_line);
    return line;
}

std::vector<OpenLine> open_lines(const PartsList& list) {
    std::vector<OpenLine> lines;
    // What holds the order up is asked about first; looks at what may go back only when nothing else is open.
    const bool blocked = std::any_of(list.lines.begin(), list.lines.end(), [](const ListLine& line) {
        return line.must_order() && (line.answer.verdict == Verdict::check_first || !line.only_where.empty());
    });
    for (const auto& line : list.lines) {
        if (line.answer.verdict == Verdict::not_answered || (blocked && !line.must_order())) continue;
        auto open = open_line(line.answer);
        const Bits applies = line.applies;
        open.settled = [role = line.answer, applies](const Bits& cell) {
            return !applies.meets(cell) || (applies.contains(cell) && role.settled_on(cell));
        };
        open.marks.push_back(applies);
        lines.push_back(std::move(open));
    }
    std::map<std::string, std::vector<Bits>> stays;  // by place: of one place it is one answer
    for (const auto& stay : list.stays) stays[stay.title].push_back(stay.on);
    for (const auto& [title, on] : stays)
        lines.push_back({fmt::format("what stays behind of the {}", title),
                         [on = on](const Bits& cell) {
                             return std::all_of(on.begin(), on.end(), [&](const Bits& one) {
                                 return one.contains(cell) || !one.meets(cell);
                             });
                         },
                         on});
    return lines;
}

std::vector<std::string> in_the_way(const ListLine& line) {
    std::vector<std::string> reasons;
    const auto add_once = [&](std::string text) {
        if (!text.empty() && std::find(reasons.begin(), reasons.end(), text) == reasons.end())
            reasons.push_back(std::move(text));
    };
    for (const auto& one : line.held) add_once(fmt::format("{}: {}", one.hold.reason, one.hold.until));
    for (const auto& one : line.doubts) add_once(fmt::format("{}: {}", one.reason, one.until));
    if (!reasons.empty() || line.answer.verdict != Verdict::check_first || line.answer.best() ||
        !line.answer.deciding.empty() || line.answer.groups.empty())
        return reasons;
    for (const auto& leaf : line.answer.groups.front().against) add_once(leaf.text());
    return reasons;
}

std::string held_back(const ListLine& line) { return fmt::format("{}", fmt::join(in_the_way(line), "; ")); }

}  // namespace casebound
