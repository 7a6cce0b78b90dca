#include "core/say/in_words.h"

#include <algorithm>
#include <cctype>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/error.h"
#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/reason/condition_words.h"

namespace casebound {

namespace {

const Possibilities& set_of(const Situation& situation) { return situation.model().set; }

std::string row_words(const ApplicationRow& row, const Situation& situation) {
    const char* says = row.says == Says::fits           ? "fits"
                       : row.says == Says::does_not_fit ? "does not fit"
                                                        : "nothing is needed";
    const auto where = row.condition ? condition_words(to_text(*row.when), set_of(situation)) : std::string();
    return fmt::format("{} {}{}{}", says, where.empty() ? "on every version built" : "where ", where,
                       row.withdrawn.empty() ? "" : fmt::format(" (withdrawn: {})", row.withdrawn));
}

const ToldFact* fact_said(const Situation& situation, const std::string& said) {
    for (const auto& fact : situation.narrowing().facts)
        if (fact.said() == said) return &fact;
    return nullptr;
}

std::string fact_words(const Situation& situation, const std::string& said) {
    const auto* fact = fact_said(situation, said);
    const auto* column = fact ? set_of(situation).column(fact->attribute) : nullptr;
    if (!column) return in_titles(situation.judge().catalog(), said);  // of an item or a row
    return fmt::format("{} {} ({} {})", named(column->attribute.title, column->attribute.name),
                       value_words(column->attribute, fact->text), tell_evidence_words(fact->evidence), fact->date);
}

}  // namespace

std::string attribute_titles(const Situation& situation, const std::vector<std::string>& attributes) {
    std::vector<std::string> titles;
    for (const auto& key : attributes) {
        const auto* column = set_of(situation).column(key);
        titles.push_back(column ? named(column->attribute.title, key) : spaced(key));
    }
    return fmt::format("{}", fmt::join(titles, " and "));
}

std::string leaf_words(const Leaf& leaf, const Situation& situation) {
    if (leaf.row()) return row_words(*leaf.row(), situation);
    return leaf.told ? fact_words(situation, leaf.text()) : in_titles(situation.judge().catalog(), leaf.text());
}

std::vector<std::string> told_words(const Situation& situation, const std::vector<std::string>& said) {
    std::vector<std::string> words;
    for (const auto& one : said) words.push_back(fact_words(situation, one));
    return words;
}

std::string fluid_words(std::string_view key) {
    constexpr std::string_view own = "own-";  // of a group that was written down here, of one part
    return std::string(key.starts_with(own) ? key.substr(own.size()) : key);
}

std::string group_in_short(const Situation& situation, const RoleAnswer& role, const GroupAnswer& group) {
    if (!group.only_part.empty()) return group.only_part;
    if (role.unit != "each") return fluid_words(group.key);
    for (const auto& member : situation.judge().catalog().members(group.id))
        if (member.withdrawn.empty() && member.basis != Basis::claimed) return member.item;
    return group.title;
}

std::string with_words(const Situation& situation, const std::vector<GoesWith>& others) {
    std::vector<std::string> words;
    for (const auto& one : others) {
        const auto* role = situation.judge().catalog().vocabularies().role(one.role);
        words.push_back(fmt::format("{}{}{}", one.quantity == 1 ? "" : fmt::format("{:g} of ", one.quantity),
                                    group_words(situation.judge().catalog(), one.group),
                                    role ? fmt::format(" as {}", role->title) : ""));
    }
    return words.empty() ? "" : fmt::format(", together with {}", fmt::join(words, " and "));
}

namespace {

bool by_the_piece(const Catalog& catalog, const Group& group) {
    const auto* kind = catalog.vocabularies().item_kind(group.kind);
    return !kind || kind->unit == "each";
}

bool of_a_key(char c) { return std::isalnum(static_cast<unsigned char>(c)) != 0 || c == '-' || c == '_' || c == '.'; }

// "pan_depth=41 mm" or "drive=2wd|4wd" from `at` on, whose attribute ends at `end`; empty where no condition stands there.
std::string_view condition_at(const Catalog& catalog, std::string_view sentence, std::size_t at, std::size_t end) {
    if (end >= sentence.size() || std::string_view("=<>").find(sentence[end]) == std::string_view::npos) return {};
    const auto* attribute = catalog.vocabularies().attribute(std::string(sentence.substr(at, end - at)));
    if (!attribute) return {};
    auto stop = std::min(sentence.find_first_of(" ;,):", end), sentence.size());
    if (sentence[stop - 1] == '.') --stop;
    const auto unit = " " + attribute->unit;
    if (unit.size() > 1 && sentence.substr(stop).starts_with(unit)) stop += unit.size();
    return sentence.substr(at, stop - at);
}

std::string condition_or_as_it_is(std::string_view condition, const Vocabularies& words) {
    try {
        return condition_words(condition, words);
    } catch (const Error&) { return std::string(condition); }  // "pan_depth=...": to be typed
}

// A word that can only be a key: of a group, a place, an attribute, or a value with an underscore in it.
std::optional<std::string> key_words(const Catalog& catalog, std::string_view word) {
    const auto& words = catalog.vocabularies();
    const bool dashed = word.find('-') != std::string_view::npos, low = word.find('_') != std::string_view::npos;
    if (!dashed && !low) return std::nullopt;
    if (const auto group = catalog.group(word); group && by_the_piece(catalog, *group))
        return named(group->title, word);
    if (const auto* role = words.role(std::string(word))) return named(role->title, word);
    if (const auto* attribute = words.attribute(std::string(word))) return named(attribute->title, word);
    const bool value = low && word.ends_with(".csv") == false && std::none_of(word.begin(), word.end(), [](char c) {
                           return std::isupper(static_cast<unsigned char>(c)) != 0;
                       });
    return value ? std::optional(named(spaced(word), word)) : std::nullopt;
}

}  // namespace

std::string group_words(const Catalog& catalog, std::string_view key) {
    const auto group = catalog.group(key);
    if (!group || !by_the_piece(catalog, *group)) return fluid_words(key);
    for (const auto& member : catalog.members(group->id))
        if (member.withdrawn.empty() && member.basis != Basis::claimed) return named(member.item, key);
    return named(group->title, key);
}

std::string in_titles(const Catalog& catalog, std::string_view sentence) {
    std::string out;
    for (std::size_t at = 0; at < sentence.size();) {
        auto end = at;
        while (end < sentence.size() && of_a_key(sentence[end])) ++end;
        if (end == at) {
            out += sentence[at++];
            continue;
        }
        if (end - at > 1 && sentence[end - 1] == '.') --end;  // the end of a sentence
        const auto word = sentence.substr(at, end - at);
        if (const auto condition = condition_at(catalog, sentence, at, end); !condition.empty()) {
            out += condition_or_as_it_is(condition, catalog.vocabularies());
            at += condition.size();
            continue;
        }
        // "may_stand_in(" is of a program, "seal_od=..." is to be typed.
        const bool called = end < sentence.size() && (sentence[end] == '(' || sentence[end] == '=');
        out += called ? std::string(word) : key_words(catalog, word).value_or(std::string(word));
        at = end;
    }
    return out;
}

namespace {

// Where nothing is sure to fit because its sources contradict each other.
void add_disagreed(std::vector<WordedCase>& cases, const RoleAnswer& role, const Bits& left) {
    Bits disagreed(left.size());
    for (const auto& group : role.groups)
        if (group.disagreed_line.size()) disagreed |= group.disagreed_line & left;
    for (const auto& group : role.groups) disagreed = disagreed - group.on;
    if (disagreed.any()) cases.push_back({"sources disagree", disagreed});
}

}  // namespace

std::vector<WordedCase> cases_of(const Situation& situation, const RoleAnswer& role) {
    const auto& left = situation.narrowing().left;
    std::vector<WordedCase> cases;
    for (const auto& group : role.groups) {
        if (group.on.none() || (role.verdict == Verdict::fits && group.verdict != Verdict::fits)) continue;
        cases.push_back({named(group_in_short(situation, role, group), group.key),
                         role.verdict == Verdict::fits ? left : group.on});
    }
    for (const auto& part : role.parts) cases.push_back({named(part.only_part, part.key), left});
    if (!role.plain())
        for (const auto& part : role.with_others)
            cases.push_back(
                {named(group_in_short(situation, role, part), part.key) + with_words(situation, part.goes_with), left});
    if (role.verdict != Verdict::check_first) return cases;
    if (role.none_line.size() && role.none_line.meets(left)) cases.push_back({"none", role.none_line & left});
    if (role.blank.size() && role.blank.meets(left)) cases.push_back({"not recorded", role.blank & left});
    add_disagreed(cases, role, left);
    return cases;
}

std::vector<WordedCase> line_cases(const ListLine& line, const Situation& situation,
                                   const std::function<std::string(const ListLine&, const Option&)>& order) {
    const auto& left = situation.narrowing().left;
    std::vector<WordedCase> cases;
    for (const auto& option : line.options) {
        const auto group = std::find_if(line.answer.groups.begin(), line.answer.groups.end(),
                                        [&](const GroupAnswer& one) { return one.key == option.group; });
        const bool everywhere = group == line.answer.groups.end() || line.answer.verdict == Verdict::fits;
        cases.push_back(
            {order(line, option) + with_words(situation, option.goes_with), everywhere ? left : group->on & left});
    }
    if (line.answer.verdict != Verdict::check_first) return cases;
    if (!line.none_where.empty()) cases.push_back({"none", line.answer.none_line & left});
    if (!line.blank_where.empty()) cases.push_back({"not recorded", line.answer.blank & left});
    add_disagreed(cases, line.answer, left);
    return cases;
}

std::string cases_words(const Situation& situation, const RoleAnswer& role, const std::vector<WordedCase>& cases,
                        std::string_view between) {
    const auto& set = set_of(situation);
    const auto& left = situation.narrowing().left;
    std::vector<Bits> parts;
    for (const auto& one : cases) parts.push_back(one.on);
    const auto told = told_apart(set, parts, left, role.speaks_of());
    std::string out;
    for (std::size_t i = 0; i < cases.size(); ++i) {
        const auto where = told.values.empty() ? where_words(set, cases[i].on, left, role.speaks_of()) : std::string();
        out += out.empty() ? "" : std::string(between);
        out += !told.values.empty()
                   ? fmt::format("{}{}: {}", i == 0 ? told.attribute + " " : "", told.values[i], cases[i].what)
               : where.empty() ? cases[i].what
                               : fmt::format("{} where {}", cases[i].what, where);
    }
    return out;
}

}  // namespace casebound
