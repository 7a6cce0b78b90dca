#include "core/say/vehicle_text.h"

#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/reason/condition_words.h"

namespace casebound {

namespace {

std::string possible_words(const Possibilities::Column& column, const Bits& left, const Possibilities& set) {
    std::vector<std::string> texts;
    for (const auto& [value, share] : set.values_left(column, left))
        texts.push_back(value_words(column.attribute, value->text));
    return texts.size() > 4 ? fmt::format("{} .. {} ({})", texts.front(), texts.back(), texts.size())
                            : fmt::format("{}", fmt::join(texts, ", "));
}

}  // namespace

std::string told_text(const Vocabularies& words, const std::vector<ToldFact>& entries) {
    if (entries.empty()) return "  nothing told yet\n";
    Table table({"told", "value", "evidence", "date", "note"});
    for (const auto& entry : entries) {
        const auto* attribute = words.attribute(entry.attribute);
        const auto value = attribute ? value_words(*attribute, entry.text) : entry.text;
        table.row({attribute ? named(attribute->title, entry.attribute) : entry.attribute,
                   entry.withdrawn ? "(taken back)" : value, std::string(tell_evidence_words(entry.evidence)),
                   entry.date,
                   entry.note + (entry.stands || entry.note.empty() ? "" : " ") +
                       (entry.stands ? "" : "(no longer stands)")});
        if (!entry.photo.empty()) table.under(fmt::format("photo {} (its name alone)", entry.photo));
        for (const auto& photo : entry.photos)
            table.under(fmt::format("photo {}: {}", photo.number, photo_file(photo)));
    }
    return table.text();
}

std::string photo_file(const Photo& photo) {
    return photo.path + (std::filesystem::is_regular_file(photo.path) ? "" : " (GONE: the file is not there)");
}

std::string photos_text(const std::vector<Photo>& photos, std::size_t indent) {
    std::string out;
    for (const auto& photo : photos)  // never wrapped: a path is opened whole
        out += fmt::format("{:{}}photo {}: {}\n", "", indent, photo.number, photo_file(photo));
    return out;
}

std::string still_open_text(const Situation& situation) {
    const auto& set = situation.model().set;
    const auto& left = situation.narrowing().left;
    Table table({"what", "still possible", "how to find it out"});
    std::vector<std::string> known;
    bool any = false;
    for (const auto& column : set.columns()) {
        const auto title = named(column.attribute.title, column.attribute.name);
        const auto words = possible_words(column, left, set);
        if (set.undecided(column, left)) any = true, table.row({title, words, column.attribute.how});
        else known.push_back(fmt::format("{} {}", title, words));
    }
    return (any ? table.text() : std::string()) +
           (known.empty() ? "" : wrapped(fmt::format("Known by now: {}.", fmt::join(known, "; ")), 0, 2));
}

}  // namespace casebound
