#include "core/verdict/list_kits.h"

#include <algorithm>
#include <map>
#include <set>

namespace casebound {

namespace {

class Kits {
public:
    Kits(PartsList& list, const Judge& judge) : list_(list), judge_(judge) {
        for (std::size_t i = 0; i < list.lines.size(); ++i)
            for (const auto& group : list.lines[i].answer.groups) {
                if (group.stands_in_for.empty()) recorded_.insert(group.key);
                if (group.verdict == Verdict::fits) add_line(group.key, i);
            }
        for (std::size_t i = 0; i < list.lines.size(); ++i)
            for (const auto& swap : list.lines[i].stand_ins)
                if (swap.verdict == SwapVerdict::yes && swap.also_requires.empty()) add_line(swap.offered_group, i);
    }

    void add() {
        std::set<std::string> kits;
        for (const auto& [group, lines] : fitting_)
            if (wanted(group))
                for (const auto& row : judge_.catalog().facts().rows("kit_contents", "group_key", group))
                    kits.emplace(row.text("kit"));
        for (const auto& item : kits) consider(item);
    }

private:
    void add_line(const std::string& group, std::size_t line) {
        auto& lines = fitting_[group];
        if (std::find(lines.begin(), lines.end(), line) == lines.end()) lines.push_back(line);
    }

    bool wanted(const std::string& group) const {
        const auto at = fitting_.find(group);
        return at != fitting_.end() && std::any_of(at->second.begin(), at->second.end(),
                                                   [&](std::size_t line) { return list_.lines[line].must_order(); });
    }

    // The lines that so many of the group serve whole, one after the other.
    void cover(const std::string& group, double pieces, std::set<std::size_t>& covered) const {
        for (const auto line : fitting_.at(group)) {
            const auto* best = list_.lines[line].answer.best();
            if (!best || !list_.lines[line].must_order() || covered.contains(line)) continue;
            const double needed = best->quantity_high + list_.lines[line].reserve;
            if (needed > pieces) continue;
            covered.insert(line);
            pieces -= needed;
        }
    }

    void consider(const std::string& item) {
        const auto known = judge_.catalog().item(item);
        if (!known || !known->withdrawn.empty()) return;
        Kit kit{item, known->title, {}, {}, {}, known->origin};
        std::set<std::size_t> covered;
        bool helps = false;
        for (const auto& row : judge_.catalog().facts().rows("kit_contents", "kit", item)) {
            const std::string group{row.text("group_key")};
            if (!fitting_.contains(group) && recorded_.contains(group))
                return;  // holds a part that is wrong, or not sure, here
            helps |= wanted(group);
            if (wanted(group)) cover(group, row.number("quantity").value_or(0), covered);
            else kit.surplus.push_back(group);
        }
        if (!helps) return;
        for (std::size_t i = 0; i < list_.lines.size(); ++i) {
            if (covered.contains(i)) kit.covers.push_back(list_.lines[i].answer.title);
            else if (list_.lines[i].must_order() && list_.lines[i].answer.unit == "each" &&
                     list_.lines[i].answer.verdict != Verdict::none_needed)
                kit.lacks.push_back(list_.lines[i].answer.title);
        }
        for (const auto i : covered) list_.lines[i].kits.push_back(item);
        list_.kits.push_back(std::move(kit));
    }

    PartsList& list_;
    const Judge& judge_;
    std::map<std::string, std::vector<std::size_t>> fitting_;  // group, its lines
    std::set<std::string> recorded_;
};

}  // namespace

void add_kits(PartsList& list, const Judge& judge) { Kits(list, judge).add(); }

}  // namespace casebound
