#include "core/verdict/list_memory.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/verdict/add_once.h"

namespace casebound {

namespace {

const std::string own_group = "own-";  // of a group that was written down here, of one part

class Remembered {
public:
    Remembered(PartsList& list, const Places& places) : list_(list), places_(places) {}

    // What is ordered on a word from memory alone.
    void add(const ListLine& line) {
        if (line.answer.verdict == Verdict::none_needed)
            for (const auto& leaf : line.answer.none_leaves) add_memory(leaf);
        if (line.answer.verdict != Verdict::fits) return;
        for (const auto& swap : line.stand_ins) add_from_memory(line, swap);
        for (const auto& group : line.answer.groups)
            if (group.verdict == Verdict::fits)
                for (const auto& leaf : group.leaves) add_memory(leaf);
        for (const auto& part : line.answer.parts)
            for (const auto& leaf : part.leaves) add_memory(leaf);
        for (const auto& part : line.answer.with_others) add_with_others(line, part);
        for (const auto& option : line.options)
            for (const auto& member : option.members) add_from_memory(member, option.title, option.group);
        add_what_is_kept_away(line);
    }

private:
    // A word from memory that rules an alternative out; hearsay without which a part would be wrong by another group.
    void add_what_is_kept_away(const ListLine& line) {
        const auto& left = places_.judge().narrowing().left;
        for (const auto& group : line.answer.groups) {
            if (group.verdict != Verdict::fits) {
                if (const auto* word = group.firmest_against(left)) add_memory(*word);
                continue;
            }
            for (const auto& member : places_.members(line.answer, group)) {
                if (!member.in_several) continue;
                for (const auto* fact :
                     places_.hearsay_against(places_.ruled_out_by_others(line.answer, group, member) - left))
                    add_once(list_.hearsay, fact->said());
            }
        }
    }
    void add_with_others(const ListLine& line, const GroupAnswer& part) {
        for (const auto& leaf : part.leaves) add_memory(leaf);
        for (const auto& member : places_.members(line.answer, part)) add_from_memory(member, part.key);
        for (const auto& one : part.goes_with)
            for (const auto& member : places_.members_beside(one)) add_from_memory(member, one.group);
    }
    void add_from_memory(const ListLine& line, const SwapAnswer& swap) {
        if (swap.verdict != SwapVerdict::yes || !swap.also_requires.empty()) return;
        for (const auto& leaf : swap.leaves) add_memory(leaf);
        for (const auto& group : line.answer.groups) {
            if (group.key == swap.wanted_group)
                for (const auto* fact : places_.hearsay_behind(line.answer, group, swap))
                    add_once(list_.hearsay, fact->said());
            // Only hearsay may keep away where it is ruled out.
            if (group.key == swap.offered_group)
                for (const auto* fact : places_.hearsay_against(group.out_line)) add_once(list_.hearsay, fact->said());
        }
        for (const auto& member : places_.members_standing_in(line.answer, swap))
            add_from_memory(member, swap.offered_group);
    }
    // That a part is itself is not said: its own group was made of it when it was written down.
    void add_from_memory(const Member& member, const std::string& group, const std::string& key = {}) {
        list_.weakest = weaker(list_.weakest, member.origin.evidence);
        if (member.origin.evidence == Evidence::memory && key != own_group + member.item)
            add_once(list_.hearsay, fmt::format("{} is rightly listed as {} (from memory)", member.item, group));
    }
    // By the number that is ordered; a fluid by its specification.
    std::string part_of(const ApplicationRow& row) const {
        const auto& catalog = places_.judge().catalog();
        const auto* group = catalog.group(row.group);
        if (!group) return "nothing";
        const auto* kind = catalog.vocabularies().item_kind(group->kind);
        for (const auto& member : catalog.members(row.group))
            if ((!kind || kind->unit == "each") && member.withdrawn.empty() && member.basis != Basis::claimed)
                return member.item;
        return group->key.starts_with(own_group) ? group->key.substr(own_group.size()) : group->key;
    }
    // "PF-33 is right as pan filter where pan_depth=38mm", "no drain plug is needed on any Harbour Van 2.2".
    std::string row_said(const ApplicationRow& row) const {
        const auto& catalog = places_.judge().catalog();
        const auto& key = catalog.name_of(row.role);
        const auto* role = catalog.vocabularies().role(key);
        const auto place = role ? role->title : key;
        const auto says = row.says == Says::none_needed
                              ? fmt::format("no {} is needed", place)
                              : fmt::format("{} is {} as {}", part_of(row), row.says == Says::fits ? "right" : "wrong",
                                            place);
        return fmt::format("{} {}", says,
                           row.condition ? "where " + to_text(*row.when)
                                         : fmt::format("on {} {}", row.says == Says::fits ? "every" : "any",
                                                       places_.judge().line().title));
    }
    void add_memory(const Leaf& leaf) {
        if (!leaf.redundant && leaf.evidence() == Evidence::memory)
            add_once(list_.hearsay, fmt::format("{} (from memory)", leaf.row() ? row_said(*leaf.row()) : leaf.text()));
    }

    PartsList& list_;
    const Places& places_;
};

}  // namespace

void add_what_is_remembered(PartsList& list, const ListLine& line, const Places& places) {
    Remembered(list, places).add(line);
}

}  // namespace casebound
