#include "core/say/report.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/ground/units.h"

namespace casebound {

namespace {

std::string amount(double value, const std::string& unit) {
    return unit == "each" ? plain_number(value, 2) : fmt::format("{} {}", plain_number(value, 2), unit);
}

std::string verdict_column(const ListLine& line) {
    if (line.reach == Reach::look_first) return "look first";
    if (line.reach == Reach::disturbs && line.answer.verdict != Verdict::not_answered) return "look first";
    const auto words = std::string(verdict_words(line.answer.verdict));
    const bool loud = line.answer.verdict != Verdict::fits && line.answer.verdict != Verdict::none_needed &&
                      line.answer.verdict != Verdict::not_recorded;
    return loud ? capitalised(words) : words;
}

std::string members_text(const Option& option) {
    std::vector<std::string> keys;
    for (const auto& member : option.members) keys.push_back(member.item);
    if (keys.empty()) return fmt::format("{} (no item on record)", option.group);
    if (keys.size() == 1) return keys[0];
    const std::vector<std::string> same(keys.begin() + 1, keys.end());
    return fmt::format("{}, same as {}", keys[0], fmt::join(same, ", "));
}

std::string option_text(const ListLine& line, const Option& option) {
    const auto what = option.containers.empty()
                          ? members_text(option)
                          : fmt::format("{}: {}", option.group, containers_text(option.containers, line.answer.unit));
    return option.where.empty() ? what : fmt::format("{} where {}", what, option.where);
}

std::string order_column(const ListLine& line) {
    if (line.answer.verdict == Verdict::not_answered) return missing_text(line);
    std::vector<std::string> texts;
    for (const auto& option : line.options) texts.push_back(option_text(line, option));
    if (line.answer.verdict == Verdict::check_first) {
        if (!line.none_where.empty()) texts.push_back(fmt::format("none needed where {}", line.none_where));
        if (!line.blank_where.empty()) texts.push_back(fmt::format("not recorded where {}", line.blank_where));
    }
    if (texts.empty()) return missing_text(line);
    return fmt::format("{}", fmt::join(texts, line.answer.verdict == Verdict::fits ? "; or " : " / "));
}

void notes_of(Table& table, const ListLine& line, const PartsList& list, bool full) {
    for (const auto& stay : list.stays)
        if (stay.role == line.answer.role)
            table.under(stay.where.empty() ? "<< STAYS IN THE CASE"
                                           : fmt::format("<< MAY STAY IN THE CASE: where {}", stay.where));
    if (const auto held = held_back(line); !held.empty()) table.under("not yet: " + held);
    const bool packs = std::any_of(line.options.begin(), line.options.end(),
                                   [](const Option& option) { return !option.containers.empty(); });
    if (line.reserve > 0 && packs)
        table.under(fmt::format("the packs count {} more for what is spilt", amount(line.reserve, line.answer.unit)));
    if (!line.only_where.empty()) table.under(fmt::format("needed only where {}", line.only_where));
    if (!line.companion_of.empty()) table.under(line.companion_of);
    if (!line.kits.empty()) table.under(fmt::format("already in kit {}", fmt::join(line.kits, ", ")));
    if (const auto reuse = reuse_text(line); !reuse.empty()) table.under(reuse);
    for (const auto& swap : line.stand_ins) {
        if (swap.verdict != SwapVerdict::yes && !full) continue;
        table.under(
            fmt::format("{}: {}{}", swap.offered,
                        swap.verdict == SwapVerdict::yes       ? "may stand in"
                        : swap.verdict == SwapVerdict::differs ? "bolts up, but differs"
                                                               : "may stand in, on conditions",
                        swap.also_requires.empty() ? "" : fmt::format(", with {}", listed(swap.also_requires))));
    }
    for (const auto& option : line.options)
        if (!option.claimed.empty()) table.under(claimed_text(option));
    const auto* best = line.answer.best();
    if (best && !best->cautions.empty()) table.under(best->cautions.front().text);
    if (full)
        for (const auto& note : line.notes) table.under(note);
}

std::string because(const ListLine& line) {
    const auto* best = line.answer.best();
    if (!line.answer.told.empty()) {
        std::vector<std::string> texts;
        for (const auto& leaf : line.answer.told) texts.push_back(leaf.text());
        return fmt::format("because {}", fmt::join(texts, ", "));
    }
    return best && !best->leaves.empty() ? source_text(best->leaves.front().origin()) : "";
}

std::string why_section(const PartsList& list) {
    std::string out = "\nWhy\n";
    for (const auto& line : list.lines) {
        std::string text = line.answer.title + ": ";
        const auto* best = line.answer.best();
        if (best) {
            text += best->leaves.empty() ? "" : best->leaves.front().text();
            if (best->leaves.size() > 1) text += fmt::format(" (and {} more rows)", best->leaves.size() - 1);
            if (!best->leaves.empty()) text += fmt::format("; {}", source_text(best->leaves.front().origin()));
            if (!line.answer.told.empty()) text += fmt::format("; {}", because(line));
        } else if (!line.answer.deciding.empty()) {
            text += fmt::format("settled by {}", fmt::join(line.answer.deciding, " and "));
        } else {
            text += missing_text(line);
        }
        out += wrapped(text, 2, 2);
    }
    return out;
}

std::string stays_section(const PartsList& list) {
    std::string out;
    for (const auto& stay : list.stays) {
        out += wrapped(
            fmt::format("{}: {}, {}.{} {} out, {} in.",
                        stay.where.empty() ? "STAYS IN THE CASE" : "MAY STAY IN THE CASE", stay.title, stay.place,
                        stay.where.empty() ? "" : fmt::format(" Where {}.", stay.where), stay.count, stay.count),
            0, 2);
        out += wrapped(stay.see, 2) + wrapped(stay.remove, 2) + wrapped(source_text(stay.origin), 2);
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

std::string closing(const PartsList& list) {
    std::vector<std::string> open;
    if (list.to_check) open.push_back(fmt::format("{} to check", list.to_check));
    if (list.unrecorded) open.push_back(fmt::format("{} not recorded", list.unrecorded));
    if (list.disagreed) open.push_back(fmt::format("{} where sources disagree", list.disagreed));
    if (list.unfit) open.push_back(fmt::format("{} that nothing fits", list.unfit));
    if (list.unanswered) open.push_back(fmt::format("{} not answered", list.unanswered));
    if (list.held) open.push_back(fmt::format("{} that must wait", list.held));
    const auto weakest = fmt::format("Weakest evidence: {}.", evidence_words(list.weakest));
    const auto hearsay = list.hearsay.empty() ? std::string{} : wrapped(right_only_if(list.hearsay), 0, 2);
    if (list.nothing_to_order() && open.empty())
        return wrapped(
            fmt::format("NOTHING TO ORDER: this vehicle has no place that the job needs a part for. {}", weakest));
    if (!open.empty())
        return hearsay + wrapped(fmt::format("NOT READY TO ORDER: {}. {}", fmt::join(open, ", "), weakest));
    return hearsay +
           wrapped(fmt::format("{}. {}", hearsay.empty() ? "Ready to order" : "Ready to order, if so", weakest));
}

}  // namespace

std::string containers_text(const std::vector<Container>& containers, const std::string& unit) {
    std::vector<std::string> texts;
    for (const auto& one : containers)
        texts.push_back(fmt::format("{} x {} {} ({})", one.count, plain_number(one.quantity, 2), unit, one.item));
    return fmt::format("{}", fmt::join(texts, " + "));
}

std::string missing_text(const ListLine& line) {
    switch (line.answer.verdict) {
        case Verdict::not_answered: return fmt::format("not answered: {}", line.answer.failure);
        case Verdict::not_recorded: return "nobody has said; look at the old one";
        case Verdict::none_needed: return "this one has no such place";
        case Verdict::does_not_fit: return "everything on record is ruled out; see why";
        case Verdict::sources_disagree: return "two sources contradict each other; see why";
        default: return held_back(line).empty() ? "-" : "see `not yet`";
    }
}

std::vector<InTheWay> in_the_way(const PartsList& list) {
    std::vector<InTheWay> all;
    for (const auto& line : list.lines) {
        if (!line.blocks()) continue;
        for (auto& why : in_the_way(line)) all.push_back({line.answer.title, std::move(why)});
        if (line.waits() && line.answer.verdict == Verdict::fits) continue;
        if (line.answer.verdict == Verdict::check_first)
            all.push_back({line.answer.title,
                           line.answer.deciding.empty()
                               ? "check first"
                               : fmt::format("check first; settled by {}", fmt::join(line.answer.deciding, " and "))});
        else if (!line.only_where.empty())
            all.push_back({line.answer.title, fmt::format("needed only where {}", line.only_where)});
        else all.push_back({line.answer.title, missing_text(line)});
    }
    return all;
}

std::string right_only_if(const std::vector<std::string>& hearsay) {
    return hearsay.empty() ? ""
                           : fmt::format("RIGHT ONLY IF THIS IS TRUE: {}. Look for yourself before ordering.",
                                         fmt::join(hearsay, ", "));
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
    if (origin.pack.empty())
        return origin.source.empty() ? std::string(evidence_words(origin.evidence))
                                     : fmt::format("{} ({})", origin.source, evidence_words(origin.evidence));
    return fmt::format("{}, {}:{} ({})", origin.pack, origin.file, origin.line, evidence_words(origin.evidence));
}

std::string note_text(const SourceNote& source) {
    const auto kind = evidence_words(source.evidence);
    if (source.title == "given") return "typed in";
    if (source.title.rfind(kind, 0) == 0) return source.title;
    return fmt::format("{} ({})", source.title, kind);
}

std::string leaf_text(const Leaf& leaf, std::size_t indent) {
    std::string text = leaf.told ? fmt::format("told: {}", leaf.text())
                                 : fmt::format("{}  [{}]", leaf.text(), source_text(leaf.origin()));
    if (leaf.redundant) text += " (redundant)";
    return wrapped(text, indent, 2);
}

std::string leaves_text(std::vector<Leaf> leaves, bool full, std::size_t indent) {
    std::stable_sort(leaves.begin(), leaves.end(),
                     [](const Leaf& a, const Leaf& b) { return a.text().size() < b.text().size(); });
    constexpr std::size_t most = 5;
    std::string out;
    for (std::size_t i = 0; i < leaves.size() && (full || i < most); ++i) out += leaf_text(leaves[i], indent);
    if (!full && leaves.size() > most) out += wrapped(fmt::format("and {} more: --full", leaves.size() - most), indent);
    return out;
}

std::string invented_label(bool invented) { return invented ? "invented demo data" : ""; }

std::string need_text(const ListLine& line) {
    if (line.options.empty() || line.quantity_high == 0) return "-";
    if (line.quantity_low != line.quantity_high)
        return fmt::format("{} to {}", plain_number(line.quantity_low, 2),
                           amount(line.quantity_high, line.answer.unit));
    return amount(line.quantity_high, line.answer.unit);
}

std::string blank_for(const Attribute& attribute) {
    switch (attribute.kind) {
        case ValueKind::month: return "YYYY-MM";
        case ValueKind::year: return "YYYY";
        case ValueKind::yes_no: return "YES-OR-NO";
        case ValueKind::number: return "NUMBER" + (attribute.unit.find(' ') == std::string::npos ? attribute.unit : "");
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
    return fmt::format("casebound vehicle tell {} {}={} {}", vehicle, attribute.name, blank_for(attribute),
                       attribute.kind == ValueKind::number || attribute.kind == ValueKind::size ? "measured" : "read");
}

std::string brief_question_text(const Question& question, const std::string& vehicle) {
    const auto command = tell_command(question, vehicle);
    return find_out_text(question) + (command.empty() ? "" : fmt::format("  {}\n", command));
}

std::string question_text(const Question& question, const std::string& vehicle, std::size_t open_lines) {
    std::string out = find_out_text(question);
    const auto best = question.settles_most;
    out += wrapped(best > 0
                       ? fmt::format("It settles up to {} of {}{}.", best, plural(open_lines, "open line"),
                                     question.lines.empty() ? "" : fmt::format(": {}", fmt::join(question.lines, ", ")))
                       : fmt::format("It narrows {}; no single answer settles one.", plural(open_lines, "open line")),
                   2);
    std::vector<std::string> answers;
    for (const auto& [value, share] : question.answers) answers.push_back(value->text);
    if (answers.size() > 8) answers = {answers.front(), "...", answers.back()};
    if (!answers.empty()) out += wrapped(fmt::format("Still possible: {}.", fmt::join(answers, ", ")), 2);
    const auto command = tell_command(question, vehicle);
    return out + (command.empty() ? "" : fmt::format("  {}\n", command));
}

std::string list_text(const PartsList& list, const Situation& situation, bool full) {
    std::string out = spread(fmt::format("{}, {}", situation.name(), fmt::join(list.jobs, ", ")),
                             invented_label(list.invented));
    out += wrapped(situation.headline()) + "\n";
    Table table({"role", "need", "verdict", "order"});
    for (const auto& line : list.lines) {
        table.row({line.answer.title, need_text(line), verdict_column(line), order_column(line)});
        notes_of(table, line, list, full);
    }
    out += table.text() + stays_section(list) + kits_section(list) + why_section(list) + "\n";
    if (question_comes_first(list)) out += question_text(*list.next, situation.name(), list.open) + "\n";
    for (const auto& question : list.domain_questions)
        out += wrapped(fmt::format("Before ordering, find out: {}", question), 0, 2);
    out += closing(list);
    for (const auto& caution : list.cautions) out += wrapped(fmt::format("Caution: {}", caution.text), 0, 2);
    return out + wrapped(closing_caution);
}

std::string role_text(const RoleAnswer& answer, const Situation& situation, bool full) {
    std::string out = wrapped(fmt::format("{}: {}", answer.title, capitalised(verdict_words(answer.verdict))), 0, 2);
    if (answer.verdict == Verdict::not_answered)
        return out + wrapped(fmt::format("not answered: {}", answer.failure), 2);
    if (answer.verdict == Verdict::not_recorded)
        out += wrapped(
            fmt::format("searched {}: no application for {} on what is left", situation.model().title, answer.title),
            2);
    for (const auto& group : answer.groups) {
        const bool shown = group.on.any() || group.verdict == Verdict::sources_disagree || full ||
                           answer.verdict == Verdict::does_not_fit;
        if (!shown) continue;
        out += wrapped(fmt::format("{} ({}): {}, {} of {} left", group.key, group.title, verdict_words(group.verdict),
                                   group.on.count(), situation.narrowing().left.count()),
                       2, 2);
        out += leaves_text(group.leaves, full, 4) + leaves_text(group.against, full, 4);
        for (const auto& caution : group.cautions) out += wrapped(fmt::format("caution: {}", caution.text), 4, 2);
    }
    out += leaves_text(answer.none_leaves, full, 2) + leaves_text(answer.told, full, 2);
    if (!answer.withdrawn.empty()) out += wrapped("no longer counts:", 2) + leaves_text(answer.withdrawn, full, 4);
    if (!answer.deciding.empty()) out += wrapped(fmt::format("settled by: {}", fmt::join(answer.deciding, " and ")), 2);
    return out + wrapped(fmt::format("weakest evidence: {}", evidence_words(answer.weakest)), 2);
}

std::string swap_text(const SwapAnswer& answer, bool full) {
    std::string out = spread(fmt::format("{} wanted, {} offered", answer.wanted, answer.offered),
                             invented_label(answer.invented));
    out += wrapped(fmt::format("{}: {} for {}", swap_words(answer.verdict), answer.offered, answer.wanted), 0, 2);
    const auto list = [&](std::string_view label, const std::vector<std::string>& texts) {
        for (const auto& text : texts) out += wrapped(fmt::format("{}{}", label, text), 2, 2);
    };
    // A reason that stands below with its source is not said twice.
    const bool all_shown = full || answer.leaves.size() <= 5;
    for (const auto& reason : answer.reasons)
        if (!all_shown || std::none_of(answer.leaves.begin(), answer.leaves.end(),
                                       [&](const Leaf& leaf) { return leaf.text() == reason; }))
            list("", {reason});
    list("only where ", answer.conditions);
    list("on condition: ", answer.requirements);
    list("also fit: ", answer.also_requires);
    list("differs: ", answer.differences);
    list("caution: ", texts_of(answer.cautions));
    out += leaves_text(answer.leaves, full);
    if (!answer.withdrawn.empty()) out += wrapped("no longer counts:", 2) + leaves_text(answer.withdrawn, full, 4);
    return answer.leaves.empty()
               ? out
               : out + wrapped(fmt::format("weakest evidence: {}", evidence_words(answer.weakest)), 2);
}

}  // namespace casebound
