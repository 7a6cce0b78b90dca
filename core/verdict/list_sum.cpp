#include "core/verdict/list_sum.h"

#include <algorithm>
#include <optional>

#include "core/verdict/add_once.h"
#include "core/verdict/list_memory.h"

namespace casebound {

namespace {

std::optional<Evidence> firmest_of(const std::vector<Member>& members) {
    std::optional<Evidence> firmest;
    for (const auto& member : members)
        if (member.withdrawn.empty() && member.basis != Basis::claimed)
            firmest = firmest ? std::min(*firmest, member.origin.evidence) : member.origin.evidence;
    return firmest;
}

Evidence with_what_goes_with_it(const GroupAnswer& part, const ListLine& line, const Places& places) {
    Evidence weakest = firmest_of(places.members(line.answer, part)).value_or(Evidence::law);
    for (const auto& leaf : part.leaves) weakest = weaker(weakest, leaf.evidence());
    for (const auto& one : part.goes_with)
        weakest = weaker(weakest, firmest_of(places.members_beside(one)).value_or(Evidence::law));
    return weakest;
}

// What may be ordered for a line is in its group, or stands in, by a statement of its own: of the parts of one group
// the firmest, of several groups the weakest.
std::optional<Evidence> of_what_is_ordered(const ListLine& line, const Places& places) {
    std::optional<Evidence> ordered;
    for (const auto& option : line.options)
        if (!option.goes_with.empty()) continue;
        else if (const auto firmest = firmest_of(option.members))
            ordered = weaker(ordered.value_or(*firmest), *firmest);
    if (ordered) return ordered;
    for (const auto& swap : line.stand_ins) {
        if (swap.verdict != SwapVerdict::yes || !swap.also_requires.empty()) continue;
        const auto member = firmest_of(places.members_standing_in(line.answer, swap));
        if (!member) continue;
        const auto way = weaker(swap.weakest, *member);
        ordered = ordered ? std::min(*ordered, way) : way;
    }
    if (ordered) return ordered;
    for (const auto& part : line.answer.with_others) {
        const auto way = with_what_goes_with_it(part, line, places);
        ordered = ordered ? std::min(*ordered, way) : way;
    }
    return ordered;
}

void add_evidence(PartsList& list, const ListLine& line, const Places& places) {
    list.invented |= line.answer.invented;
    list.weakest = std::max(list.weakest, line.answer.weakest);
    for (const auto& told : line.answer.told)
        if (told.evidence() > Evidence::measured) add_once(list.hearsay, told.text());
    add_what_is_remembered(list, line, places);
}

void count_blocked(PartsList& list, const ListLine& line) {
    switch (line.answer.verdict) {
        case Verdict::not_recorded: ++list.unrecorded; break;
        case Verdict::sources_disagree: ++list.disagreed; break;
        case Verdict::not_answered: ++list.unanswered; break;
        case Verdict::does_not_fit: ++list.unfit; break;
        case Verdict::none_needed:
        case Verdict::fits:
            ++(line.waits()                                  ? list.held
               : line.amount_open && line.only_where.empty() ? list.unrecorded
                                                             : list.to_check);
            break;
        default: ++list.to_check;
    }
}

}  // namespace

void sum_up(PartsList& list, const Places& places) {
    const auto& narrowing = places.judge().narrowing();
    for (auto& line : list.lines)
        if (line.answer.verdict == Verdict::fits)
            if (const auto ordered = of_what_is_ordered(line, places))
                line.answer.weakest = weaker(line.answer.weakest, *ordered);
    for (const auto& text : narrowing.ordered_as_if) add_once(list.hearsay, text);
    for (const auto& line : list.lines) {
        add_evidence(list, line, places);
        if (line.blocks()) count_blocked(list, line);
    }
    const auto lines = open_lines(list);
    list.open = static_cast<std::size_t>(
        std::count_if(lines.begin(), lines.end(), [&](const OpenLine& line) { return !line.settled(narrowing.left); }));
    list.next = next_question(places.judge().line().set, narrowing.left, lines, narrowing.not_asked());
}

}  // namespace casebound
