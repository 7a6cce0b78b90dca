#include "core/say/short_list.h"

#include <algorithm>
#include <map>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/reason/condition_words.h"
#include "core/say/first_thing.h"
#include "core/say/in_words.h"
#include "core/say/list_words.h"
#include "core/say/report.h"

namespace casebound {

namespace {

std::string containers_in_short(const std::vector<Container>& containers, const std::string& unit) {
    std::string out;
    for (const auto& one : containers)
        out += fmt::format("{}{} x {}", out.empty() ? "" : " + ", one.count, shown_quantity(one.quantity, unit));
    return out;
}

// `alone`: the only choice, so that its equals are named, too.
std::string what_to_order(const ListLine& line, const Option& option, bool alone) {
    if (!option.containers.empty())
        return fmt::format("{}, {}", fluid_words(option.group),
                           containers_in_short(option.containers, line.answer.unit));
    if (auto open = amount_open_text(line, option); !open.empty()) return open;
    if (option.members.empty())
        return line.answer.by_the_piece() ? fmt::format("{}, no part on record", named(option.title, option.group))
                                          : fmt::format("{}, no pack on record", fluid_words(option.group));
    std::string out = option.members.front().item;
    for (std::size_t i = 1; alone && i < option.members.size(); ++i)
        out += fmt::format("{} {}", i == 1 ? ", the same part:" : ",", option.members[i].item);
    return out;
}

class Short {
public:
    Short(const PartsList& list, const Situation& situation) : list_(list), situation_(situation), once_(list) {}

    std::string text() const {
        return head() + waits() + lines() + folded() + stays() + kits() + conditions() + foot();
    }

private:
    const Possibilities& set() const { return situation_.model().set; }
    const Bits& left() const { return situation_.narrowing().left; }

    std::string stay_note(const ListLine& line) const {
        const auto flag = stay_flag(line, list_);
        return flag.empty() ? "" : "; " + flag;
    }

    static std::string_view sign(const ListLine& line) {
        if (!line.held.empty()) return "!!";
        switch (line.answer.verdict) {
            case Verdict::fits: return line.blocks() ? "?" : "ok";
            case Verdict::none_needed: return line.doubts.empty() ? "-" : "?";
            case Verdict::check_first:
            case Verdict::not_recorded: return "?";
            default: return "!!";
        }
    }

    // Looked at while the job is done, and ordered only when it turns out worn.
    static bool is_looked_at(const ListLine& line) {
        return !line.must_order() && !line.waits() && line.answer.verdict != Verdict::not_answered &&
               line.companion_of.empty();
    }

    // What waits is never folded; where there is no such place, nothing waits but by a doubt of that.
    static bool is_folded(const ListLine& line) {
        return is_looked_at(line) || (line.answer.verdict == Verdict::none_needed && line.doubts.empty());
    }

    // What several lines wait for, before them.
    std::string waits() const {
        std::string out;
        for (const auto& text : once_.texts()) out += wrapped(fmt::format("NOT YET: {}.", text), 0, 2);
        return out;
    }

    std::string lines() const {
        Table table({"", "", "", ""});
        bool any = false;
        for (const auto& line : list_.lines) {
            if (is_folded(line)) continue;
            any = true;
            table.row({coloured(meaning_of(line), sign(line)), line.answer.title, need_text(line),
                       order_in_short(line, situation_) + stay_note(line)});
            if (const auto held = once_.of(line); !held.empty()) table.under("not yet: " + held);
            if (!line.only_where.empty())
                table.under("needed only where " + where_words(set(), line.applies, left(), line.answer.speaks_of()));
            if (!line.companion_of.empty()) table.under(line.companion_of);
            if (!line.kits.empty()) table.under(fmt::format("already in kit {}", fmt::join(line.kits, ", ")));
        }
        return any ? table.text() : "";
    }

    std::string folded() const {
        std::vector<std::string> look, none;
        for (const auto& line : list_.lines) {
            if (!is_folded(line)) continue;
            if (line.answer.verdict == Verdict::none_needed) none.push_back(line.answer.title);
            else look.push_back(line.answer.title);
        }
        std::string out;
        if (!look.empty()) out += wrapped(fmt::format("Look at, order if worn: {}.", fmt::join(look, ", ")), 0, 2);
        if (!none.empty()) out += wrapped(fmt::format("No such place here: {}.", fmt::join(none, ", ")), 0, 2);
        return out;
    }

    // What stays for certain together; what may stay with its condition.
    std::string stays() const {
        std::vector<std::string> certain;
        std::string out;
        for (const auto& stay : list_.stays) {
            if (stay.where.empty()) certain.push_back(stay_words(stay));
            else
                out += wrapped(fmt::format("MAY STAY BEHIND (where {}): {}.", where_words(set(), stay.on, left()),
                                           stay_words(stay)),
                               0, 2);
        }
        if (certain.empty()) return out;
        return wrapped(fmt::format("STAYS BEHIND: {}.", fmt::join(certain, "; ")), 0, 2) + out;
    }

    std::string kits() const {
        std::string out;
        for (const auto& kit : list_.kits)
            if (!kit.covers.empty())
                out += wrapped(
                    fmt::format("Kit {} covers {}{}.", kit.item, fmt::join(kit.covers, ", "),
                                kit.lacks.empty() ? "" : fmt::format("; not in it: {}", fmt::join(kit.lacks, ", "))),
                    0, 2);
        return out;
    }

    std::string conditions() const {
        std::string out;
        if (!list_.hearsay.empty()) out += wrapped(right_only_if(told_words(situation_, list_.hearsay)), 0, 2);
        for (const auto& question : list_.domain_questions)
            out += wrapped(fmt::format("Before ordering, find out: {}", question), 0, 2);
        return out;
    }

    std::string what_waits() const {
        std::vector<std::string> open;
        if (list_.to_check) open.push_back(fmt::format("{} to check", list_.to_check));
        if (list_.held) open.push_back(fmt::format("{} must wait", list_.held));
        if (list_.disagreed) open.push_back(fmt::format("sources disagree on {}", list_.disagreed));
        if (list_.unfit) open.push_back(fmt::format("nothing fits for {}", list_.unfit));
        if (list_.unrecorded) open.push_back(fmt::format("{} not recorded", list_.unrecorded));
        if (list_.unanswered) open.push_back(fmt::format("{} not answered", list_.unanswered));
        return fmt::format("{}", fmt::join(open, ", "));
    }

    std::string head() const {
        const auto what = fmt::format("{}, {}{}", situation_.name(), fmt::join(list_.titles, ", "),
                                      list_.invented ? " (invented demo data)" : "");
        std::string out;
        if (!list_.ready())
            out = wrapped(fmt::format("{}: {}: {}.", coloured(Meaning::stop, "NOT READY"), what, what_waits()), 0, 2);
        else if (list_.nothing_to_order())
            out = wrapped(
                fmt::format("NOTHING TO ORDER: {}: this vehicle has no place that the job needs a part for.", what), 0,
                2);
        else
            out = wrapped(
                fmt::format("{}: {}. Weakest evidence: {}.", ready_words(list_), what, evidence_words(list_.weakest)),
                0, 2);
        if (!asks()) return out;
        return out + find_out_text(*list_.next);
    }

    bool asks() const { return !list_.ready() && question_comes_first(list_); }

    std::string first_to_tell() const {
        for (const auto& thing : first_things(list_))
            if (!thing.attributes.empty()) return tell_command(situation_, thing.attributes.front());
        return "";
    }

    bool amount_open() const {
        return std::any_of(list_.lines.begin(), list_.lines.end(), [](const ListLine& line) {
            return line.amount_open && line.answer.verdict == Verdict::fits;
        });
    }

    std::string foot() const {
        const auto typed = fmt::format("{} {}", situation_.name(), fmt::join(list_.jobs, " "));
        std::string out;
        if (asks() && !list_.next->answers.empty())
            out += fmt::format("Then: {}\n", tell_command(*list_.next, situation_.name()));
        else if (const auto told = first_to_tell(); !told.empty()) out += fmt::format("Then: {}\n", told);
        else if (list_.unrecorded > 0)
            out += wrapped(fmt::format("Next: casebound note {} PLACE PART{} --says WHO", situation_.name(),
                                       amount_open() ? " --quantity AMOUNT" : ""),
                           0, 2);
        else if (list_.ready() && !list_.nothing_to_order()) out += fmt::format("Next: casebound buy {}\n", typed);
        out += wrapped(fmt::format("Why, sources and all cautions: casebound list {} --full", typed), 0, 2);
        return out + own_caution() +
               wrapped(
                   "Caution: on stands on level ground, wheels chocked, never under a jack alone. The maker's "
                   "instructions, local rules and licensed practice come first.",
                   0, 2);
    }

    // Of work that is not done under the vehicle, the first thing that it is dangerous by: an airbag, the fan, hot coolant.
    std::string own_caution() const {
        const auto& cautions = list_.cautions;
        const bool below = std::any_of(cautions.begin(), cautions.end(),
                                       [](const Caution& one) { return one.text == jack_caution_of_packs; });
        return below || cautions.empty() ? "" : wrapped(fmt::format("Caution: {}", cautions.front().text), 0, 2);
    }

    const PartsList& list_;
    const Situation& situation_;
    SaidOnce once_;
};

}  // namespace

std::string order_in_short(const ListLine& line, const Situation& situation) {
    const bool alone = line.answer.verdict == Verdict::fits && line.options.size() == 1;
    const auto all = line_cases(
        line, situation, [&](const ListLine& of, const Option& option) { return what_to_order(of, option, alone); });
    if (line.answer.verdict == Verdict::not_answered || all.empty()) return missing_text(line);
    return cases_words(situation, line.answer, all, line.answer.verdict == Verdict::fits ? " or " : " | ");
}

std::string short_list_text(const PartsList& list, const Situation& situation) { return Short(list, situation).text(); }

}  // namespace casebound
