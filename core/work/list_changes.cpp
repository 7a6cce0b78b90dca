#include "core/work/list_changes.h"

#include <filesystem>
#include <map>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/file_stamp.h"
#include "core/ground/outlet.h"
#include "core/ground/replacement.h"
#include "core/ground/text_layout.h"
#include "core/ground/units.h"
#include "core/pack/catalog_file.h"
#include "core/shop/shop_vehicles.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;

constexpr std::size_t most_catalog_bytes = std::size_t{4} << 30;  // of a catalog: the copy goes through memory

struct Place {
    std::string title;
    std::vector<std::string> jobs;
    PlaceNow now;
};
using PlacesNow = std::map<std::pair<std::string, std::string>, Place>;  // by vehicle and role

// "PF-33", "2 of PF-33", "4.5 to 5.3 L of OIL-5".
std::string with_quantity(const RoleAnswer& place, const GroupAnswer& group, const std::string& name) {
    const auto low = group.quantity_low, high = group.quantity_high;
    if (high <= 0 || (place.by_the_piece() && low == 1 && high == 1)) return name;
    return fmt::format("{}{}{} of {}", low == high ? "" : plain_number(low) + " to ", plain_number(high),
                       place.by_the_piece() ? "" : " " + place.unit, name);
}

PlaceNow state_of(const RoleAnswer& answer) {
    PlaceNow now{capitalised(verdict_words(answer.verdict)), {}};
    std::vector<std::string> parts;
    for (const auto& group : answer.groups)
        if (group.stands_in_for.empty() && group.on.any() &&
            (answer.verdict != Verdict::fits || group.verdict == Verdict::fits))
            parts.push_back(with_quantity(answer, group, group.key));
    for (const auto& part : answer.parts) parts.push_back(with_quantity(answer, part, part.only_part));
    if (!answer.plain())
        for (const auto& part : answer.with_others) parts.push_back(with_quantity(answer, part, part.key));
    now.parts = fmt::format("{}", fmt::join(parts, " or "));
    return now;
}

std::vector<std::string> jobs_with(Session& session, std::string_view role, std::string_view line) {
    std::vector<std::string> jobs;
    for (const auto& row : session.catalog().facts().rows("job_roles", "role", role))
        if (row.text("line").empty() || row.text("line") == line)
            if (jobs.empty() || jobs.back() != row.text("job")) jobs.emplace_back(row.text("job"));
    return jobs;
}

void add_vehicle(Session& session, const Vehicle& vehicle, PlacesNow& all) {
    try {
        const auto situation = session.situation(vehicle.name);
        for (const auto& answer : situation->places().roles())
            all[{vehicle.name, answer.role}] = {answer.title, jobs_with(session, answer.role, situation->line()),
                                                state_of(answer)};
    } catch (const Error& error) {  // its line is in no pack that is loaded then
        all[{vehicle.name, ""}] = {"the vehicle", {}, {"NOT ANSWERED", error.what()}};
    }
}

PlacesNow places_in(Session& session) {
    PlacesNow all;
    for (const auto& vehicle : ShopVehicles(session.shop()).all()) add_vehicle(session, vehicle, all);
    return all;
}

// A copy of the catalog beside it, gone at the end of the scope.
class Copy {
public:
    explicit Copy(const std::string& catalog) : path_(catalog + ".preview.new") {
        fs::remove(path_);
        if (!fs::exists(catalog)) return;
        finish_interrupted_load(catalog);
        const auto from = open_catalog_file(catalog, Database::Mode::read_only);
        Statement reading(from, "SELECT count(*) FROM sqlite_master");  // nobody writes to it meanwhile
        reading.step();
        replace_file(path_, read_whole(catalog, most_catalog_bytes));
    }
    ~Copy() {
        std::error_code ignored;
        for (const auto* end : {"", "-journal", "-wal", "-shm"}) fs::remove(path_ + end, ignored);
        forget_written(path_);
    }
    Copy(const Copy&) = delete;
    Copy& operator=(const Copy&) = delete;
    const std::string& path() const { return path_; }

private:
    std::string path_;
};

}  // namespace

std::vector<PlaceChange> list_changes(Session& session, const std::function<void(const std::string& catalog)>& change) {
    const bool empty = !fs::exists(session.options().catalog);
    const auto before = empty ? PlacesNow{} : places_in(session);
    session.close_catalog();
    const Copy copy(session.options().catalog);
    change(copy.path());
    auto options = session.options();
    options.catalog = copy.path();
    Session then(options);
    const auto after = places_in(then);
    std::vector<PlaceChange> changes;
    const auto add = [&](const auto& key, const Place& place, const PlaceNow& was, const PlaceNow& is) {
        if (!(was == is)) changes.push_back({key.first, key.second, place.title, place.jobs, was, is});
    };
    const PlaceNow nothing{"NOT RECORDED", ""};
    for (const auto& [key, place] : before) {
        const auto found = after.find(key);
        add(key, place, place.now, found == after.end() ? nothing : found->second.now);
    }
    for (const auto& [key, place] : after)
        if (!before.contains(key)) add(key, place, nothing, place.now);
    return changes;
}

std::string changes_text(const std::vector<PlaceChange>& changes) {
    if (changes.empty()) return "No list of one of your vehicles changes.\n";
    const auto shown = [](const PlaceNow& now) {
        return now.parts.empty() ? now.verdict : fmt::format("{} {}", now.verdict, now.parts);
    };
    std::string out = "What changes for your vehicles:\n";
    for (const auto& one : changes)
        out += wrapped(fmt::format("{}: {}{}: {}; then {}", one.vehicle, one.title,
                                   one.jobs.empty() ? "" : fmt::format(" ({})", fmt::join(one.jobs, ", ")),
                                   shown(one.before), shown(one.after)),
                       2, 4);
    return out;
}

}  // namespace casebound
