#include "core/say/report.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/reason/condition_words.h"
#include "core/say/in_words.h"
#include "core/say/list_words.h"
#include "core/say/vehicle_text.h"

namespace casebound {

namespace {

std::string amount(double value, const std::string& unit) { return shown_quantity(value, unit); }

std::string verdict_word(const ListLine& line) {
    if (line.reach == Reach::look_first) return "look first";
    if (line.reach == Reach::disturbs && line.answer.verdict != Verdict::not_answered) return "look first";
    const auto words = std::string(verdict_words(line.answer.verdict));
    const bool loud = line.answer.verdict != Verdict::fits && line.answer.verdict != Verdict::none_needed &&
                      line.answer.verdict != Verdict::not_recorded;
    return loud ? capitalised(words) : words;
}

std::string verdict_column(const ListLine& line) { return coloured(meaning_of(line), verdict_word(line)); }

std::string members_text(const Option& option) {
    std::vector<std::string> keys;
    for (const auto& member : option.members) keys.push_back(member.item);
    if (keys.empty()) return fmt::format("{} (no item on record)", option.group);
    if (keys.size() == 1) return keys[0];
    const std::vector<std::string> same(keys.begin() + 1, keys.end());
    return fmt::format("{}, the same part as {}", keys[0], fmt::join(same, ", "));
}

std::string option_text(const ListLine& line, const Option& option) {
    if (auto open = amount_open_text(line, option); !open.empty()) return open;
    return option.containers.empty()
               ? members_text(option)
               : fmt::format("{}: {}", fluid_words(option.group), containers_text(option.containers, line.answer.unit));
}

std::string order_column(const ListLine& line, const Situation& situation) {
    if (line.answer.verdict == Verdict::not_answered) return missing_text(line);
    const auto cases = line_cases(line, situation, option_text);
    if (cases.empty()) return missing_text(line);
    return cases_words(situation, line.answer, cases, line.answer.verdict == Verdict::fits ? "; or " : " / ");
}

std::string where_on(const Situation& situation, const Bits& on, const ListLine& line) {
    return where_words(situation.model().set, on, situation.narrowing().left, line.answer.speaks_of());
}

void notes_of(Table& table, const ListLine& line, const PartsList& list, const SaidOnce& once,
              const Situation& situation, bool full) {
    if (const auto flag = stay_flag(line, list); !flag.empty()) table.under("<< " + flag);
    if (const auto held = once.of(line); !held.empty()) table.under("not yet: " + held);
    const bool packs = std::any_of(line.options.begin(), line.options.end(),
                                   [](const Option& option) { return !option.containers.empty(); });
    if (line.reserve > 0 && packs)
        table.under(fmt::format("the packs count {} more for what is spilt", amount(line.reserve, line.answer.unit)));
    if (!line.only_where.empty()) table.under("needed only where " + where_on(situation, line.applies, line));
    if (!line.companion_of.empty()) table.under(line.companion_of);
    if (!line.kits.empty()) table.under(fmt::format("already in kit {}", fmt::join(line.kits, ", ")));
    if (const auto reuse = reuse_text(line); !reuse.empty()) table.under(reuse);
    for (const auto& swap : line.stand_ins) {
        if (swap.verdict != SwapVerdict::yes && !full) continue;
        table.under(fmt::format(
            "{}: {}{}", group_words(situation.judge().catalog(), swap.offered),
            swap.verdict == SwapVerdict::yes       ? "may stand in"
            : swap.verdict == SwapVerdict::differs ? "bolts up, but differs"
                                                   : "may stand in, on conditions",
            swap.also_requires.empty()
                ? ""
                : in_titles(situation.judge().catalog(), fmt::format(", with {}", listed(swap.also_requires)))));
    }
    for (const auto& option : line.options)
        if (!option.claimed.empty()) table.under(claimed_text(option));
    const auto* best = line.answer.best();
    if (best && !full && !best->cautions.empty()) table.under(best->cautions.front().text);
    if (!full) return;
    std::vector<std::string> said;
    const auto say = [&](const std::string& text) {
        if (std::find(said.begin(), said.end(), text) == said.end()) table.under(said.emplace_back(text));
    };
    if (best)
        for (const auto& caution : best->cautions) say(caution.text);
    if (best)
        for (const auto& note : best->notes) say(note);
    for (const auto& note : line.notes) say(note);
}

std::string because(const ListLine& line, const Situation& situation) {
    std::vector<std::string> texts;
    for (const auto& leaf : line.answer.told) texts.push_back(leaf_words(leaf, situation));
    return fmt::format("because {}", fmt::join(texts, ", "));
}

std::string why_line(const ListLine& line, const Situation& situation) {
    const auto* best = line.answer.best();
    if (!best)
        return line.answer.deciding.empty() ? missing_text(line)
                                            : "hangs on " + attribute_titles(situation, line.answer.deciding);
    std::string text = named(best->title, best->key);
    if (!best->leaves.empty()) {
        const auto more = best->leaves.size() - 1;
        text += fmt::format(" {}{}; {}", leaf_words(best->leaves.front(), situation),
                            more ? fmt::format(", with {}", plural(more, "more statement")) : "",
                            source_text(best->leaves.front().origin()));
    }
    return line.answer.told.empty() ? text : text + "; " + because(line, situation);
}

std::string why_section(const PartsList& list, const Situation& situation) {
    std::string out = "\nWhy\n";
    for (const auto& line : list.lines)
        out += wrapped(fmt::format("{}: {}", line.answer.title, why_line(line, situation)), 2, 2);
    return out;
}

std::string stays_section(const PartsList& list, const Situation& situation) {
    std::string out;
    for (const auto& stay : list.stays) {
        out += wrapped(stay.where.empty()
                           ? fmt::format("STAYS BEHIND: {}.", stay_words(stay))
                           : fmt::format("MAY STAY BEHIND (where {}): {}.",
                                         where_words(situation.model().set, stay.on, situation.narrowing().left),
                                         stay_words(stay)),
                       0, 2);
        out += wrapped("To see it: " + stay.see, 2, 2) + wrapped("To get it out: " + stay.remove, 2, 2) +
               wrapped(source_text(stay.origin), 2);
    }
    return out.empty() ? out : "\n" + out;
}

std::string kits_section(const PartsList& list) {
    std::string out;
    for (const auto& kit : list.kits) {
        if (kit.covers.empty()) continue;
        out += wrapped(fmt::format("Kit {} ({}) covers {}.", kit.item, kit.title, fmt::join(kit.covers, ", ")), 0, 2);
        if (!kit.lacks.empty()) out += wrapped(fmt::format("It does not contain: {}.", fmt::join(kit.lacks, ", ")), 2);
        if (!kit.surplus.empty()) out += wrapped(fmt::format("Also in it: {}.", fmt::join(kit.surplus, ", ")), 2);
    }
    return out.empty() ? out : "\n" + out;
}

std::string closing(const PartsList& list, const Situation& situation) {
    std::vector<std::string> open;
    if (list.to_check) open.push_back(fmt::format("{} to check", list.to_check));
    if (list.unrecorded) open.push_back(fmt::format("{} not recorded", list.unrecorded));
    if (list.disagreed) open.push_back(fmt::format("{} where sources disagree", list.disagreed));
    if (list.unfit) open.push_back(fmt::format("{} that nothing fits", list.unfit));
    if (list.unanswered) open.push_back(fmt::format("{} not answered", list.unanswered));
    if (list.held) open.push_back(fmt::format("{} that must wait", list.held));
    const auto weakest = fmt::format("Weakest evidence: {}.", evidence_words(list.weakest));
    const auto hearsay = list.hearsay.empty() ? std::string{}
                                              : wrapped(right_only_if(told_words(situation, list.hearsay)), 0, 2);
    if (list.nothing_to_order() && open.empty())
        return wrapped(
            fmt::format("NOTHING TO ORDER: this vehicle has no place that the job needs a part for. {}", weakest));
    if (!open.empty())
        return hearsay + wrapped(fmt::format("{}: {}. {}", coloured(Meaning::stop, "NOT READY TO ORDER"),
                                             fmt::join(open, ", "), weakest));
    return hearsay + wrapped(fmt::format("{}. {}", ready_words(list), weakest));
}

}  // namespace

Meaning meaning_of(Verdict verdict) {
    switch (verdict) {
        case Verdict::fits:
        case Verdict::none_needed: return Meaning::good;
        case Verdict::check_first:
        case Verdict::not_recorded: return Meaning::check;
        default: return Meaning::stop;
    }
}

Meaning meaning_of(const ListLine& line) {
    if (!line.held.empty()) return Meaning::stop;
    const auto said = meaning_of(line.answer.verdict);
    return said == Meaning::good && line.blocks() ? Meaning::check : said;
}

std::string in_colour(Verdict verdict, std::string_view text) { return coloured(meaning_of(verdict), text); }

std::string ready_words(const PartsList& list) {
    return list.hearsay.empty() ? coloured(Meaning::good, "Ready to order")
                                : coloured(Meaning::check, "Ready to order, if so");
}

std::string containers_text(const std::vector<Container>& containers, const std::string& unit) {
    std::vector<std::string> texts;
    for (const auto& one : containers)
        texts.push_back(fmt::format("{} x {} ({})", one.count, shown_quantity(one.quantity, unit), one.item));
    return fmt::format("{}", fmt::join(texts, " + "));
}

std::string missing_text(const ListLine& line) {
    switch (line.answer.verdict) {
        case Verdict::not_answered: return fmt::format("not answered: {}", line.answer.failure);
        case Verdict::not_recorded: return "nobody has said; look at the old one";
        case Verdict::none_needed: return "this one has no such place";
        case Verdict::does_not_fit: return "everything on record is ruled out; see why";
        case Verdict::sources_disagree: return "two sources contradict each other; see why";
        default: return !held_back(line).empty() ? "see `not yet`" : line.amount_open ? amount_open_words : "-";
    }
}

std::vector<InTheWay> in_the_way(const PartsList& list, const Situation& situation) {
    std::vector<InTheWay> all;
    for (const auto& line : list.lines) {
        if (!line.blocks()) continue;
        for (auto& why : in_the_way(line)) all.push_back({line.answer.title, std::move(why)});
        if (line.waits() && line.answer.verdict == Verdict::fits) continue;
        if (line.answer.verdict == Verdict::check_first)
            all.push_back({line.answer.title,
                           line.answer.deciding.empty()
                               ? "check first"
                               : "check first; it hangs on " + attribute_titles(situation, line.answer.deciding)});
        else if (!line.only_where.empty())
            all.push_back({line.answer.title, "needed only where " + where_on(situation, line.applies, line)});
        else all.push_back({line.answer.title, missing_text(line)});
    }
    return all;
}

std::vector<InTheWay> each_once(const std::vector<InTheWay>& all) {
    std::vector<InTheWay> once;
    for (const auto& one : all) {
        const auto said = std::find_if(once.begin(), once.end(),
                                       [&](const InTheWay& other) { return other.why == one.why; });
        if (said == once.end()) once.push_back(one);
        else said->title += "; " + one.title;
    }
    return once;
}

std::string hearsay_joined(const std::vector<std::string>& hearsay) {
    constexpr std::string_view mark = " (from memory)";
    std::vector<std::string> known, remembered;
    for (const auto& text : hearsay)
        if (text.ends_with(mark)) remembered.push_back(text.substr(0, text.size() - mark.size()));
        else known.push_back(text);
    auto out = fmt::format("{}", fmt::join(known, ", "));
    if (!remembered.empty())
        out += fmt::format("{}from memory: {}", out.empty() ? "" : "; ", fmt::join(remembered, "; "));
    return out;
}

std::string right_only_if(const std::vector<std::string>& hearsay) {
    return hearsay.empty() ? ""
                           : fmt::format("RIGHT ONLY IF THIS IS TRUE: {}. Look for yourself before ordering.",
                                         hearsay_joined(hearsay));
}

std::string claimed_text(const Option& option) {
    std::vector<std::string> keys;
    for (const auto& member : option.claimed) keys.push_back(member.item);
    return fmt::format("not to order as {}: {} (only the seller claims it)", option.group, fmt::join(keys, ", "));
}

std::string reuse_text(const ListLine& line) {
    if (line.answer.verdict == Verdict::none_needed) return "";
    if (line.reuse == "never" && line.must_order() && line.reach == Reach::consumes)
        return "single use: the old one never goes back";
    if (line.reuse == "if_undamaged") return "may go back if undamaged";
    if (line.reuse == "by_design") return "made to be reused";
    return "";
}

std::string source_text(const Origin& origin) {
    const auto kind = std::string(evidence_words(origin.evidence));
    if (origin.pack.empty())  // a source that is no more than its kind is said once
        return origin.source.empty()               ? kind
               : origin.source.rfind(kind, 0) == 0 ? origin.source
                                                   : fmt::format("{} ({})", origin.source, kind);
    return fmt::format("{} ({})", cited(origin), kind);
}

std::string note_text(const SourceNote& source) {
    const auto kind = evidence_words(source.evidence);
    if (source.title == "given") return "typed in";
    if (source.title.starts_with(kind) || source.title.ends_with(kind)) return source.title;
    return fmt::format("{} ({})", source.title, kind);
}

std::string leaf_text(const Leaf& leaf, const Situation* situation, std::size_t indent) {
    const auto words = situation ? leaf_words(leaf, *situation) : leaf.text();
    std::string text = leaf.told ? fmt::format("told: {}", words)
                                 : fmt::format("{}  [{}]", words, source_text(leaf.origin()));
    if (leaf.redundant) text += " (the answer stands without it)";
    return wrapped(text, indent, 2) + photos_text(situation ? situation->photos_of(leaf) : leaf.photos, indent + 2);
}

std::string leaves_text(std::vector<Leaf> leaves, bool full, const Situation* situation, std::size_t indent) {
    if (!full) std::erase_if(leaves, [](const Leaf& leaf) { return leaf.redundant; });
    std::stable_sort(leaves.begin(), leaves.end(),
                     [](const Leaf& a, const Leaf& b) { return a.text().size() < b.text().size(); });
    constexpr std::size_t most = 5;
    std::string out;
    for (std::size_t i = 0; i < leaves.size() && (full || i < most); ++i)
        out += leaf_text(leaves[i], situation, indent);
    if (!full && leaves.size() > most) out += wrapped(fmt::format("and {} more: --full", leaves.size() - most), indent);
    return out;
}

std::string invented_label(bool invented) { return invented ? "invented demo data" : ""; }

std::string need_text(const ListLine& line) {
    if (line.options.empty()) return "-";
    if (line.amount_open) return "?";  // what to order says why
    if (line.quantity_high == 0) return "-";
    return shown_span(line.quantity_low, line.quantity_high, line.answer.unit);
}

std::string blank_for(const Attribute& attribute) {
    switch (attribute.kind) {
        case ValueKind::month: return "YYYY-MM";
        case ValueKind::year: return "YYYY";
        case ValueKind::yes_no: return "YES-OR-NO";
        case ValueKind::number:
            return attribute.unit.empty() || attribute.unit.find(' ') != std::string::npos ? "NUMBER"
                                                                                           : "NUMBER " + attribute.unit;
        case ValueKind::size: return "LENGTHxLENGTH";
        case ValueKind::choice: break;
    }
    return "VALUE";
}

bool question_comes_first(const PartsList& list) { return list.next && (list.to_check > 0 || list.held == 0); }

std::string find_out_text(const Question& question) {
    const auto& attribute = question.column->attribute;
    return wrapped(fmt::format("Find out first: {}. {} {} min{}{}.", attribute.title, attribute.how,
                               plain_number(attribute.minutes, 1), attribute.raised ? ", vehicle raised" : "",
                               attribute.dismantling ? ", something must come off" : ""),
                   0, 2);
}

std::string tell_command(const Question& question, const std::string& vehicle) {
    if (question.answers.empty()) return "";
    const auto& attribute = question.column->attribute;
    return fmt::format("casebound vehicle tell {} {} {} {}", vehicle, spaced(attribute.name), blank_for(attribute),
                       attribute.kind == ValueKind::number || attribute.kind == ValueKind::size ? "measured" : "read");
}

std::string brief_question_text(const Question& question, const std::string& vehicle) {
    const auto command = tell_command(question, vehicle);
    return find_out_text(question) + (command.empty() ? "" : fmt::format("  {}\n", command));
}

std::string settles_text(const Question& question, std::size_t open_lines) {
    const auto places = plural(open_lines, "open place");
    if (question.settles_most == 0) return fmt::format("It narrows {}; no one answer decides any.", places);
    return fmt::format("It decides up to {} of {}{}.", question.settles_most, places,
                       question.lines.empty() ? "" : fmt::format(": {}", fmt::join(question.lines, ", ")));
}

std::string answers_text(const Question& question) {
    constexpr std::size_t most = 8;
    std::vector<std::string> answers;
    for (const auto& [value, share] : question.answers)
        answers.push_back(value_words(question.column->attribute, value->text));
    if (answers.size() > most) answers = {answers.front(), "...", answers.back()};
    return fmt::format("{}", fmt::join(answers, ", "));
}

std::string question_text(const Question& question, const std::string& vehicle, std::size_t open_lines) {
    std::string out = find_out_text(question);
    if (const auto command = tell_command(question, vehicle); !command.empty()) out += fmt::format("  {}\n", command);
    out += wrapped(settles_text(question, open_lines), 2);
    return question.answers.empty() ? out
                                    : out + wrapped(fmt::format("Still possible: {}.", answers_text(question)), 2);
}

std::string list_text(const PartsList& list, const Situation& situation, bool full) {
    std::string out = spread(fmt::format("{}, {}", situation.name(), fmt::join(list.titles, ", ")),
                             invented_label(list.invented));
    out += closing(list, situation);
    if (question_comes_first(list)) out += question_text(*list.next, situation.name(), list.open);
    for (const auto& question : list.domain_questions)
        out += wrapped(fmt::format("Before ordering, find out: {}", question), 0, 2);
    const SaidOnce once(list);
    for (const auto& text : once.texts()) out += wrapped(fmt::format("NOT YET: {}.", text), 0, 2);
    out += "\n";
    Table table({"place", "need", "answer", "order"});
    for (const auto& line : list.lines) {
        table.row({line.answer.title, need_text(line), verdict_column(line), order_column(line, situation)});
        notes_of(table, line, list, once, situation, full);
    }
    out += table.text() + stays_section(list, situation) + kits_section(list) + why_section(list, situation) + "\n";
    for (const auto& caution : list.cautions)
        if (caution.text != jack_caution_of_packs) out += wrapped(fmt::format("Caution: {}", caution.text), 0, 2);
    return out + wrapped(closing_caution) + wrapped(situation.headline());
}

}  // namespace casebound
