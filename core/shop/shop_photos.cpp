#include "core/shop/shop_photos.h"

#include <algorithm>
#include <filesystem>
#include <set>

#include <fmt/format.h>

#include "core/ground/dates.h"
#include "core/ground/error.h"
#include "core/ground/file_stamp.h"
#include "core/ground/outlet.h"
#include "core/ground/replacement.h"

namespace casebound {

namespace fs = std::filesystem;

namespace {

constexpr std::size_t hash_letters = 64;
constexpr std::string_view photo_columns = "p.id, p.sha256, p.type, p.bytes, p.width, p.height, p.taken, p.entered",
                           photo_stands = "NOT EXISTS (SELECT 1 FROM photos_taken_back b WHERE b.photo = p.id)";

Photo photo_of(const Database& shop, const Statement& row, int at = 0) {
    Photo photo{row.integer(at),     row.str(at + 1),     row.str(at + 2),
                row.integer(at + 3), row.integer(at + 4), row.integer(at + 5),
                row.str(at + 6),     row.str(at + 7),     {}};
    photo.path = photos_folder(shop.path()) + "/" + photo_file_name(photo);
    return photo;
}

// Named by a hash: whole, or begun by a process that was killed.
bool is_ours(std::string_view name) {
    const auto hash = name.substr(0, hash_letters);
    return name.size() > hash_letters && name[hash_letters] == '.' && std::all_of(hash.begin(), hash.end(), [](char c) {
               return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f');
           });
}

void sweep_files(const Database& shop) {
    const fs::path folder = photos_folder(shop.path());
    if (!fs::is_directory(folder)) return;
    std::set<std::string> named;
    Statement rows(shop, fmt::format("SELECT {} FROM photos p WHERE {}", photo_columns, photo_stands));
    while (rows.step()) named.insert(photo_file_name(photo_of(shop, rows)));
    std::vector<fs::path> gone;
    for (const auto& entry : fs::directory_iterator(folder)) {
        const auto name = entry.path().filename().string();
        if (named.contains(name)) continue;
        if (is_ours(name) || (name.starts_with(sent_photo) && !is_wanted(entry.path()))) gone.push_back(entry.path());
    }
    for (const auto& path : gone) fs::remove(path);
    if (!gone.empty()) sync_folder(folder);
}

}  // namespace

std::string photos_folder(const std::string& shop) { return shop + ".photos"; }

std::string photo_file_name(const Photo& photo) { return photo.sha256 + std::string(file_ending(photo.type)); }

bool names_photo_file(std::string_view name) {
    const auto ending = name.substr(std::min(hash_letters, name.size()));
    return is_ours(name) && (ending == ".jpg" || ending == ".png" || ending == ".webp");
}

std::vector<Photo> photo_files(const Database& shop, const std::string& folder) {
    std::vector<Photo> all;
    Statement rows(shop, fmt::format("SELECT {} FROM photos p WHERE {} GROUP BY p.sha256, p.type ORDER BY p.id",
                                     photo_columns, photo_stands));
    while (rows.step()) {
        all.push_back(photo_of(shop, rows));
        all.back().path = folder + "/" + photo_file_name(all.back());
    }
    return all;
}

bool is_there(const Photo& photo) {
    return fs::is_regular_file(fs::symlink_status(photo.path)) && stamp_file(photo.path).sha256 == photo.sha256;
}

std::string photo_bytes(const Photo& photo) {
    if (!fs::is_regular_file(fs::symlink_status(photo.path)))
        throw Error(Exit::no_input,
                    fmt::format("{}: the file of photo {} is gone: put it back from a backup, or take the "
                                "photo back (casebound vehicle photos VEHICLE --take-back {})",
                                photo.path, photo.number, photo.number));
    auto bytes = read_whole(photo.path, most_photo_bytes);
    if (sha256_of(bytes) != photo.sha256)
        throw Error(Exit::bad_data,
                    fmt::format("{}: photo {} is damaged or changed: put it back from a backup, or take "
                                "it back (casebound vehicle photos VEHICLE --take-back {})",
                                photo.path, photo.number, photo.number));
    return bytes;
}

Photo ShopPhotos::put(const CleanPhoto& clean, bool dry) const {
    Photo photo{0,
                sha256_of(clean.bytes),
                std::string(clean.type),
                static_cast<std::int64_t>(clean.bytes.size()),
                clean.width,
                clean.height,
                clean.taken,
                today(),
                {}};
    photo.path = photos_folder(database_.path()) + "/" + photo_file_name(photo);
    if (dry) return photo;
    const auto folder = photos_folder(database_.path());
    if (is_there(photo)) {
        sync_folder(folder);  // its name may be of a process that was killed before it did
        return photo;
    }
    make_folder(folder);
    replace_file(photo.path, clean.bytes);
    forget_written(photo.path);
    return photo;
}

Photo ShopPhotos::enter(std::string_view vehicle, Photo photo) {
    Statement row(database_,
                  "INSERT INTO photos (vehicle, sha256, type, bytes, width, height, taken, entered) VALUES "
                  "(?, ?, ?, ?, ?, ?, ?, ?) RETURNING id");
    row.bind(1, vehicle_id(database_, vehicle)).bind(2, photo.sha256).bind(3, photo.type).bind(4, photo.bytes);
    row.bind(5, photo.width).bind(6, photo.height).bind_or_null(7, photo.taken).bind(8, photo.entered).step();
    photo.number = row.integer(0);
    row.run();
    return photo;
}

void ShopPhotos::shows_statement(const std::vector<Photo>& photos, std::string_view source) {
    Statement row(database_, "INSERT INTO photo_shows (photo, statement) VALUES (?, ?)");
    for (const auto& photo : photos) row.bind(1, photo.number).bind(2, source).run();
}

std::vector<KeptPhoto> ShopPhotos::all(std::string_view vehicle) const {
    std::vector<KeptPhoto> all;
    Statement rows(database_, fmt::format("SELECT {}, b.entered, b.note FROM photos p LEFT JOIN photos_taken_back b ON "
                                          "b.photo = p.id WHERE p.vehicle = ? ORDER BY p.id",
                                          photo_columns));
    Statement shows(database_,
                    "SELECT telling, event, record, money, statement FROM photo_shows WHERE photo = ? ORDER "
                    "BY id");
    rows.bind(1, vehicle_id(database_, vehicle));
    while (rows.step()) {
        KeptPhoto one{photo_of(database_, rows), {}, rows.str(8), rows.str(9)};
        for (shows.bind(1, one.number); shows.step();)
            for (int at = 0; at < shows.columns(); ++at)
                if (!shows.is_null(at))
                    one.shows.push_back({std::string(shows.name(at)), at < 4 ? shows.integer(at) : 0,
                                         at < 4 ? std::string() : shows.str(at)});
        shows.reset();
        all.push_back(std::move(one));
    }
    return all;
}

std::map<std::string, std::vector<Photo>, std::less<>> ShopPhotos::of_statements() const {
    std::map<std::string, std::vector<Photo>, std::less<>> all;
    Statement rows(database_, fmt::format("SELECT {}, s.statement FROM photos p JOIN photo_shows s ON s.photo = p.id "
                                          "WHERE s.statement IS NOT NULL AND {} ORDER BY p.id",
                                          photo_columns, photo_stands));
    while (rows.step()) all[rows.str(8)].push_back(photo_of(database_, rows));
    return all;
}

std::vector<Photo> ShopPhotos::of_statement(std::string_view source) const {
    const auto all = of_statements();
    const auto found = all.find(source);
    return found == all.end() ? std::vector<Photo>{} : found->second;
}

Photo ShopPhotos::named(std::string_view file) const {
    if (!names_photo_file(file)) return {};
    Statement rows(database_, fmt::format("SELECT {} FROM photos p WHERE p.sha256 = ? AND {} ORDER BY p.id",
                                          photo_columns, photo_stands));
    rows.bind(1, file.substr(0, hash_letters));
    while (rows.step())
        if (auto photo = photo_of(database_, rows); photo_file_name(photo) == file) return photo;
    return {};
}

void ShopPhotos::take_back(std::string_view vehicle, std::int64_t number, std::string_view note) {
    Transaction transaction(database_);
    Statement find(database_,
                   fmt::format("SELECT 1 FROM photos p WHERE p.id = ? AND p.vehicle = ? AND {}", photo_stands));
    if (!find.bind(1, number).bind(2, vehicle_id(database_, vehicle)).step())
        throw Error(Exit::no_input, fmt::format("photo {}: no photo of this number stands: see `casebound vehicle "
                                                "photos {}`",
                                                number, vehicle));
    find.reset();
    Statement row(database_, "INSERT INTO photos_taken_back (photo, note, entered) VALUES (?, ?, ?)");
    row.bind(1, number).bind_or_null(2, note).bind(3, today()).run();
    transaction.commit();
}

void ShopPhotos::sweep() noexcept {
    try {
        const Transaction lock(database_);  // nobody adds one meanwhile
        sweep_files(database_);
    } catch (const std::exception&) {  // busy, or a disk that takes nothing
    }
}

void link_photos(const Database& shop, const std::vector<Photo>& photos, std::string_view column, std::int64_t entry) {
    if (photos.empty()) return;
    Statement row(shop, fmt::format("INSERT INTO photo_shows (photo, {}) VALUES (?, ?)", column));
    for (const auto& photo : photos) row.bind(1, photo.number).bind(2, entry).run();
}

std::map<std::int64_t, std::vector<Photo>> photos_by_entry(const Database& shop, std::int64_t vehicle,
                                                           std::string_view column) {
    std::map<std::int64_t, std::vector<Photo>> all;
    Statement rows(shop, fmt::format("SELECT {}, s.{} FROM photos p JOIN photo_shows s ON s.photo = p.id WHERE "
                                     "p.vehicle = ? AND s.{} IS NOT NULL AND {} ORDER BY p.id",
                                     photo_columns, column, column, photo_stands));
    rows.bind(1, vehicle);
    while (rows.step()) all[rows.integer(8)].push_back(photo_of(shop, rows));
    return all;
}

}  // namespace casebound
