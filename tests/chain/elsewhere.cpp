#include "tests/chain/elsewhere.h"

#include <cmath>
#include <regex>
#include <stdexcept>

#include <nlohmann/json.hpp>

#include "core/page/page.h"
#include "tests/chain/rows.h"

namespace chain {

namespace {

using namespace casebound;
using nlohmann::json;

const std::array<const char*, places> titles{"ring, left", "ring, right", "cover", "valve", "oil"};

int place_of_title(const std::string& title) {
    for (int place = 0; place < places; ++place)
        if (title == titles[static_cast<std::size_t>(place)]) return place;
    throw std::runtime_error("no place called " + title);
}

// What several places wait for stands once: "pan filter; neck seal".
std::vector<std::string> titles_in(const std::string& subject) {
    std::vector<std::string> titles_there;
    for (std::size_t from = 0; from < subject.size();) {
        const auto end = std::min(subject.find("; ", from), subject.size());
        titles_there.push_back(subject.substr(from, end - from));
        from = end + 2;
    }
    return titles_there;
}

json section_of(const json& sheet, const std::string& name) {
    for (const auto& section : sheet["sections"])
        if (section["name"] == name) return section["rows"];
    throw std::runtime_error("no section " + name);
}

// What a sheet prints for an empty section is no row of it.
bool says_nothing(const json& rows) { return rows.empty(); }

void take_fits(Elsewhere& said, const World& world, const Run& run) {
    const auto answer = json::parse(run("fits", {{vehicle_of(world)}, {}}).output);
    for (const auto& role : answer["roles"]) {
        const int place = place_of(role["role"]);
        said.fits[place] = role["verdict"];
        auto& groups = said.groups[place];
        for (const auto& group : role["groups"])
            if (group["verdict"] == "fits" && !group.contains("only_part")) groups.insert(number_in(group["group"]));
    }
}

void take_why(Elsewhere& said, const World& world, const Run& run, int item) {
    auto& places_of_item = said.why[item];
    const auto answer = json::parse(run("why", {{vehicle_of(world), item_key(world, item)}, {}}).output);
    for (const auto& role : answer["roles"]) places_of_item[place_of(role["role"])] |= role["verdict"] == "fits";
}

void take_sheets(Elsewhere& said, const World& world, const Run& run) {
    const auto of = [&](const char* kind) {
        return json::parse(run("sheet", {{vehicle_of(world), kind, job_of(world)}, {}}).output)["sheet"];
    };
    const auto job = of("job"), order = of("order");
    for (const auto& row : section_of(job, "in_the_way"))
        for (const auto& title : titles_in(row["subject"])) said.in_the_way.insert(place_of_title(title));
    said.sheet_only_if = !says_nothing(section_of(job, "right_only_if"));
    said.order_sheet_not_ready = !says_nothing(section_of(order, "not_ready"));
    if (!order["order"].is_null()) said.sheet_cents = order["order"]["total_cents"].get<long>();
}

std::size_t count_of(const std::string& text, const std::string& what) {
    std::size_t count = 0;
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + 1)) ++count;
    return count;
}

std::string page_of(Session& session, const World& world, const std::string& which) {
    PageRequest request;
    request.path = "/vehicle/" + vehicle_of(world) + "/" + which;
    request.query = {{"job", job_of(world)}};
    request.form_token = "a-token";
    const auto reply = page_reply(session, request);
    if (reply.status != 200) throw std::runtime_error(which + ": the page says " + std::to_string(reply.status));
    return reply.body;
}

void take_page(Elsewhere& said, const World& world, Session& session) {
    const auto list = page_of(session, world, "list"), order = page_of(session, world, "order");
    said.page_ready = list.find("class=\"ready good\"") != std::string::npos;
    said.page_blocks = count_of(list, "class=\"line blocks");
    said.page_only_if = list.find("Right only if this is true") != std::string::npos;
    static const std::regex total("Total ([0-9]+)\\.([0-9]{2})");
    std::smatch found;
    if (std::regex_search(order, found, total)) said.page_cents = std::stol(found[1]) * 100 + std::stol(found[2]);
}

}  // namespace

std::string vehicle_of(const World& world) { return world.key + "-v"; }
std::string job_of(const World& world) { return world.key + "-job"; }
int number_in(const std::string& key) { return std::stoi(key.substr(key.rfind('-') + 2)); }

int place_of(const std::string& role) {
    for (int place = 0; place < places; ++place)
        if (role == name_of(place)) return place;
    throw std::runtime_error("no place " + role);
}

Elsewhere ask_elsewhere(const World& world, Session& session, const Run& run) {
    Elsewhere said;
    take_fits(said, world, run);
    if (!world.items.empty()) take_why(said, world, run, 0);
    if (world.items.size() > 1) take_why(said, world, run, static_cast<int>(world.items.size()) / 2);
    take_sheets(said, world, run);
    take_page(said, world, session);
    return said;
}

}  // namespace chain
