#include "core/work/own_line.h"

#include <algorithm>
#include <cctype>
#include <filesystem>

#include <fmt/format.h>
#include <fmt/ranges.h>

#include "core/ground/dates.h"
#include "core/ground/text_layout.h"
#include "core/pack/pack.h"
#include "core/pack/reference_packs.h"
#include "core/shop/shop_settings.h"

namespace casebound {

namespace {

namespace fs = std::filesystem;

std::string title_of(Session& session, const std::string& line) { return session.catalog().line(line)->title; }

}  // namespace

std::string own_pack_folder(Session& session) {
    const bool has_shop = fs::exists(session.options().shop);  // nothing is made by asking
    const auto set = has_shop ? ShopSettings(session.shop()).get("own_pack") : std::nullopt;
    return set.value_or(own_pack_beside_shop(session));
}

std::string own_pack_beside_shop(const Session& session) {
    const auto home = fs::path(session.options().shop).parent_path();
    const auto beside = home / "own-pack", restored = home / "packs" / "own-pack";  // of `shop restore`
    return (!fs::exists(beside) && fs::exists(restored) ? restored : beside).string();
}

void load_shipped_packs_once(Session& session) {
    if (fs::exists(session.options().catalog)) return;
    for (const auto& pack : reference_packs(session.plugins())) {
        if (pack.invented) continue;
        const auto report = load_pack(pack.folder, session.options().catalog, session.plugins());
        if (report.faults.empty()) continue;
        std::vector<std::string> faults;
        for (const auto& fault : report.faults) faults.push_back(fault.text());
        throw Error(Exit::bad_data, faults);
    }
}

std::string line_meant(Session& session, const std::string& typed) {
    const auto keys = session.catalog().line_keys();
    std::vector<std::string> known = keys;
    for (const auto& key : keys) {
        const auto title = title_of(session, key);
        if (key == typed || capitalised(title) == capitalised(typed)) return key;
        known.push_back(title);
    }
    const auto near = nearest(typed, known);
    if (near.empty()) return {};
    throw Error(Exit::usage, fmt::format("{}: no such vehicle line: did you mean {}? If it is another vehicle, call it "
                                         "by words that tell the two apart",
                                         typed, near));
}

// Letters, digits, and . + as in keys of packs; what else stands in a title becomes one dash.
std::string own_line_key(const std::string& title) {
    std::string key;
    for (const char c : title) {
        const auto byte = static_cast<unsigned char>(c);
        if (std::isalnum(byte) || c == '.' || c == '+') key += static_cast<char>(std::tolower(byte));
        else if (!key.empty() && key.back() != '-') key += '-';
    }
    while (!key.empty() && key.back() == '-') key.pop_back();
    if (key.empty())
        throw Error(Exit::usage, fmt::format("{}: call it by letters or digits, as it is said aloud", title));
    return key;
}

void add_own_line(Session& session, const std::string& title, const std::string& vehicle) {
    const OwnFact fact{
        {{"lines", {{"line", own_line_key(title)}, {"title", title}, {"note", "nobody has listed what it can be"}}}},
        vehicle,
        today(),
        "the person's own vehicle"};
    session.close_catalog();
    keep_fact(session, fact, own_pack_folder(session));
}

}  // namespace casebound
