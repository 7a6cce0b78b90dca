#include "core/reason/vocabulary.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include <fmt/format.h>

namespace casebound {

namespace {

// What every vehicle has, whatever domain asks. How to find it out: common practice, no source.
Vocabulary core_words() {
    const auto choice = [](std::string name, std::string title, std::string how, double minutes) {
        Attribute a;
        a.name = std::move(name);
        a.title = std::move(title);
        a.how = std::move(how);
        a.minutes = minutes;
        return a;
    };
    Vocabulary words;
    auto& attributes = words.attributes;
    attributes = {
        choice("year", "model year", "Read the registration paper or the tenth character of the identification number.",
               1),
        choice("build", "build month", "Read the month on the label in the door opening, as YYYY-MM.", 1),
        choice("market", "market", "Read the certification label; the language of the warning labels tells too.", 2),
        choice("engine", "engine", "Read the engine code on the block or the emission label.", 3),
        choice("drive", "driven wheels", "Look for a driveshaft to each axle.", 2),
        choice("body", "body", "Look at the vehicle.", 1),
        choice("gearbox", "gearbox family", "Read the gearbox tag, or count gears and look at the pan outline.", 5),
        choice("gearbox_tag", "gearbox tag code", "Read the tag or stamp on the gearbox case.", 6),
        choice("cooler", "extra gearbox cooler", "Follow the two cooler pipes from the gearbox forward.", 4),
    };
    attributes[0].kind = ValueKind::year;
    attributes[1].kind = ValueKind::month;
    attributes[7].raised = true;
    attributes[8].kind = ValueKind::yes_no;
    words.item_kinds = {{"kit", "kit", "each"}};
    return words;
}

bool same(const Attribute& a, const Attribute& b) {
    return a.title == b.title && a.kind == b.kind && a.unit == b.unit && a.choices == b.choices &&
           a.finding == b.finding && a.several == b.several;
}
bool same(const ItemKind& a, const ItemKind& b) { return a.title == b.title && a.unit == b.unit; }
bool same(const Role& a, const Role& b) { return a.title == b.title && a.item_kind == b.item_kind; }

template <class T> void take(Vocabularies::Words<T>& words, const std::vector<T>& added, const std::string& owner,
                             std::string_view what, std::vector<std::string>& clashes) {
    for (const auto& word : added) {
        const auto [at, fresh] = words.try_emplace(word.name, Vocabularies::Owned<T>{word, owner});
        if (fresh || at->second.owner == owner || same(at->second.word, word)) continue;
        clashes.push_back(fmt::format("{} `{}` of {} is already declared otherwise by {}: rename it", what, word.name,
                                      owner, at->second.owner));
    }
}

template <class T> const T* look_up(const Vocabularies::Words<T>& words, std::string_view name) {
    const auto at = words.find(name);
    return at == words.end() ? nullptr : &at->second.word;
}

std::size_t edits(std::string_view a, std::string_view b) {
    std::vector<std::size_t> row(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i) {
        std::size_t diagonal = row[0];
        row[0] = i;
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t above = row[j];
            row[j] = std::min({above + 1, row[j - 1] + 1, diagonal + (a[i - 1] == b[j - 1] ? 0 : 1)});
            diagonal = above;
        }
    }
    return row[b.size()];
}

template <std::size_t N>
std::size_t index_of(const std::array<std::string_view, N>& names, std::string_view name, std::string_view what) {
    const auto at = std::find(names.begin(), names.end(), name);
    if (at == names.end())
        throw std::invalid_argument(fmt::format("`{}` is not {}: {}", name, what, fmt::join(names, ", ")));
    return static_cast<std::size_t>(at - names.begin());
}

constexpr std::array<std::string_view, 6> kinds{"choice", "yes_no", "number", "year", "month", "size"};
constexpr std::array<std::string_view, 7> evidences{"law",    "standard", "maker", "measured", "common_practice",
                                                    "memory", "invented"};
constexpr std::array<std::string_view, 7> evidences_said{
    "law", "standard", "maker's text", "measured here", "common practice", "from memory", "invented"};
constexpr std::array<std::string_view, 7> verdicts{"fits",         "none_needed",  "check_first", "sources_disagree",
                                                   "not_recorded", "does_not_fit", "not_answered"};
constexpr std::array<std::string_view, 7> verdicts_said{
    "fits", "none needed", "check first", "sources disagree", "not recorded", "does not fit", "not answered"};

}  // namespace

Vocabularies::Vocabularies() { add(core_words(), "core"); }

std::vector<std::string> Vocabularies::add(const Vocabulary& vocabulary, const std::string& owner) {
    std::vector<std::string> clashes;
    take(attributes_, vocabulary.attributes, owner, "attribute", clashes);
    take(item_kinds_, vocabulary.item_kinds, owner, "item kind", clashes);
    take(roles_, vocabulary.roles, owner, "role", clashes);
    return clashes;
}

const Attribute* Vocabularies::attribute(std::string_view name) const { return look_up(attributes_, name); }
const ItemKind* Vocabularies::item_kind(std::string_view name) const { return look_up(item_kinds_, name); }
const Role* Vocabularies::role(std::string_view name) const { return look_up(roles_, name); }

std::string Vocabularies::owner_of_role(std::string_view name) const {
    const auto at = roles_.find(name);
    return at == roles_.end() ? "" : at->second.owner;
}

std::string nearest(std::string_view word, const std::vector<std::string>& words) {
    std::string best;
    std::size_t least = std::max<std::size_t>(1, word.size() / 3) + 1;
    for (const auto& candidate : words)
        if (const auto distance = edits(word, candidate); distance < least) {
            least = distance;
            best = candidate;
        }
    return best;
}

std::string_view value_kind_name(ValueKind kind) { return kinds.at(static_cast<std::size_t>(kind)); }
ValueKind value_kind_from(std::string_view name) {
    return static_cast<ValueKind>(index_of(kinds, name, "a kind of value"));
}
std::string_view evidence_name(Evidence evidence) { return evidences.at(static_cast<std::size_t>(evidence)); }
std::string_view evidence_words(Evidence evidence) { return evidences_said.at(static_cast<std::size_t>(evidence)); }
Evidence evidence_from(std::string_view name) {
    return static_cast<Evidence>(index_of(evidences, name, "a kind of evidence"));
}
std::string_view verdict_words(Verdict verdict) { return verdicts_said.at(static_cast<std::size_t>(verdict)); }
std::string_view verdict_name(Verdict verdict) { return verdicts.at(static_cast<std::size_t>(verdict)); }

}  // namespace casebound
