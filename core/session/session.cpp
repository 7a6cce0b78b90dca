#include "core/session/session.h"

#include <sys/stat.h>

#include <algorithm>
#include <set>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "core/ground/dates.h"
#include "core/ground/outlet.h"
#include "core/session/typed_names.h"
#include "core/shop/shop_photos.h"
#include "core/shop/shop_reach.h"
#include "core/shop/shop_records.h"
#include "core/shop/shop_settings.h"
#include "core/shop/shop_told.h"
#include "core/shop/shop_vehicles.h"

namespace casebound {

namespace {

std::uint64_t next_opening() {
    static std::uint64_t openings = 0;
    return ++openings;
}

}  // namespace

Session::Session(Options options) : options_(std::move(options)) {}
Session::~Session() = default;

const Plugins& Session::plugins() {
    if (!plugins_) {
        plugins_ = load_plugins(options_.plugin_folders, options_.probed, options_.reserved);
        for (const auto& refused : plugins_->refused)
            print_message(fmt::format("casebound: {}: {}\n", refused.path, refused.reason));
    }
    return *plugins_;
}

const Catalog& Session::catalog() {
    if (!catalog_) {
        catalog_seen_ = seen(options_.catalog);
        catalog_ = std::make_unique<Catalog>(options_.catalog);
        catalog_opening_ = next_opening();
    }
    return *catalog_;
}

Session::FileSeen Session::seen(const std::string& path) {
    struct stat found {};
    if (::stat(path.c_str(), &found) != 0) return {};
    return {found.st_dev, found.st_ino, static_cast<std::uint64_t>(found.st_size),
            std::int64_t{found.st_mtim.tv_sec} * 1'000'000'000 + found.st_mtim.tv_nsec};
}

void Session::refresh() {
    if (catalog_ && seen(options_.catalog) != catalog_seen_) catalog_.reset();
    if (!shop_) return;
    const auto now = seen(options_.shop);
    if (now.inode == 0)
        throw Error(Exit::no_input,
                    fmt::format("{}: the shop file is gone from here: put it back, or end the page", options_.shop));
    if (now != shop_seen_) shop_.reset();
}

std::optional<std::string> Session::moment() {
    if (!catalog_ || !shop_) return std::nullopt;
    const auto [catalog_by_others, catalog_here] = catalog_->database().written();
    const auto [shop_by_others, shop_here] = shop_->written();
    return fmt::format("{}.{}.{} {}.{}.{}", catalog_opening_, catalog_by_others, catalog_here, shop_opening_,
                       shop_by_others, shop_here);
}

// What this session has written itself is no reason to open the file anew.
void Session::rest() {
    if (catalog_) catalog_->database().rest();
    if (!shop_) return;
    shop_->rest();
    const auto now = seen(options_.shop);
    if (now.device == shop_seen_.device && now.inode == shop_seen_.inode) shop_seen_ = now;
}

Database& Session::shop() {
    if (!shop_) {
        shop_.emplace(open_shop(options_.shop));
        shop_opening_ = next_opening();
        shop_seen_ = seen(options_.shop);
        if (wait_ms_) shop_->wait_at_most(*wait_ms_);
        ShopSettings(*shop_).show_units();
    }
    return *shop_;
}

Vehicle Session::vehicle(std::string_view name) {
    if (auto found = ShopVehicles(shop()).find(name)) return *found;
    std::vector<std::string> names;
    for (const auto& vehicle : ShopVehicles(shop()).all()) names.push_back(vehicle.name);
    const auto near = nearest(name, names);
    const auto hint = names.empty()  ? std::string("there is none yet: casebound vehicle new NAME LINE")
                      : near.empty() ? fmt::format("there are {}", fmt::join(names, ", "))
                                     : fmt::format("did you mean {}?", near);
    throw Error(Exit::no_input, fmt::format("{}: no such vehicle: {}", name, hint));
}

namespace {

// What the shop's own entries say beside what is told.
void remember(Situation& situation, Database& shop) {
    situation.ordered_as_if(ShopRecords(shop).accepted(situation.name()));
    std::vector<std::string> attributes;
    for (const auto& one : out_of_reach(shop, situation.name())) attributes.push_back(one.attribute);
    situation.cannot_reach(std::move(attributes));
    situation.statements_show(ShopPhotos(shop).of_statements());
}

SameValue same_value(const Catalog& catalog) {
    return [&](const ToldFact& one, const ToldFact& other) { return same_told(catalog.vocabularies(), one, other); };
}

}  // namespace

std::unique_ptr<Situation> Session::situation(std::string_view vehicle) {
    const Transaction one_moment(shop(), false);
    auto found = this->vehicle(vehicle);
    const auto history = ShopTold(shop()).history(vehicle);
    auto situation = std::make_unique<Situation>(catalog(), plugins(), found, standing_in(history));
    situation->doubt(clashes_in(history, same_value(catalog())));
    remember(*situation, shop());
    return situation;
}

namespace {

// "41 mm" and "41mm", "hat in bore" and "hat_in_bore": one value.
bool same_value(std::string typed, std::string value) {
    const auto between = [](char c) { return c == ' ' || c == '_'; };
    std::erase_if(typed, between), std::erase_if(value, between);
    return typed == value;
}

// The doubt that is named, by its key or in words, and its value; what is typed must be one that may be true.
std::pair<const Doubt*, std::string> accepted_from(const Situation& situation, const Vocabularies& words,
                                                   const std::string& typed) {
    const auto at = typed.find('=');
    if (at == std::string::npos || at == 0 || at + 1 == typed.size())
        throw Error(Exit::usage, fmt::format("--accept {}: write DOUBT=VALUE, one doubt at a time", typed));
    const auto name = attributes_typed(words, {typed.substr(0, at)}).front();
    std::set<std::string> in_doubt, values;
    const Doubt* found = nullptr;
    for (const auto& doubt : situation.narrowing().doubts) {
        in_doubt.insert(doubt.attribute);
        if (doubt.attribute != name) continue;
        found = &doubt;
        for (auto& one : values_in_doubt(situation.model(), doubt)) values.insert(std::move(one));
    }
    if (!found)
        throw Error(Exit::usage,
                    fmt::format("--accept {}: nothing is in doubt about {}{}", typed, name,
                                in_doubt.empty() ? "" : fmt::format(": in doubt: {}", fmt::join(in_doubt, ", "))));
    const auto value = std::find_if(values.begin(), values.end(),
                                    [&](const std::string& one) { return same_value(typed.substr(at + 1), one); });
    if (value == values.end())
        throw Error(Exit::usage,
                    fmt::format("--accept {}: one value that may be true: {}", typed, fmt::join(values, ", ")));
    return {found, *value};
}

}  // namespace

std::unique_ptr<Situation> Session::situation(std::string_view vehicle, const std::vector<std::string>& accepted) {
    auto plain = situation(vehicle);
    if (accepted.empty()) return plain;
    auto told = plain->entries();
    std::vector<std::string> attributes;
    for (const auto& typed : accepted) {
        const auto [doubt, value] = accepted_from(*plain, catalog().vocabularies(), typed);
        if (std::find(attributes.begin(), attributes.end(), doubt->attribute) != attributes.end())
            throw Error(Exit::usage, fmt::format("--accept {}: {} is accepted already: one value of a doubt", typed,
                                                 doubt->attribute));
        std::erase_if(told, [&, name = doubt->attribute](const ToldFact& one) { return one.attribute == name; });
        told.push_back(told_fact(doubt->attribute, value, TellEvidence::assumed, today()));
        attributes.push_back(doubt->attribute);
    }
    auto situation = std::make_unique<Situation>(catalog(), plugins(), plain->vehicle(), told);
    situation->doubt(clashes_in(ShopTold(shop()).history(vehicle), same_value(catalog())));
    situation->settle(attributes);
    remember(*situation, shop());
    return situation;
}

std::vector<std::string> Session::missing_domains() {
    std::set<std::string> missing;
    for (const auto& [role, owned] : catalog().vocabularies().roles())
        if (!plugins().find(owned.owner)) missing.insert(owned.owner);
    return {missing.begin(), missing.end()};
}

namespace {

void take_signs_off_nothing(nlohmann::ordered_json& value) {
    if (value.is_structured())
        for (auto& one : value) take_signs_off_nothing(one);
    else if (value.is_number_float() && value.get<double>() == 0) value = 0.0;
}

}  // namespace

std::string json_text(const nlohmann::ordered_json& document) {
    auto signed_right = document;
    take_signs_off_nothing(signed_right);
    return signed_right.dump(2, ' ', false, nlohmann::ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace casebound
