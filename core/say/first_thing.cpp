#include "core/say/first_thing.h"

#include <algorithm>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/shown.h"
#include "core/ground/text_layout.h"
#include "core/say/report.h"

namespace casebound {

namespace {

FirstThing& thing(std::vector<FirstThing>& things, const std::string& reason, const std::string& until) {
    auto what = fmt::format("{}: {}", reason, until);
    const auto at = std::find_if(things.begin(), things.end(), [&](const FirstThing& one) { return one.what == what; });
    return at == things.end() ? things.emplace_back(FirstThing{std::move(what), {}, {}}) : *at;
}

void add_once(std::vector<std::string>& list, const std::string& text) {
    if (std::find(list.begin(), list.end(), text) == list.end()) list.push_back(text);
}

}  // namespace

std::vector<FirstThing> first_things(const PartsList& list) {
    std::vector<FirstThing> things;
    if (question_comes_first(list)) return things;
    for (const auto& line : list.lines) {
        if (!line.blocks()) continue;
        for (const auto& held : line.held) {
            auto& one = thing(things, held.hold.reason, held.hold.until);
            add_once(one.titles, line.answer.title);
            for (const auto& attribute : held.hold.attributes) add_once(one.attributes, attribute);
        }
        for (const auto& doubt : line.doubts) {
            auto& one = thing(things, doubt.reason, doubt.until);
            add_once(one.titles, line.answer.title);
            add_once(one.attributes, doubt.attribute);
        }
    }
    return things;
}

std::string tell_command(const Situation& situation, const std::string& attribute) {
    const auto* known = situation.judge().catalog().vocabularies().attribute(attribute);
    const bool read = known && known->kind != ValueKind::number && known->kind != ValueKind::size;
    return fmt::format("casebound vehicle tell {} {} VALUE {}", situation.name(), spaced(attribute),
                       read ? "read" : "measured");
}

std::vector<LookUp> to_look_up(const PartsList& list) {
    std::vector<LookUp> places;
    for (const auto& line : list.lines)
        if (line.must_order() && line.answer.verdict == Verdict::not_recorded)
            places.push_back({line.answer.role, line.answer.title, line.notes});
    return places;
}

std::string look_up_text(const std::vector<LookUp>& places, const Situation& situation) {
    if (places.empty()) return "";
    std::string out = wrapped(fmt::format("Look up: nobody has said what goes in {}. Look at the old one, or ask who "
                                          "sells it, and write it down.",
                                          plural(places.size(), "place")),
                              0, 2);
    for (const auto& one : places)
        out += wrapped(
            fmt::format("{}{}{}", named(one.title, one.role), one.how.empty() ? "" : ": ", fmt::join(one.how, "; ")), 2,
            4);
    return out + fmt::format("  casebound note {} PLACE PART --says WHO\n", situation.name());
}

std::string first_things_text(const std::vector<FirstThing>& things, const Situation& situation) {
    std::string out;
    for (const auto& one : things) {
        out += wrapped(fmt::format("Find out first: {}.", one.what), 0, 2);
        out += wrapped(fmt::format("Until then these wait: {}.", fmt::join(one.titles, ", ")), 2);
        for (const auto& attribute : one.attributes) out += fmt::format("  {}\n", tell_command(situation, attribute));
    }
    return out;
}

}  // namespace casebound
