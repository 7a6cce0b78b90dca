#include "core/work/find_uses.h"

#include <algorithm>
#include <cctype>
#include <filesystem>
#include <set>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/session/inquiry_session.h"
#include "core/shop/shop_vehicles.h"

namespace casebound {

namespace {

constexpr std::size_t most_vehicles = 40;

struct UsedPlace {
    RoleAnswer answer;
    std::vector<Doubt> doubts;
};

struct Used {
    std::string vehicle, line;
    std::vector<UsedPlace> places;
};

// Those groups, and all that they may stand in for by any number of steps: a group is in a place for one of these.
std::set<std::string> with_what_they_stand_in_for(const StandInGraph& graph, const std::set<std::string>& groups) {
    std::set<std::string> all = groups;
    std::vector<std::string> ahead(groups.begin(), groups.end());
    while (!ahead.empty()) {
        const auto group = ahead.back();
        ahead.pop_back();
        for (const auto& edge : graph.edges_from(group))
            if (all.insert(edge.wanted).second) ahead.push_back(edge.wanted);
    }
    return all;
}

// The places in which one of the groups may be.
std::vector<UsedPlace> places_of(const Situation& situation, const std::set<std::string>& groups) {
    const auto& places = situation.places();
    std::set<std::string> roles;
    for (const auto& key : with_what_they_stand_in_for(places.interchange().graph(), groups))
        if (const auto group = situation.judge().catalog().group(key))
            for (auto& role : situation.judge().roles_naming(group->id)) roles.insert(std::move(role));
    std::vector<UsedPlace> answers;
    for (const auto& role : roles) {
        auto answer = places.role(role);
        auto doubts = places.doubts(answer);
        answers.push_back({std::move(answer), std::move(doubts)});
    }
    return answers;
}

std::vector<Used> on_the_yard(Session& session, const std::set<std::string>& groups) {
    std::vector<Used> all;
    for (const auto& vehicle : ShopVehicles(session.shop()).all()) {
        if (all.size() == most_vehicles) break;
        try {
            if (groups.empty()) {
                all.push_back({vehicle.name, vehicle.line, {}});
                continue;
            }
            const auto situation = session.situation(vehicle.name);
            all.push_back({vehicle.name, situation->line(), places_of(*situation, groups)});
        } catch (const Error&) {}  // its line is in no loaded pack: it uses nothing that is known
    }
    return all;
}

std::vector<std::string> groups_of(const Catalog& catalog, const Found& one) {
    auto groups = one.kind == FoundKind::item ? catalog.groups_of(one.key) : std::vector<std::string>{};
    if (one.kind == FoundKind::group || catalog.group(one.key)) groups.push_back(one.key);
    return groups;
}

}  // namespace

FindAnswer found_in(Session& session, const std::string& words, std::size_t most) {
    const auto beside = std::filesystem::path(session.options().catalog).replace_filename("find.sqlite").string();
    return Finder(session.catalog(), beside).find(words, most);
}

namespace {

// In small letters, without the last letter of a plural: "pan leaks" finds "leak".
std::vector<std::string> words_in(const std::string& text) {
    std::vector<std::string> words(1);
    for (const char c : text)
        if (std::isalnum(static_cast<unsigned char>(c)) != 0)
            words.back() += static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
        else if (!words.back().empty()) words.emplace_back();
    if (words.back().empty()) words.pop_back();
    for (auto& word : words)
        if (word.size() > 3 && word.back() == 's') word.pop_back();
    return words;
}

bool has_all(const std::vector<std::string>& wanted, const std::string& text) {
    const auto words = words_in(text);
    return !wanted.empty() && std::all_of(wanted.begin(), wanted.end(), [&](const std::string& one) {
        return std::any_of(words.begin(), words.end(), [&](const std::string& word) { return word.starts_with(one); });
    });
}

}  // namespace

std::string Topic::command() const {
    return computed ? fmt::format("casebound {} {}", dashed(domain), key)
                    : fmt::format("casebound vehicle tell VEHICLE {} VALUE", spaced(key));
}

std::vector<Topic> topics_of(Session& session, const std::string& typed) {
    const auto wanted = words_in(typed);
    std::vector<Topic> topics;
    for (const auto& [key, owned] : session.catalog().vocabularies().attributes())
        if (has_all(wanted, owned.word.title + " " + key)) topics.push_back({false, "", owned.word.title, key});
    for (const auto& one : session.plugins().domains)
        for (const auto& inquiry : inquiries_of(one.domain))
            if (has_all(wanted, inquiry.title + " " + inquiry.name))
                topics.push_back({true, one.name, inquiry.title, inquiry.name});
    return topics;
}

std::vector<std::vector<std::string>> uses_of(Session& session, const std::vector<Found>& found) {
    std::vector<std::vector<std::string>> groups_found;
    std::set<std::string> every;
    for (const auto& one : found) {
        groups_found.push_back(groups_of(session.catalog(), one));
        every.insert(groups_found.back().begin(), groups_found.back().end());
    }
    const auto yard = on_the_yard(session, every);
    std::vector<std::vector<std::string>> all;
    for (std::size_t at = 0; at < found.size(); ++at) {
        const auto& one = found[at];
        const auto& groups = groups_found[at];
        auto& uses = all.emplace_back();
        for (const auto& vehicle : yard) {
            if (one.kind == FoundKind::line && vehicle.line == one.key) uses.push_back(vehicle.vehicle);
            for (const auto& [place, doubts] : vehicle.places)
                for (const auto& group : place.groups)
                    if (group.on.any() && std::find(groups.begin(), groups.end(), group.key) != groups.end())
                        uses.push_back(fmt::format("{}: {}, {}{}", vehicle.vehicle, place.title,
                                                   capitalised(verdict_words(group.verdict)),
                                                   doubts.empty() ? "" : ", IN DOUBT: " + doubts.front().reason));
        }
    }
    return all;
}

}  // namespace casebound
