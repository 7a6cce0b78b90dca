#include "core/work/find_uses.h"

#include <algorithm>
#include <filesystem>

#include <fmt/format.h>

#include "core/ground/text_layout.h"
#include "core/shop/shop_vehicles.h"

namespace casebound {

namespace {

constexpr std::size_t most_vehicles = 40;

struct Used {
    std::string vehicle, line;
    std::vector<RoleAnswer> places;
};

std::vector<Used> on_the_yard(Session& session) {
    std::vector<Used> all;
    for (const auto& vehicle : ShopVehicles(session.shop()).all()) {
        if (all.size() == most_vehicles) break;
        try {
            const auto situation = session.situation(vehicle.name);
            all.push_back({vehicle.name, situation->line(), situation->places().roles()});
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

std::vector<std::vector<std::string>> uses_of(Session& session, const std::vector<Found>& found) {
    const auto yard = on_the_yard(session);
    std::vector<std::vector<std::string>> all;
    for (const auto& one : found) {
        auto& uses = all.emplace_back();
        const auto groups = groups_of(session.catalog(), one);
        for (const auto& vehicle : yard) {
            if (one.kind == FoundKind::line && vehicle.line == one.key) uses.push_back(vehicle.vehicle);
            for (const auto& place : vehicle.places)
                for (const auto& group : place.groups)
                    if (group.on.any() && std::find(groups.begin(), groups.end(), group.key) != groups.end())
                        uses.push_back(fmt::format("{}: {}, {}", vehicle.vehicle, place.title,
                                                   capitalised(verdict_words(group.verdict))));
        }
    }
    return all;
}

}  // namespace casebound
