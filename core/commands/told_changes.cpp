#include "core/commands/told_changes.h"

#include <algorithm>

#include <fmt/format.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/reason/condition_words.h"

namespace casebound {

namespace {

// How to say that what stood before is seen too.
std::string beside_words(const Vocabularies& words, const ToldFact& old, const ToldFact& entry) {
    const auto* attribute = words.attribute(entry.attribute);
    const auto has = [](const std::string& all, const std::string& one) {
        return ("+" + all + "+").find("+" + one + "+") != std::string::npos;
    };
    if (!attribute || !attribute->several || old.text == attribute->alone || entry.text == attribute->alone ||
        has(entry.text, old.text))
        return "";
    return fmt::format(" Both are seen? Tell {}+={}.", entry.attribute, old.text);
}

// Hearsay beside what was looked at. Of a finding that has one value nobody asks again: it holds no order.
std::string beside_hearsay(const Situation& situation, const Attribute* attribute) {
    const bool weighed = !attribute || attribute->several || situation.model().set.column(attribute->name);
    return weighed ? "is kept beside it: which of the two is right is in doubt."
                   : "is kept beside it, and counts for nothing until somebody looks.";
}

// Told beside it, and known worse: so is all of it.
std::string together_words(const ToldFact& old, const ToldFact& entry) {
    return entry.text.starts_with(old.text + "+") && entry.evidence > old.evidence && is_hearsay(entry.evidence)
               ? fmt::format(" Together they count as {}.", tell_evidence_words(entry.evidence))
               : "";
}

}  // namespace

std::string changed_text(const Situation& situation, const std::vector<ToldFact>& before,
                         const std::vector<ToldFact>& after, const std::vector<ToldFact>& entries) {
    const auto& words = situation.judge().catalog().vocabularies();
    std::string out;
    for (const auto& entry : entries)
        for (const auto& old : before) {
            if (!old.stands || old.withdrawn || old.attribute != entry.attribute || old.text == entry.text) continue;
            const bool stays = std::any_of(after.begin(), after.end(),
                                           [&](const ToldFact& one) { return one.id == old.id && one.stands; });
            const auto* attribute = words.attribute(entry.attribute);
            const auto title = attribute ? named(attribute->title, attribute->name) : spaced(entry.attribute);
            const auto value = [&](const std::string& text) {
                return attribute ? value_words(*attribute, text) : shown_value(text);
            };
            const auto was = fmt::format("{} ({} {})", value(old.text), tell_evidence_words(old.evidence), old.date);
            out += wrapped(
                stays ? fmt::format("{}: {} stands, and {} {}", title, was, value(entry.text),
                                    beside_hearsay(situation, attribute))
                      : fmt::format("{}: was {}, now {}. The history keeps both.{}{}", title, was, value(entry.text),
                                    beside_words(words, old, entry), together_words(old, entry)),
                0, 2);
        }
    return out;
}

}  // namespace casebound
