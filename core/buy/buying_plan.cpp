#include "core/buy/buying_plan.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/say/in_words.h"

namespace casebound {

void add_note(Buying& buying, const std::string& item, const std::string& text) {
    auto& notes = buying.notes[item];
    if (!among(notes, text)) notes.push_back(text);
}

namespace {

// What the buyer wants to know of an item beside its price.
void add_notes(Buying& buying, const ListLine& line, const Catalog& catalog) {
    buying.titles[line.answer.role] = line.answer.title;
    if (line.answer.unit != "each")
        for (const auto& option : line.options)
            for (const auto& member : option.members)
                add_note(buying, member.item, "spec " + fluid_words(option.group));
    for (const auto& swap : line.stand_ins) {
        const auto group = catalog.group(swap.offered_group);
        if (!group || !may_be_ordered(swap)) continue;
        for (const auto& member : catalog.members(group->id)) {
            buying.stand_ins.insert(member.item);
            add_note(buying, member.item, "stands in for " + in_titles(catalog, swap.wanted_group));
        }
    }
}

}  // namespace

void add_notes(Buying& buying, const PartsList& list, const Catalog& catalog) {
    for (const auto& line : list.lines) add_notes(buying, line, catalog);
    for (const auto& kit : list.kits)
        if (!kit.surplus.empty())
            add_note(buying, kit.item,
                     fmt::format("kit; also holds {}, which no line needs", fmt::join(kit.surplus, ", ")));
}

}  // namespace casebound
