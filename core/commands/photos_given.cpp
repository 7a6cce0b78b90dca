#include "core/commands/photos_given.h"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "core/ground/file_stamp.h"
#include "core/ground/text_layout.h"
#include "core/say/json_of.h"

namespace casebound {

namespace {

struct EntryKind {
    std::string_view column, table;
};
// In the order in which one is taken for what the photo shows.
constexpr std::array<EntryKind, 4> entry_kinds = {
    {{"telling", "tellings"}, {"record", "records"}, {"event", "line_events"}, {"money", "money"}}};

// As much of it as tells that it is too large.
std::string bytes_of(const std::string& path) {
    InputFile file(path);
    if (path == "-") return read_whole(path, most_photo_bytes);
    std::string bytes(std::min<std::uint64_t>(file.bytes(), most_photo_bytes + 1), '\0');
    bytes.resize(file.read(bytes.data(), bytes.size()));
    return bytes;
}

std::vector<std::int64_t> entries_since(const Database& shop, std::string_view table, std::int64_t newest) {
    std::vector<std::int64_t> ids;
    Statement rows(shop, fmt::format("SELECT id FROM {} WHERE id > ? ORDER BY id", table));
    for (rows.bind(1, newest); rows.step();) ids.push_back(rows.integer(0));
    return ids;
}

}  // namespace

GivenPhotos::GivenPhotos(Session& session, const Args& args) : session_(session) {
    const auto given = args.options.find(photo_option.name);
    if (given == args.options.end()) return;
    if (args.has("take-back")) throw Error(Exit::usage, "photo: what is taken back needs none: leave it out");
    std::vector<CleanPhoto> clean;  // every one is looked at before the first is written
    for (const auto& path : given->second) clean.push_back(clean_photo(bytes_of(path), name_of_input(path)));
    for (auto& one : clean) {
        photos_.push_back(ShopPhotos(session.shop()).put(one, args.has(dry_run.name)));
        one.bytes = {};
    }
    for (const auto& kind : entry_kinds)
        newest_.push_back(session.shop().integer(fmt::format("SELECT coalesce(max(id), 0) FROM {}", kind.table)));
}

void GivenPhotos::enter(std::string_view vehicle) {
    for (auto& photo : photos_) photo = ShopPhotos(session_.shop()).enter(vehicle, photo);
}

void GivenPhotos::show_what_is_new(std::string_view vehicle) {
    for (std::size_t i = 0; i < entry_kinds.size(); ++i) {
        const auto ids = entries_since(session_.shop(), entry_kinds[i].table, newest_[i]);
        if (ids.empty()) continue;
        enter(vehicle);
        for (const auto id : ids) link_photos(session_.shop(), photos_, entry_kinds[i].column, id);
        return;
    }
    throw Error(Exit::usage, "photo: it shows nothing that is written down by this: say what it shows");
}

void GivenPhotos::show_statement(std::string_view vehicle, std::string_view source) {
    enter(vehicle);
    ShopPhotos(session_.shop()).shows_statement(photos_, source);
}

void GivenPhotos::say(Result& result) const {
    if (session_.json()) {
        auto json = Json::parse(result.output);
        json["photos"] = Json::array();
        for (const auto& photo : photos_)
            json["photos"].push_back({{"photo", photo.number}, {"path", photo.path}, {"sha256", photo.sha256}});
        result.output = json_text(json);
        return;
    }
    for (const auto& photo : photos_)
        result.output += wrapped(fmt::format("Photo {} is kept with it:", photo.number)) +
                         fmt::format("  {}\n", photo.path);
}

}  // namespace casebound
